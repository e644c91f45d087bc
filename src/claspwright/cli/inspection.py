"""`claspwright fit`: a scan of the finished metal against its design."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from claspwright.cli.bar import progress_bar
from claspwright.cli.options import (
    Case,
    EnteredBy,
    EnteredOn,
    Instrument,
    Into,
    IntoFiles,
)
from claspwright.cli.outcome import CLEAN, STOPPED


def fit(
    design: Annotated[Path, typer.Argument(help="The design, mm: STL, PLY or OBJ.")],
    scan: Annotated[Path, typer.Argument(help="The scan, mm; whole or a part, in any pose.")],
    out: Annotated[
        Path | None,
        typer.Option(
            "--out", "-o",
            help="File of signed deviations at the scan's vertices, .ply or .csv "
            "[default: SCAN-deviation.ply in this folder].",
        ),
    ] = None,
    areas: Annotated[
        Path | None, typer.Option(help=r"TOML file of \[\[area]]: told alone; reference aligns.")
    ] = None,
    limits: Annotated[Path | None, typer.Option(help="TOML file of own acceptance limits.")] = None,
    json_: Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")] = False,
    into: Into = "",
    part_id: Annotated[str, typer.Option("--part", help="Id of the framework, to enter it.")] = "",
    instrument: Instrument = "",
    by: EnteredBy = "",
    on: EnteredOn = "",
    into_files: IntoFiles = "",
) -> None:  # fmt: skip
    """Align a scan with a design from any pose; deviation positive where the scan lies outside."""
    import json

    from claspwright.app.fit_scan import fit_scan, told, write_deviation

    file = out or Path(f"{scan.stem}-deviation.ply")
    with progress_bar(scan.name) as progress:
        found = fit_scan(design, scan, areas=areas, limits=limits, progress=progress)
    write_deviation(found, file)
    if into:
        from claspwright.app.enter_runs import Inspected, enter_fit
        from claspwright.records import Signed, open_register

        with open_register(into, files=into_files) as opened:
            seen = Inspected(part_id, instrument, design, scan, file)
            enter_fit(opened, seen, found, Signed(by, on))
    answer = told(found, file)
    if json_:
        print(json.dumps(answer, ensure_ascii=False))
    else:
        print(f"Aligned by the {answer['aligned_by']}: {answer['overlap_share']:.0%} overlap")
        for name in ("bias_um", "mean_abs_um", "rms_um", "sd_um", "p95_um"):
            print(f"{name}: {answer[name]:.1f}")
        for one in found.regions:
            if one.figures is not None:
                print(f"{one.name}: trueness {one.figures.bias_um:.1f}, precision "
                      f"{one.figures.sd_um:.1f} um, {one.figures.count} points")  # fmt: skip
        for finding in found.findings:
            print(f"{finding.severity}: {finding.component} {finding.text}")
        print(file.as_posix())
    raise typer.Exit(STOPPED if found.stopped else CLEAN)


def seat(
    design: Annotated[Path, typer.Argument(help="The design, mm, in the master's frame.")],
    scan: Annotated[Path, typer.Argument(help="Scan of the finished metal, mm, in any pose.")],
    master: Annotated[Path, typer.Argument(help="Scan of the master model, mm.")],
    areas: Annotated[
        Path,
        typer.Option(help=r"TOML file of \[\[area]]: one a rest; springs = true on clasp tips."),
    ],
    path: Annotated[
        tuple[float, float, float], typer.Option(help="Way out of the mouth, three numbers.")
    ],
    noise_um: Annotated[float, typer.Option(min=0.0, help="Noise of the scan.")] = 10.0,
    limits: Annotated[Path | None, typer.Option(help="TOML file of own acceptance limits.")] = None,
    json_: Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")] = False,
    into: Into = "",
    part_id: Annotated[str, typer.Option("--part", help="Id of the framework, to enter it.")] = "",
    instrument: Instrument = "",
    by: EnteredBy = "",
    on: EnteredOn = "",
    into_files: IntoFiles = "",
) -> None:
    """Set the scanned metal down on the model: gap under each rest, contacts, rocking."""
    import json

    from claspwright.app.seat_scan import SeatingWishes, seat_scan, told

    wishes = SeatingWishes(path, noise_um)
    with progress_bar(scan.name) as progress:
        found = seat_scan(
            (design, scan, master), areas, wishes, limits=limits, progress=progress
        )  # fmt: skip
    if into:
        from claspwright.app.enter_runs import Inspected, enter_seating
        from claspwright.records import Signed, open_register

        with open_register(into, files=into_files) as opened:
            seen = Inspected(part_id, instrument, design, scan)
            enter_seating(opened, seen, found, Signed(by, on))
    answer = told(found)
    if json_:
        print(json.dumps(answer, ensure_ascii=False))
    else:
        print(f"{'Rests' if answer['settled'] else 'Found no rest'}; tilt {answer['tilt_deg']} deg")
        for rest in answer["rests"]:
            print(
                f"{rest['name']}: mean gap {rest['mean_gap_um']:.0f} um "
                f"(+-{2 * rest['uncertainty_um']:.0f})"
            )
        for press in answer["rocking"]:
            print(f"pressed at {press['at_mm']}: gives way by {press['play_um']:.0f} um")
        for finding in found.findings:
            print(f"{finding.severity}: {finding.component} {finding.text}")
    raise typer.Exit(STOPPED if found.stopped else CLEAN)


def areas(
    case: Case,
    out: Annotated[Path, typer.Option("--out", "-o", help="TOML file to write.")],
) -> None:
    """Name rests, springing arm tips and all components of a case, for `fit` and `seat`."""
    from claspwright.app.case_areas import areas_text
    from claspwright.app.whole_file import write_whole
    from claspwright.app.worked_areas import case_areas

    with progress_bar(case.name) as progress:
        found, regions, path = case_areas(case, progress=progress)
    text = areas_text(found, path, regions)
    write_whole(out, lambda place: place.write_text(text, encoding="utf-8"))
    print(f"{len(found)} areas, {len(regions)} regions; path {path[0]} {path[1]} {path[2]}")
