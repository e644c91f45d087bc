"""Rules on the force and stress of clasp arms, as tapered beams on their real centreline."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from claspwright.base import Finding, Floats
from claspwright.framework import Component
from claspwright.limits import limit
from claspwright.materials import Material, condition
from claspwright.mechanics import (
    HALF_ROUND_CENTROID,
    HALF_ROUND_I,
    ArmCase,
    ArmResult,
    Elastic,
    Grip,
    Sprung,
    alloy_of,
    arm_result,
    goodman_factor,
    is_wire,
    laid_beam,
    laid_ride,
    seatings,
    sprung,
    withdrawal_force,
)
from claspwright.rules.clasps import prescribed
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged

STEEPEST = 2.0  # tangent of the steepest slope that the wedge is computed with


@dataclass(frozen=True, slots=True, eq=False)
class SprungArm:
    """A retentive arm sprung by its prescribed undercut, as a straight and as a curved beam."""

    arm: Component
    alloy: Material  # what it is made of: a wire has its own
    straight: ArmResult
    curved: Sprung  # on a tooth that does not give way
    left: float  # share of force and stress on a tooth that gives way
    slope: float  # tangent of the angle between tooth and path under the tip
    wedge_n: float  # that would draw it off, were it still on the slope where it rests
    pull_n: float  # that draws it off over the crown; the wedge's where no crown is known there

    @property
    def soft_peak_mpa(self) -> float:
        """Peak stress on a tooth that gives way."""
        return self.left * self.curved.peak_stress_mpa


def sprung_arms(context: Finished) -> list[SprungArm]:
    """Every retentive arm, sprung by its prescribed undercut away from the tooth."""
    friction = limit("clasp.friction").value
    printed = context.facts.material
    case = ArmCase(context.framework, context.arch, context.survey, printed, context.scan_tree)
    found = []
    for arm, wanted in prescribed(context):
        alloy = alloy_of(arm, printed)
        elastic = Elastic(alloy.modulus.nominal, alloy.poisson.nominal)
        outward, slope = tip_stance(context, arm)
        straight = _straight(arm, alloy, wanted)
        curved = sprung(laid_beam(context.survey, arm), outward, wanted, elastic)
        left = curved.after_giving_way(condition("tooth.give").nominal)
        wedge = withdrawal_force(curved.force_n, slope, friction)
        over = laid_ride(case, arm, Grip(friction, 0.0, alloy.modulus.nominal)).withdrawal_n
        found.append(SprungArm(arm, alloy, straight, curved, left, slope, wedge, over or wedge))
    return found


def _straight(arm: Component, alloy: Material, wanted: float) -> ArmResult:
    """An arm as a straight beam; a round wire by the half-oval that is as stiff."""
    if not is_wire(arm):
        return arm_result(arm.line, arm.width_mm, arm.thickness_mm, alloy, wanted)
    d = arm.figures["wire_mm"]
    high = d * (np.pi / (32 * HALF_ROUND_I)) ** (1 / 3)  # I = pi d^4 / 64 = 0.109757 d / 2 h^3
    found = arm_result(arm.line, np.array([d]), np.array([high]), alloy, wanted)
    nearer = d / 2 / ((1 - HALF_ROUND_CENTROID) * high)  # its farthest fibre lies nearer
    return replace(
        found,
        peak_stress_mpa=nearer * found.peak_stress_mpa,
        root_stress_mpa=nearer * found.root_stress_mpa,
    )


def tip_stance(context: Finished, arm: Component) -> tuple[Floats, float]:
    """How a clasp tip stands on its tooth.

    Returns:
        (3,) unit direction across the path and the arm in which the tip is sprung, and the
        tangent of the angle between the tooth's surface and the path there.
    """
    normal = context.survey.scan_field.gradient(arm.line[-1:])[0]
    along = float(normal @ context.path)
    across = normal - along * context.path
    size = float(np.linalg.norm(across))
    slope = float(np.clip(-along / max(size, 1e-9), 0.0, STEEPEST))
    tangent = arm.line[-1] - arm.line[-2]
    tangent = tangent / np.linalg.norm(tangent)
    outward = across - (across @ tangent) * tangent
    if np.linalg.norm(outward) < 1e-6:  # the field is flat here: straight off the arm
        outward = np.cross(tangent, context.path)
    return np.asarray(outward / np.linalg.norm(outward)), slope


def withdrawal(context: Finished) -> tuple[Finding, ...]:
    """The force along the path that draws each clasp off, with friction and slope."""
    friction = limit("clasp.friction").value
    found = []
    for one in sprung_arms(context):
        arm, force, modulus = one.arm, one.curved.force_n, one.alloy.modulus
        angle = float(np.degrees(np.arctan(one.slope)))
        text = (
            f"{arm.id} presses with {force:.1f} N ({force * modulus.low / modulus.nominal:.1f} to "
            f"{force * modulus.high / modulus.nominal:.1f} N over the range of the modulus; "
            f"{one.left * force:.1f} N on a tooth that gives way; {one.straight.force_n:.1f} N as "
            f"a straight beam) and comes off at {one.pull_n:.1f} N over its crown with friction "
            f"{friction:.2f}; {one.wedge_n:.1f} N by the slope of {angle:.0f} degrees where it "
            f"rests"
        )
        remedy = "Thicken or shorten a weak arm; thin or lengthen one that loads its tooth."
        found.append(
            judged("clasp.force", "clasp.force", one.pull_n, text, remedy=remedy,
                   at=arm.line[-1], component=arm.id)
        )  # fmt: skip
    return tuple(found)


def whole_retention(context: Finished) -> tuple[Finding, ...]:
    """The force along the path that draws the whole denture off its clasps."""
    arms = sprung_arms(context)
    if not arms:
        return ()
    pull = sum(one.pull_n for one in arms)
    text = f"The clasps together ({len(arms)}) hold {pull:.1f} N along the path"
    remedy = "Guiding planes and friction add to it; adapt the arms or the number of clasps."
    return (judged("denture.retention", "denture.retention", pull, text, remedy=remedy),)


def permanent_set(context: Finished) -> tuple[Finding, ...]:
    """No arm is bent for good when it springs over its undercut.

    The arm is the curved beam that it is, bent and twisted; its peak is held against the proof
    stress published for the alloy. On a tooth that does not give way the figure is an upper
    bound and asks for a look; a stop needs it to be passed on a tooth that gives way, too.
    """
    give, found = condition("tooth.give"), []
    for one in sprung_arms(context):
        curved, proof = one.curved, one.alloy.proof
        safe = curved.travel_mm * proof.low / curved.peak_stress_mpa
        text = (
            f"{one.arm.id} reaches {one.soft_peak_mpa:.0f} MPa on a tooth that gives way "
            f"{1000 * give.nominal:.0f} um a newton and {curved.peak_stress_mpa:.0f} MPa on one "
            f"that does not, at {curved.peak_at_mm:.1f} mm from its root "
            f"({one.straight.peak_stress_mpa:.0f} MPa as a straight beam); proof stress "
            f"{proof.nominal:.0f} MPa published, {proof.low:.0f} MPa at least ({proof.cited}), "
            f"which {safe:.2f} mm of undercut would reach"
        )
        remedy = (
            "Thin or lengthen the arm, take less undercut or a bar or wire clasp, or prove the "
            "alloy's proof stress on the laboratory's own coupons."
        )
        factor = proof.nominal / curved.peak_stress_mpa
        finding = judged(
            "clasp.stress", "clasp.proof_factor", factor, text, remedy=remedy,
            at=curved.peak_point, component=one.arm.id,
        )  # fmt: skip
        found.append(_sure(finding, proof.nominal / one.soft_peak_mpa))
    return tuple(found)


def fatigue(context: Finished) -> tuple[Finding, ...]:
    """No arm breaks in the years that it serves, sprung at each insertion and removal.

    As for the permanent set: a stop needs the factor below one on a tooth that gives way.
    """
    found = []
    cycles = seatings()
    for one in sprung_arms(context):
        alloy = one.alloy
        rigid, soft = one.curved.peak_stress_mpa, one.soft_peak_mpa
        factor = goodman_factor(rigid, alloy, cycles)
        text = (
            f"{one.arm.id} has a fatigue factor of {goodman_factor(soft, alloy, cycles):.2f} on a "
            f"tooth that gives way and {factor:.2f} on one that does not, after {cycles:.0f} "
            f"seatings; {goodman_factor(rigid, alloy):.2f} after 1e7, with a fatigue strength of "
            f"{alloy.fatigue.nominal:.0f} MPa ({alloy.fatigue.cited}); the direction of building "
            "may change its life several times over"
        )
        remedy = "Lengthen or thin the arm, or take less undercut."
        finding = judged(
            "clasp.fatigue", "clasp.fatigue_factor", factor, text, remedy=remedy,
            at=one.curved.peak_point, component=one.arm.id,
        )  # fmt: skip
        found.append(_sure(finding, goodman_factor(soft, alloy, cycles)))
    return tuple(found)


def _sure(finding: Finding, favourable: float) -> Finding:
    """A stop only where the favourable end of the range fails as well, else a look."""
    if finding.severity != "stop" or favourable < 1.0:
        return finding
    return replace(finding, severity="look")
