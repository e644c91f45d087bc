"""Checks that need a finished design, one rule a function."""

from claspwright.rules.book import (
    FINISHED_RULES,
    PRESCRIPTION_RULES,
    FinishedRule,
    PrescriptionRule,
    check_all,
    check_prescription,
)
from claspwright.rules.context import Facts, Finished

__all__ = [
    "FINISHED_RULES",
    "PRESCRIPTION_RULES",
    "Facts",
    "Finished",
    "FinishedRule",
    "PrescriptionRule",
    "check_all",
    "check_prescription",
]
