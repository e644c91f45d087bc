"""Lattices and straps end within the scan, evenly, whatever its border is like."""

from __future__ import annotations

from types import SimpleNamespace
from typing import cast

import numpy as np
import pytest
from shapely.geometry import Polygon, box

from claspwright.framework.ground import Ground
from claspwright.framework.lattice import LEAST_KEPT, NARROWEST, _on_scan
from claspwright.framework.scanned import off_walls, room_beside
from claspwright.framework.terrain import Terrain
from claspwright.geometry import IDENTITY, Field, Grid

GRID = Grid(IDENTITY, np.array([-10.0, -10.0, -1.0]), 0.25, (81, 81, 9))
FLAT = Terrain.of(Field(GRID, np.meshgrid(*GRID.axes(), indexing="ij")[2].astype(np.float32)))


def test_the_room_beside_a_crest_is_even_and_within_a_ragged_border() -> None:
    x = np.linspace(-8.0, 8.0, 33)
    teeth = 5.0 + 0.8 * (np.arange(33) % 2)  # a border that jumps every half millimetre
    seen = Polygon([*zip(x, teeth, strict=True), (8.0, -9.0), (-8.0, -9.0)])
    crest = np.column_stack([np.linspace(-6.0, 6.0, 25), np.zeros((25, 2))])
    aside = np.tile([0.0, 1.0, 0.0], (25, 1))
    room = room_beside(FLAT, seen, crest, aside, 3.0, 0.5)
    assert 4.5 < room.min() <= room.max() < 5.2
    assert np.ptp(room) < 0.2
    nothing = room_beside(FLAT, box(50, 50, 51, 51), crest, aside, 3.0, 0.5)
    assert np.array_equal(nothing, np.zeros(25))


def test_a_free_end_is_drawn_back_to_where_the_rails_lie_on_the_scan() -> None:
    part = np.ones(40, np.bool_)
    room = np.full(40, 5.0)
    room[-3:] = NARROWEST
    assert _on_scan(part, [False, True], room).sum() == 37
    assert _on_scan(part, [True, False], room).sum() == 40  # that end is a tooth
    assert _on_scan(part, [False, True], np.zeros(40)).sum() == int(LEAST_KEPT * 40)


@pytest.mark.parametrize(("wall_at", "kept"), [(-7.0, False), (0.0, True)])
def test_walls_are_kept_off_near_the_border_of_the_scan_only(wall_at: float, kept: bool) -> None:
    x = GRID.axes()[0]
    tops = np.repeat(np.where(x < wall_at, 0.0, 8.0)[:, None], 81, axis=1).astype(np.float32)
    ground = SimpleNamespace(blocked=SimpleNamespace(tops=tops), grid=GRID)
    seen = box(-9.0, -9.0, 9.0, 9.0)
    level = off_walls(cast(Ground, ground), seen)
    assert seen.contains(level)
    assert level.contains(box(wall_at - 0.2, -2.0, wall_at + 0.2, 2.0)) is kept
    assert level.area > 0.75 * seen.area
