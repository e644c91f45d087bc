"""Build preparation: from finished solids to layers, vectors and a platform ready to run."""

from claspwright.build._hatch_kernels import CORE, DOWNSKIN, UPSKIN
from claspwright.build.book import BUILD_RULES, BuildRule
from claspwright.build.columns import Column
from claspwright.build.contacts import Contact, find_contacts
from claspwright.build.costing import Share, layer_seconds, shares
from claspwright.build.coupon import Coupon, coupon_rise, strain_from_rise
from claspwright.build.curl import curl, strain_from_coupon
from claspwright.build.distortion import (
    Distortion,
    FitPlace,
    PlaceMoved,
    check_compensation,
    compensated,
    distortion_findings,
    predict_distortion,
    remaining,
)
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
    DistortionPlan,
    KeepOut,
    Machine,
    Platform,
    PrintedScan,
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
from claspwright.build.offset import layer_polygons, moved_in, moved_in_by_steps
from claspwright.build.orientation import (
    Candidate,
    OrientationStudy,
    Weights,
    study_orientations,
)
from claspwright.build.part import Blank, Foresight, ReadyPart, ready_part
from claspwright.build.pose import Pose, angle_from_plate_deg, from_vertical_deg, sphere
from claspwright.build.slices import (
    LayerPlan,
    Slices,
    layer_count,
    placed_slices,
    simplified_slices,
    slice_solid,
)
from claspwright.build.supports import Supports, support

__all__ = [
    "BUILD_RULES",
    "Beam",
    "Blank",
    "BuildRule",
    "CORE",
    "Candidate",
    "Column",
    "Contact",
    "Costs",
    "Coupon",
    "DOWNSKIN",
    "Distortion",
    "DistortionPlan",
    "Exposed",
    "FitPlace",
    "Foresight",
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
    "PlaceMoved",
    "Placement",
    "Platform",
    "PlatformCheck",
    "PlatformEstimate",
    "Pose",
    "PrintedScan",
    "Process",
    "ReadyPart",
    "Share",
    "Slices",
    "SupportPlan",
    "Supports",
    "UPSKIN",
    "Weights",
    "angle_from_plate_deg",
    "check_compensation",
    "check_platform",
    "compensated",
    "coupon_rise",
    "curl",
    "distortion_findings",
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
    "moved_in_by_steps",
    "nest",
    "of_kind",
    "outline_of",
    "placed_slices",
    "platform_estimate",
    "predict_distortion",
    "ready_part",
    "remaining",
    "shares",
    "signs",
    "simplified_slices",
    "slice_solid",
    "sphere",
    "strain_from_coupon",
    "strain_from_rise",
    "study_orientations",
    "support",
    "tag",
]
