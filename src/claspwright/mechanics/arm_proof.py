"""All that is proved of one retentive arm: as laid, as made, after finishing, with its range."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from claspwright.arch import DentalArch
from claspwright.framework import Component, Framework
from claspwright.geometry import DistanceTree
from claspwright.materials import Material, Property, condition
from claspwright.mechanics.on_tooth import alloy_of, crown_probe, cut_arm, laid_beam, over_crown
from claspwright.mechanics.retention import goodman_factor
from claspwright.mechanics.seating import Grip, Ride, Track, crown_track, ride
from claspwright.mechanics.space_beam import Elastic, SpaceArm, respond
from claspwright.survey import Survey

DECIDERS = ("modulus", "finish.depth", "friction", "tooth.give", "undercut")
UNDERCUT_SWING = 0.05  # mm either way: what a scan, a casting of resin and a tilt leave open


@dataclass(frozen=True, slots=True)
class Swing:
    """What one uncertain figure does to an arm, the others at their nominal values."""

    what: str  # one of DECIDERS
    low: float
    high: float
    withdrawal_n: tuple[float, float]  # at low and at high
    peak_mpa: tuple[float, float]


@dataclass(frozen=True, slots=True, eq=False)
class ArmProof:
    """One retentive arm, proved."""

    arm: Component
    length_mm: float  # of the axis beyond the joint
    joint_mm: float
    rigid: Ride  # finished, nominal, on a tooth that does not give way
    ride: Ride  # finished, nominal, on a tooth that gives way
    unfinished: Ride  # before finishing, on a tooth that gives way
    weak: Ride  # modulus, friction, finishing and tooth all at the ends that hold least
    strong: Ride  # all at the ends that hold most
    withdrawal_range_n: tuple[float, float]  # over all ranges together
    peak_range_mpa: tuple[float, float]
    swings: tuple[Swing, ...]  # the widest first
    goodman: float  # on a tooth that does not give way, after the seatings of its years
    seatings: float
    bent_change: float  # relative change of compliance on the bent shape: large displacement

    @property
    def decides(self) -> str:
        """The figure whose range moves the withdrawal force most."""
        return self.swings[0].what


@dataclass(frozen=True, slots=True, eq=False)
class ArmCase:
    """What the proofs of all arms of a case share."""

    framework: Framework
    arch: DentalArch
    survey: Survey
    material: Material
    scan_tree: DistanceTree

    def track(self, arm: Component, beam: SpaceArm) -> Track:
        """What the crown asks of an arm on its way out."""
        there = None if arm.tooth is None else over_crown(
            self.arch, self.scan_tree, arm.tooth, beam.line
        )  # fmt: skip
        return crown_track(
            beam, crown_probe(self.survey), self.survey.path.direction, on_tooth=there
        )


def prove_arm(case: ArmCase, arm: Component) -> ArmProof:
    """Everything about one arm.

    Raises:
        GeometryError: the solid shows no arm there.
    """
    cut = cut_arm(case.framework.solid, case.survey, arm)
    alloy = alloy_of(arm, case.material)
    elastic = Elastic(alloy.modulus.nominal, alloy.poisson.nominal)
    figures = _figures(alloy)
    depth = figures["finish.depth"]
    beams = {at: cut.beam(at) for at in (0.0, depth.low, depth.nominal, depth.high)}
    track = case.track(arm, beams[0.0])
    rides = _rides(beams, track, elastic, figures)
    both = [rides[name] for name in ("weak", "strong")]
    cycles = seatings()
    rigid = rides["rigid"]
    return ArmProof(
        arm=arm,
        length_mm=float(rigid.arc_mm[-1]),
        joint_mm=cut.joint_mm,
        rigid=rigid,
        ride=rides["nominal"],
        unfinished=rides["unfinished"],
        weak=rides["weak"],
        strong=rides["strong"],
        withdrawal_range_n=_ordered(*(one.withdrawal_n for one in both)),
        peak_range_mpa=_ordered(*(one.peak_stress_mpa for one in both)),
        swings=_swings(rides, figures, arm),
        goodman=goodman_factor(rigid.peak_stress_mpa, alloy, cycles),
        seatings=cycles,
        bent_change=bent_change(beams[depth.nominal], rigid, elastic),
    )


def laid_ride(case: ArmCase, arm: Component, grip: Grip) -> Ride:
    """The ride of an arm with the sizes with which it was laid: quick, without the solid."""
    beam = laid_beam(case.survey, arm)
    elastic = Elastic(grip.modulus, alloy_of(arm, case.material).poisson.nominal)
    return ride(beam, case.track(arm, beam), elastic, (grip,))[0]


def seatings() -> float:
    """Times that a denture is put in and taken out while it serves."""
    return condition("seatings.a_day").nominal * 365 * condition("years").nominal


def bent_change(arm: SpaceArm, rides: Ride, elastic: Elastic) -> float:
    """Relative change of the tip's compliance when it is computed on the bent shape.

    A large-displacement check: near zero, the small-displacement theory holds.
    """
    tip = len(arm.line) - 1
    spots = np.unique(np.linspace(2, tip, 13).round().astype(int))
    out = arm.off[-1]
    before = respond(arm, np.array([tip]), out[None], elastic)
    force = float(rides.travel_mm.max()) / float(before.compliance[0, 0])
    at = np.concatenate([[tip], np.repeat(spots, 3)])
    push = np.vstack([out, np.tile(np.eye(3), (len(spots), 1))])
    moved = respond(arm, at, push, elastic).compliance[0, 1:].reshape(-1, 3) * force
    way = np.stack(
        [np.interp(np.arange(tip + 1), np.r_[0, spots], np.r_[0.0, moved[:, k]]) for k in range(3)],
        axis=1,
    )
    bent = SpaceArm(arm.line + way, arm.off, arm.profiles)
    after = respond(bent, np.array([tip]), out[None], elastic)
    return float(after.compliance[0, 0] / before.compliance[0, 0] - 1.0)


def _figures(alloy: Material) -> Mapping[str, Property]:
    keys = ("finish.depth", "friction", "tooth.give")
    return {"modulus": alloy.modulus, **{key: condition(key) for key in keys}}


def _rides(
    beams: Mapping[float, SpaceArm], track: Track, elastic: Elastic, of: Mapping[str, Property]
) -> dict[str, Ride]:
    """Rides by name: nominal, rigid, weak, strong, unfinished, and each figure's two ends."""
    mu, give, modulus, depth = (
        of[key] for key in ("friction", "tooth.give", "modulus", "finish.depth")
    )
    nominal = Grip(mu.nominal, give.nominal, modulus.nominal)
    named = {
        "nominal": nominal,
        "rigid": Grip(mu.nominal, 0.0, modulus.nominal),
        "modulus-": Grip(mu.nominal, give.nominal, modulus.low),
        "modulus+": Grip(mu.nominal, give.nominal, modulus.high),
        "friction-": Grip(mu.low, give.nominal, modulus.nominal),
        "friction+": Grip(mu.high, give.nominal, modulus.nominal),
        "tooth.give-": Grip(mu.nominal, give.low, modulus.nominal),
        "tooth.give+": Grip(mu.nominal, give.high, modulus.nominal),
    }
    found = dict(
        zip(named, ride(beams[depth.nominal], track, elastic, tuple(named.values())), strict=True)
    )
    weak = Grip(mu.low, give.high, modulus.low)
    strong = Grip(mu.high, give.low, modulus.high)
    found["unfinished"] = ride(beams[0.0], track, elastic, (nominal,))[0]
    found["finish.depth+"], found["weak"] = ride(beams[depth.high], track, elastic, (nominal, weak))
    found["finish.depth-"], found["strong"] = ride(
        beams[depth.low], track, elastic, (nominal, strong)
    )
    return found


