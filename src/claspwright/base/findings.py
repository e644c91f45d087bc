"""Findings: the outcome of one rule, as a value."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Severity = Literal["stop", "look", "note"]
Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Finding:
    """What one rule found: a measured value against a limit, at a place, with its source.

    `stop` must not go on, `look` needs a person's judgement, `note` is for the record.
    """

    rule: str  # stable id of the rule, such as "rest.thickness"
    severity: Severity
    text: str  # one sentence in words of the trade, with what to do
    source: str  # where the limit comes from, with its honesty mark
    measured: float | str | None = None
    limit: float | str | None = None
    unit: str = ""
    at_mm: Point | None = None  # arch frame inside the program; scan frame in files
    component: str = ""  # component id, such as "clasp.35.buccal"
