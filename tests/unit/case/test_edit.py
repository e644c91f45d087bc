"""Changes to a sheet: one decision at a time, comments stay."""

from __future__ import annotations

import tomllib

import pytest

from claspwright.base import InputError
from claspwright.case import (
    with_base,
    with_mark,
    with_retainer,
    with_table,
    without_retainer,
    without_table,
)

SHEET = """claspwright = 1

[case]
alloy = "cocr-lpbf-stress-relieved"  # as ordered

[scans]
master = "lower.stl"

[teeth]
missing = [36, 37, 38]

[[retainer]]  # the dentist's
tooth = 35
rest = "mesial occlusal"  # on the amalgam
clasp = { form = "I-bar", undercut_mm = 0.25 }  # keep it short
"""


def test_a_retainer_is_changed_in_place_and_the_comments_stay():
    new = with_retainer(SHEET, "iso3950", 35, {"clasp": {"undercut_mm": 0.35}, "indirect": True})
    entry = tomllib.loads(new)["retainer"][0]
    assert entry["clasp"] == {"form": "I-bar", "undercut_mm": 0.35}
    assert entry["rest"] == "mesial occlusal" and entry["indirect"] is True
    for comment in ("# as ordered", "# the dentist's", "# on the amalgam", "# keep it short"):
        assert comment in new


def test_a_new_retainer_is_written_in_the_notation_of_the_sheet():
    sheet = SHEET.replace("tooth = 35", "tooth = 20")
    new = with_retainer(sheet, "universal", 45, {"rest": ["cingulum"]})
    assert [entry["tooth"] for entry in tomllib.loads(new)["retainer"]] == [20, 29]
    assert with_retainer(sheet, "universal", 35, {"indirect": True}).count("[[retainer]]") == 1


def test_the_places_of_a_course_come_and_go():
    course = [{"at_share": 0.5, "above_line_mm": 0.4}, {"at_share": 0.7, "above_line_mm": 0.1}]
    new = with_retainer(SHEET, "iso3950", 35, {"clasp": {"course": course}})
    assert tomllib.loads(new)["retainer"][0]["clasp"]["course"] == course
    assert "# keep it short" in new
    again = with_retainer(new, "iso3950", 35, {"clasp": {"course": course[:1]}})
    assert tomllib.loads(again)["retainer"][0]["clasp"]["course"] == course[:1]
    assert with_retainer(again, "iso3950", 35, {"clasp": {"course": None}}) == SHEET


def test_none_takes_a_key_out():
    new = with_retainer(SHEET, "iso3950", 35, {"clasp": None})
    assert "clasp" not in tomllib.loads(new)["retainer"][0]


def test_a_table_comes_and_goes():
    tilts = {"anterior_tilt_deg": 3.0, "right_lateral_tilt_deg": -1.0}
    new = with_table(SHEET, "path", tilts)
    assert tomllib.loads(new)["path"] == tilts
    assert tomllib.loads(without_table(new, "path")) == tomllib.loads(SHEET)


def test_a_mark_is_set_and_moved():
    once = with_mark(SHEET, "iso3950", 34, (1.0, 2.0, 3.00049))
    twice = with_mark(once, "iso3950", 34, (4.0, 5.0, 6.0))
    assert tomllib.loads(once)["mark"] == [{"tooth": 34, "at_mm": [1.0, 2.0, 3.0]}]
    assert tomllib.loads(twice)["mark"] == [{"tooth": 34, "at_mm": [4.0, 5.0, 6.0]}]


def test_taking_out_the_last_retainer_leaves_none():
    assert "retainer" not in tomllib.loads(without_retainer(SHEET, "iso3950", 35))
    with pytest.raises(InputError, match="no retainer on 34"):
        without_retainer(SHEET, "iso3950", 34)


def test_entries_written_as_one_list_can_be_changed():
    inline = 'retainer = [{ tooth = 35, rest = "cingulum" }]\n' + SHEET.split("[[retainer]]")[0]
    new = with_retainer(inline, "iso3950", 35, {"rest": "mesial occlusal"})
    assert tomllib.loads(new)["retainer"] == [{"tooth": 35, "rest": "mesial occlusal"}]


def test_a_base_gets_its_reach_and_stays_the_same_otherwise() -> None:
    text = "claspwright = 1\n\n[[denture_base]]\nteeth = [36, 37]\nrelief_mm = 0.8\n"
    new = with_base(text, "iso3950", (37, 36), {"buccal_reach_mm": 9.0})
    assert tomllib.loads(new)["denture_base"] == [
        {"teeth": [36, 37], "relief_mm": 0.8, "buccal_reach_mm": 9.0}
    ]
    more = with_base(new, "iso3950", (46,), {"lingual_reach_mm": 7.0})
    assert tomllib.loads(more)["denture_base"][1] == {"teeth": [46], "lingual_reach_mm": 7.0}
    fresh = with_base("claspwright = 1\n", "universal", (36,), {"lingual_reach_mm": 7.0})
    assert tomllib.loads(fresh)["denture_base"][0]["teeth"] == [19]
