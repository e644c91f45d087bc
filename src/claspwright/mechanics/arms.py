"""A clasp arm as a tapered cantilever, straight or curved.

Small deflections, linear elasticity, shear ignored; clamped at the root and sprung at the tip
by the undercut. Straight: the arm is unrolled to a beam of the same arc length. Curved: the
moment at each station is that of the tip force about it, so that an arm that bends round a
tooth comes out stiffer; all of the moment counts as bending across the flat, which is right
for an arm in a plane and within a tenth for the twisted parts of a half-round one.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.integrate import simpson

from claspwright.base import Floats, InputError
from claspwright.materials import Material
from claspwright.mechanics.retention import goodman_factor, safe_undercut
from claspwright.mechanics.sections import HALF_ROUND_CENTROID, HALF_ROUND_I

STATIONS = 801  # Simpson's rule then agrees with the closed form to 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class ArmResult:
    """What a clasp arm does when its tip is sprung by its undercut."""

    length_mm: float  # along the curve, clamp to tip
    force_n: float  # at the tip, at the nominal modulus
    force_low_n: float  # at the low modulus
    force_high_n: float  # at the high modulus
    peak_stress_mpa: float  # at the nominal modulus
    root_stress_mpa: float
    peak_at_mm: float  # arc length from the clamp
    peak_point: Floats  # (3,) on the centreline
    turn_rad: float  # total change of direction of the centreline
    safe_undercut_mm: float  # largest at which the proof stress (low) is just reached
    proof_factor: float  # proof stress (low) over peak stress
    fatigue_factor: float  # Goodman, with the nominal fatigue strength


def retentive_force(arc: Floats, i_x: Floats, *, modulus: float, undercut: float) -> float:
    """Tip force that springs a clasp arm over its undercut.

    Castigliano's theorem on a small-deflection cantilever of varying section,
    clamped at the first station. Shear and yield are ignored.

    Args:
        arc: (S,) arc length from the clamp, increasing, S >= 3 [mm].
        i_x: (S,) second moment of area at each station [mm4].
        modulus: Young's modulus [MPa].
        undercut: tip travel [mm].

    Returns:
        Tip force [N].

    Raises:
        InputError: shapes differ, stations are out of order, or a stiffness is not positive.

    Source:
        Castigliano's theorem, end load on a cantilever (Timoshenko, Strength of Materials).
    """
    if arc.ndim != 1 or arc.size < 3 or arc.shape != i_x.shape:
        raise InputError(f"arc and i_x must both be (S,), S >= 3; got {arc.shape}, {i_x.shape}")
    if not (np.all(np.diff(arc) > 0) and np.all(i_x > 0) and modulus > 0):
        raise InputError("arc must increase, i_x and modulus must be positive")
    lever = arc[-1] - arc
    compliance = simpson(lever**2 / i_x, x=arc) / modulus  # mm/N
    return float(undercut / compliance)


def tapered_peak(taper: float) -> tuple[float, float]:
    """Place and height of the peak stress in a similar linear taper.

    Args:
        taper: tip dimension over root dimension, 0 < taper <= 1.

    Returns:
        Distance from the tip as a share of the length, and peak over root stress.

    Source:
        Stress goes with s / (t + (1-t) s)^3; its maximum lies at s = t / (2 (1-t)) for
        t < 2/3, else at the root.
    """
    if not 0 < taper <= 1:
        raise InputError(f"taper must be between 0 and 1, got {taper}")
    if taper >= 2 / 3:
        return 1.0, 1.0
    place = taper / (2 * (1 - taper))
    return place, float(place / (taper + (1 - taper) * place) ** 3)


def arc_stiffness_ratio(angle: float) -> float:
    """Stiffness of a circular arc under a radial tip load over a straight beam of its length.

    Args:
        angle: angle of the arc [rad], above 0 and up to pi.

    Source:
        Castigliano, bending only: d = P R^3 / (E I) (a/2 - sin(2a)/4); longer arcs of the same
        length hold more (Geramy et al., J Indian Prosthodont Soc 2007;7(3):118-122).
    """
    if not 0 < angle <= np.pi + 1e-9:
        raise InputError(f"angle of an arc must be in (0, pi], got {angle} rad")
    return float((angle**3 / 3) / (angle / 2 - np.sin(2 * angle) / 4))


def clasp_arm(
    root: tuple[float, float], taper: float, length: float, material: Material, undercut: float
) -> ArmResult:
    """A straight half-round arm of root (width, thickness) with a uniform taper [mm]."""
    if not length > 0:
        raise InputError(f"length of an arm must be positive, got {length} mm")
    line = np.zeros((2, 3))
    line[1, 0] = length
    ends = np.array([1.0, taper])
    return arm_result(line, root[0] * ends, root[1] * ends, material, undercut)


def arm_result(
    line: Floats,
    width: Floats,
    thickness: Floats,
    material: Material,
    undercut: float,
    *,
    outward: Floats | None = None,
) -> ArmResult:
    """Force and stress of a half-elliptical arm along a centreline from clamp to tip.

    Args:
        line: (S, 3) centreline, clamp first, S >= 2 [mm].
        width: (S,) or (1,) across the surface [mm].
        thickness: (S,) or (1,) off the surface [mm].
        material: alloy of the arm.
        undercut: tip travel, across the flat [mm].
        outward: (3,) unit direction in which the tip is sprung; given, the arm counts as the
            curved beam that it is, else as a straight one of its arc length.

    Raises:
        InputError: shapes differ, the line has no length, or a size is not positive.

    Source:
        Cantilever by Castigliano's theorem; half-ellipse i_x = 0.109757 a b^3, c = 0.57559 b.
    """
    arc, at = _arc_lengths(line)
    half_width = np.interp(arc, at, _spread(width, at, "width")) / 2
    height = np.interp(arc, at, _spread(thickness, at, "thickness"))
    if not (half_width.min() > 0 and height.min() > 0 and undercut > 0):
        raise InputError("width, thickness and undercut of an arm must be positive")
    i_x = HALF_ROUND_I * half_width * height**3
    modulus = material.modulus
    lever = arc[-1] - arc if outward is None else _levers(line, arc, at, outward)
    compliance = float(simpson(lever**2 / i_x, x=arc)) / modulus.nominal  # mm/N
    force = undercut / compliance
    stress = force * lever * (1 - HALF_ROUND_CENTROID) * height / i_x
    peak = int(np.argmax(stress))
    highest = float(stress[peak])
    return ArmResult(
        length_mm=float(arc[-1]),
        force_n=force,
        force_low_n=force * modulus.low / modulus.nominal,
        force_high_n=force * modulus.high / modulus.nominal,
        peak_stress_mpa=highest,
        root_stress_mpa=float(stress[0]),
        peak_at_mm=float(arc[peak]),
        peak_point=np.array([np.interp(arc[peak], at, line[:, k]) for k in range(3)]),
        turn_rad=_turn(line),
        safe_undercut_mm=safe_undercut(undercut, highest, material.proof.low),
        proof_factor=material.proof.low / highest,
        fatigue_factor=goodman_factor(highest, material),
    )


def _arc_lengths(line: Floats) -> tuple[Floats, Floats]:
    """Even stations along a line, and the arc length at each of its points."""
    if line.ndim != 2 or line.shape[1] != 3 or len(line) < 2:
        raise InputError(f"centreline of an arm must be (S, 3), S >= 2; got {line.shape}")
    at = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))])
    if not np.all(np.diff(at) > 0):
        raise InputError("centreline of an arm has points that coincide")
    return np.linspace(0.0, at[-1], STATIONS), at


def _levers(line: Floats, arc: Floats, at: Floats, outward: Floats) -> Floats:
    """(STATIONS,) lever of a unit tip force in a direction about each station [mm]."""
    if outward.shape != (3,) or abs(float(np.linalg.norm(outward)) - 1.0) > 1e-6:
        raise InputError(f"outward must be a unit (3,) direction, got {outward}")
    stations = np.stack([np.interp(arc, at, line[:, k]) for k in range(3)], axis=1)
    lever = np.linalg.norm(np.cross(line[-1] - stations, outward), axis=1)
    if not lever.max() > 0:
        raise InputError("the tip of an arm cannot be sprung along the arm itself")
    return np.asarray(lever)


def _spread(sizes: Floats, at: Floats, name: str) -> Floats:
    if sizes.shape not in (at.shape, (1,)):
        raise InputError(f"{name} must be {at.shape} or (1,), got {sizes.shape}")
    return np.asarray(np.broadcast_to(sizes, at.shape), dtype=np.float64)


def _turn(line: Floats) -> float:
    steps = np.diff(line, axis=0)
    steps = steps / np.linalg.norm(steps, axis=1, keepdims=True)
    cosine = np.clip(np.einsum("ij,ij->i", steps[1:], steps[:-1]), -1.0, 1.0)
    return float(np.arccos(cosine).sum())
