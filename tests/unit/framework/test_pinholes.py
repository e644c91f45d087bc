"""Openings too narrow to be cleaned are closed, others stay."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import Floats, Singles
from claspwright.framework.canvas import Canvas
from claspwright.framework.pinholes import close_pinholes
from claspwright.framework.terrain import Terrain
from claspwright.geometry import IDENTITY, Field, Grid

GRID = Grid(IDENTITY, np.array([-5.0, -5.0, -5.0]), 0.15, (68, 68, 68))
X, Y, Z = np.meshgrid(*GRID.axes(), indexing="ij")


def slope(degrees: float) -> Terrain:
    """A plane through the origin that rises along x."""
    turn = np.radians(degrees)
    values = (Z * np.cos(turn) - X * np.sin(turn)).astype(np.float32)
    return Terrain.of(Field(GRID, values))


def slab(ground: Terrain, hole: Singles, thickness: float = 1.2) -> Canvas:
    """A plate of 7 mm a side on the ground, with an opening where `hole` is negative."""
    edge = np.maximum(np.abs(X), np.abs(Y)) - 3.5
    plate = np.maximum(np.maximum(ground.field.values - thickness, edge), -hole)
    canvas = Canvas(GRID)
    canvas.values[:] = plate.astype(np.float32)
    return canvas


def slot(wide: float, long: float) -> Floats:
    return np.asarray(np.maximum(np.abs(X) - wide / 2, np.abs(Y) - long / 2))


@pytest.mark.parametrize("degrees", [0.0, 45.0])
@pytest.mark.parametrize(("wide", "long"), [(0.3, 0.3), (0.6, 1.5), (0.75, 3.0)])
def test_a_narrow_opening_is_closed_by_a_web_of_some_thickness(
    wide: float, long: float, degrees: float
) -> None:
    ground = slope(degrees)
    canvas = slab(ground, slot(wide, long))
    before = canvas.values.copy()
    assert close_pinholes(ground, canvas) == 1
    off = ground.field.values
    inside = (slot(wide, long) < 0) & (off > 0.0) & (off < 0.6)
    assert (before[inside] > 0).all() and (canvas.values[inside] < 0).all()
    assert not (canvas.values[off > 1.3] < 0).any()  # it rises over nothing
    far = slot(wide, long) > 1.0
    np.testing.assert_array_equal(canvas.values[far], before[far])


@pytest.mark.parametrize("hole", [slot(1.5, 1.5), slot(1.4, 4.0)])
def test_an_opening_that_can_be_cleaned_stays(hole: Floats) -> None:
    ground = slope(0.0)
    canvas = slab(ground, hole)
    before = canvas.values.copy()
    assert close_pinholes(ground, canvas) == 0
    np.testing.assert_array_equal(canvas.values, before)


def test_a_slit_with_metal_over_its_middle_is_closed_all_along() -> None:
    """Seen along the path it is two openings, 2 mm apart."""
    ground = slope(30.0)
    off = ground.field.values
    canvas = slab(ground, slot(0.6, 5.0))
    roof = np.maximum(np.abs(off - 2.0) - 0.4, np.maximum(np.abs(X) - 1.2, np.abs(Y) - 1.0))
    canvas.values[:] = np.minimum(canvas.values, roof).astype(np.float32)
    assert close_pinholes(ground, canvas) == 2
    inside = (slot(0.6, 5.0) < 0) & (off > 0.0) & (off < 0.6)
    assert (canvas.values[inside] < 0).all()


def test_beside_a_cliff_the_web_does_not_run_down_it() -> None:
    """The ground falls by 4 mm, beside the opening."""
    level = Z.astype(np.float32)
    cliff = np.maximum(level, X - 0.42).astype(np.float32)
    ground = Terrain.of(Field(GRID, np.minimum(cliff, level + 4.0)))
    over = np.abs(X) < 3.5
    plate = np.maximum(np.maximum(level - 1.2, -level), np.maximum(np.abs(Y) - 3.5, -slot(0.7, 3)))
    canvas = Canvas(GRID)
    canvas.values[:] = np.where(over, plate, 9.0).astype(np.float32)
    before = canvas.values.copy()
    assert close_pinholes(ground, canvas) == 1
    fresh = (canvas.values < 0) & (before > 0)
    assert fresh[(slot(0.7, 3) < 0) & (ground.field.values > 0.0) & (Z < 0.6) & (Z > 0)].all()
    assert Z[fresh & (ground.field.values > 0.0)].min() > -1.6


def test_a_notch_in_the_border_stays() -> None:
    ground = slope(0.0)
    canvas = slab(ground, np.maximum(np.abs(X) - 0.3, -Y))  # open towards +y
    assert close_pinholes(ground, canvas) == 0


def test_a_window_under_an_arm_that_is_narrow_from_above_alone_stays() -> None:
    """On a wall of 80 degrees: two bars across it, 2.5 mm apart up the wall, posts between."""
    ground = slope(80.0)
    off = ground.field.values
    up = X * np.cos(np.radians(80.0)) + Z * np.sin(np.radians(80.0))
    hole = np.maximum(np.abs(up) - 1.25, np.abs(Y) - 1.5)
    plate = np.maximum(np.maximum(off - 1.0, np.maximum(np.abs(up), np.abs(Y)) - 3.0), -hole)
    canvas = Canvas(GRID)
    canvas.values[:] = plate.astype(np.float32)
    assert close_pinholes(ground, canvas) == 0
