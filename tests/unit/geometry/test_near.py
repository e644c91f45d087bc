"""Points grouped by nearness, and the faces near points."""

from __future__ import annotations

import numpy as np

from claspwright.geometry import ball, faces_near, kept_faces, near_groups


def test_steps_of_the_reach_join_a_row_and_a_wider_gap_parts_it() -> None:
    x = np.array([0.0, 0.9, 1.8, 3.0, 3.5])
    points = np.column_stack([x, 0 * x, 0 * x])
    group = near_groups(points, 1.0)
    assert len(set(group[:3])) == 1 and len(set(group[3:])) == 1
    assert group[0] != group[3]
    assert len(set(near_groups(points, 0.1))) == len(points)
    assert len(set(near_groups(points, 1.3))) == 1


def test_every_face_within_the_reach_is_among_those_near_and_the_far_ones_are_not() -> None:
    sphere = ball(5.0, 0.3)
    spots = np.array([[5.0, 0.0, 0.0], [0.0, 5.0, 0.0]])
    near = faces_near(sphere, spots, 0.8)
    off = np.linalg.norm(sphere.corners[:, :, None] - spots, axis=3).min(axis=(1, 2))
    assert near[off < 0.8].all()
    assert not near[off > 3 * np.sqrt(3) * 0.8].any()
    part = kept_faces(sphere, near)
    assert len(part.faces) == near.sum() and len(part.vertices) < len(sphere.vertices)
    assert np.array_equal(part.corners, sphere.corners[near])
