"""Thin ends of solids: fins are found, the edges of thick bodies are not."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.geometry import DistanceTree, Mesh, box, thin_ends, union
from claspwright.geometry.solids import as_mesh, checked_solid

THIN, CARRIED, NEAR = 0.12, 0.15, 0.25


def refined(body: Mesh, longest: float) -> Mesh:
    """The same surface in triangles of at most such an edge."""
    return as_mesh(checked_solid(body, "body").refine_to_length(longest))


def block_with(fin_low: list[float], fin_high: list[float]) -> Mesh:
    block = box(np.array([0.0, 0, 0]), np.array([3.0, 3, 2]))
    return refined(union(block, box(np.array(fin_low), np.array(fin_high))), 0.15)


def test_a_fin_on_a_block_is_found_where_it_leaves_the_block_behind() -> None:
    solid = block_with([2.9, 1.0, 1.0], [4.0, 1.05, 1.3])
    (fin,) = thin_ends(DistanceTree(solid), THIN, CARRIED, NEAR)
    assert 0.03 < fin.thickness_mm < 0.052  # balls at its rim are smaller
    low = solid.corners[fin.faces].reshape(-1, 3).min(axis=0)
    assert low[0] == pytest.approx(3.0 + NEAR, abs=0.16)  # to a triangle
    assert fin.length_mm == pytest.approx(np.hypot(4.0 - low[0], 0.3), abs=0.06)


def test_a_thicker_fin_and_the_edges_of_a_block_are_no_thin_ends() -> None:
    solid = block_with([2.9, 1.0, 1.0], [4.0, 1.2, 1.3])
    assert thin_ends(DistanceTree(solid), THIN, CARRIED, NEAR) == ()


def test_only_the_faces_that_are_asked_about_are_looked_at() -> None:
    solid = block_with([2.9, 1.0, 1.0], [4.0, 1.05, 1.3])
    left = solid.corners.mean(axis=1)[:, 0] < 3.0
    assert thin_ends(DistanceTree(solid), THIN, CARRIED, NEAR, left) == ()
