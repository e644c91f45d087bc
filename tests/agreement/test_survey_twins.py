"""Kernels of the survey and of height fields against plain NumPy and rays."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Field,
    Grid,
    Mesh,
    ball,
    distance_field,
    heights_over,
    merged,
    ray_lengths,
)
from claspwright.survey import _cone_kernels as cone
from claspwright.survey.filling import tapered
from claspwright.survey.surveying import swept_down

UP = np.array([0.0, 0.0, 1.0])


@pytest.fixture(scope="module")
def two_balls() -> Mesh:
    one = ball(2.0, 0.3)
    return merged(one, Mesh(0.6 * one.vertices + [2.6, 1.0, 2.0], one.faces))


@pytest.fixture(scope="module")
def field(two_balls: Mesh) -> Field:
    grid = Grid.around(two_balls.vertices, IDENTITY, 0.2, 1.5)
    return distance_field(DistanceTree(two_balls), grid, 1.5)


def test_sweep_is_a_running_minimum_from_above(field: Field) -> None:
    plain = np.minimum.accumulate(field.values[:, :, ::-1], axis=2)[:, :, ::-1]
    assert np.array_equal(swept_down(field).values, plain)


def test_tapered_sweep_is_the_least_value_above_less_its_taper(field: Field) -> None:
    drop = field.grid.spacing * np.tan(np.radians(5.0))
    steps = drop * np.arange(field.grid.shape[2])
    plain = np.minimum.accumulate((field.values - steps)[:, :, ::-1], axis=2)[:, :, ::-1] + steps
    assert tapered(field, 5.0).values == pytest.approx(plain, abs=1e-5)


@pytest.mark.parametrize("tilt", [0.0, 0.15])
def test_what_blocks_a_way_out_is_the_deepest_of_dense_samples(field: Field, tilt: float) -> None:
    way = np.array([tilt, -0.5 * tilt, 1.0])
    way /= np.linalg.norm(way)
    rng = np.random.default_rng(1)
    points = rng.uniform([-2, -2, -2], [4, 2, 1], (200, 3))
    out = np.empty((len(points), 2), np.float32)
    ways = np.stack([UP, way])
    cone.blocked_by(field.values, field.grid.to_nodes(points), ways, 0.5, field.grid.spacing, out)
    lengths = np.arange(0, 9, 0.01)
    samples = points[:, None] + lengths[None, :, None] * way
    top = field.grid.to_world(np.array([np.array(field.grid.shape) - 1.0]))[0]
    within = (samples >= field.grid.origin).all(axis=2) & (samples <= top).all(axis=2)
    values = field.at(samples.reshape(-1, 3)).reshape(within.shape)
    plain = np.maximum(-np.where(within, values, np.inf).min(axis=1), 0.0)
    off = np.abs(out[:, 1] - plain)
    # steps of half a node, 0.1 mm: the least value lies up to 0.05 mm beside a sample, which is
    # 0.05^2 / (2 * 1.2) mm where the field is round and up to 0.05 mm where it has a cusp
    near = plain < 0.6
    assert (plain > 0.05).sum() > 50
    assert np.quantile(off[near], 0.9) < 0.004
    assert off[near].max() < 0.015
    assert off.max() < 0.05
    assert (out[:, 1] <= plain + 1e-4).all()


@pytest.mark.parametrize("seed", [1, 2])
def test_deepest_part_is_that_of_a_sorted_list(seed: int) -> None:
    rng = np.random.default_rng(seed)
    depth, areas = rng.uniform(0, 1, (60, 5)), rng.uniform(0.01, 0.1, 60)
    found = np.empty(5)
    cone.deepest_of(depth, areas, 0.4, 24, found)
    for d in range(5):
        order = np.argsort(-depth[:, d])
        reached = np.cumsum(areas[order]) >= 0.4
        assert found[d] == depth[order[np.argmax(reached)], d]


def test_guiding_height_is_that_of_bands_counted_one_by_one() -> None:
    rng = np.random.default_rng(3)
    along, graded = rng.uniform(0, 3, (200, 4)), rng.uniform(0, 0.02, (200, 4))
    found = np.empty(4)
    cone.guiding_bands(along, graded, 0.25, 1.0, found)
    for d in range(4):
        middles = along[:, d].min() + 0.25 * np.arange(14)
        share = np.maximum(1 - np.abs(along[:, d, None] - middles) / 0.25, 0.0)
        bands = (graded[:, d, None] * share).sum(axis=0)
        assert found[d] == pytest.approx(0.25 * np.minimum(bands / 0.25, 1.0).sum())


def test_heights_are_where_rays_from_above_land(two_balls: Mesh) -> None:
    grid = Grid.around(two_balls.vertices, IDENTITY, 0.13, 0.5)
    heights = heights_over(two_balls, grid)
    x, y, _ = grid.axes()
    spots = np.stack(np.meshgrid(x, y, [9.0], indexing="ij"), axis=-1).reshape(-1, 3)
    plain = 9.0 - ray_lengths(DistanceTree(two_balls), spots, -UP)
    flat = heights.ravel()
    assert np.array_equal(np.isfinite(flat), np.isfinite(plain))
    hit = np.isfinite(flat)
    assert np.abs(flat[hit] - plain[hit]).max() < 1e-9
