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
from claspwright.rules.proof import (
    WORDS,
    arm_findings,
    bite_findings,
    choice_finding,
    lifting_findings,
    solid_findings,
)
from claspwright.rules.thickness import START as THICKEST_BALL_MM
from claspwright.rules.thickness import thickness_at

__all__ = [
    "FINISHED_RULES",
    "PRESCRIPTION_RULES",
    "Facts",
    "Finished",
    "FinishedRule",
    "THICKEST_BALL_MM",
    "PrescriptionRule",
    "WORDS",
    "arm_findings",
    "bite_findings",
    "check_all",
    "check_prescription",
    "choice_finding",
    "lifting_findings",
    "solid_findings",
    "thickness_at",
]
