"""`claspwright slice` and `build`: from solids to layers and platforms."""

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


def build(
    sources: Annotated[
        list[Path],
        typer.Argument(help="Cases to be worked out, result folders of `run`, or closed solids."),
    ],
    machine: Annotated[
        str, typer.Option("--machine", "-m", help="Name of a machine record, or a TOML file.")
    ],
    out: Annotated[Path, typer.Option("--out", "-o", help="Folder for the build.")],
    process: Annotated[
        str, typer.Option("--process", "-p", help="Name of a process record, or a TOML file.")
    ] = "cocr-25um",
    seed: Annotated[int, typer.Option(help="The same seed gives the same platforms.")] = 1,
    orientation: Annotated[
        int, typer.Option(min=1, max=20, help="Which of the best orientations; 1 is the best.")
    ] = 1,
    processes: Annotated[
        int, typer.Option(min=0, help="Parts worked on side by side; 0: one for each core.")
    ] = 0,
    scheduler: Annotated[
        str,
        typer.Option(help="Address of a Dask scheduler, as tcp://127.0.0.1:8786, instead."),
    ] = "",
    layer_files: Annotated[
        bool, typer.Option("--layer-files/--no-layer-files", help="Write the layer files.")
    ] = True,
    distortion: Annotated[
        bool,
        typer.Option("--distortion", help="Predict distortion at rests and clasp tips (minutes)."),
    ] = False,
    compensate: Annotated[
        bool,
        typer.Option(
            "--compensate",
            help="Draw the shape changed against it; needs a coupon and scans of printed "
            "frameworks in the process record.",
        ),
    ] = False,
    rings: Annotated[
        bool,
        typer.Option("--rings", help="Tie the tips of the two arms of a clasp by a bar."),
    ] = False,
    json_: Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")] = False,
) -> None:
    """Prepare platforms: orientation, supports, nesting, layers, times, build sheet."""
    import json

    from claspwright.app.side_by_side import begin_crew

    begin_crew(processes, len(sources), elsewhere=bool(scheduler))
    from claspwright.app.build_platform import BuildWishes, build_platforms
    from claspwright.cli.outcome import CLEAN, STOPPED

    wishes = BuildWishes(
        machine,
        process,
        seed,
        processes,
        orientation - 1,
        layer_files,
        distortion,
        compensate,
        rings,
        scheduler,
    )
    with progress_bar("build") as progress:
        result = build_platforms(sources, out, wishes, progress=progress)
    if json_:
        print((out / "build.json").read_text(encoding="utf-8"), end="")
    else:
        told = json.loads((out / "build.json").read_text(encoding="utf-8"))
        for one in told["platforms"]:
            names = ", ".join(part["part"] for part in one["parts"])
            print(f"{one['title']}: {one['estimate']['total_h']:.2f} h, {names}")
        for name, finding in result.findings:
            print(f"{finding.severity}: {name}: {finding.text}")
        print("The layer files have not been validated on any machine.")
        print(out.as_posix())
    raise typer.Exit(STOPPED if result.stopped else CLEAN)


def coupon(
    rise_mm: Annotated[
        float | None,
        typer.Option(help="Measured rise of the free end after the cut; up is positive."),
    ] = None,
    out: Annotated[
        Path | None, typer.Option("--out", "-o", help="Write the coupon as STL to print.")
    ] = None,
    process: Annotated[
        str, typer.Option("--process", "-p", help="Name of a process record, or a TOML file.")
    ] = "cocr-25um",
    length_mm: Annotated[float, typer.Option(help="Along the bridge.")] = 60.0,
    width_mm: Annotated[float, typer.Option(help="Across it.")] = 5.0,
    height_mm: Annotated[float, typer.Option(help="Of the bridge above its legs.")] = 3.0,
    legs: Annotated[int, typer.Option(min=2, help="Legs under the bridge.")] = 12,
    leg_mm: Annotated[float, typer.Option(help="Length of a leg along the bridge.")] = 2.5,
    leg_height_mm: Annotated[float, typer.Option(help="Height of the legs.")] = 3.0,
    json_: Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")] = False,
) -> None:
    """Coupon that calibrates distortion: its solid, and the strain from its measured rise."""
    import json

    from claspwright.app.print_coupon import coupon_told
    from claspwright.build import Coupon

    asked = Coupon(length_mm, width_mm, height_mm, legs, leg_mm, leg_height_mm)
    with progress_bar("coupon") as progress:
        told = coupon_told(asked, process, rise_mm, out, progress=progress)
    if json_:
        print(json.dumps(told, ensure_ascii=False))
        return
    print(f"Rise by the start value {told['record_strain']:g}: {told['record_rise_mm']:.3f} mm")
    if rise_mm is not None:
        print(f"strain = {told['strain']:.6f}")
        print("Enter it under [distortion] of the process record and name the coupon there.")
    if out is not None:
        print(out.as_posix())
