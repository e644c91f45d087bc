"""`claspwright preparation`: what the dentist should still reduce."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from claspwright.cli.bar import progress_bar
from claspwright.cli.options import Case, WorkDay, iso_day
from claspwright.cli.outcome import CLEAN, STOPPED


def preparation(
    case: Case,
    out: Annotated[
        Path | None, typer.Option("--out", "-o", help="Folder for dentist.pdf and the readings.")
    ] = None,
    json: Annotated[bool, typer.Option("--json", help="Answer as JSON.")] = False,
    date: WorkDay = None,
) -> None:
    """Mouth preparation: seats and guiding planes as they are, and what is still to be reduced."""
    from claspwright.app.preparation import preparation as prepare

    with progress_bar(case.name) as progress:
        found = prepare(case, out, date=iso_day(date), progress=progress)
    if json:
        from json import dumps

        print(dumps(dict(found.told), ensure_ascii=False))
    else:
        for n, ask in enumerate(found.told["asks"], 1):
            print(f"{n}. {ask}")
        if not found.told["asks"]:
            print("Every seat and guiding plane that the design asks for is prepared.")
        if out is not None:
            print(f"  {(out / 'dentist.pdf').as_posix()}")
        print("It does not replace the judgement of the licensed dentist.")
    raise typer.Exit(STOPPED if found.stopped else CLEAN)
