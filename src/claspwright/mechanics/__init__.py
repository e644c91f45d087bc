"""Will it hold, clear and last: clasp arms as beams."""

from claspwright.mechanics.arms import (
    ArmResult,
    arc_stiffness_ratio,
    arm_result,
    clasp_arm,
    retentive_force,
    tapered_peak,
)
from claspwright.mechanics.bare_arm import BareArm, BareResult, bare_arm
from claspwright.mechanics.body import Giving, Hold, Motions, dislodging_load, motions
from claspwright.mechanics.cutting import cut_sections, joint_end
from claspwright.mechanics.profiles import Profiles, ground_off, half_ovals, outlines, rounds
from claspwright.mechanics.retention import (
    goodman_factor,
    safe_undercut,
    strength_after,
    withdrawal_force,
)
from claspwright.mechanics.ridge import Bed, Sharing, sharing
from claspwright.mechanics.seating import Grip, Ride, Track, crown_track, ride
from claspwright.mechanics.sections import Section, circle, half_ellipse, half_round, rectangle
from claspwright.mechanics.space_beam import (
    Elastic,
    Response,
    SpaceArm,
    beam_arm,
    respond,
    stresses,
)
from claspwright.mechanics.sprung import Sprung, sprung

__all__ = [
    "ArmResult",
    "BareArm",
    "BareResult",
    "Bed",
    "Elastic",
    "Giving",
    "Grip",
    "Hold",
    "Motions",
    "Profiles",
    "Response",
    "Ride",
    "Section",
    "Sharing",
    "SpaceArm",
    "Sprung",
    "Track",
    "arc_stiffness_ratio",
    "arm_result",
    "bare_arm",
    "beam_arm",
    "circle",
    "clasp_arm",
    "crown_track",
    "cut_sections",
    "dislodging_load",
    "goodman_factor",
    "ground_off",
    "half_ellipse",
    "half_ovals",
    "half_round",
    "joint_end",
    "motions",
    "outlines",
    "rectangle",
    "respond",
    "retentive_force",
    "ride",
    "rounds",
    "safe_undercut",
    "sharing",
    "sprung",
    "strength_after",
    "stresses",
    "tapered_peak",
    "withdrawal_force",
]
