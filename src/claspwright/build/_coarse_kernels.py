"""A part with one vertex for each cell of a grid."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

SPREAD = 0x9E3779B97F4A7C15  # 2^64 over the golden ratio: keys that follow on fall far apart


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _keys(vertices: Any, low: Any, high: Any, side: float, keys: Any) -> None:
    """Key of the cell of each vertex; they grow along x, then y, then z."""
    deep = int((high[2] - low[2]) / side) + 1
    tall = int((high[1] - low[1]) / side) + 1
    x0, y0, z0 = low[0], low[1], low[2]
    for n in range(len(vertices)):
        x = np.int64((vertices[n, 0] - x0) / side)
        y = np.int64((vertices[n, 1] - y0) / side)
        z = np.int64((vertices[n, 2] - z0) / side)
        keys[n] = (x * tall + y) * deep + z


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _numbered(keys: Any, which: Any) -> Any:
    """Give every key a number, in the order in which they are met; the keys in this order.

    which: filled with the number of each key.
    """
    bits = 4
    while (1 << bits) < 2 * len(keys):
        bits += 1
    mask, shift = (1 << bits) - 1, np.uint64(64 - bits)
    slots = np.full(1 << bits, -1, np.int32)
    found = np.empty(len(keys), np.int64)
    count = 0
    for n in range(len(keys)):
        key = keys[n]
        if n > 0 and key == keys[n - 1]:
            which[n] = which[n - 1]
            continue
        slot = np.int64((np.uint64(key) * np.uint64(SPREAD)) >> shift)
        while slots[slot] >= 0 and found[slots[slot]] != key:
            slot = (slot + 1) & mask
        if slots[slot] < 0:
            slots[slot] = count
            found[count] = key
            count += 1
        which[n] = slots[slot]
    return found[:count].copy()


@numba.njit(cache=True, nogil=True, error_model="numpy")
def thinned(vertices: Any, faces: Any, low: Any, high: Any, side: float) -> Any:
    """Mean of the vertices in each cell, and the faces whose corners lie in three cells.

    Args:
        vertices: (V, 3).
        faces: (F, 3).
        low: (3,) lowest coordinates of the vertices.
        high: (3,) highest.
        side: of a cell.

    Returns:
        points (P, 3), in the order of the cells along x, then y, then z; faces (G, 3); the face
        that each of these was (G,).
    """
    every, which = np.empty(len(vertices), np.int64), np.empty(len(vertices), np.int32)
    _keys(vertices, low, high, side, every)
    keys = _numbered(every, which)
    order = np.argsort(keys)
    rank = np.empty(len(keys), np.int32)
    for n in range(len(order)):
        rank[order[n]] = n
    points, weight = np.zeros((len(keys), 3)), np.zeros(len(keys))
    for n in range(len(vertices)):
        which[n] = rank[which[n]]
        weight[which[n]] += 1.0
        for i in range(3):
            points[which[n], i] += vertices[n, i]
    for n in range(len(points)):
        for i in range(3):
            points[n, i] /= weight[n]
    kept, was = np.empty(faces.shape, np.int32), np.empty(len(faces), np.int32)
    count = 0
    for f in range(len(faces)):
        a, b, c = which[faces[f, 0]], which[faces[f, 1]], which[faces[f, 2]]
        if a in (b, c) or b == c:
            continue
        kept[count, 0], kept[count, 1], kept[count, 2] = a, b, c
        was[count] = f
        count += 1
    return points, kept[:count].copy(), was[:count].copy()


@numba.njit(cache=True, nogil=True, error_model="numpy")
def boxes(points: Any, faces: Any) -> Any:
    """(G, 6) lowest, then highest coordinates of each face."""
    out = np.empty((len(faces), 6))
    for f in range(len(faces)):
        for i in range(3):
            a, b, c = points[faces[f, 0], i], points[faces[f, 1], i], points[faces[f, 2], i]
            out[f, i], out[f, 3 + i] = min(a, b, c), max(a, b, c)
    return out
