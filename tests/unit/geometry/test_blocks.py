from __future__ import annotations

import numpy as np
import pytest
from scipy.spatial import KDTree

from claspwright.geometry import PointBlocks


def rippled(count: int, seed: int) -> np.ndarray:
    """Points on a rippled sheet 40 mm wide."""
    plan = np.random.default_rng(seed).uniform(-20.0, 20.0, (count, 2))
    return np.column_stack([plan, 3.0 * np.sin(plan[:, 0] / 4.0)])


@pytest.mark.parametrize("reach", [np.inf, 1.6, 0.05])
@pytest.mark.parametrize("side", [0.3, 1.0, 7.0])
def test_answers_are_those_of_a_kd_tree(reach: float, side: float) -> None:
    points = rippled(5000, 1)
    near = rippled(2000, 2) + np.random.default_rng(3).normal(0.0, 0.8, (2000, 3))
    far = np.random.default_rng(4).uniform(-90.0, 90.0, (200, 3))
    spots = np.concatenate([near, far, points[:50]])
    gap, which = PointBlocks(points, side).nearest(spots, reach)
    expected, nearest = KDTree(points).query(spots, distance_upper_bound=reach)
    np.testing.assert_array_equal(which, nearest)
    np.testing.assert_allclose(gap, expected, rtol=1e-14)
    assert np.isfinite(gap).all() == (reach == np.inf)


def test_one_point_no_point_and_points_in_one_place() -> None:
    gap, which = PointBlocks(np.zeros((1, 3)), 0.5).nearest(np.array([[3.0, 4.0, 0.0]]))
    assert (gap[0], which[0]) == (5.0, 0)
    gap, which = PointBlocks(np.zeros((0, 3)), 0.5).nearest(np.ones((2, 3)))
    assert np.isinf(gap).all()
    assert (which == 0).all()  # as many as there are points: none is found
    same = PointBlocks(np.ones((7, 3)), 0.5).nearest(np.full((1, 3), 1.0))
    assert same[0][0] == 0.0


def test_cubes_far_too_small_are_made_larger() -> None:
    gap, which = PointBlocks(rippled(500, 5), 1e-6).nearest(rippled(500, 5))
    assert gap.max() == 0.0
    np.testing.assert_array_equal(which, np.arange(500))
