"""Edges and pieces of a triangle mesh in linear time."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True)
def gather_edges(faces: Any, top: int, of_half: Any, count: Any, ends: Any) -> int:
    """Number the undirected edges in the order of (lower, higher) vertex; return how many.

    Args:
        faces: (F, 3) int32 vertex indices.
        top: one more than the highest vertex index.
        of_half: (3F,) int32 result, the edge of each half-edge.
        count: (3F,) int32 result, half-edges of each edge, zero at first.
        ends: (3F, 2) int32 result, lower vertex first.
    """
    halves = 3 * faces.shape[0]
    low = np.empty(halves, dtype=np.int32)
    high = np.empty(halves, dtype=np.int32)
    start = np.zeros(top + 2, dtype=np.int64)
    for f in range(faces.shape[0]):
        for k in range(3):
            a, b = faces[f, k], faces[f, (k + 1) % 3]
            h = 3 * f + k
            low[h], high[h] = min(a, b), max(a, b)
            start[low[h] + 1] += 1
    for v in range(top):
        start[v + 1] += start[v]
    fill = start.copy()
    order = np.empty(halves, dtype=np.int32)
    for h in range(halves):
        order[fill[low[h]]] = h
        fill[low[h]] += 1
    found = 0
    for v in range(top):
        first, last = start[v], fill[v]
        for i in range(first + 1, last):  # stable insertion by the higher vertex
            h = order[i]
            j = i - 1
            while j >= first and high[order[j]] > high[h]:
                order[j + 1] = order[j]
                j -= 1
            order[j + 1] = h
        for i in range(first, last):
            h = order[i]
            if i == first or high[h] != high[order[i - 1]]:
                ends[found, 0], ends[found, 1] = v, high[h]
                found += 1
            of_half[h] = found - 1
            count[found - 1] += 1
    return found


@numba.njit(cache=True, nogil=True)
def pair_twins(of_half: Any, count: Any, first: Any, second: Any) -> int:
    """Write the two half-edges of each edge that exactly two use, edge by edge; return how many.

    Args:
        of_half: (H,) int32 edge of each half-edge.
        count: (E,) int32 half-edges of each edge.
        first: (E,) int32 result, the lower half-edge.
        second: (E,) int32 result, the higher half-edge.
    """
    seen = np.full(count.shape[0], -1, dtype=np.int32)
    slot = np.empty(count.shape[0], dtype=np.int32)
    pairs = 0
    for e in range(count.shape[0]):
        slot[e] = pairs
        if count[e] == 2:
            pairs += 1
    for h in range(of_half.shape[0]):
        e = of_half[h]
        if count[e] != 2:
            continue
        if seen[e] < 0:
            seen[e] = h
        else:
            first[slot[e]], second[slot[e]] = seen[e], h
    return pairs


@numba.njit(cache=True, nogil=True)
def _root(parent: Any, i: int) -> int:
    while parent[i] != i:
        parent[i] = parent[parent[i]]
        i = parent[i]
    return i


@numba.njit(cache=True, nogil=True)
def join_pieces(a: Any, b: Any, label: Any) -> int:
    """Number the connected pieces in the order of their first member; return how many.

    Args:
        a: (N,) int32 one end of each link.
        b: (N,) int32 the other end.
        label: (M,) int32 result, the piece of each member.
    """
    members = label.shape[0]
    parent = np.arange(members).astype(np.int32)
    for i in range(a.shape[0]):
        p, q = _root(parent, a[i]), _root(parent, b[i])
        if p < q:
            parent[q] = p
        elif q < p:
            parent[p] = q
    pieces = 0
    for i in range(members):
        root = _root(parent, i)
        if root == i:
            label[i] = pieces
            pieces += 1
        else:
            label[i] = label[root]  # a root is the lowest of its piece
    return pieces
