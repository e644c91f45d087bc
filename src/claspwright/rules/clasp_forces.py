"""Rules on the force and stress of clasp arms, by the straight tapered beam."""

from __future__ import annotations

import numpy as np

from claspwright.base import Finding
from claspwright.framework import Component
from claspwright.limits import limit
from claspwright.mechanics import ArmResult, arm_result, withdrawal_force
from claspwright.rules.clasps import prescribed
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged

STEEPEST = 2.0  # tangent of the steepest slope that the wedge is computed with


def sprung_arms(context: Finished) -> list[tuple[Component, ArmResult]]:
    """Every retentive arm, sprung by its prescribed undercut."""
    material = context.facts.material
    return [
        (arm, arm_result(arm.line, arm.width_mm, arm.thickness_mm, material, wanted))
        for arm, wanted in prescribed(context)
    ]


def tip_slope(context: Finished, arm: Component) -> float:
    """Tangent of the angle between the tooth's surface under a clasp tip and the path."""
    normal = context.survey.scan_field.gradient(arm.line[-1:])[0]
    size = float(np.linalg.norm(normal))
    if size == 0:
        return 0.0
    along = float(normal @ context.path) / size
    across = float(np.sqrt(max(1.0 - along**2, 1e-12)))
    return float(np.clip(-along / across, 0.0, STEEPEST))


def withdrawal(context: Finished) -> tuple[Finding, ...]:
    """The force along the path that draws each clasp off, with friction and slope."""
    friction = limit("clasp.friction").value
    found = []
    for arm, result in sprung_arms(context):
        slope = tip_slope(context, arm)
        pull = withdrawal_force(result.force_n, slope, friction)
        angle = float(np.degrees(np.arctan(slope)))
        text = (
            f"{arm.id} presses with {result.force_n:.1f} N ({result.force_low_n:.1f} to "
            f"{result.force_high_n:.1f} N over the range of the modulus) and comes off at "
            f"{pull:.1f} N, on a slope of {angle:.0f} degrees with friction {friction:.2f}; a "
            "curved arm holds more than this straight beam"
        )
        remedy = "Thicken or shorten a weak arm; thin or lengthen one that loads its tooth."
        found.append(
            judged("clasp.force", "clasp.force", pull, text, remedy=remedy, at=arm.line[-1],
                   component=arm.id)
        )  # fmt: skip
    return tuple(found)


def whole_retention(context: Finished) -> tuple[Finding, ...]:
    """The force along the path that draws the whole denture off its clasps."""
    friction = limit("clasp.friction").value
    arms = sprung_arms(context)
    if not arms:
        return ()
    pull = sum(withdrawal_force(r.force_n, tip_slope(context, arm), friction) for arm, r in arms)
    text = f"The {len(arms)} clasps together hold {pull:.1f} N along the path"
    remedy = "Guiding planes and friction add to it; adapt the arms or the number of clasps."
    return (judged("denture.retention", "denture.retention", pull, text, remedy=remedy),)


def permanent_set(context: Finished) -> tuple[Finding, ...]:
    """No arm is bent for good when it springs over its undercut."""
    found = []
    proof = context.facts.material.proof
    for arm, r in sprung_arms(context):
        text = (
            f"{arm.id} reaches {r.peak_stress_mpa:.0f} MPa at {r.peak_at_mm:.1f} mm from its "
            f"root; the proof stress to count on is {proof.low:.0f} MPa ({proof.cited}), and the "
            f"largest safe undercut {r.safe_undercut_mm:.2f} mm"
        )
        remedy = "Lengthen or thin the arm, or take less undercut."
        found.append(
            judged("clasp.stress", "clasp.proof_factor", r.proof_factor, text, remedy=remedy,
                   at=r.peak_point, component=arm.id)
        )  # fmt: skip
    return tuple(found)


def fatigue(context: Finished) -> tuple[Finding, ...]:
    """No arm breaks after years of insertion and removal."""
    found = []
    strength = context.facts.material.fatigue
    for arm, r in sprung_arms(context):
        text = (
            f"{arm.id} has a fatigue factor of {r.fatigue_factor:.2f} at 1e7 cycles with a fatigue "
            f"strength of {strength.nominal:.0f} MPa ({strength.cited}); the direction of "
            "building may change its life several times over"
        )
        remedy = "Lengthen or thin the arm, or take less undercut."
        found.append(
            judged("clasp.fatigue", "clasp.fatigue_factor", r.fatigue_factor, text, remedy=remedy,
                   at=r.peak_point, component=arm.id)
        )  # fmt: skip
    return tuple(found)
