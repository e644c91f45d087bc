"""Values between nodes, held to scipy's interpolation."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.ndimage import map_coordinates

from claspwright.geometry import IDENTITY, Field, Grid, first_exits, linear_values

DRAWN = np.random.default_rng(4)
VALUES = DRAWN.normal(size=(20, 17, 9)).astype(np.float32)


@pytest.mark.parametrize("count", [0, 1, 40, 70_000])
def test_the_same_as_scipy_within_on_and_beyond_the_grid(count: int) -> None:
    nodes = DRAWN.uniform(-3.0, 22.0, (count, 3))
    nodes[::4] = np.rint(nodes[::4])
    theirs = map_coordinates(VALUES, nodes.T, order=1, mode="nearest")
    assert (linear_values(VALUES, nodes) == theirs).all()


def test_parts_of_a_field_and_nodes_of_no_number_are_read_too() -> None:
    part = VALUES[::2, 1:, ::-1]
    nodes = np.array([[3.25, 4.5, 1.75]])
    assert linear_values(part, nodes) == map_coordinates(part, nodes.T, order=1, mode="nearest")
    assert np.isfinite(linear_values(VALUES, np.full((1, 3), np.nan))).all()


def test_rays_leave_a_round_bar_at_its_radius_and_a_hole_is_passed() -> None:
    grid = Grid(IDENTITY, np.array([-4.0, -4.0, -1.0]), 0.2, (41, 41, 11))
    x, y, _ = grid.axes()
    from_axis = np.broadcast_to(np.hypot(x[:, None], y[None, :])[:, :, None], grid.shape)
    ring = Field(grid, np.abs(from_axis - 2.0).astype(np.float32) - np.float32(0.9))
    radii = np.arange(0.3, 3.8, 0.1)
    turn = np.linspace(0.0, 2 * np.pi, 9)
    way = np.column_stack([np.cos(turn), np.sin(turn)])
    rays = radii[None, :, None] * way[:, None, :]
    out = first_exits(ring, rays, np.array([-0.5, 0.13, 0.5]), radii)
    assert np.abs(out - 2.9).max() < 0.01
    assert np.isnan(first_exits(ring, 0.25 * rays, np.zeros(1), radii)).all()
