"""The case sheet: the prescription and the design decisions, read, checked and written."""

from claspwright.case.read import SHEET_NAME, parse_sheet, read_sheet
from claspwright.case.sheet import CaseSheet, DesignWishes, Prescription, ScanFiles

__all__ = [
    "SHEET_NAME",
    "CaseSheet",
    "DesignWishes",
    "Prescription",
    "ScanFiles",
    "parse_sheet",
    "read_sheet",
]
