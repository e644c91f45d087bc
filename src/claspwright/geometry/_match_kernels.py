"""Oriented points met with those of another surface, nearest in place and normal, and the step.

A row is a place [mm] and a normal times the weight that normals have: six numbers. The tree
over the rows halves them at the middle of the widest direction. Node n has the children 2 n + 1
and 2 n + 2; the last half of the nodes are leaves. A node knows the least box round its rows.

Source:
    J. L. Bentley, Communications of the ACM 1975;18:509-517, k-d tree (from memory).
"""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

LEAF = 8  # rows, at most
DEPTH = 64


@numba.njit(cache=True, nogil=True, error_model="numpy")
def build(rows: Any) -> Any:
    """Tree over (N, 6) rows.

    Returns:
        order (N,), in which the leaves hold the rows; first row of each node and the one after
        its last (M, 2); boxes (M, 12): lowest and highest of each of the six numbers.
    """
    count = len(rows)
    levels = 0
    while count > LEAF << levels:
        levels += 1
    nodes = (2 << levels) - 1
    order = np.arange(count).astype(np.int32)
    spans = np.empty((nodes, 2), np.int32)
    boxes = np.empty((nodes, 12))
    spans[0, 0], spans[0, 1] = 0, count
    for node in range(nodes):
        start, end = spans[node, 0], spans[node, 1]
        wide, axis = -1.0, 0
        for a in range(6):
            low, high = np.inf, -np.inf
            for i in range(start, end):
                value = rows[order[i], a]
                low, high = min(low, value), max(high, value)
            boxes[node, a], boxes[node, 6 + a] = low, high
            if high - low > wide:
                wide, axis = high - low, a
        if 2 * node + 2 < nodes:
            part = order[start:end].copy()
            values = np.empty(end - start)
            for i in range(end - start):
                values[i] = rows[part[i], axis]
            order[start:end] = part[np.argsort(values)]
            middle = (start + end) // 2
            spans[2 * node + 1, 0], spans[2 * node + 1, 1] = start, middle
            spans[2 * node + 2, 0], spans[2 * node + 2, 1] = middle, end
    return order, spans, boxes


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _between(row: Any, rows: Any, i: int) -> float:
    """Squared distance of two rows."""
    total = 0.0
    for a in range(6):
        off = row[a] - rows[i, a]
        total += off * off
    return total


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _to_box(row: Any, boxes: Any, node: int) -> float:
    """Squared distance of a row from the box of a node."""
    total = 0.0
    for a in range(6):
        off = max(max(boxes[node, a] - row[a], row[a] - boxes[node, 6 + a]), 0.0)
        total += off * off
    return total


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _nearest(
    row: Any, bound2: float, seed: int, rows: Any, spans: Any, boxes: Any, stack: Any, reach: Any
) -> int:
    """The row nearer than the root of `bound2`, or -1; `seed` is one to start from, or -1.

    `rows` in the order of the tree. `stack`, `reach`: DEPTH scratch entries.
    """
    best, found = bound2, -1
    if seed >= 0:
        d2 = _between(row, rows, seed)
        if d2 < best:
            best, found = d2, seed
    inner = len(spans) // 2
    stack[0], reach[0] = 0, 0.0
    depth = 1
    while depth > 0:
        depth -= 1
        node = stack[depth]
        if reach[depth] >= best:
            continue
        if node >= inner:
            for i in range(spans[node, 0], spans[node, 1]):
                d2 = _between(row, rows, i)
                if d2 < best:
                    best, found = d2, i
            continue
        left, right = _to_box(row, boxes, 2 * node + 1), _to_box(row, boxes, 2 * node + 2)
        first = 1 if left <= right else 2
        if max(left, right) < best:
            stack[depth], reach[depth] = 2 * node + 3 - first, max(left, right)
            depth += 1
        if min(left, right) < best:
            stack[depth], reach[depth] = 2 * node + first, min(left, right)
            depth += 1
    return found


@numba.njit(cache=True, nogil=True, error_model="numpy")
def pairs(
    points: Any, normals: Any, rotation: Any, shift: Any, weight: float, limits: Any,
    rows: Any, spans: Any, boxes: Any, seeds: Any, here: Any, goals: Any, offs: Any,
) -> int:  # fmt: skip
    """Moved points whose partner is near and faces the same way; how many there are.

    (P, 3) `points` with their `normals` are moved by `rotation` (3, 3) and `shift` (3,). `weight`:
    of the normals in the rows. `limits` (4,): bound of the six numbers; greatest distance; least
    cosine between normals; distance along the normal, which has to be less. `rows` in the order
    of the tree. `seeds` (P,): partners of the last call, -1 at first; set to those of this one.
    `here` (P, 3), `goals` (P, 3) and `offs` (P,) take, from 0 on, the points as moved, the normals
    of their partners and the distances along these.
    """
    stack, reach, row = np.empty(DEPTH, np.int32), np.empty(DEPTH), np.empty(6)
    count = 0
    for p in range(len(points)):
        for a in range(3):
            row[a] = shift[a]
            row[3 + a] = 0.0
            for b in range(3):
                row[a] += rotation[a, b] * points[p, b]
                row[3 + a] += weight * rotation[a, b] * normals[p, b]
        i = _nearest(row, limits[0] ** 2, seeds[p], rows, spans, boxes, stack, reach)
        seeds[p] = i
        if i < 0:
            continue
        off = apart2 = cosine = 0.0
        for a in range(3):
            away = row[a] - rows[i, a]
            apart2 += away * away
            off += away * rows[i, 3 + a] / weight
            cosine += row[3 + a] * rows[i, 3 + a] / weight**2
        if apart2 < limits[1] ** 2 and cosine > limits[2] and abs(off) < limits[3]:
            for a in range(3):
                here[count, a] = row[a]
                goals[count, a] = rows[i, 3 + a] / weight
            offs[count] = off
            count += 1
    return count


@numba.njit(cache=True, nogil=True, error_model="numpy")
def equations(points: Any, normals: Any, offs: Any, centre: Any, cut: float) -> Any:
    """Normal equations of the small motion that takes distances along normals away.

    Each of (P, 3) points, its normal and its distance weigh (1 - (off / cut)^2)^2, or nothing
    beyond the cut. `centre` (3,): what the turn is about.

    Returns:
        (6, 6) and (6,): turn first, then shift.
    """
    left, right, row = np.zeros((6, 6)), np.zeros(6), np.empty(6)
    for p in range(len(points)):
        u = offs[p] / cut
        weight = max(1.0 - u * u, 0.0)
        if weight == 0.0:
            continue
        x, y, z = points[p, 0] - centre[0], points[p, 1] - centre[1], points[p, 2] - centre[2]
        row[3], row[4], row[5] = normals[p, 0], normals[p, 1], normals[p, 2]
        row[0] = y * row[5] - z * row[4]
        row[1] = z * row[3] - x * row[5]
        row[2] = x * row[4] - y * row[3]
        weight *= weight
        for a in range(6):
            right[a] -= weight * row[a] * offs[p]
            for b in range(a + 1):
                left[a, b] += weight * row[a] * row[b]
    for a in range(6):
        for b in range(a):
            left[b, a] = left[a, b]
    return left, right
