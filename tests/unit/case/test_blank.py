"""A new sheet is a sound sheet; the published schema accepts what the program accepts."""

from __future__ import annotations

import json
import tomllib
from datetime import date
from pathlib import Path

import jsonschema
import pytest

from claspwright.case import Answers, parse_sheet, schema_text, sheet_text

ANSWERS = Answers(
    "B-7",
    "mandible",
    "cocr-cast",
    [36, 37],
    allergies=["nickel"],
    anterior_tilt_deg=-3.5,
    prescriber='Dr. "Q" \\ Invented',
    due=date(2026, 12, 4),
)


def test_a_new_sheet_reads_back(folder: Path) -> None:
    text = sheet_text(ANSWERS, master="scans/lower.stl")
    sheet = parse_sheet(text, folder / "case.toml")
    assert sheet.prescription.prescriber == ANSWERS.prescriber
    assert sheet.prescription.allergies == ("nickel",)
    assert sheet.tilts_deg == (-3.5, 0.0)
    assert "functional_depth_mm" in text  # asked for, though not known yet


def test_the_schema_accepts_sound_sheets_and_refuses_unknown_keys(good: str) -> None:
    schema = json.loads(schema_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    sheet = json.loads(json.dumps(tomllib.loads(good), default=str))
    jsonschema.validate(sheet, schema)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({**sheet, "clasp": []}, schema)
