"""What the bench lists of a case: how it stands, what is open, what has become stale."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import Any, Literal

from claspwright.app.bench.laboratory import Laboratory, read_json
from claspwright.app.bench.view_files import VIEW_NAME
from claspwright.app.carry_out import kennedy_of
from claspwright.app.hashes import input_hashes, known_sha256
from claspwright.base import InputError
from claspwright.case import CaseSheet, parse_sheet

Standing = Literal["not worked out", "worked out", "stale", "sheet has errors"]


@dataclass(frozen=True, slots=True)
class CaseLine:
    """One line of the list of cases."""

    name: str
    number: str  # the laboratory's number, from the sheet
    arch: str
    kennedy: str
    due: date | None
    standing: Standing
    stops: int
    looks: int
    mass_g: float | None
    error: str = ""  # of the sheet


def case_lines(lab: Laboratory) -> tuple[CaseLine, ...]:
    """Every case, the one that is due first on top."""
    lines = [case_line(lab, name) for name in lab.case_folders()]
    return tuple(sorted(lines, key=lambda line: (line.due or date.max, line.name)))


def case_line(lab: Laboratory, name: str) -> CaseLine:
    """How one case stands; a sheet with errors is told, not raised."""
    try:
        sheet = lab.sheet_of(name)
        kennedy = str(kennedy_of(sheet))
    except InputError as error:
        return CaseLine(name, name, "", "", None, "sheet has errors", 0, 0, None, str(error))
    summary = summary_of_results(lab, name)
    asked = sheet.prescription
    return CaseLine(
        name,
        asked.case_id,
        asked.jaw,
        kennedy,
        asked.due,
        standing(lab, name, sheet),
        int(summary.get("stops", 0)),
        int(summary.get("looks", 0)),
        summary.get("mass_g"),
    )


def standing(lab: Laboratory, name: str, sheet: CaseSheet) -> Standing:
    """Whether there are results and whether they belong to the sheet and scans as they are."""
    summary = summary_of_results(lab, name)
    if not summary:
        return "not worked out"
    return (
        "worked out"
        if summary["input_hashes"] == input_hashes(sheet, hash_of=known_sha256)
        else "stale"
    )


def summary_of_results(lab: Laboratory, name: str) -> dict[str, Any]:
    """`summary.json` of a case; empty where there are no results."""
    return read_json(lab.results_of(name) / "summary.json") or {}


def findings_of(lab: Laboratory, name: str) -> list[dict[str, Any]]:
    """`findings.json` of a case; empty where there are no results."""
    return read_json(lab.results_of(name) / "findings.json") or []


def view_of(lab: Laboratory, name: str) -> dict[str, Any] | None:
    """What the screen shows of the case as it was last worked out; None where it never was.

    It is kept at hand for the next reader and must not be changed.
    """
    path = lab.kept("view", name, VIEW_NAME)
    try:
        changed_ns = path.stat().st_mtime_ns
    except FileNotFoundError:
        return None
    return _view(path, changed_ns)


def proposed_sheet(lab: Laboratory, name: str) -> CaseSheet | None:
    """The sheet with all that the last run settled; None where there is none."""
    path = lab.results_of(name) / "case.proposed.toml"
    if not path.is_file():
        return None
    return parse_sheet(path.read_text(encoding="utf-8"), lab.folder_of(name) / "case.toml")


@lru_cache(maxsize=12)
def _view(path: Path, changed_ns: int) -> dict[str, Any] | None:
    view: dict[str, Any] | None = read_json(path)
    return view
