"""Points grouped by nearness."""

from __future__ import annotations

import numpy as np

from claspwright.geometry import near_groups


def test_steps_of_the_reach_join_a_row_and_a_wider_gap_parts_it() -> None:
    x = np.array([0.0, 0.9, 1.8, 3.0, 3.5])
    points = np.column_stack([x, 0 * x, 0 * x])
    group = near_groups(points, 1.0)
    assert len(set(group[:3])) == 1 and len(set(group[3:])) == 1
    assert group[0] != group[3]
    assert len(set(near_groups(points, 0.1))) == len(points)
    assert len(set(near_groups(points, 1.3))) == 1
