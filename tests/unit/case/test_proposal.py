"""The proposed sheet keeps the user's lines and gives the reason of each added one."""

from __future__ import annotations

from pathlib import Path

import pytest

from claspwright.case import Proposed, mark_lines, parse_sheet, write_proposed
from claspwright.framework import (
    Clasp,
    DentureBase,
    Design,
    MajorConnector,
    Reason,
    Retainer,
)

DESIGN = Design(
    (
        Retainer(35, ("mesial occlusal",), ("distal",), Clasp("I-bar")),
        Retainer(45, ("mesial occlusal",), ("distal",), Clasp("circumferential", "lingual", 0.5)),
        Retainer(44, ("distal occlusal", "mesial occlusal"), (), None, indirect=True),
    ),
    MajorConnector("lingual bar", height_mm=4.5),
    (DentureBase((36, 37)), DentureBase((46, 47))),
    (Reason("retainer.45", "last abutment before\na free end", "common practice"),),
)
PROPOSED = Proposed(
    DESIGN, {35: (1.0, 2.0, 3.0), 45: (4.12345, -5.0, 6.0)}, (2.5, -1.0), "searched"
)
DOTTED = """\
case.alloy = "cocr-cast"  # mine
scans = {master="scans/lower.stl"}
retainer = [ {tooth = 35, rest = ["mesial occlusal"]} ] # also mine
path = {}
[teeth]
missing = [
  36, # first
  37, 46, 47
]"""


@pytest.mark.parametrize("written", ["good", "dotted"])
def test_what_is_proposed_reads_back_as_the_design(folder: Path, good: str, written: str) -> None:
    sheet = parse_sheet(good if written == "good" else DOTTED, folder / "case.toml")
    again = parse_sheet(write_proposed(sheet, PROPOSED), folder / "case.toml")
    assert again.wishes.retainers == DESIGN.retainers
    assert again.wishes.connector == DESIGN.connector
    assert again.wishes.bases == DESIGN.bases
    own = (24.1, -3.2, 6.8) if written == "good" else (1.0, 2.0, 3.0)
    assert again.marks == {35: own, 45: (4.123, -5.0, 6.0)}
    assert again.tilts_deg == (pytest.approx(2.5 if written == "good" else 2.5), -1.0)
    assert again.prescription.jaw == "mandible"


def test_the_lines_of_the_user_stay_as_they_are(folder: Path, good: str) -> None:
    text = write_proposed(parse_sheet(good, folder / "case.toml"), PROPOSED)
    left = iter(text.splitlines())
    changed = 'clasp = { form = "I-bar", side = "buccal", undercut_mm = 0.25 }'  # gets more keys
    for line in good.splitlines():
        if line != changed:
            assert line in left, line
    assert "# by the dentist" in text and "# the lower" in text


def test_every_added_line_says_why(folder: Path, good: str) -> None:
    text = write_proposed(parse_sheet(good, folder / "case.toml"), PROPOSED)
    own = set(good.splitlines())
    for line in text.splitlines():
        assert not line or line in own or "proposed: " in line, line
    assert "# proposed: last abutment before a free end" in text


def test_a_second_proposal_adds_nothing(folder: Path, good: str) -> None:
    text = write_proposed(parse_sheet(good, folder / "case.toml"), PROPOSED)
    assert write_proposed(parse_sheet(text, folder / "case.toml"), PROPOSED) == text


def test_universal_sheets_get_universal_numbers(folder: Path) -> None:
    text = (
        'claspwright = 1\n[case]\narch = "mandible"\nalloy = "cocr-cast"\nnotation = "universal"\n'
        '[scans]\nmaster = "scans/lower.stl"\n[teeth]\nmissing = [19, 18, 30, 31]\n'
    )
    sheet = parse_sheet(text, folder / "case.toml")
    proposed = write_proposed(sheet, PROPOSED)
    assert "tooth = 20  # proposed" in proposed and "teeth = [19, 18]" in proposed
    assert parse_sheet(proposed, folder / "case.toml").wishes.retainers == DESIGN.retainers


def test_mark_lines_are_only_the_missing_marks(folder: Path, good: str) -> None:
    sheet = parse_sheet(good, folder / "case.toml")
    lines = mark_lines(sheet, {35: (0.0, 0.0, 0.0), 34: (1.0, 2.0, 3.0)}, "seen")
    assert parse_sheet(good + lines, folder / "case.toml").marks[34] == (1.0, 2.0, 3.0)
    assert "tooth = 35" not in lines
