"""Work that kernels do outside the interpreter lock, shared between threads."""

from __future__ import annotations

import os
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import TypeVar

from claspwright.base import Progress, silent

T = TypeVar("T")
U = TypeVar("U")


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
    if len(pieces) == 1:
        work(*pieces[0])
        progress(1.0, phase)
        return
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


def from_chunks(
    work: Callable[[int, int], T],
    total: int,
    chunk: int,
    *,
    progress: Progress = silent,
    phase: str = "",
) -> list[T]:
    """What work(first, last) gives for the chunks of range(total), the first chunk first."""
    found: dict[int, T] = {}

    def one(first: int, last: int) -> None:
        found[first] = work(first, last)

    in_chunks(one, total, chunk, progress=progress, phase=phase)
    return [found[first] for first in sorted(found)]


def beside(one: Callable[[], T], other: Callable[[], U]) -> tuple[T, U]:
    """What both give, worked out at the same time where their kernels leave the lock."""
    with ThreadPoolExecutor(1) as pool:
        waiting = pool.submit(one)
        given = other()
        return waiting.result(), given
