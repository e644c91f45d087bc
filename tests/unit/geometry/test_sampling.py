"""Values between nodes, held to scipy's interpolation."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.ndimage import map_coordinates

from claspwright.geometry import linear_values

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
