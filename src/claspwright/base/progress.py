"""Progress and cancellation, passed in as a keyword by whoever starts the work."""

from __future__ import annotations

from typing import Protocol


class Progress(Protocol):
    """Called with a fraction from 0 to 1, never decreasing, and a phase in words.

    An implementation raises Cancelled to stop the work at that point.
    """

    def __call__(self, fraction: float, phase: str) -> None:
        """Take note of how far the work has come."""


def silent(fraction: float, phase: str) -> None:
    """Report nothing and never cancel."""


def part(progress: Progress, start: float, end: float) -> Progress:
    """Map the progress of a sub-task onto the interval from start to end of the whole."""

    def report(fraction: float, phase: str) -> None:
        progress(start + (end - start) * min(max(fraction, 0.0), 1.0), phase)

    return report
