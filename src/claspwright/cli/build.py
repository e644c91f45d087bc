"""`claspwright slice`: from solids to layers."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from claspwright.cli.bar import progress_bar


def slice_(
    solid: Annotated[Path, typer.Argument(help="A closed solid in mm: STL, PLY or OBJ.")],
    layer_um: Annotated[float, typer.Option(min=0.1, help="Thickness of a layer.")],
    out: Annotated[
        Path,
        typer.Option("--out", "-o", help="Layer file; a name with .3mf gives the slice extension."),
    ],
    binary: Annotated[bool, typer.Option("--binary", help="Binary instead of ASCII.")] = False,
    hatch_um: Annotated[
        float | None, typer.Option(min=1.0, help="Fill with lines along x at this spacing.")
    ] = None,
    unit_um: Annotated[float, typer.Option(min=0.1, help="Unit of the layer file.")] = 10.0,
    label: Annotated[str, typer.Option(help="Name of the part in the layer file.")] = "part1",
    json_: Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")] = False,
) -> None:
    """Cut a solid into layers: plain contours at mid-layer height, no beam offset."""
    import json

    from claspwright.app.slice_solid import SliceWishes, slice_file

    wishes = SliceWishes(layer_um, hatch_um, binary, unit_um, label)
    with progress_bar(solid.name) as progress:
        told = slice_file(solid, out, wishes, progress=progress)
    if json_:
        print(json.dumps(told, ensure_ascii=False))
        return
    print(f"{told['layers']} layers of {layer_um:g} um, {told['contours']} contours")
    print(f"Volume by layers {told['slice_volume_mm3']} mm3, solid {told['solid_volume_mm3']} mm3")
    if hatch_um is not None:
        print(f"{told['hatch_vectors']} hatch vectors, {told['hatch_length_mm']:.1f} mm")
    print(told["file"])
