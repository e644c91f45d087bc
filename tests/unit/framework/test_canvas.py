"""Joining fields: fillets, edges, boxes, sweeps."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import GeometryError
from claspwright.framework.bar import EMBED, pear_section
from claspwright.framework.canvas import (
    TABLE_STEP,
    Canvas,
    Shape,
    box_round,
    oval_sweep,
    plan_distance,
    smooth_cut,
    smooth_union,
)
from claspwright.geometry import IDENTITY, Grid


def grid(half: float = 3.0, spacing: float = 0.1) -> Grid:
    count = round(2 * half / spacing) + 1
    return Grid(IDENTITY, np.full(3, -half), spacing, (count, count, count))


@pytest.mark.parametrize("radius", [0.4, 0.8, 2.0])
def test_the_fillet_between_two_planes_is_the_arc_of_the_radius(radius: float) -> None:
    # solids x < 0 and y < 0: the corner is filled by the arc round (r, r)
    turn = np.linspace(0.01, np.pi / 2 - 0.01, 40)
    for offset in (-0.2, 0.0, 0.2):  # level sets are arcs round the same centre
        x, y = radius - (radius - offset) * np.array([np.cos(turn), np.sin(turn)])
        level = smooth_union(x.astype(np.float32), y.astype(np.float32), radius)
        assert np.allclose(level, offset, atol=2e-6)
    cut = smooth_cut(-x.astype(np.float32), -y.astype(np.float32), radius)
    assert np.allclose(cut, -offset, atol=2e-6)


def test_away_from_the_joint_the_union_is_the_minimum() -> None:
    a, b = (v.astype(np.float32) for v in np.meshgrid(np.linspace(-2, 2, 41), [0.5, 0.9, 2.0]))
    assert np.allclose(smooth_union(a, b, 0.5), np.minimum(a, b), atol=1e-6)
    assert np.array_equal(smooth_union(a, b, 0.0), np.minimum(a, b))
    assert np.all(smooth_union(a, b, 1.5) <= np.minimum(a, b) + 1e-6)  # a fillet only adds


def test_a_canvas_joins_and_cuts() -> None:
    g = grid(2.0)
    x, y, z = np.meshgrid(*g.axes(), indexing="ij")
    box = box_round(g, np.zeros((1, 3)), 1.5)
    away = np.sqrt(x * x + y * y + z * z)[box.slices].astype(np.float32)
    canvas = Canvas(g)
    canvas.add(Shape(box, away - np.float32(1.0)))
    canvas.keep_below(np.zeros(z.shape[:2]))
    field = canvas.field()
    assert field.at(np.array([[0, 0, -0.5]])) < 0 < field.at(np.array([[0, 0, 0.3]]))
    with pytest.raises(GeometryError, match="outside the surveyed volume"):
        box_round(g, np.full((1, 3), 9.0), 0.5)


def test_keeping_below_is_the_cut_by_the_whole_field() -> None:
    g = grid(2.0, 0.1)
    x, y, z = np.meshgrid(*g.axes(), indexing="ij")
    ball = (np.sqrt(x * x + y * y + z * z) - 1.0).astype(np.float32)
    heights = 0.4 + 0.3 * g.axes()[0][:, None] + 0.0 * g.axes()[1][None, :]
    heights[:, :10] = np.inf  # open there
    canvas = Canvas(g)
    canvas.add(Shape(box_round(g, np.zeros((1, 3)), 9.0), ball))
    canvas.keep_below(heights, 0.2)
    over = np.where(np.isfinite(heights)[:, :, None], z - heights[:, :, None], -9.0)
    whole = smooth_cut(ball, over.astype(np.float32), 0.2)
    assert np.abs(canvas.values - whole)[np.abs(whole) < 0.15].max() < 1e-6
    assert np.array_equal(canvas.values < 0, whole < 0)


def test_the_joint_of_a_canvas_is_the_smooth_union() -> None:
    g = grid(1.0, 0.1)
    x, y, _ = (v.astype(np.float32) for v in np.meshgrid(*g.axes(), indexing="ij"))
    for radius in (0.0, 0.5):
        canvas = Canvas(g)
        for flat in (x, y):
            canvas.add(Shape(box_round(g, np.zeros((1, 3)), 5.0), flat), radius)
        assert np.allclose(canvas.values, smooth_union(x, y, radius), atol=1e-6)


def test_an_oval_sweep_has_its_width_and_height() -> None:
    line = np.column_stack([np.linspace(-2, 2, 30), np.zeros(30), np.zeros(30)])
    up = np.tile([0.0, 0.0, 1.0], (30, 1))
    shape = oval_sweep(grid(), line, up, np.full(30, 0.8), np.full(30, 0.5), 0.3)
    canvas = Canvas(grid())
    canvas.add(shape)
    field = canvas.field()
    turn = np.linspace(0, 2 * np.pi, 25)
    on = np.column_stack([np.zeros(25), 0.8 * np.cos(turn), 0.5 * np.sin(turn)])
    # an ellipse is drawn to less than 5 um at a grid of 0.1 mm
    assert np.abs(field.at(on)).max() < 0.005
    assert field.at(np.array([[2.0 + 0.8, 0, 0]]))[0] == pytest.approx(0.0, abs=0.01)  # round end


def test_plan_distance_is_signed_and_fills_by_even_and_odd() -> None:
    square = np.array([[-2, -2], [2, -2], [2, 2], [-2, 2.0]])
    flat = plan_distance(grid(), [square, 0.5 * square])
    x, y, _ = grid().axes()
    node = {(round(a, 1), round(b, 1)): (i, j) for i, a in enumerate(x) for j, b in enumerate(y)}
    assert flat[node[1.5, 0.0]] == pytest.approx(-0.5, abs=1e-5)
    assert flat[node[0.0, 0.0]] == pytest.approx(1.0, abs=1e-5)  # the hole
    assert flat[node[2.3, 2.4]] == pytest.approx(0.5, abs=1e-5)  # off the corner, 3-4-5


@pytest.mark.reference("check-values C22: half-pear, 4 mm high, about 2 mm thick, thickest below")
@pytest.mark.parametrize(("height", "thickness"), [(4.0, 2.0), (3.0, 1.6), (5.0, 2.2)])
def test_the_bar_is_a_half_pear(height: float, thickness: float) -> None:
    section = pear_section(height, thickness)
    table, low = section.table, section.low
    u = low[0] + TABLE_STEP * np.arange(table.shape[0])
    w = low[1] + TABLE_STEP * np.arange(table.shape[1])
    metal = (table < 0) & (w > 0.06)[None, :]
    tall, thick = u[metal.any(axis=1)], w[metal.any(axis=0)]
    assert np.ptp(tall) == pytest.approx(height, abs=3 * TABLE_STEP)
    assert thick.max() == pytest.approx(thickness, abs=1.5 * TABLE_STEP)
    off = np.where(metal.any(axis=1), np.max(np.where(metal, w[None, :], 0), axis=1), 0)
    thickest = u[np.abs(off - off.max()) < 1e-9].mean()
    assert -height / 2 < thickest < -height / 2 + height / 3  # in its lower third
    area = metal.sum() * TABLE_STEP**2
    assert area == pytest.approx(np.pi / 4 * height * thickness, rel=0.15)  # half an ellipse
    assert table[np.argmin(np.abs(u)), np.argmin(np.abs(w + EMBED - 0.1))] < 0  # reaches below
