"""Pairs of triangles that pass through one another."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True)
def _pierces(p: Any, q: Any, a: Any, b: Any, c: Any) -> Any:
    """1 where the open segment p-q passes through the inside of triangle a-b-c."""
    e1x, e1y, e1z = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    e2x, e2y, e2z = c[0] - a[0], c[1] - a[1], c[2] - a[2]
    dx, dy, dz = q[0] - p[0], q[1] - p[1], q[2] - p[2]
    hx, hy, hz = dy * e2z - dz * e2y, dz * e2x - dx * e2z, dx * e2y - dy * e2x
    det = e1x * hx + e1y * hy + e1z * hz
    size = (
        np.sqrt(e1x * e1x + e1y * e1y + e1z * e1z)
        * np.sqrt(e2x * e2x + e2y * e2y + e2z * e2z)
        * np.sqrt(dx * dx + dy * dy + dz * dz)
    )
    if np.abs(det) <= 1e-12 * size or size == 0.0:
        return False
    sx, sy, sz = p[0] - a[0], p[1] - a[1], p[2] - a[2]
    u = (sx * hx + sy * hy + sz * hz) / det
    edge = 1e-9
    if u <= edge or u >= 1.0 - edge:
        return False
    kx, ky, kz = sy * e1z - sz * e1y, sz * e1x - sx * e1z, sx * e1y - sy * e1x
    v = (dx * kx + dy * ky + dz * kz) / det
    if v <= edge or u + v >= 1.0 - edge:
        return False
    t = (e2x * kx + e2y * ky + e2z * kz) / det
    return t > edge and t < 1.0 - edge


@numba.njit(cache=True, nogil=True)
def _cross(vertices: Any, f: Any, g: Any) -> bool:
    """True where an edge of one face passes through the other; shared vertices are skipped."""
    for side in range(2):
        one, two = (f, g) if side == 0 else (g, f)
        a, b, c = two[0], two[1], two[2]
        for k in range(3):
            p, q = one[k], one[(k + 1) % 3]
            if p in (a, b, c) or q in (a, b, c):
                continue
            if _pierces(vertices[p], vertices[q], vertices[a], vertices[b], vertices[c]):
                return True
    return False


@numba.njit(cache=True, nogil=True)
def bin_faces(low: Any, high: Any, shape: Any, start: Any, out: Any) -> None:
    """List the faces that touch each cell; call first with `out` empty to count.

    Args:
        low: (F, 3) int32 lowest cell of each face.
        high: (F, 3) int32 highest cell of each face.
        shape: (3,) int64 cells a side.
        start: (C + 1,) int64 first slot of each cell; overwritten with counts when counting.
        out: (N,) int32 face indices, cell by cell; empty to count.
    """
    counting = out.size == 0
    fill = start.copy()
    if counting:
        start[:] = 0
    for f in range(low.shape[0]):
        for i in range(low[f, 0], high[f, 0] + 1):
            for j in range(low[f, 1], high[f, 1] + 1):
                for k in range(low[f, 2], high[f, 2] + 1):
                    cell = (i * shape[1] + j) * shape[2] + k
                    if counting:
                        start[cell + 1] += 1
                    else:
                        out[fill[cell]] = f
                        fill[cell] += 1


@numba.njit(cache=True, nogil=True)
def crossing_pairs(
    vertices: Any, faces: Any, boxes: Any, start: Any, members: Any, pairs: Any, quiet: int
) -> int:
    """Write crossing pairs into `pairs` and return how many there are, also beyond its length.

    Args:
        vertices: (V, 3) float64 [mm].
        faces: (F, 3) int32.
        boxes: (F, 6) float64 lowest and highest corner of each face.
        start: (C + 1,) int64 first member of each cell.
        members: (N,) int32 faces, cell by cell.
        pairs: (M, 2) int32 result.
        quiet: pairs of two faces below this number are passed over.
    """
    found = 0
    for cell in range(start.shape[0] - 1):
        if start[cell] == start[cell + 1] or members[start[cell + 1] - 1] < quiet:
            continue  # members are in order, so that all of them are quiet
        for i in range(start[cell], start[cell + 1]):
            f = members[i]
            for j in range(i + 1, start[cell + 1]):
                g = members[j]
                if f < quiet and g < quiet:
                    continue
                apart = False
                for k in range(3):
                    if boxes[f, k] > boxes[g, k + 3] or boxes[g, k] > boxes[f, k + 3]:
                        apart = True
                        break
                if apart or not _cross(vertices, faces[f], faces[g]):
                    continue
                if found < pairs.shape[0]:
                    pairs[found, 0] = min(f, g)
                    pairs[found, 1] = max(f, g)
                found += 1
    return found
