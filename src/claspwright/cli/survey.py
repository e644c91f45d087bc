"""`claspwright survey`: the path of placement of a case, with its reasons."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from claspwright.cli.bar import progress_bar
from claspwright.cli.options import Case, WorkDay, iso_day
from claspwright.cli.outcome import CLEAN, STOPPED


def survey(
    case: Case,
    out: Annotated[
        Path | None, typer.Option("--out", "-o", help="Folder for document, maps and readings.")
    ] = None,
    json: Annotated[bool, typer.Option("--json", help="Answer as JSON.")] = False,
    date: WorkDay = None,
) -> None:
    """Survey a case: path of placement, undercuts, guiding planes, transfer to the stone."""
    from claspwright.app.survey_case import survey_case

    with progress_bar(case.name) as progress:
        result = survey_case(
            case, out, date=iso_day(date), progress=progress
        )  # fmt: skip
    if json:
        from json import dumps

        print(dumps(dict(result.told), ensure_ascii=False))
    else:
        for reason in result.told.get("reasons", ()):
            print(reason)
        for finding in result.findings:
            if finding.severity == "stop":
                print(f"stop: {finding.rule}: {finding.text}")
        if out is not None:
            print(f"  {(out / 'survey.pdf').as_posix()}\n  {(out / 'survey.json').as_posix()}")
        print("A computed aid: it does not replace the judgement of the licensed dentist.")
    raise typer.Exit(STOPPED if result.stopped else CLEAN)
