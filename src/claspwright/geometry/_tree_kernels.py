"""Bounding volume hierarchy over triangles, built with binned surface-area splits.

A node keeps the boxes of its two children, so that a query decides on both with one read.
A child index c >= 0 is a node; c < 0 is the leaf ~c, which owns order[start[~c]:start[~c] + 1].
"""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

BINS = 16
LEAF = 4


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _area(box: Any) -> Any:
    x = box[3] - box[0]
    y = box[4] - box[1]
    z = box[5] - box[2]
    return x * y + y * z + z * x


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _empty(box: Any) -> None:
    for a in range(3):
        box[a] = np.inf
        box[3 + a] = -np.inf


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _grow(box: Any, others: Any, i: int) -> None:
    """Make a box hold row i of others; rows are not cut out, which would count references."""
    for a in range(3):
        box[a] = min(box[a], others[i, a])
        box[3 + a] = max(box[3 + a], others[i, 3 + a])


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _bin_of(centre: float, low: float, scale: float) -> int:
    return min(max(int((centre - low) * scale), 0), BINS - 1)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _best_plane(boxes: Any, start: int, end: int, low: Any, high: Any) -> Any:
    """(axis, bin) of the cheapest split by surface area; axis -1 when centres coincide."""
    best = np.inf
    best_axis, best_bin = -1, 0
    counts = np.empty(BINS, np.int64)
    bins = np.empty((BINS, 6))
    right = np.empty(BINS)
    side = np.empty(6)
    for axis in range(3):
        if not high[axis] > low[axis]:
            continue
        scale = BINS / (high[axis] - low[axis])
        counts[:] = 0
        for b in range(BINS):
            _empty(bins[b])
        for i in range(start, end):
            b = _bin_of(0.5 * (boxes[i, axis] + boxes[i, 3 + axis]), low[axis], scale)
            counts[b] += 1
            for a in range(3):
                bins[b, a] = min(bins[b, a], boxes[i, a])
                bins[b, 3 + a] = max(bins[b, 3 + a], boxes[i, 3 + a])
        _empty(side)
        count = 0
        for b in range(BINS - 1, 0, -1):
            if counts[b] > 0:
                _grow(side, bins, b)
                count += counts[b]
            right[b] = _area(side) * count if count > 0 else np.inf
        _empty(side)
        count = 0
        for b in range(BINS - 1):
            if counts[b] > 0:
                _grow(side, bins, b)
                count += counts[b]
            if count > 0 and count < end - start:
                cost = _area(side) * count + right[b + 1]
                if cost < best:
                    best, best_axis, best_bin = cost, axis, b
    return best_axis, best_bin


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _swap(boxes: Any, order: Any, i: int, j: int) -> None:
    order[i], order[j] = order[j], order[i]
    for a in range(6):
        boxes[i, a], boxes[j, a] = boxes[j, a], boxes[i, a]


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _split(boxes: Any, order: Any, start: int, end: int) -> int:
    """Partition start:end of both in place and return where the right part begins."""
    low = np.full(3, np.inf)
    high = np.full(3, -np.inf)
    for i in range(start, end):
        for a in range(3):
            centre = 0.5 * (boxes[i, a] + boxes[i, 3 + a])
            low[a] = min(low[a], centre)
            high[a] = max(high[a], centre)
    axis, limit = _best_plane(boxes, start, end, low, high)
    if axis < 0:
        return (start + end) // 2
    scale = BINS / (high[axis] - low[axis])
    i = start
    j = end - 1
    while i <= j:
        if _bin_of(0.5 * (boxes[i, axis] + boxes[i, 3 + axis]), low[axis], scale) <= limit:
            i += 1
        else:
            _swap(boxes, order, i, j)
            j -= 1
    return i


@numba.njit(cache=True, nogil=True, error_model="numpy")
def boxes_of(corners: Any) -> Any:
    """(F, 6) lowest, then highest coordinates of (F, 3, 3) corners of triangles."""
    boxes = np.empty((len(corners), 6))
    for f in range(len(corners)):
        for a in range(3):
            x, y, z = corners[f, 0, a], corners[f, 1, a], corners[f, 2, a]
            boxes[f, a] = min(x, min(y, z))
            boxes[f, 3 + a] = max(x, max(y, z))
    return boxes


@numba.njit(cache=True, nogil=True, error_model="numpy")
def build_tree(boxes: Any) -> Any:
    """Build the tree over (F, 6) boxes, lowest then highest coordinates.

    Returns:
        order (F,), child boxes (N, 12), children (N, 2), leaf start (L + 1,).
    """
    count = len(boxes)
    order = np.arange(count).astype(np.int32)
    boxes = boxes.copy()  # kept in the order of `order`, so that they are read in a row
    nodes = max(count, 2)
    child_boxes = np.empty((nodes, 12))
    children = np.empty((nodes, 2), np.int32)
    leaf_start = np.empty(count + 2, np.int32)
    leaves = 0
    used = 1
    todo = np.empty((count + 2, 3), np.int64)
    todo[0, 0], todo[0, 1], todo[0, 2] = 0, 0, count
    pending = 1
    # depth first, left before right, so that leaves come out in the order of `order`
    while pending > 0:
        pending -= 1
        slot, start, end = todo[pending, 0], todo[pending, 1], todo[pending, 2]
        if slot > 0 and end - start <= LEAF:
            owner = (slot - 1) // 2
            children[owner, (slot - 1) % 2] = ~leaves
            leaf_start[leaves] = start
            leaves += 1
            continue
        node = 0
        if slot > 0:
            node = used
            used += 1
            children[(slot - 1) // 2, (slot - 1) % 2] = node
        middle = _split(boxes, order, start, end)
        for side in range(2):
            first = start if side == 0 else middle
            last = middle if side == 0 else end
            box = child_boxes[node, 6 * side : 6 * side + 6]
            _empty(box)
            for i in range(first, last):
                _grow(box, boxes, i)
        todo[pending, 0], todo[pending, 1], todo[pending, 2] = 2 * node + 2, middle, end
        pending += 1
        todo[pending, 0], todo[pending, 1], todo[pending, 2] = 2 * node + 1, start, middle
        pending += 1
    leaf_start[leaves] = count
    return order, child_boxes[:used].copy(), children[:used].copy(), leaf_start[: leaves + 1].copy()


@numba.njit(cache=True, nogil=True, error_model="numpy")
def add_pseudonormals(
    corners: Any, faces: Any, edge_of: Any, face_n: Any, edge_n: Any, vertex_n: Any
) -> None:
    """Sum unit face normals into edges and, weighted by angle, into vertices.

    Source:
        baerentzen2005, angle-weighted pseudonormals.
    """
    for f in range(len(faces)):
        for c in range(3):
            for a in range(3):
                edge_n[edge_of[f, c], a] += face_n[f, a]
            uu = vv = uv = 0.0
            for a in range(3):
                u = corners[f, (c + 1) % 3, a] - corners[f, c, a]
                v = corners[f, (c + 2) % 3, a] - corners[f, c, a]
                uu += u * u
                vv += v * v
                uv += u * v
            if uu > 0.0 and vv > 0.0:
                angle = np.arccos(min(max(uv / np.sqrt(uu * vv), -1.0), 1.0))
                for a in range(3):
                    vertex_n[faces[f, c], a] += angle * face_n[f, a]
