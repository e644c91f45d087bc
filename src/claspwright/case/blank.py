"""The text of a new sheet from a few answers; what is not answered is left to the proposal."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import tomlkit

from claspwright.arch import Jaw


@dataclass(frozen=True, slots=True)
class Answers:
    """What a technician knows when the work comes in; tooth codes in ISO 3950."""

    case_id: str
    jaw: Jaw
    alloy: str
    master: str  # file name from the folder of the sheet
    missing: Sequence[int]
    not_replaced: Sequence[int] = ()
    present_abutments: Sequence[int] = ()
    opposing: str = ""
    bite: str = ""
    functional_depth_mm: float | None = None
    allergies: Sequence[str] = ()
    patient: str = ""
    prescriber: str = ""
    laboratory: str = ""
    prescribed: date | None = None
    due: date | None = None


def sheet_text(answers: Answers) -> str:
    """A sheet that `read_sheet` accepts once the scans lie where it says."""
    document = tomlkit.document()
    document.add("claspwright", tomlkit.item(1))
    _add(
        document,
        "case",
        id=answers.case_id,
        arch=answers.jaw,
        notation="iso3950",
        alloy=answers.alloy,
        patient=answers.patient,
        prescriber=answers.prescriber,
        laboratory=answers.laboratory,
        prescribed=answers.prescribed,
        due=answers.due,
        allergies=list(answers.allergies),
    )
    _add(document, "scans", master=answers.master, opposing=answers.opposing, bite=answers.bite)
    _add(
        document,
        "teeth",
        missing=list(answers.missing),
        not_replaced=list(answers.not_replaced),
        present_abutments=list(answers.present_abutments),
        functional_depth_mm=answers.functional_depth_mm,
    )
    text = tomlkit.dumps(document).rstrip("\n")
    hints = "" if answers.functional_depth_mm or answers.jaw == "maxilla" else _DEPTH_HINT
    return f"{text}\n{hints}{_END}"


_DEPTH_HINT = (
    "# functional_depth_mm = 9.0   # lingual, probed by the dentist with the tongue raised\n"
)
_END = """
# Left out, and so proposed by `claspwright run`: [[mark]], [path], [major_connector],
# [[retainer]], [[denture_base]]. Copy what you accept from case.proposed.toml.
"""


def _add(document: tomlkit.TOMLDocument, name: str, **values: object) -> None:
    """Add a table with those keys that have a value."""
    table = tomlkit.table()
    for key, value in values.items():
        if value not in ("", None, []):
            table.add(key, tomlkit.item(value))
    document.add(tomlkit.nl())
    document.add(name, table)
