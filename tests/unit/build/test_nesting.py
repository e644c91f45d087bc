"""Platforms: distances, due dates, determinism, what does not fit."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from shapely.geometry import Point, box

from claspwright.base import InfeasibleError
from claspwright.build import KeepOut, Outline, check_platform, nest
from claspwright.formats import read_machine

ROUND = read_machine("round-100")
GAP = 1.5


def rectangles(count: int, wide: float, tall: float) -> list[Outline]:
    return [
        Outline(f"part {n:02d}", box(-wide / 2, -tall / 2, wide / 2, tall / 2), 10.0)
        for n in range(count)
    ]


def test_parts_keep_their_distance_and_all_are_placed() -> None:
    parts = rectangles(14, 24.0, 18.0)
    platforms = nest(parts, ROUND, GAP, seed=3, moves=60_000)
    assert sorted(p.part for one in platforms for p in one) == list(range(14))
    assert max(len(one) for one in platforms) >= 8  # 8 of 9.5 by area with the gap
    for one in platforms:
        check = check_platform(parts, one, ROUND.platform)
        assert check.least_distance_mm >= GAP
        assert check.least_edge_mm >= ROUND.platform.edge_margin_mm
    assert nest(parts, ROUND, GAP, seed=3, moves=60_000) == platforms


def test_what_is_due_first_comes_first() -> None:
    parts = rectangles(3, 60.0, 50.0)
    dues = ("2026-12-09", "2026-12-01", "")
    parts = [replace(one, due=due) for one, due in zip(parts, dues, strict=True)]
    platforms = nest(parts, ROUND, GAP, moves=60_000)
    assert [[p.part for p in one] for one in platforms] == [[1], [0], [2]]


def test_keep_outs_and_what_is_too_large() -> None:
    hole = KeepOut(0.0, 0.0, 12.0)
    holed = replace(ROUND, platform=replace(ROUND.platform, keep_outs=(hole,)))
    parts = rectangles(2, 30.0, 20.0)
    (one,) = nest(parts, holed, GAP)
    assert check_platform(parts, one, holed.platform).least_keep_out_mm >= 0.0
    with pytest.raises(InfeasibleError, match="does not fit"):
        nest([Outline("disc", Point(0, 0).buffer(49.6), 10.0)], ROUND, GAP)


def test_no_long_side_along_the_blade() -> None:
    parts = rectangles(3, 60.0, 8.0)
    for platform in nest(parts, ROUND, GAP, moves=60_000):
        for place in platform:
            off = abs((place.turn_deg - 90.0 - ROUND.recoater_deg + 90.0) % 180.0 - 90.0)
            assert off >= 5.0


def test_the_check_sees_parts_that_touch() -> None:
    from claspwright.build import Placement

    parts = rectangles(2, 10.0, 10.0)
    near = (Placement(0, 0.0, 0.0, 0.0), Placement(1, 0.0, 10.4, 0.0))
    assert check_platform(parts, near, ROUND.platform).least_distance_mm == pytest.approx(0.4)
    alone = check_platform(parts, near[:1], ROUND.platform)
    assert np.isinf(alone.least_distance_mm)
