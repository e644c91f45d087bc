"""Cut a solid into layers and write them in an open format."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from claspwright.app.whole_file import write_whole
from claspwright.base import InputError, Progress, part, silent
from claspwright.build import HatchPlan, LayerPlan, hatch, slice_solid
from claspwright.formats import (
    BuildObject,
    LayeredPart,
    LayerFile,
    read_mesh,
    write_build_3mf,
    write_layer_file,
)
from claspwright.geometry import volume


@dataclass(frozen=True, slots=True)
class SliceWishes:
    """What `claspwright slice` was asked for."""

    layer_um: float
    hatch_um: float | None = None
    binary: bool = False
    unit_um: float = 10.0
    label: str = "part1"


def slice_file(
    solid: Path, out: Path, wishes: SliceWishes, *, progress: Progress = silent
) -> dict[str, Any]:
    """Write the layers of a solid and tell what they are like.

    Plain contours at mid-layer height without beam offset; hatch lines along x where asked. A
    name that ends with .3mf gives the solid with the slice extension, any other a Common Layer
    Interface file.

    Returns:
        Figures for JSON; Any: numbers and words.

    Raises:
        InputError: the file, the layer or the place cannot be used.
        GeometryError: the surface is open.
    """
    suffix = out.suffix.lower()
    if suffix == ".3mf" and (wishes.hatch_um is not None or wishes.binary):
        raise InputError(
            "the slice extension of 3MF holds contours only, as text",
            place=out.name,
            remedy="Leave --hatch-um and --binary out, or write a .cli file.",
        )
    mesh = read_mesh(solid)
    metal = volume(mesh)
    if not metal > 0:
        raise InputError(
            "the solid is inside out or open", place=solid.name, remedy="Turn its faces over."
        )
    plan = LayerPlan(0.001 * wishes.layer_um)
    slices = slice_solid(mesh, plan, progress=part(progress, 0.1, 0.4))
    lines = None
    if wishes.hatch_um is not None:
        lines = hatch(slices, HatchPlan(0.001 * wishes.hatch_um), progress=part(progress, 0.4, 0.7))
    progress(0.7, "writing")
    if suffix == ".3mf":
        one = BuildObject(wishes.label, mesh, slices)
        write_whole(out, lambda file: write_build_3mf([one], file))
    else:
        how = LayerFile("binary" if wishes.binary else "ascii", 0.001 * wishes.unit_um)
        parts = [LayeredPart(wishes.label, (slices,), lines)]
        write_whole(out, lambda file: write_layer_file(parts, file, how))
    progress(1.0, "writing")
    areas = slices.areas()
    return {
        "file": out.as_posix(),
        "layers": slices.layers,
        "layer_um": wishes.layer_um,
        "contours": slices.contours,
        "holes": int(np.count_nonzero(areas < 0)),
        "slice_volume_mm3": round(slices.volume(), 6),
        "solid_volume_mm3": round(metal, 6),
        "hatch_vectors": 0 if lines is None else len(lines.vectors),
        "hatch_length_mm": 0.0 if lines is None else round(float(lines.lengths().sum()), 3),
    }
