"""Dimension rules: reading, judging, honesty marks."""

import pytest

from claspwright.base import InputError
from claspwright.limits import MARKS, Limit, limit, limits


def test_every_rule_has_a_source_a_mark_and_a_default_that_it_accepts() -> None:
    for key, rule in limits().items():
        assert rule.key == key
        assert rule.source and rule.title and rule.unit
        assert rule.mark in MARKS
        verdict = rule.judge(rule.value)
        assert verdict is None or verdict[0] == "note", f"default of {key} breaks its own rule"


@pytest.mark.reference("conflict list, lingual bar to gingiva: warn below 4, fail below 3 mm")
@pytest.mark.parametrize(
    ("measured", "severity"), [(2.9, "stop"), (3.0, "look"), (3.9, "look"), (4.0, None)]
)
def test_bar_to_margin_follows_the_conflict_list(measured: float, severity: str | None) -> None:
    verdict = limit("bar.margin").judge(measured)
    assert (verdict[0] if verdict else None) == severity


@pytest.mark.reference("conflict list, lingual depth: below 7 plate, 7 to 8 warn, from 8 bar")
@pytest.mark.parametrize(("depth", "severity"), [(6.9, "stop"), (7.5, "look"), (8.0, None)])
def test_functional_depth_follows_the_conflict_list(depth: float, severity: str | None) -> None:
    verdict = limit("bar.functional_depth").judge(depth)
    assert (verdict[0] if verdict else None) == severity


def test_an_unknown_rule_names_the_known_ones() -> None:
    with pytest.raises(InputError, match="rest.thickness"):
        limit("rest.colour")


def test_thresholds_out_of_order_are_refused() -> None:
    with pytest.raises(InputError, match="out of order"):
        Limit("a", "a", "mm", 1.0, "s", "own", stop_below=2.0, look_below=1.0)
