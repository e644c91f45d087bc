"""How long each stage took and how much memory the run needed."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import psutil


class Watch:
    """Seconds by stage, in the order in which the stages began."""

    def __init__(self) -> None:
        self._seconds: dict[str, float] = {}
        self._start = time.perf_counter()

    @contextmanager
    def stage(self, name: str) -> Iterator[None]:
        """Count the time inside towards a stage."""
        start = time.perf_counter()
        self._seconds.setdefault(name, 0.0)
        try:
            yield
        finally:
            self._seconds[name] += time.perf_counter() - start

    def report(self) -> dict[str, Any]:  # Any: numbers and a table of numbers, for JSON
        """Stage seconds, their total and the peak memory of this process."""
        return {
            "stage_seconds": {name: round(value, 3) for name, value in self._seconds.items()},
            "total_seconds": round(time.perf_counter() - self._start, 3),
            "peak_memory_mib": round(peak_memory_bytes() / 2**20, 1),
        }


def peak_memory_bytes() -> int:
    """Highest resident memory of this process so far."""
    if sys.platform == "win32":
        return int(psutil.Process().memory_info().peak_wset)
    import resource

    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return int(peak) if sys.platform == "darwin" else int(peak) * 1024
