"""`claspwright frame`: a case to its solid, without the report."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from claspwright.cli.bar import progress_bar
from claspwright.cli.options import Case
from claspwright.cli.outcome import CLEAN, STOPPED


def frame(
    case: Case,
    out: Annotated[Path, typer.Option("--out", "-o", help="Folder for the results.")],
    json_: Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")] = False,
) -> None:
    """Make the framework of a case: solid, blocked-out model, components; no report."""
    import json

    from claspwright.app.frame_case import frame_case

    with progress_bar(case.name) as progress:
        result = frame_case(case, out, progress=progress)
    text = (out / "components.json").read_text(encoding="utf-8")
    if json_:
        print(text, end="")
    else:
        told = json.loads(text)
        made = told["framework"]
        if made is None:
            print("No framework was made.")
        else:
            parts = len(told["components"])
            print(f"{made['major_connector']}, {parts} components, {made['volume_mm3']:.0f} mm3")
            print(f"  {(out / 'framework.3mf').as_posix()}\n  {(out / 'framework.stl').as_posix()}")
        for finding in result.findings:
            if finding.severity == "stop":
                print(f"stop: {finding.rule}: {finding.text}")
        print("The rules were asked; a report comes with `claspwright run`.")
    raise typer.Exit(STOPPED if result.stopped else CLEAN)
