"""The line of a bar: fair, on its surface or spanning a corner, drawn out at its ends."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import Floats
from claspwright.framework import default_connector
from claspwright.framework.bar import (
    EMBED,
    BarLine,
    Turn,
    _height_below,
    bridged,
    faired,
    lay_bar,
    pear_section,
    turned,
)
from claspwright.framework.canvas import section_sweep
from claspwright.framework.ground import Ground
from claspwright.framework.terrain import Terrain
from claspwright.geometry import IDENTITY, Field, Grid, arc_lengths, resampled, smoothed, tangents


@pytest.fixture(scope="module")
def corner() -> Terrain:
    """Upright walls x = 0 and y = 0 that meet at a right angle; the room is x > 0, y > 0."""
    grid = Grid(IDENTITY, np.array([-3.0, -3.0, -4.0]), 0.2, (120, 120, 41))
    x, y, _ = np.meshgrid(*grid.axes(), indexing="ij", sparse=True)
    flat = np.minimum(x, y) + np.zeros(grid.shape)
    return Terrain(Field(grid, flat.astype(np.float32)), np.zeros(grid.shape[:2], np.float32))


def along_the_corner() -> Floats:
    down = np.arange(16.0, 0.0, -0.4)
    first = np.column_stack([np.zeros(len(down)), down, np.zeros(len(down))])
    return np.vstack([first, first[::-1, [1, 0, 2]]])


def radii(line: Floats) -> Floats:
    turn = np.linalg.norm(np.diff(tangents(line), axis=0), axis=1)
    return np.diff(arc_lengths(line)) / np.maximum(turn, 1e-9)


def test_a_corner_is_spanned_in_a_fair_curve(corner: Terrain) -> None:
    line = along_the_corner()
    assert radii(line).min() < 1.0
    for _ in range(16):
        line = faired(corner, line)
    line = bridged(corner, smoothed(line, 2.0))
    off = corner.distance(line)
    assert radii(line).min() > 2.0
    assert off.min() > -0.05 and 0.4 < off.max() < EMBED
    assert np.all(off[arc_lengths(line) < 8.0] < 0.1)  # away from the corner it lies on the wall


WALL = [(2.0, 3.0), (2.0, 0.0), (5.0, -4.0), (5.0, -9.0)]  # out, height: crown, slope, upright


@pytest.mark.parametrize(
    ("first", "last"),
    [(0.0, 12.0), (2.5, 12.0), (4.5, 12.0), (0.0, 9.0)],
    ids=["begun on the crown", "at the margin", "below it", "cut off by the edge of the scan"],
)
def test_the_height_of_a_bar_is_counted_from_the_margin(first: float, last: float) -> None:
    """The margin at 0.5: 0.5 down the upright wall, 5 down the slope, the rest upright again."""
    whole = resampled(np.array([(out, 0.0, z) for out, z in WALL]), 0.05)
    down = arc_lengths(whole)
    profile = whole[(down >= first) & (down <= last)]
    asked = 0.5 - 0.5 - 4.0 - 1.5  # 7 mm
    slack = 1.3 if first > 3.0 else 0.06  # what is not seen of the slope is taken as upright
    assert _height_below(profile, 0.5, 7.0) == pytest.approx(asked, abs=slack)


def test_of_one_point_no_height_is_told() -> None:
    assert np.isnan(_height_below(np.zeros((1, 3)), 0.5, 7.0))


def test_a_line_inside_the_surface_is_raised(corner: Terrain) -> None:
    y = np.arange(4.0, 16.0, 0.4)
    line = np.column_stack([-0.3 * np.exp(-((y - 10.0) ** 2) / 3), y, 0 * y])
    assert corner.distance(line).min() < -0.25
    assert corner.distance(bridged(corner, line)).min() > -0.05


@pytest.mark.parametrize("last", [True, False])
def test_an_end_is_drawn_out_into_what_it_joins(corner: Terrain, last: bool) -> None:
    y = np.arange(2.0, 18.0, 0.4)
    wall = np.column_stack([0 * y, y, 0 * y])
    line = wall if last else wall[::-1]
    bar = BarLine(line, np.ones(len(line)), np.ones(len(line)))
    end = np.array([0.0, 17.0, 3.0])
    turn = Turn(end, np.array([0.0, 0.0, 1.0]), np.array([0.0, 13.0, 0.0]), 0.4, 0.75)
    done = turned(corner, bar, turn, last)
    tip = -1 if last else 0
    assert np.linalg.norm(done.line[tip] - end) < 0.05
    assert (done.height_share[tip], done.thickness_share[tip]) == pytest.approx((0.4, 0.75))
    shares = done.height_share if last else done.height_share[::-1]
    assert np.all(np.diff(shares) <= 1e-9) and shares[0] == 1.0  # narrower towards the end only
    assert radii(done.line).min() > 1.0
    arrives = tangents(done.line)[tip] * (1.0 if last else -1.0)
    assert arrives @ turn.along > 0.9


@pytest.mark.reference("C22: half-pear, thickest in the lower third (Stratton & Wiebelt 1988)")
def test_nine_sections_have_their_weight_below_the_middle(corner: Terrain) -> None:
    y = np.arange(2.0, 18.0, 0.4)
    line = np.column_stack([0 * y, y, 0 * y])  # tangent +y, off the wall +x: across is -z
    normal = np.tile([1.0, 0.0, 0.0], (len(y), 1))
    shape = section_sweep(corner.grid, line[::-1], normal, pear_section(4.0, 2.0))
    x, ys, z = corner.grid.axes()
    here = shape.box.slices
    out = (x[here[0]] > 0)[:, None] & np.ones(shape.box.shape[2], bool)
    heights = np.broadcast_to(z[here[2]][None, :], out.shape)
    for at in np.linspace(4.0, 16.0, 9):
        n = int(np.argmin(np.abs(ys[here[1]] - at)))
        metal = (shape.values[:, n, :] < 0) & out
        assert metal.sum() * 0.2**2 == pytest.approx(6.3, rel=0.2)  # half an ellipse of 4 by 2
        assert heights[metal].mean() < 0.5 * (heights[metal].min() + heights[metal].max()) - 0.1


@pytest.mark.parametrize("way", [1, -1])
def test_a_bar_hangs_thick_side_down_whichever_way_it_is_laid(corner: Terrain, way: int) -> None:
    """On the lip side the line runs the other way round its surface than on the tongue side."""
    y = np.arange(4.0, 16.0, 0.4)[::way]
    line = np.column_stack([0 * y, y, 0 * y])
    ground = Ground(None, None, corner, corner, corner, {}, {})  # type: ignore[arg-type]
    bar = BarLine(line, np.ones(len(line)), np.ones(len(line)))
    piece = lay_bar(ground, bar, default_connector("labial bar"))
    x, _, z = corner.grid.axes()
    here = piece.shape.box.slices
    inside = (piece.shape.values < 0) & (x[here[0]] > 0)[:, None, None]
    heights = np.broadcast_to(z[here[2]], inside.shape)[inside]
    assert heights.size > 500 and heights.mean() < -0.15
