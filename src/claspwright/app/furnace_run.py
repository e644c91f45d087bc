"""A furnace's log against its schedule: a file in, a verdict and a plot out."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path
from typing import Any

from claspwright.app.whole_file import write_whole
from claspwright.formats import read_furnace_log
from claspwright.process import FurnaceLog, FurnaceRun, judge_run, schedule
from claspwright.report import furnace_plot


def judge_furnace_log(
    log: Path, schedule_name: str, *, plot: Path | None = None
) -> tuple[FurnaceLog, FurnaceRun]:
    """Read a log, hold it against a schedule, and draw it where a plot is wanted.

    Args:
        log: CSV file of the logger.
        schedule_name: name of a schedule, or of an alloy.
        plot: PNG file to write.

    Raises:
        InputError: the log or the schedule cannot be used.
    """
    wanted = schedule(schedule_name)
    read = read_furnace_log(log)
    run = judge_run(read, wanted)
    if plot is not None:
        write_whole(plot, lambda path: path.write_bytes(furnace_plot(read, run)))
    return read, run


def told(run: FurnaceRun) -> dict[str, Any]:  # Any: a JSON object
    """The verdict as one JSON object."""
    return {
        "schedule": run.schedule.name,
        "passed": run.passed,
        "purge_min": _rounded(run.purge_min),
        "ramp_c_per_h": _rounded(run.ramp_c_per_h),
        "highest_c": _rounded(run.highest_c),
        "soak_min": _rounded(run.soak_min),
        "soak_mean_c": _rounded(run.soak_mean_c),
        "cooling_c_per_h": _rounded(run.cooling_c_per_h),
        "last_c": _rounded(run.last_c),
        "findings": [asdict(finding) for finding in run.findings],
    }


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 1)
