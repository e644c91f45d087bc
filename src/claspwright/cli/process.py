"""`claspwright furnace`: whether a furnace followed its schedule."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from claspwright.cli.outcome import CLEAN, STOPPED


def furnace(
    log: Annotated[Path, typer.Argument(help="CSV file of the logger on the platform.")],
    schedule: Annotated[
        str, typer.Option(help="Schedule (stress-relief-800, anneal-1150) or alloy.")
    ],
    plot: Annotated[Path | None, typer.Option(help="Write the run as a PNG picture.")] = None,
    json_: Annotated[bool, typer.Option("--json", help="One JSON object on stdout.")] = False,
) -> None:
    """Judge a stress-relief run by its log: purge, ramp, soak, cooling, unloading, gas."""
    import json

    from claspwright.app.furnace_run import judge_furnace_log, told

    _, run = judge_furnace_log(log, schedule, plot=plot)
    if json_:
        print(json.dumps(told(run), ensure_ascii=False))
    else:
        print(f"{run.schedule.title}: {'passed' if run.passed else 'failed'}")
        for name, value in told(run).items():
            if isinstance(value, float):
                print(f"  {name}: {value:g}")
        for finding in run.findings:
            print(f"{finding.severity}: {finding.text}")
    raise typer.Exit(CLEAN if run.passed else STOPPED)
