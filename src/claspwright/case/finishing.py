"""Finishing as the sheet tells it."""

from __future__ import annotations

from claspwright.case.model import Sheet
from claspwright.process import FinishingPlan


def finishing_of(sheet: Sheet) -> FinishingPlan:
    """The steps of finishing and what is masked; none where the sheet says nothing."""
    asked = sheet.finishing
    if asked is None:
        return FinishingPlan()
    return FinishingPlan(tuple(dict.fromkeys(asked.steps)), tuple(dict.fromkeys(asked.masked)))
