"""Build preparation: from finished solids to layers, vectors and a platform ready to run."""

from claspwright.build.hatch import Hatches, HatchPlan, hatch
from claspwright.build.slices import (
    LayerPlan,
    Slices,
    layer_count,
    simplified_slices,
    slice_solid,
)

__all__ = [
    "HatchPlan",
    "Hatches",
    "LayerPlan",
    "Slices",
    "hatch",
    "layer_count",
    "simplified_slices",
    "slice_solid",
]
