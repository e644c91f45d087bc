"""Ordinary preparations agree with the eight cases that were prepared by hand."""

from __future__ import annotations

import pytest

from claspwright.app.preparations import ordinary_preparations
from claspwright.demo import EIGHT, Scenario


@pytest.mark.parametrize("case", EIGHT, ids=[case.name for case in EIGHT])
def test_guiding_planes_face_the_gaps(case: Scenario) -> None:
    seats, planes = ordinary_preparations(case.jaw, case.missing)
    assert planes == dict(case.planes)
    assert set(planes) <= set(seats)  # each abutment beside a gap is rested on


def test_a_free_end_is_rested_at_the_mesial_and_a_whole_side_on_its_molar() -> None:
    seats, planes = ordinary_preparations("maxilla", (25, 26, 27))
    assert seats == {24: ("mesial",), 23: ("cingulum",), 16: ("mesial",)}
    assert planes == {24: ("distal",)}
