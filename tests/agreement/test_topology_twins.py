"""Edges, twins and pieces of a mesh: the fast count against sorting and scipy."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from claspwright.arch.topology import edges_of, half_edges, pieces, twin_pairs


@pytest.mark.parametrize("seed", [1, 2])
def test_edges_twins_and_pieces_agree_with_sorting(seed: int) -> None:
    faces = np.random.default_rng(seed).integers(0, 300, (400, 3)).astype(np.int32)
    start, end = half_edges(faces)
    ends = np.sort(np.stack([start, end], axis=1), axis=1)
    sorted_ends, of_half, count = np.unique(ends, axis=0, return_inverse=True, return_counts=True)
    edges = edges_of(faces)
    assert np.array_equal(edges.ends, sorted_ends)
    assert np.array_equal(edges.of_half, of_half.reshape(-1))
    assert np.array_equal(edges.count, count)
    order = np.argsort(edges.of_half, kind="stable")
    first = np.concatenate([[0], np.cumsum(count)[:-1]])[count == 2]
    a, b = twin_pairs(edges)
    assert len(a)
    assert np.array_equal(a, order[first])
    assert np.array_equal(b, order[first + 1])
    graph = coo_matrix((np.ones(len(a)), (a // 3, b // 3)), shape=(400, 400))
    assert np.array_equal(
        pieces(400, a // 3, b // 3), connected_components(graph, directed=False)[1]
    )


def test_no_faces_have_no_edges() -> None:
    edges = edges_of(np.empty((0, 3), dtype=np.int32))
    assert len(edges.count) == len(edges.of_half) == 0
