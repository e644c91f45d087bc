"""Edges and pieces of a triangle mesh in linear time."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


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
