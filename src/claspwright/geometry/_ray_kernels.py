"""Rays in one direction against a box tree."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

DEPTH = 128
EDGE = 1e-10  # barycentric slack, so that no ray slips between two faces


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _on_triangle(p: Any, d: Any, tri: Any) -> Any:
    """Length along the ray to a triangle, or inf.

    Source:
        moeller1997, Fast, minimum storage ray-triangle intersection.
    """
    e1x, e1y, e1z = tri[1, 0] - tri[0, 0], tri[1, 1] - tri[0, 1], tri[1, 2] - tri[0, 2]
    e2x, e2y, e2z = tri[2, 0] - tri[0, 0], tri[2, 1] - tri[0, 1], tri[2, 2] - tri[0, 2]
    hx, hy, hz = d[1] * e2z - d[2] * e2y, d[2] * e2x - d[0] * e2z, d[0] * e2y - d[1] * e2x
    det = e1x * hx + e1y * hy + e1z * hz
    if abs(det) < 1e-15:
        return np.inf
    sx, sy, sz = p[0] - tri[0, 0], p[1] - tri[0, 1], p[2] - tri[0, 2]
    u = (sx * hx + sy * hy + sz * hz) / det
    if u < -EDGE or u > 1.0 + EDGE:
        return np.inf
    qx, qy, qz = sy * e1z - sz * e1y, sz * e1x - sx * e1z, sx * e1y - sy * e1x
    v = (d[0] * qx + d[1] * qy + d[2] * qz) / det
    if v < -EDGE or u + v > 1.0 + EDGE:
        return np.inf
    t = (e2x * qx + e2y * qy + e2z * qz) / det
    return t if t > 0.0 else np.inf


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _to_box(p: Any, inverse: Any, box: Any, o: int) -> Any:
    """Length along the ray to a box, 0 from inside it, or inf."""
    near = 0.0
    far = np.inf
    for a in range(3):
        low, high = box[o + a], box[o + 3 + a]
        if np.isinf(inverse[a]):
            if p[a] < low or p[a] > high:
                return np.inf
            continue
        one = (low - p[a]) * inverse[a]
        two = (high - p[a]) * inverse[a]
        near = max(near, min(one, two))
        far = min(far, max(one, two))
    return near if near <= far * (1.0 + 1e-12) else np.inf


@numba.njit(cache=True, nogil=True, error_model="numpy")
def cast(points: Any, direction: Any, any_hit: bool, tree: Any, out: Any, hits: Any) -> None:
    """Length to the first triangle along the direction, inf where there is none, and which it is.

    hits: filled with the place of that triangle in the tree, -1 where there is none.

    With `any_hit` the first triangle found ends the search of a ray.
    """
    tris, boxes, children, leaf_start = tree[0], tree[1], tree[2], tree[3]
    stack = np.empty(DEPTH, np.int32)
    reach = np.empty(DEPTH)
    inverse = np.empty(3)
    for a in range(3):
        inverse[a] = 1.0 / direction[a] if direction[a] != 0.0 else np.inf
    for n in range(len(points)):
        p = points[n]
        best, hit = np.inf, -1
        stack[0] = 0
        reach[0] = 0.0
        depth = 1
        while depth > 0 and not (any_hit and best < np.inf):
            depth -= 1
            if reach[depth] >= best:
                continue
            node = stack[depth]
            if node < 0:
                for i in range(leaf_start[~node], leaf_start[~node + 1]):
                    length = _on_triangle(p, direction, tris[i])
                    if length < best:
                        best, hit = length, i
                continue
            left = _to_box(p, inverse, boxes[node], 0)
            right = _to_box(p, inverse, boxes[node], 6)
            near = 0 if left <= right else 1
            for side in (1 - near, near):
                length = left if side == 0 else right
                if length < best:
                    stack[depth] = children[node, side]
                    reach[depth] = length
                    depth += 1
        out[n], hits[n] = best, hit