def _swings(
    rides: Mapping[str, Ride], of: Mapping[str, Property], arm: Component
) -> tuple[Swing, ...]:
    found = []
    for what in DECIDERS[:-1]:
        ends = rides[f"{what}-"], rides[f"{what}+"]
        found.append(
            Swing(what, of[what].low, of[what].high,
                  (ends[0].withdrawal_n, ends[1].withdrawal_n),
                  (ends[0].peak_stress_mpa, ends[1].peak_stress_mpa))
        )  # fmt: skip
    depth = float(arm.figures.get("undercut_mm", rides["nominal"].travel_mm.max()))
    less, more = (max(depth + s * UNDERCUT_SWING, 0.0) for s in (-1, 1))
    mid = rides["nominal"]
    share = np.array([less, more]) / max(depth, 1e-6)  # the beam is linear in the travel
    pull, peak = mid.withdrawal_n * share, mid.peak_stress_mpa * share
    found.append(
        Swing("undercut", less, more, (float(pull[0]), float(pull[1])),
              (float(peak[0]), float(peak[1])))
    )  # fmt: skip
    found.sort(key=lambda s: -abs(s.withdrawal_n[1] - s.withdrawal_n[0]))
    return tuple(found)


def _ordered(a: float, b: float) -> tuple[float, float]:
    return (a, b) if a <= b else (b, a)
