"""The invented case of `claspwright demo`: nobody's teeth, nobody's name."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from claspwright.app.demo_arch import write_case
from claspwright.base import Progress, silent
from claspwright.case import Answers
from claspwright.demo import options_for, scenario


def write_demo_case(
    name: str, seed: int, folder: Path, *, progress: Progress = silent
) -> list[Path]:
    """Write one of the invented cases with a full prescription; returns its files.

    Raises:
        InputError: there is no such case, or the folder is in use.
    """
    case = scenario(name)
    answers = Answers(
        case_id="DEMO-" + name.upper().replace("_", "-"),
        jaw=case.jaw,
        alloy="cocr-lpbf-stress-relieved",
        missing=case.missing,
        not_replaced=case.not_replaced,
        functional_depth_mm=case.functional_depth_mm,
        patient="invented patient",
        prescriber="Dr. A. Invented",
        laboratory="Invented Dental Laboratory",
        prescribed=date(2026, 11, 16),
        due=date(2026, 12, 4),
    )
    return write_case(options_for(case, seed=seed), answers, folder, progress=progress)
