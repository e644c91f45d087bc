"""Work that kernels do outside the interpreter lock, shared between threads."""

from __future__ import annotations

import os
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor

from claspwright.base import Progress, silent


def in_chunks(
    work: Callable[[int, int], None],
    total: int,
    chunk: int,
    *,
    progress: Progress = silent,
    phase: str = "",
) -> None:
    """Call work(first, last) over range(total) in chunks of a fixed size.

    The chunks do not depend on the number of threads, so neither does the result.
    """
    pieces = [(first, min(first + chunk, total)) for first in range(0, total, chunk)]
    with ThreadPoolExecutor(max(os.cpu_count() or 1, 1)) as pool:
        waiting = [pool.submit(work, first, last) for first, last in pieces]
        try:
            for done, piece in enumerate(waiting):
                piece.result()
                progress((done + 1) / len(waiting), phase)
        except BaseException:
            for piece in waiting:
                piece.cancel()
            raise
