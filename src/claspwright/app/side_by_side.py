"""Independent pieces of work on several local processes, with progress and cancellation."""

from __future__ import annotations

import multiprocessing
import os
from collections.abc import Callable, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from typing import TypeVar

from claspwright.base import Progress, part

T = TypeVar("T")
R = TypeVar("R")


def side_by_side(
    work: Callable[[T, Progress], R],
    tasks: Sequence[T],
    *,
    processes: int,
    progress: Progress,
    phase: str,
) -> list[R]:
    """work(task, progress) for every task; results in the order of the tasks.

    A single task or process is done here, so that its own progress shows. The results do not
    depend on the number of processes. Whatever stops the waiting stops the processes too.

    Args:
        work: a function of a module, which another process can find.
        tasks: values that can be pickled.
        processes: how many at most; 0: as many as there are cores.
        progress: told of finished tasks; may cancel.
        phase: what is said of them.
    """
    count = min(processes or os.cpu_count() or 1, len(tasks))
    if count <= 1:
        n = max(len(tasks), 1)
        return [work(task, part(progress, i / n, (i + 1) / n)) for i, task in enumerate(tasks)]
    pool = ProcessPoolExecutor(count, mp_context=multiprocessing.get_context("spawn"))
    try:
        waiting: set[Future[R]] = set()
        futures = [pool.submit(_quietly, work, task) for task in tasks]
        waiting.update(futures)
        while waiting:
            done, waiting = wait(waiting, timeout=0.5, return_when=FIRST_COMPLETED)
            for one in done:
                one.result()
            progress(1.0 - len(waiting) / len(tasks), phase)
        return [one.result() for one in futures]
    except BaseException:
        own = list((getattr(pool, "_processes", None) or {}).values())
        pool.shutdown(wait=False, cancel_futures=True)
        for process in own:
            process.terminate()
        raise
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _quietly(work: Callable[[T, Progress], R], task: T) -> R:
    from claspwright.base import silent

    return work(task, silent)
