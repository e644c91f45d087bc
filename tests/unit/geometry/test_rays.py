from __future__ import annotations

import numpy as np
import pytest

from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    ball,
    box,
    height_field,
    is_covered,
    looking_along,
    ray_lengths,
)

ASLANT = np.array([0.36, -0.48, 0.8])


def test_rays_from_inside_a_sphere_reach_its_wall() -> None:
    tree = DistanceTree(ball(3.0, 0.1))
    points = np.random.default_rng(1).uniform(-1.5, 1.5, (500, 3))
    found = ray_lengths(tree, points, ASLANT)
    along = points @ ASLANT
    true = -along + np.sqrt(along**2 - (points**2).sum(axis=1) + 9.0)
    assert np.abs(found - true).max() < 0.002


def test_no_ray_slips_through_an_edge_or_a_corner() -> None:
    tree = DistanceTree(box(np.full(3, -1.0), np.full(3, 1.0)))
    across = np.linspace(-1, 1, 41)
    points = np.array([[x, y, -3.0] for x in across for y in across])
    up = np.array([0.0, 0, 1.0])
    assert ray_lengths(tree, points, up) == pytest.approx(np.full(len(points), 2.0))
    assert is_covered(tree, points, up).all()
    assert not is_covered(tree, points, -up).any()
    assert not is_covered(tree, points + [5.0, 0, 0], up).any()


def test_height_field_of_a_sphere() -> None:
    sphere = ball(4.0, 0.1)
    field = height_field(sphere, looking_along(ASLANT), 0.1, pad=1.0)
    points = np.random.default_rng(2).normal(size=(300, 3))
    points *= 3.0 / np.linalg.norm(points, axis=1, keepdims=True)
    level = field.frame.apply(points)
    true = np.sqrt(16.0 - (level[:, :2] ** 2).sum(axis=1))
    assert np.abs(field.at(points) - true).max() < 0.01
    assert field.below(points) == pytest.approx(field.at(points) - level[:, 2])
    outside = height_field(sphere, IDENTITY, 0.2, pad=2.0)
    assert outside.at(np.array([[5.5, 0, 0]]))[0] == -np.inf
