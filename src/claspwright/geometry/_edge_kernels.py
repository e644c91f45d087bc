"""Edges of a triangle mesh in linear time."""

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


@numba.njit(cache=True, nogil=True, error_model="numpy")
def pair_edges(faces: Any, vertices: int, across: Any) -> int:
    """Fill across (3F,) with the opposite of each half-edge; returns how many have none.

    The half-edges lie in buckets by their lower vertex, each with the other one and its direction,
    so that opposites differ in the direction alone.
    """
    start = np.zeros(vertices + 1, np.int32)
    for f in range(len(faces)):
        for c in range(3):
            start[min(faces[f, c], faces[f, (c + 1) % 3]) + 1] += 1
    for v in range(vertices):
        start[v + 1] += start[v]
    fill = start[:-1].copy()
    bucket = np.empty((3 * len(faces), 2), np.int32)
    for f in range(len(faces)):
        for c in range(3):
            a, b = faces[f, c], faces[f, (c + 1) % 3]
            low = min(a, b)
            bucket[fill[low], 0] = 3 * f + c
            bucket[fill[low], 1] = 2 * max(a, b) + (1 if a < b else 0)
            fill[low] += 1
    across[:] = -1
    unpaired = 0
    for v in range(vertices):
        for i in range(start[v], start[v + 1]):
            h, key = bucket[i, 0], bucket[i, 1]
            if key < 0:
                continue
            if key == 2 * v:
                across[h] = h
                continue
            for j in range(i + 1, start[v + 1]):
                if bucket[j, 1] == key ^ 1:
                    g = bucket[j, 0]
                    across[h], across[g] = g, h
                    bucket[j, 1] = -1
                    break
            if across[h] < 0:
                unpaired += 1
    return unpaired


@numba.njit(cache=True, nogil=True)
def label_pieces(faces: Any, label: Any) -> int:
    """Number the connected pieces of a surface in the order of their first vertices.

    Args:
        faces: (F, 3) int32 vertex indices.
        label: (V,) int32 result, the piece of each vertex; one without faces is its own.

    Returns:
        How many there are.
    """
    for v in range(len(label)):
        label[v] = v
    for f in range(len(faces)):
        for c in range(2):
            a, b = faces[f, c], faces[f, c + 1]
            while label[a] != a:
                label[a] = label[label[a]]
                a = label[a]
            while label[b] != b:
                label[b] = label[label[b]]
                b = label[b]
            label[max(a, b)] = min(a, b)
    number = 0
    for v in range(len(label)):  # a root is the lowest of its piece, so it comes first
        if label[v] == v:
            label[v] = number
            number += 1
        else:
            label[v] = label[label[v]]
    return number
