"""The case sheet: the prescription and the design decisions, read, checked and written."""

from claspwright.case.blank import Answers, sheet_text
from claspwright.case.edit import (
    Given,
    Values,
    with_base,
    with_mark,
    with_retainer,
    with_table,
    without_retainer,
    without_table,
)
from claspwright.case.proposal import Proposed, mark_lines, write_proposed
from claspwright.case.read import SHEET_NAME, parse_sheet, read_sheet
from claspwright.case.schema import schema_text
from claspwright.case.sheet import CaseSheet, Prescription, ScanFiles

__all__ = [
    "SHEET_NAME",
    "Answers",
    "CaseSheet",
    "Prescription",
    "Proposed",
    "ScanFiles",
    "Given",
    "Values",
    "mark_lines",
    "parse_sheet",
    "read_sheet",
    "schema_text",
    "sheet_text",
    "with_base",
    "with_mark",
    "with_retainer",
    "with_table",
    "without_retainer",
    "without_table",
    "write_proposed",
]
