"""Errors, findings, progress and array checks: what every layer may use."""

from claspwright.base.arrays import Bools, Floats, Ints, Singles, frozen_floats, frozen_ints
from claspwright.base.errors import (
    Cancelled,
    ClaspwrightError,
    ConvergenceError,
    GeometryError,
    InfeasibleError,
    InputError,
    StaleRecordError,
)
from claspwright.base.findings import Finding, Point, Severity
from claspwright.base.progress import Progress, part, silent

__all__ = [
    "Bools",
    "Cancelled",
    "ClaspwrightError",
    "ConvergenceError",
    "Finding",
    "Floats",
    "GeometryError",
    "InfeasibleError",
    "InputError",
    "Ints",
    "Point",
    "Progress",
    "Severity",
    "Singles",
    "StaleRecordError",
    "frozen_floats",
    "frozen_ints",
    "part",
    "silent",
]
