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
    missing: Sequence[int]
    not_replaced: Sequence[int] = ()
    present_abutments: Sequence[int] = ()
    functional_depth_mm: float | None = None
    anterior_tilt_deg: float | None = None
    right_lateral_tilt_deg: float | None = None
    allergies: Sequence[str] = ()
    patient: str = ""
    prescriber: str = ""
    laboratory: str = ""
    prescribed: date | None = None
    due: date | None = None


def sheet_text(answers: Answers, *, master: str, opposing: str = "", bite: str = "") -> str:
    """A sheet that `read_sheet` accepts once the scans lie where it says.

    Args:
        answers: what is known of the case.
        master: file name from the folder of the sheet.
        opposing: the same; empty where there is none.
        bite: the same; empty where there is none.
    """
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
    _add(document, "scans", master=master, opposing=opposing, bite=bite)
    _add(
        document,
        "teeth",
        missing=list(answers.missing),
        not_replaced=list(answers.not_replaced),
        present_abutments=list(answers.present_abutments),
        functional_depth_mm=answers.functional_depth_mm,
    )
    if answers.anterior_tilt_deg is not None or answers.right_lateral_tilt_deg is not None:
        _add(
            document,
            "path",
            anterior_tilt_deg=answers.anterior_tilt_deg or 0.0,
            right_lateral_tilt_deg=answers.right_lateral_tilt_deg or 0.0,
        )
    probed = answers.functional_depth_mm is not None or answers.jaw == "maxilla"
    return tomlkit.dumps(document).rstrip("\n") + "\n" + ("" if probed else _DEPTH_HINT) + _END


_DEPTH_HINT = """
# Under [teeth] still open: functional_depth_mm = ..., the lingual depth that the dentist probes
# with the tongue raised; a scan does not show the moving floor of the mouth.
"""
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
