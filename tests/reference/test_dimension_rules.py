"""Dimension rules and design geometry against printed values."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.framework import distance_to_fulcrum, fulcrum_line
from claspwright.limits import limit, sheet_thickness


@pytest.mark.reference("ASTM B258, Brown & Sharpe gauge table")
@pytest.mark.parametrize(
    ("gauge", "printed"),
    [(6, 4.115), (18, 1.024), (20, 0.812), (22, 0.644), (24, 0.511), (26, 0.405), (28, 0.321),
     (30, 0.255), (32, 0.202)],
)  # fmt: skip
def test_gauges_are_those_of_the_table(gauge: int, printed: float) -> None:
    assert sheet_thickness(gauge) == pytest.approx(printed, abs=1e-3)


@pytest.mark.reference("30-gauge relief, 6-gauge half-pear bar, 20 to 24 gauge under a lattice")
def test_the_rules_agree_with_the_gauges_that_the_trade_names() -> None:
    assert limit("bar.relief_free_end").value == pytest.approx(sheet_thickness(30), abs=0.01)
    assert limit("bar.height").value == pytest.approx(sheet_thickness(6), abs=0.2)
    assert sheet_thickness(24) <= limit("lattice.relief").value <= sheet_thickness(20)


@pytest.mark.reference("worked example: indirect retainer 15.601 mm from the fulcrum line")
def test_distance_of_an_indirect_retainer() -> None:
    line = (np.array([-22.0, 10.0, 0.0]), np.array([20.0, 12.0, 5.0]))
    distance = distance_to_fulcrum(line, np.array([-14.0, 26.0, 3.0]))
    assert distance == pytest.approx(15.601, abs=5e-4)


@pytest.mark.reference("the fulcrum line runs through the most posterior rests of each side")
def test_the_fulcrum_line_takes_the_hindmost_rests() -> None:
    rests = [
        (45, np.array([20.0, -3.0, 0.0])),
        (44, np.array([17.0, 6.0, 0.0])),
        (35, np.array([-20.0, -2.0, 0.0])),
        (33, np.array([-13.0, 12.0, 0.0])),
    ]
    line = fulcrum_line(rests)
    assert line is not None
    assert line[0][1] == -3.0 and line[1][1] == -2.0
