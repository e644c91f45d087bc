"""The inverse: sizes of an arm that hold a wanted force without passing a stress."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from claspwright.base import InputError
from claspwright.framework import Component
from claspwright.materials import Material, condition, wires
from claspwright.mechanics.arm_proof import ArmCase
from claspwright.mechanics.on_tooth import STATIONS, laid_beam, off_tooth
from claspwright.mechanics.profiles import rounds
from claspwright.mechanics.seating import Grip, Track, ride
from claspwright.mechanics.space_beam import Elastic, SpaceArm, beam_arm

WIDTHS_MM = (1.2, 1.4, 1.6, 1.8, 2.0)
RATIOS = (0.5, 0.6, 0.7, 0.8)  # thickness over width
TAPERS = (0.5, 0.75)
LEAST_TIP_MM = 0.5
UNDERCUTS_MM = (0.15, 0.2, 0.25, 0.35, 0.5)
CAST_DEEPEST_MM = 0.3  # of a cast or printed arm; wire may go deeper
WIRES_MM = (0.8, 0.9, 1.0)
SAFETY = 1.5  # proof stress over the peak on a tooth that does not give way
LEAST_SHARE = 0.6  # of the wanted force, below which an arm does not count


@dataclass(frozen=True, slots=True)
class ArmForm:
    """One way to make an arm, and what it would do."""

    form: str  # "half-oval" or "round wire"
    width_mm: float  # at the root, as laid
    thickness_mm: float
    taper: float  # tip over root
    undercut_mm: float
    withdrawal_n: float  # finished, on a tooth that gives way
    peak_mpa: float  # finished, on a tooth that does not
    allowed_mpa: float

    @property
    def holds(self) -> bool:
        """Whether its stress is allowed."""
        return self.peak_mpa <= self.allowed_mpa


@dataclass(frozen=True, slots=True)
class Choice:
    """What was found for a wanted force."""

    wanted_n: float
    best: ArmForm | None  # nearest to the wanted force among those whose stress is allowed
    reached: bool  # its force is near enough to the wanted one
    strongest: ArmForm | None  # of the half-ovals whose stress is allowed
    words: str  # what to do


def choose_arm(case: ArmCase, arm: Component, *, wanted_n: float = 5.0) -> Choice:
    """Sizes, undercut and form for an arm on its own way round its tooth.

    Every size is laid on the same line and ridden over the same crown; force and stress go with
    the undercut, since the beam is linear.

    Args:
        case: what the arms of a case share.
        arm: a laid retentive arm.
        wanted_n: withdrawal force wanted.

    Raises:
        InputError: the wanted force is not positive.
    """
    if not wanted_n > 0:
        raise InputError(f"wanted force must be positive, got {wanted_n:g} N")
    depth = float(arm.figures.get("undercut_mm", 0.25))
    track = case.track(arm, laid_beam(case.survey, arm))
    forms = [*_half_ovals(case, arm, track, depth), *_wires(case, arm, track, depth)]
    good = [form for form in forms if form.holds]
    best = min(good, key=lambda f: (abs(f.withdrawal_n - wanted_n), f.peak_mpa), default=None)
    ovals = [form for form in good if form.form == "half-oval"]
    strongest = max(ovals, key=lambda f: f.withdrawal_n, default=None)
    reached = best is not None and best.withdrawal_n >= LEAST_SHARE * wanted_n
    return Choice(wanted_n, best, reached, strongest, _words(best, strongest, wanted_n, reached))


def _half_ovals(case: ArmCase, arm: Component, track: Track, depth: float) -> list[ArmForm]:
    off = condition("finish.depth").nominal
    found = []
    share = np.linspace(0.0, 1.0, len(arm.line))
    for width in WIDTHS_MM:
        for ratio in RATIOS:
            for taper in TAPERS:
                scale = 1.0 - (1.0 - taper) * share
                thick = np.maximum(ratio * width * scale, LEAST_TIP_MM)
                sized = replace(arm, width_mm=width * scale, thickness_mm=thick)
                beam = laid_beam(case.survey, sized, less_mm=off)
                shape = ("half-oval", width, ratio * width, taper)
                found += _forms(beam, track, case.material, shape, depth, CAST_DEEPEST_MM)
    return found


def _wires(case: ArmCase, arm: Component, track: Track, depth: float) -> list[ArmForm]:
    wire = next(iter(wires().values()))
    found = []
    for d in WIRES_MM:
        sections = rounds(np.full(len(arm.line), d))
        beam = beam_arm(arm.line, off_tooth(case.survey, arm.line), sections, stations=STATIONS)
        found += _forms(beam, track, wire, ("round wire", d, d, 1.0), depth, UNDERCUTS_MM[-1])
    return found


def _forms(
    beam: SpaceArm, track: Track, alloy: Material, shape: tuple[str, float, float, float],
    depth: float, deepest: float,
) -> list[ArmForm]:  # fmt: skip
    """One shape in every undercut that it may enter."""
    mu, give = condition("friction").nominal, condition("tooth.give").nominal
    modulus = alloy.modulus.nominal
    elastic = Elastic(modulus, alloy.poisson.nominal)
    soft, rigid = ride(beam, track, elastic, (Grip(mu, give, modulus), Grip(mu, 0.0, modulus)))
    found = []
    for undercut in (u for u in UNDERCUTS_MM if u <= deepest):
        by = undercut / max(depth, 1e-3)
        found.append(
            ArmForm(*shape, undercut, by * soft.withdrawal_n, by * rigid.peak_stress_mpa,
                    alloy.proof.nominal / SAFETY)
        )  # fmt: skip
    return found


def _words(best: ArmForm | None, strongest: ArmForm | None, wanted: float, reached: bool) -> str:
    if best is None:
        return (
            f"no arm on this way round the tooth keeps below its stress at any undercut; a longer "
            f"way, a bar clasp or another tooth is due for {wanted:g} N"
        )
    told = (
        f"a {best.form} of {best.width_mm:.1f} x {best.thickness_mm:.1f} mm at its root, tapered "
        f"to {best.taper:g}, in {best.undercut_mm:.2f} mm of undercut comes off at "
        f"{best.withdrawal_n:.1f} N with {best.peak_mpa:.0f} MPa of {best.allowed_mpa:.0f} allowed"
    )
    if reached:
        return told
    oval = "none" if strongest is None else f"{strongest.withdrawal_n:.1f} N"
    return (
        f"no arm on this way round the tooth reaches {wanted:g} N below its stress; nearest: "
        f"{told} (half-ovals alone: {oval}); another tooth, a longer way, a bar clasp or a steeper "
        "undercut prepared by the dentist would"
    )
