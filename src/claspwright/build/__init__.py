"""Build preparation: from finished solids to layers, vectors and a platform ready to run."""

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
from claspwright.build.hatch import Hatches, HatchPlan, hatch
from claspwright.build.machine import (
    Beam,
    Costs,
    KeepOut,
    Machine,
    Platform,
    Process,
    SupportPlan,
)
from claspwright.build.offset import layer_polygons, moved_in
from claspwright.build.slices import (
    LayerPlan,
    Slices,
    layer_count,
    simplified_slices,
    slice_solid,
)

__all__ = [
    "Beam",
    "Costs",
    "Exposed",
    "HatchPlan",
    "Hatches",
    "KeepOut",
    "LayerPlan",
    "LayerTimes",
    "Machine",
    "Platform",
    "PlatformEstimate",
    "Process",
    "Slices",
    "SupportPlan",
    "energy_density",
    "expose",
    "exposure_rate",
    "hatch",
    "hatch_plan",
    "job_time",
    "layer_count",
    "layer_polygons",
    "layer_times",
    "moved_in",
    "platform_estimate",
    "simplified_slices",
    "slice_solid",
]
