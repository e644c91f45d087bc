"""Rules on the force and stress of clasp arms, as tapered beams."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from claspwright.base import Finding, Floats
from claspwright.framework import Component
from claspwright.limits import limit
from claspwright.mechanics import ArmResult, arm_result, withdrawal_force
from claspwright.rules.clasps import prescribed
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged, point

STEEPEST = 2.0  # tangent of the steepest slope that the wedge is computed with


@dataclass(frozen=True, slots=True, eq=False)
class SprungArm:
    """A retentive arm sprung by its prescribed undercut, as a straight and as a curved beam."""

    arm: Component
    straight: ArmResult
    curved: ArmResult
    slope: float  # tangent of the angle between tooth and path under the tip
    pull_n: float  # that draws it off, curved


def sprung_arms(context: Finished) -> list[SprungArm]:
    """Every retentive arm, sprung by its prescribed undercut away from the tooth."""
    friction = limit("clasp.friction").value
    found = []
    for arm, wanted in prescribed(context):
        size = arm.line, arm.width_mm, arm.thickness_mm, context.facts.material, wanted
        outward, slope = tip_stance(context, arm)
        straight = arm_result(*size)
        curved = arm_result(*size, outward=outward)
        pull = withdrawal_force(curved.force_n, slope, friction)
        found.append(SprungArm(arm, straight, curved, slope, pull))
    return found


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
    for sprung in sprung_arms(context):
        curved, arm = sprung.curved, sprung.arm
        angle = float(np.degrees(np.arctan(sprung.slope)))
        text = (
            f"{arm.id} presses with {curved.force_n:.1f} N ({curved.force_low_n:.1f} to "
            f"{curved.force_high_n:.1f} N over the range of the modulus; "
            f"{sprung.straight.force_n:.1f} N as a straight beam) and comes off at "
            f"{sprung.pull_n:.1f} N, on a slope of {angle:.0f} degrees with friction "
            f"{friction:.2f}"
        )
        remedy = "Thicken or shorten a weak arm; thin or lengthen one that loads its tooth."
        found.append(
            judged("clasp.force", "clasp.force", sprung.pull_n, text, remedy=remedy,
                   at=arm.line[-1], component=arm.id)
        )  # fmt: skip
    return tuple(found)


def whole_retention(context: Finished) -> tuple[Finding, ...]:
    """The force along the path that draws the whole denture off its clasps."""
    arms = sprung_arms(context)
    if not arms:
        return ()
    pull = sum(sprung.pull_n for sprung in arms)
    text = f"The clasps together ({len(arms)}) hold {pull:.1f} N along the path"
    remedy = "Guiding planes and friction add to it; adapt the arms or the number of clasps."
    return (judged("denture.retention", "denture.retention", pull, text, remedy=remedy),)


def permanent_set(context: Finished) -> tuple[Finding, ...]:
    """No arm is bent for good when it springs over its undercut.

    The straight beam is held against the class minimum of the alloy's proof stress. The curved
    one, the upper bound of a tooth and model that do not give way, is held against the proof
    stress that was published for the alloy, and asks for a look at most.
    """
    proof, found = context.facts.material.proof, []
    for sprung in sprung_arms(context):
        straight, curved = sprung.straight, sprung.curved
        text = (
            f"{sprung.arm.id} reaches {straight.peak_stress_mpa:.0f} MPa as a straight beam, at "
            f"{straight.peak_at_mm:.1f} mm from its root, and {curved.peak_stress_mpa:.0f} MPa as "
            f"a curved one on a tooth that does not give way; proof stress {proof.low:.0f} MPa at "
            f"least, {proof.nominal:.0f} MPa published ({proof.cited}); largest safe undercut "
            f"{straight.safe_undercut_mm:.2f} mm"
        )
        remedy = "Lengthen or thin the arm, or take less undercut."
        finding = judged(
            "clasp.stress", "clasp.proof_factor", straight.proof_factor, text, remedy=remedy,
            at=straight.peak_point, component=sprung.arm.id,
        )  # fmt: skip
        if finding.severity == "note" and curved.peak_stress_mpa > proof.nominal:
            finding = replace(
                finding, severity="look", text=f"{text}. {remedy}", at_mm=point(curved.peak_point),
                measured=round(curved.peak_stress_mpa, 1), limit=proof.nominal, unit="MPa",
            )  # fmt: skip
        found.append(finding)
    return tuple(found)


def fatigue(context: Finished) -> tuple[Finding, ...]:
    """No arm breaks after years of insertion and removal; judged by the straight beam."""
    found = []
    strength = context.facts.material.fatigue
    for sprung in sprung_arms(context):
        straight, curved = sprung.straight, sprung.curved
        text = (
            f"{sprung.arm.id} has a fatigue factor of {straight.fatigue_factor:.2f} as a straight "
            f"beam and {curved.fatigue_factor:.2f} as a curved one on a tooth that does not give "
            f"way, at 1e7 cycles with a fatigue strength of {strength.nominal:.0f} MPa "
            f"({strength.cited}); the direction of building may change its life several times over"
        )
        remedy = "Lengthen or thin the arm, or take less undercut."
        found.append(
            judged("clasp.fatigue", "clasp.fatigue_factor", straight.fatigue_factor, text,
                   remedy=remedy, at=straight.peak_point, component=sprung.arm.id)
        )  # fmt: skip
    return tuple(found)
