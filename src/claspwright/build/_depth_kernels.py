"""How deep each lowest point lies below the saddle to a lower one."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True)
def depths(height: Any, order: Any, beside: Any, first: Any) -> Any:
    """(V,) depth of every vertex that is lowest round itself; 0 for the others.

    Vertices are taken from below; where two basins meet, the one with the higher bottom ends, and
    its depth is the height of that saddle over its bottom. The lowest of all stays endless.

    order: (V,) vertices by height. beside, first: neighbours of vertex v are
    beside[first[v] : first[v + 1]].
    """
    count = len(height)
    root = np.full(count, -1, np.int64)
    rank = np.empty(count, np.int64)
    for n in range(count):
        rank[order[n]] = n
    out = np.zeros(count)
    for n in range(count):
        v = order[n]
        root[v] = v
        for k in range(first[v], first[v + 1]):
            w = beside[k]
            if root[w] < 0:
                continue
            a, b = v, w
            while root[a] != a:
                root[a] = root[root[a]]
                a = root[a]
            while root[b] != b:
                root[b] = root[root[b]]
                b = root[b]
            if a == b:
                continue
            if rank[a] > rank[b]:
                a, b = b, a
            out[b] = height[v] - height[b]  # b is the higher bottom
            root[b] = a
    for n in range(count):
        if root[n] == n:
            out[n] = np.inf
    return out
