"""The invented case of `claspwright demo`: nobody's teeth, nobody's name."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

from claspwright.app.demo_arch import write_case
from claspwright.base import Progress, silent
from claspwright.case import Answers
from claspwright.demo import Scenario, options_for, scenario


def answers_of(case: Scenario, case_id: str) -> Answers:
    """What a sheet says of an invented case: its teeth and its alloy, no names."""
    return Answers(
        case_id=case_id,
        jaw=case.jaw,
        alloy="cocr-lpbf-stress-relieved",
        missing=case.missing,
        not_replaced=case.not_replaced,
        functional_depth_mm=case.functional_depth_mm,
    )


def write_demo_case(
    name: str, seed: int, folder: Path, *, progress: Progress = silent
) -> list[Path]:
    """Write one of the invented cases with a full prescription; returns its files.

    Raises:
        InputError: there is no such case, or the folder is in use.
    """
    case = scenario(name)
    answers = replace(
        answers_of(case, "DEMO-" + name.upper().replace("_", "-")),
        patient="invented patient",
        prescriber="Dr. A. Invented",
        laboratory="Invented Dental Laboratory",
        prescribed=date(2026, 11, 16),
        due=date(2026, 12, 4),
    )
    return write_case(options_for(case, seed=seed), answers, folder, progress=progress)
