"""A sound sheet is read; a bad one names the line and the remedy."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from claspwright.base import InputError
from claspwright.case import parse_sheet, read_sheet
from claspwright.framework import Clasp, CoursePoint, DentureBase, Retainer, SplintBar

ALLOY = 'alloy = "cocr-lpbf-stress-relieved"'
IN_CLASP = 'side = "buccal", undercut_mm = 0.25'
BAR = '{ form = "I-bar", side = "buccal", undercut_mm = 0.25 }'
BARE = '{ form = "circumferential"'
PLACE = "{ at_share = 0.5, above_line_mm = 0.4 }"
BAD = [
    # what is written instead, the line that is named, words of the message
    (ALLOY, 'aloy = "cocr-cast"', 6, "Did you mean `alloy`?"),
    (ALLOY, "", 3, '`alloy` in [case] is missing. Add alloy = "'),
    (ALLOY, 'alloy = "cocr-casted"', 6, 'Did you mean "cocr-cast"?'),
    ("undercut_mm", "undercut", 26, "Did you mean `undercut_mm`?"),
    ("I-bar", "I bar", 26, 'Did you mean "I-bar"? Known: "circumferential",'),
    ("0.25", "2.5", 26, "`undercut_mm` in [[retainer]] 1, clasp = 2.5 is out of range"),
    ("0.25", '"0.25"', 26, "a number, without quotes"),
    ("teeth = [36, 37]", "teeth = [36, 31]", 32, "tooth 31, which is not missing"),
    ("teeth = [36, 37]", "teeth = [36, 38]", 32, "in a denture base and under `not_replaced`"),
    ("teeth = [36, 37]", "teeth = []", 32, "a list with at least one entry"),
    ("tooth = 45", "tooth = 35", 29, "tooth 35 stands twice"),
    ("tooth = 45", "tooth = 46", 29, "tooth 46 has a retainer, but is missing"),
    ("tooth = 45", "tooth = 15", 29, "stands in the maxilla, but the case is in the mandible"),
    ("tooth = 45", "tooth = 49", 29, "49 is no tooth in ISO 3950"),
    ("tooth = 45", "tooth = 75", 29, "deciduous"),
    ("tooth = 45", "tooth = true", 29, "must be text"),
    (
        "tooth = 45",
        "tooth = 45\n[[splint_bar]]\nteeth = [43, 46]",
        31,
        "a place in a splinting bar",
    ),
    ("tooth = 45", "tooth = 45\n[[splint_bar]]\nteeth = [43]", 31, "a list with at least"),
    ("tooth = 45", "tooth = 45\n[[splint_bar]]\nteeth = [43, 43]", 31, "stands twice"),
    ("[[mark]]", "[mark]", 15, "Write it as [[mark]], once for each."),
    ("24.1, ", "", 17, "Give three numbers in mm"),
    ("24.1", "nan", 17, "a finite number"),
    ("lingual bar", "palatal strap", 20, "belongs into the maxilla"),
    ("lingual bar", "lingual bra", 20, 'Did you mean "lingual bar"?'),
    ("lower.stl", "uper.stl", 9, "there is no file 'scans/uper.stl'"),
    ("claspwright = 1", "claspwright = 2", 1, "this program reads version 1"),
    ('"mandible"', '"lower"', 5, 'Known: "mandible", "maxilla".'),
    ('"mandible"', "mandible", 5, "this is not TOML"),
    ('id = "B-0142"', 'due = "soon"', 4, "a date such as 2026-12-04"),
    ('id = "B-0142"', "id = 142", 4, 'text in quotes, "like this"'),
    ("[teeth]", "[teeht]", 11, "Did you mean `teeth`?"),
    ('form = "lingual bar"', 'form = "a"\nform = "b"', 21, "stands twice"),
    ("[scans]", "[scans]\nmissing = [36]", 9, "`missing` belongs into [teeth]."),
    ("missing = [36, 37, 38, 46, 47, 48]", "missing = 36", 12, "a list in square brackets"),
    ("[[retainer]]\ntooth = 45", "[[retainers]]\ntooth = 45", 22, "TOML|retainer"),
    ("tooth = 45", 'tooth = 45\nindirect = "yes"', 30, "true or false"),
    ("tooth = 45", "tooth = 45\nproximal_plate = 'buccal'", 30, 'Known: "mesial", "distal".'),
    (IN_CLASP, f"{IN_CLASP}, course = [{PLACE}]", 26, "of the form I-bar cannot be prescribed"),
    (BAR, f"{BARE}, course = [{PLACE}, {PLACE}] }}", 26, "do not follow each other"),
    (BAR, f"{BARE}, course = [{PLACE.replace('0.5', '1.5')}] }}", 26, "is out of range"),
    (BAR, f"{BARE}, course = [{{ at_share = 0.5 }}] }}", 26, "above_line_mm"),
]


@pytest.mark.parametrize(("old", "new", "line", "words"), BAD, ids=[row[1][:30] for row in BAD])
def test_a_bad_sheet_names_line_and_remedy(
    folder: Path, good: str, old: str, new: str, line: int, words: str
) -> None:
    assert old in good
    sheet = folder / "case.toml"
    sheet.write_text(good.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_sheet(folder)
    assert any(word in str(caught.value) for word in words.split("|"))
    if "retainers" not in new:
        assert f"{sheet.as_posix()}:{line}: " in f"{caught.value}"
    assert caught.value.remedy


def test_every_problem_is_told_at_once(folder: Path, good: str) -> None:
    text = good.replace("I-bar", "J-bar").replace("-3.2", '"x"')
    with pytest.raises(InputError) as caught:
        parse_sheet(text, folder / "case.toml")
    first, second = str(caught.value).splitlines()
    assert "case.toml:17:" in first and "case.toml:26:" in second


def test_a_sound_sheet_becomes_plain_values(folder: Path) -> None:
    sheet = read_sheet(folder)
    assert sheet.prescription.case_id == "B-0142"
    assert sheet.prescription.missing == (48, 47, 46, 36, 37, 38)
    assert sheet.marks == {35: (24.1, -3.2, 6.8)}
    assert sheet.tilts_deg is None
    assert sheet.wishes.retainers == (
        Retainer(35, ("mesial occlusal",), ("distal",), Clasp("I-bar", "buccal", 0.25)),
        Retainer(45),
    )
    assert sheet.wishes.bases == (DentureBase((36, 37)),)
    assert sheet.wishes.connector is not None and sheet.wishes.connector.form == "lingual bar"


def test_a_form_of_clasp_brings_its_own_sizes(folder: Path, good: str) -> None:
    old = '{ form = "I-bar", side = "buccal", undercut_mm = 0.25 }'
    wire = parse_sheet(good.replace(old, '{ form = "wrought wire" }'), folder / "case.toml")
    assert wire.wishes.retainers[0].clasp == Clasp("wrought wire", "buccal", 0.25, 1.0, 1.0)
    bar = parse_sheet(good.replace(old, '{ form = "T-bar", width_mm = 2 }'), folder / "case.toml")
    clasp = bar.wishes.retainers[0].clasp
    assert clasp == Clasp("T-bar", "buccal", 0.25, 2.0, 1.1, reciprocal=False)


def test_the_course_of_an_arm_is_read(folder: Path, good: str) -> None:
    led = good.replace(BAR, f"{BARE}, course = [{PLACE}] }}")
    clasp = parse_sheet(led, folder / "case.toml").wishes.retainers[0].clasp
    assert clasp is not None and clasp.course == (CoursePoint(0.5, 0.4),)


def test_scans_missing_teeth_and_alloy_are_enough(folder: Path) -> None:
    text = (
        '[case]\nalloy = "cocr-cast"\n[scans]\nmaster = "scans/lower.stl"\n'
        '[teeth]\nmissing = [36, "3.7"]\n'
    )
    sheet = parse_sheet(text, folder / "case.toml")
    assert (sheet.prescription.jaw, sheet.prescription.missing) == ("mandible", (36, 37))
    assert sheet.prescription.case_id == folder.name
    assert {finding.rule for finding in sheet.findings} == {"sheet.version", "sheet.arch"}


def test_universal_numbers_are_converted(folder: Path) -> None:
    text = (
        'claspwright = 1\n[case]\nalloy = "cocr-cast"\nnotation = "universal"\ndue = 2026-12-04\n'
        '[scans]\nmaster = "scans/lower.stl"\n[teeth]\nmissing = [19, 18]\n'
    )
    sheet = parse_sheet(text, folder / "case.toml")
    assert sheet.prescription.missing == (36, 37)  # check-values A06
    assert sheet.prescription.due == date(2026, 12, 4)


@pytest.mark.parametrize(
    ("line", "field", "value"),
    [
        ('retention = "implants"', "retention", "implants"),
        ('base_material = "flexible"', "base_material", "flexible"),
        ('prosthesis = "obturator"', "prosthesis", "obturator"),
    ],
)
def test_cases_out_of_scope_are_recognised(
    folder: Path, good: str, line: str, field: str, value: str
) -> None:
    sheet = parse_sheet(good.replace(ALLOY, f"{ALLOY}\n{line}"), folder / "case.toml")
    assert getattr(sheet.prescription, field) == value


def test_what_is_no_sheet_is_refused(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no case sheet here"):
        read_sheet(tmp_path)
    scan = tmp_path / "lower.stl"
    scan.write_bytes(b"\x00\xff\xfe" * 100)
    with pytest.raises(InputError, match="not UTF-8"):
        read_sheet(scan)


@pytest.mark.parametrize(("undercut", "left_open"), [("", (35,)), (", undercut_mm = 0.5", ())])
def test_a_wire_without_an_undercut_is_left_open(
    folder: Path, good: str, undercut: str, left_open: tuple[int, ...]
) -> None:
    wire = f'clasp = {{ form = "wrought wire"{undercut} }}'
    lines = [wire if line.startswith("clasp =") else line for line in good.splitlines()]
    sheet = folder / "case.toml"
    sheet.write_text("\n".join(lines), encoding="utf-8")
    assert read_sheet(sheet).wishes.open_wires == left_open


def test_splinting_bars_are_read_in_the_order_of_the_arch(folder: Path, good: str) -> None:
    sheet = folder / "case.toml"
    assert parse_sheet(good, sheet).wishes.splints == ()
    more = """
[[splint_bar]]
teeth = [33, 43, 42, 41, 31, 32]
thickness_mm = 1.2

[[splint_bar]]
teeth = [34, 33]
"""
    wishes = parse_sheet(good + more, sheet).wishes
    assert wishes.splints == (
        SplintBar((43, 42, 41, 31, 32, 33), None, 1.2),
        SplintBar((33, 34)),
    )
