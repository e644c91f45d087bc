"""An arm on its way over the crown: force against lift, in and out.

At each lift along the path the tooth stands in the arm's way by some travel at each station.
The arm gives way until it touches nowhere it must not: a contact problem with one-sided forces,
solved as a non-negative least-squares problem. Passive where it rests: only what the crown
gains on the way counts.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import nnls

from claspwright.base import Bools, Floats, InputError, Ints
from claspwright.mechanics.space_beam import Elastic, Response, SpaceArm, respond, stresses

LIFT_STEP = 0.1  # mm
CONTACTS = 14  # stations of the outer two thirds of an arm that may touch
FREE = 0.003  # mm of travel below which an arm counts as free
STEEPEST = 2.0  # tangent beyond which a wedge is not computed
Probe = Callable[[Floats], tuple[Floats, Floats]]  # points -> signed distance, unit normal


@dataclass(frozen=True, slots=True)
class Grip:
    """What decides how hard an arm holds, beside its shape."""

    friction: float
    give: float  # mm/N that the tooth gives way
    modulus: float  # MPa

    def __post_init__(self) -> None:
        if self.friction < 0 or self.give < 0 or not self.modulus > 0:
            raise InputError(f"friction, give and modulus cannot be {self}")
        if self.friction * STEEPEST >= 1:
            raise InputError(f"friction of {self.friction:g} locks an arm on a steep crown")


@dataclass(frozen=True, slots=True, eq=False)
class Ride:
    """One arm over the crown, at L lifts."""

    lift_mm: Floats  # (L,)
    out_n: Floats  # (L,) force along the path that takes it out; negative: the arm helps
    in_n: Floats  # (L,) the same that puts it in
    side_n: Floats  # (L,) sideways force on the tooth
    travel_mm: Floats  # (L,) sideways travel of the tip that the crown asks for
    peak_mpa: Floats  # (L,) greatest equivalent stress in the arm
    along_mpa: Floats  # (S,) equivalent stress along the arm where it is worst
    arc_mm: Floats  # (S,)

    @property
    def withdrawal_n(self) -> float:
        """Greatest force on the way out."""
        return float(max(self.out_n.max(), 0.0))

    @property
    def insertion_n(self) -> float:
        """Greatest force on the way in."""
        return float(max(self.in_n.max(), 0.0))

    @property
    def peak_stress_mpa(self) -> float:
        """Greatest stress on the way."""
        return float(self.peak_mpa.max())

    @property
    def peak_at_mm(self) -> float:
        """Where along the axis the stress is greatest."""
        return float(self.arc_mm[int(np.argmax(self.along_mpa))])


@dataclass(frozen=True, slots=True, eq=False)
class Track:
    """What the crown asks of an arm at each of L lifts; the same whatever the arm is made of."""

    lifts: Floats  # (L,)
    at: Ints  # (K,) stations that may touch
    travel: Floats  # (L, K) sideways travel asked for, negative where the tooth is clear [mm]
    slope: Floats  # (L, K) tangent of the tooth's slope to the path; positive: undercut
    side: Floats  # (L, K, 3) sideways directions
    path: Floats  # (3,)


def crown_track(
    arm: SpaceArm, probe: Probe, path: Floats, *, on_tooth: Bools | None = None, reach: float = 4.0
) -> Track:
    """Look up what the crown asks of an arm as it is lifted along the path.

    Args:
        arm: the arm as it rests.
        probe: signed distance to the tooth and its unit normal at points.
        path: (3,) unit vector out of the mouth.
        on_tooth: (S,) stations that lie on the crown; what lies over tissue does not bear.
        reach: lift at which the search ends [mm].
    """
    count = len(arm.line)
    at = np.unique(np.linspace(count // 3, count - 1, CONTACTS).round().astype(int))
    if on_tooth is not None:
        at = at[on_tooth[at] | (at == count - 1)]
    lifts = np.arange(0.0, reach + 1e-9, LIFT_STEP)
    spots = arm.line[at][None] + lifts[:, None, None] * path
    distance, normal = probe(spots.reshape(-1, 3))
    distance = distance.reshape(len(lifts), -1)
    normal = normal.reshape(len(lifts), -1, 3)
    up = normal @ path
    flat = normal - up[:, :, None] * path
    size = np.maximum(np.linalg.norm(flat, axis=2), 1e-6)
    travel = (np.minimum(distance[0], 0.0) - distance) / size
    steep = size < 1 / np.hypot(1, STEEPEST)
    travel = np.where(steep, np.minimum(travel, 0.0), travel)
    slope = np.clip(-up / size, -STEEPEST, STEEPEST)
    done = np.flatnonzero((travel.max(axis=1) < FREE) & (lifts > 0.3))
    last = int(done[0]) + 1 if done.size else len(lifts)
    return Track(
        lifts[:last], at, travel[:last], slope[:last], (flat / size[:, :, None])[:last], path
    )


def ride(arm: SpaceArm, track: Track, elastic: Elastic, grips: tuple[Grip, ...]) -> list[Ride]:
    """Take an arm out and in over its track, once for each grip.

    Args:
        arm: the arm, with the stations of the track.
        track: what the crown asks.
        elastic: Poisson's ratio, with or without shear; the modulus is the grip's.
        grips: friction, give of the tooth and modulus.

    Source:
        Compliance of the beam at its contacts; complementarity of gap and force (Signorini);
        the wedge: P = F (mu + tan a) / (1 - mu tan a).
    """
    axes = _axes(track.path)
    at = np.repeat(track.at, 3)
    answer = respond(arm, at, np.tile(axes, (len(track.at), 1)), replace(elastic, modulus=1.0))
    unit = answer.compliance.reshape(len(track.at), 3, len(track.at), 3)
    return [_one(arm, track, answer, unit, axes, grip) for grip in grips]


def _one(
    arm: SpaceArm, track: Track, answer: Response, unit: Floats, axes: Floats, grip: Grip
) -> Ride:
    rows, worst = [], (-1.0, np.zeros(len(arm.line)))
    for k in range(len(track.lifts)):
        side = track.side[k] @ axes.T  # (K, 3) in the axes
        force = _pressed(unit, side, track.travel[k], grip)
        slope, mu = track.slope[k], grip.friction
        out = force * (mu + slope) / (1 - mu * slope)
        into = force * (mu - slope) / (1 + mu * slope)
        acting = force[:, None] * side
        load = np.linalg.norm(acting.sum(axis=0))
        acting[:, 2] -= out  # the tooth holds the arm back
        stress = stresses(arm, answer, acting.ravel())[1]
        peak = float(stress.max())
        if peak > worst[0]:
            worst = peak, stress
        rows.append((out.sum(), into.sum(), load, max(track.travel[k, -1], 0.0), peak))
    out_n, in_n, side_n, travel, peaks = np.array(rows).T
    return Ride(track.lifts, out_n, in_n, side_n, travel, peaks, worst[1], answer.arc)


def _pressed(unit: Floats, side: Floats, travel: Floats, grip: Grip) -> Floats:
    """(K,) sideways force at each contact, none below zero [N]."""
    if travel.max() < FREE:
        return np.zeros(len(travel))
    compliance = np.einsum("ia,iajb,jb->ij", side, unit, side) / grip.modulus
    compliance += grip.give * (side @ side.T)
    scale = float(np.trace(compliance)) / len(travel)
    root = np.linalg.cholesky(compliance + 1e-9 * scale * np.eye(len(travel)))
    force, _ = nnls(root.T, np.linalg.solve(root, travel))
    return np.asarray(force)


def _axes(path: Floats) -> Floats:
    """(3, 3) rows: two unit directions across the path, and the path."""
    first = np.cross([0.0, 1.0, 0.0], path)
    first /= np.linalg.norm(first)
    return np.stack([first, np.cross(path, first), path])
