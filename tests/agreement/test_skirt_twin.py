"""What lies about a ring, seen from above: squares against all distances in plain numpy."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.arch._skirt_kernels import beside, lowest_around


@pytest.mark.parametrize("seed", [1, 2, 3])
@pytest.mark.parametrize("reach", [0.4, 3.0])
def test_squares_find_what_all_distances_find(seed: int, reach: float) -> None:
    rng = np.random.default_rng(seed)
    points = rng.uniform(-12, 12, (2000, 3))
    angle = np.linspace(0, 2 * np.pi, 90, endpoint=False)
    ring = np.stack([8 * np.cos(angle), 5 * np.sin(angle)], axis=1) + rng.normal(0, 0.2, (90, 2))
    gap = np.linalg.norm(points[:, None, :2] - ring[None], axis=2)

    near = np.zeros(len(points), dtype=np.bool_)
    beside(points, ring, reach, near)
    assert (near == (gap < reach).any(axis=1)).all()
    assert 0 < near.sum() < len(points)

    level = np.full(len(ring), np.inf)
    lowest_around(points, ring, reach, level)
    expected = np.where(gap <= reach, points[:, 2:], np.inf).min(axis=0)
    assert (level == expected).all()
