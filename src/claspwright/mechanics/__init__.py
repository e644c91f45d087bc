"""Clasp arms as beams."""

from claspwright.mechanics.arms import (
    ArmResult,
    arc_stiffness_ratio,
    arm_result,
    clasp_arm,
    retentive_force,
    tapered_peak,
)
from claspwright.mechanics.bare_arm import BareArm, BareResult, bare_arm
from claspwright.mechanics.retention import goodman_factor, safe_undercut, withdrawal_force
from claspwright.mechanics.sections import Section, circle, half_ellipse, half_round, rectangle

__all__ = [
    "ArmResult",
    "BareArm",
    "BareResult",
    "Section",
    "arc_stiffness_ratio",
    "arm_result",
    "bare_arm",
    "circle",
    "clasp_arm",
    "goodman_factor",
    "half_ellipse",
    "half_round",
    "rectangle",
    "retentive_force",
    "safe_undercut",
    "tapered_peak",
    "withdrawal_force",
]
