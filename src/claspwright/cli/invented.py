"""`claspwright demo-arch` and `demo`: invented arches and a case made of one."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from claspwright.cli.bar import progress_bar
from claspwright.cli.cases import tell
from claspwright.cli.classes import TOOTH_LIST, Arch, codes
from claspwright.cli.outcome import CLEAN, STOPPED


def demo_arch(
    arch: Arch,
    out: Annotated[Path, typer.Option("--out", "-o", help="Folder for scans and sheet.")],
    missing: Annotated[str, typer.Option(help=f"Absent teeth. {TOOTH_LIST}")] = "",
    not_replaced: Annotated[str, typer.Option(help="Absent teeth that get none.")] = "",
    seed: Annotated[int, typer.Option(help="The same seed gives the same arch.")] = 1,
    crowns: Annotated[
        Path | None, typer.Option(help="Folder of real crowns, PERSON_CODE.ply, to set in the gum.")
    ] = None,
    person: Annotated[str, typer.Option(help="Whose crowns: what stands before the code.")] = "a",
    pose_seed: Annotated[
        int | None, typer.Option(help="Turn and move the scan at random; absent: as built.")
    ] = None,
    noise_um: Annotated[float, typer.Option(min=0.0, help="Scanner noise.")] = 0.0,
    edge_mm: Annotated[float, typer.Option(min=0.08, max=0.6, help="Triangle edge.")] = 0.15,
    unprepared: Annotated[
        bool, typer.Option("--unprepared", help="No rest seats and guiding planes.")
    ] = False,
) -> None:
    """Make an invented arch that looks like a scan, with opposing arch, bite record and sheet."""
    from claspwright.app.demo_arch import DemoWishes, write_demo_arch

    wishes = DemoWishes(
        jaw=arch,
        missing=tuple(codes(missing, "iso3950", "--missing")),
        not_replaced=tuple(codes(not_replaced, "iso3950", "--not-replaced")),
        seed=seed,
        crowns=crowns,
        person=person,
        pose_seed=pose_seed,
        noise_um=noise_um,
        edge_mm=edge_mm,
        prepared=not unprepared,
    )
    with progress_bar("demo-arch") as progress:
        written = write_demo_arch(wishes, out, progress=progress)
    for file in written:
        print(file.as_posix())


def demo(
    out: Annotated[
        Path, typer.Option("--out", "-o", help="Folder for the case and its results.")
    ] = Path("out/demo"),
    scenario: Annotated[
        str, typer.Option(help="Jaw, Kennedy class and modifications of the invented case.")
    ] = "mandible_class_2_mod_1",
    seed: Annotated[int, typer.Option(help="The same seed gives the same case.")] = 1,
) -> None:
    """Make an invented case and work it out; ends with 0 where a framework lies there."""
    from claspwright.app.demo_case import write_demo_case
    from claspwright.app.run_case import run_case

    case, results = out / "case", out / "results"
    with progress_bar("invented case") as progress:
        write_demo_case(scenario, seed, case, progress=progress)
    with progress_bar("main job") as progress:
        result = run_case(case, results, progress=progress)
    print(f"An invented case of nobody: {case.as_posix()}")
    tell(result.folder)
    raise typer.Exit(CLEAN if result.made else STOPPED)
