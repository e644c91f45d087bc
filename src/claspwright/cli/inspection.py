"""`claspwright fit`: a scan of the finished metal against its design."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from claspwright.cli.bar import progress_bar
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
        Path | None, typer.Option(help="TOML file of [[area]]: reported alone; reference aligns.")
    ] = None,
    limits: Annotated[Path | None, typer.Option(help="TOML file of own acceptance limits.")] = None,
    json_: Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")] = False,
) -> None:  # fmt: skip
    """Align a scan with a design from any pose; deviation positive where the scan lies outside."""
    import json

    from claspwright.app.fit_scan import fit_scan, told, write_deviation

    file = out or Path(f"{scan.stem}-deviation.ply")
    with progress_bar(scan.name) as progress:
        found = fit_scan(design, scan, areas=areas, limits=limits, progress=progress)
    write_deviation(found, file)
    answer = told(found, file)
    if json_:
        print(json.dumps(answer, ensure_ascii=False))
    else:
        print(f"Aligned by the {answer['aligned_by']}: {answer['overlap_share']:.0%} overlap")
        for name in ("bias_um", "mean_abs_um", "rms_um", "sd_um", "p95_um"):
            print(f"{name}: {answer[name]:.1f}")
        for finding in found.findings:
            print(f"{finding.severity}: {finding.component} {finding.text}")
        print(file.as_posix())
    raise typer.Exit(STOPPED if found.stopped else CLEAN)
