"""Processes that work for this one: they end with it, and an interrupt of it does not touch them.

Ctrl-C in a terminal reaches every process that was started from it. The one that was started
decides what is stopped and how; the others are told by it, and end by themselves where it is gone.
"""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
import time
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from multiprocessing.connection import wait
from multiprocessing.context import BaseContext
from multiprocessing.managers import SyncManager

_loading: list[str] = []  # what `begin_loading` was called with


def pool_of(count: int, *, program: str = "") -> ProcessPoolExecutor:
    """A pool of fresh processes; submit to it within `hushed`.

    Args:
        count: how many.
        program: a module that they work by; where `begin_loading` was called with it they are
            copies of the process that has loaded it, else each loads what it needs.
    """
    context: BaseContext = multiprocessing.get_context("spawn")
    if program in _loading:
        context = multiprocessing.get_context("forkserver")
    return ProcessPoolExecutor(count, mp_context=context, initializer=_settle)


def begin_loading(program: str) -> None:
    """Begin to load a module in a process beside this one, for the processes of a pool.

    That process ends with this one. Where processes cannot be copied, nothing is begun.
    """
    if "forkserver" not in multiprocessing.get_all_start_methods():
        return
    from multiprocessing.forkserver import ensure_running, set_forkserver_preload

    set_forkserver_preload([program])
    with hushed():
        ensure_running()
    _loading.append(program)


def manager() -> SyncManager:
    """A process that holds queues and events for a pool."""
    made = SyncManager(ctx=multiprocessing.get_context("spawn"))
    with hushed():
        made.start(_settle)
    return made


@contextmanager
def hushed() -> Iterator[None]:
    """What is started inside hears of no interrupt, not even while it loads the program."""
    if not hasattr(signal, "pthread_sigmask"):  # Windows has none
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def end(pool: ProcessPoolExecutor, *, patience_s: float) -> None:
    """End a pool: what is at work may come to its end so long [s], then it is stopped."""
    own = list((getattr(pool, "_processes", None) or {}).values())
    pool.shutdown(wait=False, cancel_futures=True)
    until = time.monotonic() + patience_s
    for process in own:
        process.join(max(0.0, until - time.monotonic()))
        if process.is_alive():
            process.terminate()
    pool.shutdown(wait=True, cancel_futures=True)


def _settle() -> None:
    """In a fresh process: no interrupts, and an end where the one that started it is gone."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, name="end-with-parent", daemon=True).start()


def _end_with_parent() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        wait([parent.sentinel])
        os._exit(1)
