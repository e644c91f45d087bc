"""Slits between two blocks: no metal hangs down into them, corners and flats stay filled."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import Singles
from claspwright.framework.canvas import Box, Shape
from claspwright.framework.slits import SLIT, bridged, closed, without_blades
from claspwright.framework.terrain import Terrain
from claspwright.geometry import IDENTITY, Field, Grid

STEP = 0.1
COUNT = (60, 8, 60)


def blocks(gap: float) -> Singles:
    """Distance to two blocks, 3 mm high on a floor, with a gap between them [mm]."""
    x = STEP * np.arange(COUNT[0])[:, None, None] - 3.0
    z = STEP * np.arange(COUNT[2])[None, None, :]
    aside, up = gap / 2 - np.abs(x), z - 4.0  # into a block; over its top
    out = np.hypot(np.maximum(aside, 0), np.maximum(up, 0)) + np.minimum(np.maximum(aside, up), 0)
    values = np.minimum(out, z - 1.0)
    return np.broadcast_to(values, COUNT).astype(np.float32)


def ground(gap: float) -> Terrain:
    return Terrain.of(Field(Grid(IDENTITY, np.zeros(3), STEP, COUNT), np.array(blocks(gap))))


@pytest.mark.parametrize(("gap", "stays"), [(0.5 * SLIT, False), (2.0 * SLIT, True)])
def test_metal_stays_out_of_a_narrow_slit_alone(gap: float, stays: bool) -> None:
    there = ground(gap)
    all_metal = np.full(COUNT, -3.0, np.float32)
    whole = Box(tuple(slice(0, n) for n in COUNT), np.zeros(3))  # type: ignore[arg-type]
    cut = without_blades(there, Shape(whole, all_metal)).values[30, 4]
    assert (cut[25] < 0) == stays  # half way down
    assert cut[44] < 0  # over the blocks
    assert (without_blades(there, Shape(whole, all_metal)).values[10, 4, 41:] < 0).all()


def test_closing_leaves_a_flat_where_it_is_and_fills_the_slit() -> None:
    filled = closed(blocks(0.4), 0.5, STEP, 0.1)
    assert filled[8, 4, 40] == pytest.approx(0.0, abs=0.06)
    assert filled[30, 4, 30] < -0.3


def test_heights_are_bridged_over_a_slit_alone() -> None:
    for gap, low in ((0.5, 4.0), (2.0, 1.0)):
        tops = bridged(ground(gap).tops, STEP)
        assert tops[30, 4] == pytest.approx(low, abs=0.1)
