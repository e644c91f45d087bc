"""The inverse: sizes of an arm that hold a wanted force without passing a stress."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import atan, degrees

import numpy as np

from claspwright.base import InputError
from claspwright.framework import Component
from claspwright.geometry import arc_lengths
from claspwright.materials import Material, condition, wires
from claspwright.mechanics.arm_proof import ArmCase
from claspwright.mechanics.on_tooth import STATIONS, laid_beam, off_tooth
from claspwright.mechanics.profiles import rounds
from claspwright.mechanics.seating import STEEPEST, Grip, Ride, Track, ride
from claspwright.mechanics.space_beam import Elastic, SpaceArm, beam_arm

WIDTHS_MM = (1.2, 1.4, 1.6, 1.8, 2.0, 2.2)
RATIOS = (0.5, 0.6, 0.7, 0.85, 1.0)  # thickness over width
THICKEST_MM = 1.8  # at the root; more stands in the way of tongue and cheek
TAPERS = (0.5, 0.75)
LEAST_TIP_MM = 0.5
UNDERCUTS_MM = (0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5)
CAST_DEEPEST_MM = 0.3  # of a cast or printed arm; wire may go deeper
WIRES_MM = (0.8, 0.9, 1.0, 1.2)
SAFETY = 1.5  # proof stress over the peak on a tooth that does not give way
NEAR = 0.9  # of the wanted force, from which an arm counts as reaching it
EVERY = 2  # lifts of the track of which one is looked at in the search
LONGEST = 1.6  # times the arm's length, beyond which a longer way is no advice


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
    slope: float  # tangent of the tooth's slope where the greatest force is, over all contacts

    @property
    def holds(self) -> bool:
        """Whether its stress is allowed."""
        return self.peak_mpa <= self.allowed_mpa

    @property
    def words(self) -> str:
        """Its sizes in words."""
        size = f"{self.width_mm:.1f} x {self.thickness_mm:.1f} mm at its root"
        if self.form == "round wire":
            return f"a round wire of {self.width_mm:.1f} mm in {self.undercut_mm:.2f} mm"
        return f"a half-oval of {size}, tapered to {self.taper:g}, in {self.undercut_mm:.2f} mm"


@dataclass(frozen=True, slots=True)
class Choice:
    """What was found for a wanted force."""

    wanted_n: float
    best: ArmForm | None  # nearest to the wanted force among those whose stress is allowed
    reached: bool  # its force is near enough to the wanted one
    strongest: ArmForm | None  # of the half-ovals whose stress is allowed
    wire: ArmForm | None  # nearest of the wires whose stress is allowed
    unfinished_n: float | None  # withdrawal force of the best one before it is finished
    needed_slope: float | None  # tangent of the tooth's slope that the best one would need
    needed_mm: float | None  # length of way that it would need; both None where none is in reach
    length_mm: float  # of the way that it has
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
    thin = _thinned(track)
    ovals = [form for form in _half_ovals(case, arm, thin, depth) if form.holds]
    wired = [form for form in _wires(case, arm, thin, depth) if form.holds]

    def far(form: ArmForm) -> tuple[float, float]:
        return abs(form.withdrawal_n - wanted_n), form.peak_mpa

    best = min([*ovals, *wired], key=far, default=None)
    wire = min(wired, key=far, default=None)
    strongest = max(ovals, key=lambda f: f.withdrawal_n, default=None)
    reached = best is not None and best.withdrawal_n >= NEAR * wanted_n
    bare = None if best is None else _unfinished(case, arm, track, depth, best)
    length = float(arc_lengths(arm.line)[-1])
    slope, longer = (None, None) if best is None else _needed(best, wanted_n, length)
    found = Choice(wanted_n, best, reached, strongest, wire, bare, slope, longer, length, "")
    return replace(found, words=_words(found))


def _thinned(track: Track) -> Track:
    """Every second lift, for the search: force and stress change by about one in a hundred."""
    kept = np.arange(0, len(track.lifts), EVERY)
    return replace(
        track, lifts=track.lifts[kept], travel=track.travel[kept], slope=track.slope[kept],
        side=track.side[kept],
    )  # fmt: skip


def _sized(arm: Component, width: float, thickness: float, taper: float) -> Component:
    scale = 1.0 - (1.0 - taper) * np.linspace(0.0, 1.0, len(arm.line))
    thick = np.maximum(thickness * scale, LEAST_TIP_MM)
    return replace(arm, width_mm=width * scale, thickness_mm=thick)


def _half_ovals(case: ArmCase, arm: Component, track: Track, depth: float) -> Iterator[ArmForm]:
    off = condition("finish.depth").nominal
    for width in WIDTHS_MM:
        for ratio in RATIOS:
            thick = ratio * width
            if thick > THICKEST_MM:
                continue
            for taper in TAPERS:
                beam = laid_beam(case.survey, _sized(arm, width, thick, taper), less_mm=off)
                shape = ("half-oval", width, thick, taper)
                yield from _forms(beam, track, case.material, shape, depth, CAST_DEEPEST_MM)


def _wires(case: ArmCase, arm: Component, track: Track, depth: float) -> Iterator[ArmForm]:
    wire = next(iter(wires().values()))
    for d in WIRES_MM:
        shape = ("round wire", d, d, 1.0)
        yield from _forms(_wire(case, arm, d), track, wire, shape, depth, UNDERCUTS_MM[-1])


def _wire(case: ArmCase, arm: Component, diameter: float) -> SpaceArm:
    sections = rounds(np.full(len(arm.line), diameter))
    return beam_arm(arm.line, off_tooth(case.survey, arm.line), sections, stations=STATIONS)


def _forms(
    beam: SpaceArm, track: Track, alloy: Material, shape: tuple[str, float, float, float],
    depth: float, deepest: float,
) -> Iterator[ArmForm]:  # fmt: skip
    """One shape in every undercut that it may enter."""
    mu, give = condition("friction").nominal, condition("tooth.give").nominal
    modulus = alloy.modulus.nominal
    elastic = Elastic(modulus, alloy.poisson.nominal)
    soft, rigid = ride(beam, track, elastic, (Grip(mu, give, modulus), Grip(mu, 0.0, modulus)))
    for undercut in (u for u in UNDERCUTS_MM if u <= deepest):
        by = undercut / max(depth, 1e-3)
        yield ArmForm(
            *shape, undercut, by * soft.withdrawal_n, by * rigid.peak_stress_mpa,
            alloy.proof.nominal / SAFETY, _slope(soft, mu),
        )  # fmt: skip


def _slope(found: Ride, friction: float) -> float:
    """Tangent of the slope that a single wedge would need for the greatest force of a ride."""
    k = int(np.argmax(found.out_n))
    share = float(found.out_n[k]) / max(float(found.side_n[k]), 1e-9)
    return max((share - friction) / (1.0 + share * friction), 0.0)


def _unfinished(
    case: ArmCase, arm: Component, track: Track, depth: float, best: ArmForm
) -> float | None:
    """Withdrawal force of a form as it is printed [N]; None for wire, which is not ground."""
    if best.form != "half-oval":
        return None
    sized = _sized(arm, best.width_mm, best.thickness_mm, best.taper)
    alloy = case.material
    grip = Grip(
        condition("friction").nominal, condition("tooth.give").nominal, alloy.modulus.nominal
    )
    elastic = Elastic(alloy.modulus.nominal, alloy.poisson.nominal)
    found = ride(laid_beam(case.survey, sized), track, elastic, (grip,))[0]
    return found.withdrawal_n * best.undercut_mm / max(depth, 1e-3)


def _words(choice: Choice) -> str:
    wanted, best = choice.wanted_n, choice.best
    if best is None:
        return (
            f"no arm on this way round the tooth keeps below its stress at any undercut; a longer "
            f"way, a bar clasp or another tooth is due for {wanted:g} N"
        )
    bare = choice.unfinished_n
    before = "" if bare is None else f" ({bare:.1f} N before finishing)"
    told = (
        f"{best.words} of undercut comes off at {best.withdrawal_n:.1f} N{before} with "
        f"{best.peak_mpa:.0f} MPa of {best.allowed_mpa:.0f} allowed"
    )
    if choice.reached:
        return told
    others = []
    if choice.strongest is not None and choice.strongest is not best:
        others.append(
            f"best half-oval {choice.strongest.withdrawal_n:.1f} N by {choice.strongest.words}"
        )
    if choice.wire is not None and choice.wire is not best:
        others.append(f"best wire {choice.wire.withdrawal_n:.1f} N by {choice.wire.words}")
    beside = "".join(f"; {other}" for other in others)
    return (
        f"no arm on this way round the tooth reaches {wanted:g} N below its stress; nearest: "
        f"{told}{beside}. What would: {_what_would(choice, best)}"
    )


def _needed(best: ArmForm, wanted: float, length: float) -> tuple[float | None, float | None]:
    """Slope and length of way with which a form would reach a force, None where out of reach.

    Source:
        The wedge, P = N (mu + t) / (1 - mu t); a cantilever at the same stress and travel is
        thicker with the square of its length, and its force grows with the cube.
    """
    mu, short = condition("friction").nominal, wanted / max(best.withdrawal_n, 1e-9)
    share = short * (mu + best.slope) / max(1.0 - mu * best.slope, 1e-9)
    slope = (share - mu) / (1.0 + share * mu)
    longer = short ** (1.0 / 3.0)
    return (
        slope if slope < STEEPEST else None,
        longer * length if longer < LONGEST else None,
    )


def _what_would(choice: Choice, best: ArmForm) -> str:
    found = []
    if choice.needed_slope is not None:
        found.append(
            f"a tooth, or an undercut prepared by the dentist, that slopes by "
            f"{degrees(atan(choice.needed_slope)):.0f} degrees under the arm instead of "
            f"{degrees(atan(best.slope)):.0f}"
        )
    if choice.needed_mm is not None:
        found.append(
            f"a way of about {choice.needed_mm:.0f} mm instead of {choice.length_mm:.0f} mm, the "
            f"arm thicker with the square of it, as round a larger tooth or from farther off"
        )
    found.append("another abutment, or one more clasp beside this one")
    return "; ".join(found)
