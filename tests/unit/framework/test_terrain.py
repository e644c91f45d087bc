"""The ground on fields with a closed form."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.framework.canvas import box_round
from claspwright.framework.terrain import Terrain
from claspwright.geometry import IDENTITY, Field, Grid

NORMAL = np.array([0.36, -0.48, 0.8])  # a unit vector


def terrain(kind: str) -> Terrain:
    grid = Grid(IDENTITY, np.array([-5.0, -5, -4]), 0.2, (51, 51, 41))
    x, y, z = np.meshgrid(*grid.axes(), indexing="ij")
    if kind == "slope":
        values = NORMAL[0] * x + NORMAL[1] * y + NORMAL[2] * z
    else:
        values = np.sqrt(x * x + y * y + z * z) - 3.0
    return Terrain.of(Field(grid, values.astype(np.float32)))


def test_a_slope_is_exact() -> None:
    ground = terrain("slope")
    spots = np.random.default_rng(3).uniform(-2, 2, (40, 3))
    assert np.allclose(ground.distance(spots), spots @ NORMAL, atol=1e-5)
    assert np.allclose(ground.normal(spots), NORMAL, atol=1e-5)
    assert np.allclose(ground.settle(spots, 0.3) @ NORMAL, 0.3, atol=1e-5)
    assert np.allclose(
        ground.settle(spots) - spots, -(spots @ NORMAL)[:, None] * NORMAL, atol=1e-4
    )  # along the normal
    plan = spots[:, :2]
    assert np.allclose(ground.height(plan), -(plan @ NORMAL[:2]) / NORMAL[2], atol=1e-4)
    assert np.isnan(ground.height(np.array([[30.0, 0.0]]))).all()


def test_on_every_second_node_points_are_still_asked_about_on_all() -> None:
    ground = terrain("ball")
    coarse = ground.coarser()
    assert coarse.grid.spacing == 2 * ground.grid.spacing
    assert np.array_equal(coarse.field.values, ground.field.values[::2, ::2, ::2])
    spots = np.random.default_rng(5).uniform(-3, 3, (40, 3))
    assert np.array_equal(coarse.distance(spots), ground.distance(spots))
    assert np.array_equal(coarse.settle(spots), ground.settle(spots))
    assert np.array_equal(coarse.height(spots[:, :2]), ground.height(spots[:, :2]), equal_nan=True)
    alone = Terrain.of(coarse.field)
    assert np.abs(alone.distance(spots) - ground.distance(spots)).max() > 0.002


def test_a_profile_runs_over_the_surface_in_even_steps() -> None:
    ground = terrain("ball")
    line = ground.profile(np.array([0.0, 0.0]), np.array([3.0, 4.0]), 2.9)
    steps = np.linalg.norm(np.diff(line, axis=0), axis=1)
    assert np.ptp(steps) < 0.005 and steps.mean() == pytest.approx(0.1, abs=0.005)
    assert np.allclose(np.linalg.norm(line, axis=1), 3.0, atol=0.02)
    assert np.allclose(line[:, 0] * 4, line[:, 1] * 3, atol=1e-9)
    along = np.arccos(line[-1, 2] / np.linalg.norm(line[-1])) * 3.0
    assert steps.sum() == pytest.approx(along, abs=0.03)  # arc of the great circle


def test_a_profile_ends_where_the_model_ends() -> None:
    line = terrain("ball").profile(np.zeros(2), np.array([1.0, 0.0]), 5.0)
    assert 2.7 < line[-1, 0] <= 3.0
    assert len(terrain("ball").profile(np.array([4.0, 4.0]), np.array([1.0, 0.0]), 1.0)) == 0


def test_settling_on_a_ball_goes_to_the_nearest_point() -> None:
    ground = terrain("ball")
    way = np.random.default_rng(4).normal(size=(30, 3))
    way /= np.linalg.norm(way, axis=1, keepdims=True)
    assert np.allclose(ground.settle(3.4 * way), 3.0 * way, atol=0.02)
    assert np.allclose(ground.normal(3.0 * way), way, atol=0.02)


def waxed() -> Terrain:
    """Tissue at z = 0.05 with 0.8 mm of wax on it for x > 0.07, in the field that relief makes."""
    grid = Grid(IDENTITY, np.array([-3.0, -2, -2]), 0.2, (31, 21, 26))
    x, _, z = np.meshgrid(*grid.axes(), indexing="ij")
    return Terrain.of(
        Field(grid, (z - 0.05 - np.clip(z - 0.05 + x - 0.07, 0.0, 0.8)).astype(np.float32))
    )


def test_the_distance_off_a_relieved_surface_is_counted_from_the_surface_itself() -> None:
    ground = waxed()
    box = box_round(ground.grid, np.array([[-1.5, -1.0, 0.1], [1.5, 1.0, 2.0]]), 0.0)
    off = ground.off_surface(box)
    i, j, k = (box.low[n] + 0.2 * np.arange(box.shape[n]) for n in range(3))
    x, _, z = np.meshgrid(i, j, k, indexing="ij")
    beside, over = x - 0.07, z - 0.85
    wall = np.hypot(beside, np.maximum(over, 0.0))
    true = np.where(beside > 0, over, np.minimum(z - 0.05, wall))
    far = true > 0.3
    assert np.abs(off - true)[far].max() < 0.08  # an edge between nodes is cut off
    assert np.abs(ground.field.values[box.slices] - true)[far].max() > 0.3  # the field is not
    assert np.all((off > 0) == (ground.field.values[box.slices] > 0))


def test_the_nearest_crossing_is_found_or_none() -> None:
    ground = terrain("ball")
    spots = np.array([[0.0, 0.0, 3.6], [2.0, 1.0, 3.0]])
    feet = ground.nearest(spots)
    assert np.linalg.norm(feet, axis=1) == pytest.approx([3.0, 3.0], abs=0.01)
    gaps = np.linalg.norm(spots - feet, axis=1)
    assert gaps == pytest.approx(np.linalg.norm(spots, axis=1) - 3.0, abs=0.02)
    grid = Grid(IDENTITY, np.zeros(3), 0.2, (9, 9, 9))
    air = Terrain.of(Field(grid, np.ones(grid.shape, np.float32)))
    assert np.isinf(air.nearest(np.array([[0.5, 0.5, 0.5]]))).all()
