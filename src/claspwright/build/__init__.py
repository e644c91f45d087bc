"""Build preparation: from finished solids to layers, vectors and a platform ready to run."""

from claspwright.build._hatch_kernels import CORE, DOWNSKIN, UPSKIN
from claspwright.build.contacts import Contact, find_contacts
from claspwright.build.costing import Share, layer_seconds, shares
from claspwright.build.curl import curl, strain_from_coupon
from claspwright.build.estimate import (
    LayerTimes,
    PlatformEstimate,
    energy_density,
    exposure_rate,
    job_time,
    layer_times,
    platform_estimate,
)
from claspwright.build.exposure import Exposed, expose, hatch_plan
from claspwright.build.hatch import Hatches, HatchPlan, hatch, of_kind
from claspwright.build.islands import Island, Overhang, find_islands, find_overhangs
from claspwright.build.label import labelled, signs, tag
from claspwright.build.machine import (
    Beam,
    Costs,
    KeepOut,
    Machine,
    Platform,
    Process,
    SupportPlan,
)
from claspwright.build.nesting import (
    Outline,
    Placement,
    PlatformCheck,
    check_platform,
    nest,
    outline_of,
)
from claspwright.build.offset import layer_polygons, moved_in
from claspwright.build.orientation import (
    Candidate,
    OrientationStudy,
    Weights,
    study_orientations,
)
from claspwright.build.part import Blank, ReadyPart, ready_part
from claspwright.build.pose import Pose, angle_from_plate_deg, from_vertical_deg, sphere
from claspwright.build.slices import (
    LayerPlan,
    Slices,
    layer_count,
    placed_slices,
    simplified_slices,
    slice_solid,
)
from claspwright.build.supports import Column, Supports, support

__all__ = [
    "Beam",
    "Blank",
    "CORE",
    "Candidate",
    "Column",
    "Contact",
    "Costs",
    "DOWNSKIN",
    "Exposed",
    "HatchPlan",
    "Hatches",
    "Island",
    "KeepOut",
    "LayerPlan",
    "LayerTimes",
    "Machine",
    "OrientationStudy",
    "Outline",
    "Overhang",
    "Placement",
    "Platform",
    "PlatformCheck",
    "PlatformEstimate",
    "Pose",
    "Process",
    "ReadyPart",
    "Share",
    "Slices",
    "SupportPlan",
    "Supports",
    "UPSKIN",
    "Weights",
    "angle_from_plate_deg",
    "check_platform",
    "curl",
    "energy_density",
    "expose",
    "exposure_rate",
    "find_contacts",
    "find_islands",
    "find_overhangs",
    "from_vertical_deg",
    "hatch",
    "hatch_plan",
    "job_time",
    "labelled",
    "layer_count",
    "layer_polygons",
    "layer_seconds",
    "layer_times",
    "moved_in",
    "nest",
    "of_kind",
    "outline_of",
    "placed_slices",
    "platform_estimate",
    "ready_part",
    "shares",
    "signs",
    "simplified_slices",
    "slice_solid",
    "sphere",
    "study_orientations",
    "strain_from_coupon",
    "support",
    "tag",
]
