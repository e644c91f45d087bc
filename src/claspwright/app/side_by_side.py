"""Independent pieces of work on several processes, with progress and cancellation."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Executor, Future, wait
from contextlib import contextmanager
from typing import TypeVar

from claspwright.app.processes import begin_loading, end, hushed, pool_of
from claspwright.base import Progress, part

T = TypeVar("T")
R = TypeVar("R")
PROGRAM = "claspwright.app.build_platform"  # that a crew works by
Crew = Executor | None  # None: everything is done in this process


def begin_crew(processes: int, tasks: int, *, elsewhere: bool = False) -> None:
    """Begin to load the program for a crew, beside its being loaded here.

    Args:
        processes: as of `crew_of`.
        tasks: as of `crew_of`.
        elsewhere: whether others do the work; then nothing is begun.
    """
    if not elsewhere and _count(processes, tasks) > 1:
        begin_loading(PROGRAM)


def _count(processes: int, tasks: int) -> int:
    return min(processes or os.cpu_count() or 1, tasks)


@contextmanager
def crew_of(processes: int, tasks: int) -> Iterator[Crew]:
    """Processes that are kept for several rounds of work: each loads the program once.

    Whatever is raised inside stops the processes too.

    Args:
        processes: how many at most; 0: as many as there are cores.
        tasks: how many pieces of work the largest round has.
    """
    count = _count(processes, tasks)
    if count <= 1:
        yield None
        return
    pool = pool_of(count, program=PROGRAM)
    try:
        yield pool
    except BaseException:
        end(pool, patience_s=0.0)
        raise
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def side_by_side(
    work: Callable[[T, Progress], R],
    tasks: Sequence[T],
    *,
    crew: Crew,
    progress: Progress,
    phase: str,
) -> list[R]:
    """work(task, progress) for every task; results in the order of the tasks.

    Without a crew, or for a single task, the work is done here, so that its own progress shows.
    The results do not depend on the number of processes.

    Args:
        work: a function of a module, which another process can find.
        tasks: values that can be pickled.
        crew: who does it.
        progress: told of finished tasks; may cancel.
        phase: what is said of them.
    """
    if crew is None or len(tasks) <= 1:
        n = max(len(tasks), 1)
        return [work(task, part(progress, i / n, (i + 1) / n)) for i, task in enumerate(tasks)]
    with hushed():
        futures = [crew.submit(_quietly, work, task) for task in tasks]
    waiting: set[Future[R]] = set(futures)
    while waiting:
        done, waiting = wait(waiting, timeout=0.5, return_when=FIRST_COMPLETED)
        for one in done:
            one.result()
        progress(1.0 - len(waiting) / len(tasks), phase)
    return [one.result() for one in futures]


def _quietly(work: Callable[[T, Progress], R], task: T) -> R:
    from claspwright.base import silent

    return work(task, silent)
