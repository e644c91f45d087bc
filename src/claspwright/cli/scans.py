"""`claspwright compare-scans` and `rescan`: two scans of one arch."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from claspwright.cli.bar import progress_bar
from claspwright.cli.options import Case
from claspwright.cli.outcome import CLEAN, STOPPED


def compare_scans(
    old: Annotated[Path, typer.Argument(help="Mesh file, or a case: its master, teeth named.")],
    new: Annotated[Path, typer.Argument(help="Mesh file of the same arch, any unit and pose.")],
    json: Annotated[bool, typer.Option("--json", help="Answer as JSON.")] = False,
) -> None:
    """Compare two scans of one arch: was the new one needed, which teeth changed, where."""
    from claspwright.app.two_scans import as_json, compared

    with progress_bar(new.name) as progress:
        found = compared(old, new, progress=progress)
    if json:
        from json import dumps

        print(dumps(as_json(found), ensure_ascii=False))
    else:
        print(f"overlap {found.overlap:.0%}, rms {found.rms_mm:.3f} mm, p95 {found.p95_mm:.3f} mm")
        for finding in found.findings:
            print(f"{finding.severity}: {finding.text}")
    raise typer.Exit(STOPPED if any(f.severity == "stop" for f in found.findings) else CLEAN)


def rescan(
    case: Case,
    new: Annotated[Path, typer.Argument(help="New scan of the same arch, any unit and pose.")],
    out: Annotated[
        Path | None, typer.Option("--out", "-o", help="Folder for the case as it is now.")
    ] = None,
    in_place: Annotated[
        bool,
        typer.Option(
            "--in-place", help="Change the case itself; scan and sheet as they were stay."
        ),
    ] = False,
    json: Annotated[bool, typer.Option("--json", help="Answer as JSON.")] = False,
) -> None:
    """Take a new scan into a case: marks and places carried over, what changed is told."""
    from claspwright.app.two_scans import as_json, rescanned
    from claspwright.base import InputError

    if in_place == (out is not None):
        raise InputError(
            "the case goes either to a new folder or stays where it is",
            remedy="Give --out FOLDER or --in-place.",
        )
    with progress_bar(case.name) as progress:
        found = rescanned(case, new, out, progress=progress)
    if json:
        from json import dumps

        answer = as_json(found.comparison)
        answer["folder"] = found.folder.as_posix()
        answer["moved_marks"] = list(found.moved_marks)
        answer["lost_marks"] = list(found.lost_marks)
        print(dumps(answer, ensure_ascii=False))
    else:
        for finding in found.findings:
            print(f"{finding.severity}: {finding.text}")
        folder = found.folder.as_posix()
        print(f"  {folder}\nNow: claspwright run {folder} --out results")
