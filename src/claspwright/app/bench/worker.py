"""What a process of the pool does with one job."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, Final

from claspwright.app.bench import register_jobs
from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.later_stages import (
    build,
    compare_with_master,
    inspect,
    judge_furnace,
    make_papers,
    prepare,
    print_coupon,
    prove,
    rescan,
    survey,
)
from claspwright.app.bench.live import note_stages
from claspwright.app.bench.view_files import write_view
from claspwright.app.bench.worked import compare, keep_state
from claspwright.app.hashes import input_hashes
from claspwright.app.memory import FolderMemory
from claspwright.app.run_case import run_case
from claspwright.app.work import Work
from claspwright.base import Cancelled, Progress
from claspwright.report import ReportContent

_LEAST_S = 0.1  # between two words on the progress

Wish = Mapping[str, Any]  # Any: a JSON object, checked where it was asked for


def _work_out(lab: Laboratory, case: str, wish: Wish, progress: Progress) -> None:
    """The main job on a case, with the view of it for the screen."""
    folder = lab.folder_of(case)
    inputs = input_hashes(lab.sheet_of(case))

    memory = FolderMemory(lab.kept("stages"))

    def also(work: Work, content: ReportContent) -> None:
        write_view(lab.kept("view", case), work, content, inputs=inputs)
        note_stages(lab, case, memory)
        keep_state(lab, case, work, content, inputs)

    run_case(folder, lab.results_of(case), memory=memory, also=also, progress=progress)


LAB_TASKS: Final[dict[str, Callable[[Laboratory, str, Wish, Progress], None]]] = {
    "check the register": register_jobs.check,
    "back up": register_jobs.backup,
    "export": register_jobs.export,
    "restore": register_jobs.restore,
    "read the certificate": register_jobs.certificate,
}  # of no case
TASKS: Final[dict[str, Callable[[Laboratory, str, Wish, Progress], None]]] = {
    **LAB_TASKS,
    "work out": _work_out,
    "survey": survey,
    "compare the scans": compare_with_master,
    "coupon": print_coupon,
    "prove": prove,
    "prepare": prepare,
    "build": build,
    "furnace": judge_furnace,
    "inspect": inspect,
    "papers": make_papers,
    "rescan": rescan,
    "compare": compare,
}


def do_task(root: Path, case: str, task: str, wish: Wish, ways: tuple[str, Any, Any]) -> None:
    """Do one job.

    Args:
        root: the laboratory's folder.
        case: its case; empty for one of `LAB_TASKS`.
        task: one of `TASKS`.
        wish: what else was asked for.
        ways: number of the job, and a queue and an event that a manager process holds (Any).

    Raises:
        Cancelled: the event was set.
    """
    number, told, stop = ways
    last = 0.0

    def progress(fraction: float, phase: str) -> None:
        nonlocal last
        now = time.monotonic()
        if now - last < _LEAST_S and fraction < 1.0:
            return
        last = now
        if stop.is_set():
            raise Cancelled("stopped from the bench")
        told.put((number, fraction, phase))

    progress(0.0, "begins")
    TASKS[task](Laboratory(root), case, wish, progress)
