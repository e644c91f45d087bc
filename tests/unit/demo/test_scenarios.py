from __future__ import annotations

import tomllib

import pytest

from claspwright.arch import classify
from claspwright.demo import EIGHT, Scenario, options_for, sheet_for


@pytest.mark.parametrize("case", EIGHT, ids=lambda c: c.name)
def test_each_invented_case_has_the_class_it_is_named_for(case: Scenario) -> None:
    found = classify(case.jaw, case.missing, not_replaced=case.not_replaced)
    assert (found.kennedy_class, found.modifications) == (case.kennedy_class, case.modifications)


def test_the_eight_cover_all_classes_in_both_jaws() -> None:
    assert {(c.jaw, c.kennedy_class) for c in EIGHT} == {
        (jaw, k) for jaw in ("mandible", "maxilla") for k in ("I", "II", "III", "IV")
    }
    assert any(c.kennedy_class == "III" and c.modifications for c in EIGHT)


@pytest.mark.parametrize("case", EIGHT, ids=lambda c: c.name)
def test_the_sheet_says_only_what_cannot_be_proposed(case: Scenario) -> None:
    sheet = tomllib.loads(sheet_for(case, bite=None))
    assert sheet["teeth"]["missing"] == list(case.missing)
    assert sheet["teeth"]["not_replaced"] == list(case.not_replaced)
    assert set(sheet) == {"claspwright", "case", "scans", "teeth"}
    assert set(sheet["scans"]) == {"master", "opposing"}
    assert ("functional_depth_mm" in sheet["teeth"]) == (case.jaw == "mandible")


def test_the_other_jaw_comes_without_third_molars() -> None:
    assert options_for(EIGHT[0]).opposing_missing == (18, 28)
