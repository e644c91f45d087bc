"""Will it hold, clear and last: clasp arms as beams."""

from claspwright.mechanics.arm_proof import (
    ArmCase,
    ArmProof,
    Swing,
    laid_ride,
    prove_arm,
    seatings,
)
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
from claspwright.mechanics.cells import Cells, cut_cells, elasticity
from claspwright.mechanics.choose import ArmForm, Choice, choose_arm
from claspwright.mechanics.cutting import cut_sections, own_sections
from claspwright.mechanics.denture import (
    BasePoints,
    Bite,
    DentureProof,
    free_points,
    plan_axes,
    prove_denture,
)
from claspwright.mechanics.framework_fe import FrameworkFe, prove_solid
from claspwright.mechanics.on_tooth import (
    CutArm,
    alloy_of,
    cut_arm,
    is_wire,
    laid_beam,
    off_tooth,
)
from claspwright.mechanics.profiles import Profiles, ground_off, half_ovals, outlines, rounds
from claspwright.mechanics.retention import (
    goodman_factor,
    safe_undercut,
    strength_after,
    withdrawal_force,
)
from claspwright.mechanics.ridge import Bed, Sharing, sharing
from claspwright.mechanics.seating import Grip, Ride, Track, crown_track, ride
from claspwright.mechanics.sections import (
    HALF_ROUND_CENTROID,
    HALF_ROUND_I,
    Section,
    circle,
    half_ellipse,
    half_round,
    rectangle,
)
from claspwright.mechanics.solid_distance import mesh_distance, solid_cells
from claspwright.mechanics.solid_fe import Answer, Push, Spring, bear, fixed
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
    "HALF_ROUND_CENTROID",
    "HALF_ROUND_I",
    "Answer",
    "ArmCase",
    "ArmForm",
    "ArmProof",
    "ArmResult",
    "BareArm",
    "BareResult",
    "BasePoints",
    "Bed",
    "Bite",
    "Cells",
    "Choice",
    "CutArm",
    "DentureProof",
    "Elastic",
    "FrameworkFe",
    "Giving",
    "Grip",
    "Hold",
    "Motions",
    "Profiles",
    "Push",
    "Response",
    "Ride",
    "Section",
    "Sharing",
    "SpaceArm",
    "Spring",
    "Sprung",
    "Swing",
    "Track",
    "alloy_of",
    "arc_stiffness_ratio",
    "arm_result",
    "bare_arm",
    "beam_arm",
    "bear",
    "choose_arm",
    "circle",
    "clasp_arm",
    "crown_track",
    "cut_arm",
    "cut_cells",
    "cut_sections",
    "dislodging_load",
    "elasticity",
    "fixed",
    "free_points",
    "goodman_factor",
    "ground_off",
    "half_ellipse",
    "half_ovals",
    "half_round",
    "is_wire",
    "laid_beam",
    "laid_ride",
    "mesh_distance",
    "motions",
    "off_tooth",
    "outlines",
    "own_sections",
    "plan_axes",
    "prove_arm",
    "prove_denture",
    "prove_solid",
    "rectangle",
    "respond",
    "retentive_force",
    "ride",
    "rounds",
    "safe_undercut",
    "seatings",
    "sharing",
    "solid_cells",
    "sprung",
    "strength_after",
    "stresses",
    "tapered_peak",
    "withdrawal_force",
]
