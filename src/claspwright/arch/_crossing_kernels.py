"""Pairs of triangles that pass through one another."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

CLEAR = 1e-9  # of the size of both faces: further than this off a plane is on one side of it


@numba.njit(cache=True, nogil=True)
def _pierces(vertices: Any, p: int, q: int, one: int, two: int, three: int) -> Any:
    """1 where the open segment p-q passes through the inside of triangle one-two-three."""
    a, b, c = vertices[one], vertices[two], vertices[three]
    e1x, e1y, e1z = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    e2x, e2y, e2z = c[0] - a[0], c[1] - a[1], c[2] - a[2]
    px, py, pz = vertices[p, 0], vertices[p, 1], vertices[p, 2]
    dx, dy, dz = vertices[q, 0] - px, vertices[q, 1] - py, vertices[q, 2] - pz
    hx, hy, hz = dy * e2z - dz * e2y, dz * e2x - dx * e2z, dx * e2y - dy * e2x
    det = e1x * hx + e1y * hy + e1z * hz
    size = (
        np.sqrt(e1x * e1x + e1y * e1y + e1z * e1z)
        * np.sqrt(e2x * e2x + e2y * e2y + e2z * e2z)
        * np.sqrt(dx * dx + dy * dy + dz * dz)
    )
    if np.abs(det) <= 1e-12 * size or size == 0.0:
        return False
    sx, sy, sz = px - a[0], py - a[1], pz - a[2]
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
def _one_side(vertices: Any, faces: Any, f: int, g: int, shared: int) -> bool:
    """True where face f lies on one side of the plane of face g, so that neither is pierced.

    A corner counts as on a side only where it is CLEAR of the plane, as rounding cannot put it;
    the `shared` corners lie in the plane.
    """
    a, b, c = faces[g, 0], faces[g, 1], faces[g, 2]
    ax, ay, az = vertices[a, 0], vertices[a, 1], vertices[a, 2]
    ux, uy, uz = vertices[b, 0] - ax, vertices[b, 1] - ay, vertices[b, 2] - az
    vx, vy, vz = vertices[c, 0] - ax, vertices[c, 1] - ay, vertices[c, 2] - az
    nx, ny, nz = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
    span = (abs(ux) + abs(uy) + abs(uz)) * (abs(vx) + abs(vy) + abs(vz))
    above, below = 0, 0
    for k in range(3):
        p = faces[f, k]
        x, y, z = vertices[p, 0] - ax, vertices[p, 1] - ay, vertices[p, 2] - az
        level = x * nx + y * ny + z * nz
        clear = CLEAR * span * (abs(x) + abs(y) + abs(z))
        if level > clear:
            above += 1
        elif level < -clear:
            below += 1
    return above + shared == 3 or below + shared == 3


@numba.njit(cache=True, nogil=True)
def _cross(vertices: Any, faces: Any, f: int, g: int) -> bool:
    """True where an edge of one face passes through the other; shared vertices are skipped."""
    shared = 0
    for i in range(3):
        for j in range(3):
            if faces[f, i] == faces[g, j]:
                shared += 1
    if shared > 1:  # every edge of the one has a corner of the other
        return False
    if _one_side(vertices, faces, f, g, shared) or _one_side(vertices, faces, g, f, shared):
        return False
    for side in range(2):
        one, two = (f, g) if side == 0 else (g, f)
        a, b, c = faces[two, 0], faces[two, 1], faces[two, 2]
        for k in range(3):
            p, q = faces[one, k], faces[one, (k + 1) % 3]
            if p in (a, b, c) or q in (a, b, c):
                continue
            if _pierces(vertices, p, q, a, b, c):
                return True
    return False


@numba.njit(cache=True, nogil=True)
def mark_cells(low: Any, high: Any, shape: Any, quiet: int, marked: Any) -> None:
    """Mark the cells that a face from `quiet` on touches.

    Args:
        low: (F, 3) int32 lowest cell of each face.
        high: (F, 3) int32 highest cell of each face.
        shape: (3,) int64 cells a side.
        quiet: number of the first face that counts.
        marked: (C,) bool, False at first.
    """
    for f in range(quiet, low.shape[0]):
        for i in range(low[f, 0], high[f, 0] + 1):
            for j in range(low[f, 1], high[f, 1] + 1):
                for k in range(low[f, 2], high[f, 2] + 1):
                    marked[(i * shape[1] + j) * shape[2] + k] = True


@numba.njit(cache=True, nogil=True)
def bin_faces(low: Any, high: Any, shape: Any, marked: Any, start: Any, out: Any) -> None:
    """List the faces that touch each marked cell; call first with `out` empty to count.

    Args:
        low: (F, 3) int32 lowest cell of each face.
        high: (F, 3) int32 highest cell of each face.
        shape: (3,) int64 cells a side.
        marked: (C,) bool.
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
                    if not marked[cell]:
                        continue
                    if counting:
                        start[cell + 1] += 1
                    else:
                        out[fill[cell]] = f
                        fill[cell] += 1


@numba.njit(cache=True, nogil=True)
def crossing_pairs(
    vertices: Any,
    faces: Any,
    boxes: Any,
    cells: Any,
    shape: Any,
    start: Any,
    members: Any,
    pairs: Any,
    quiet: int,
    first: int,
    last: int,
) -> int:
    """Write crossing pairs into `pairs` and return how many there are, also beyond its length.

    A pair that shares several cells is looked at in the lowest of them alone.

    Args:
        vertices: (V, 3) float64 [mm].
        faces: (F, 3) int32.
        boxes: (F, 6) float64 lowest and highest corner of each face.
        cells: (F, 3) int32 lowest cell of each face.
        shape: (3,) int64 cells a side.
        start: (C + 1,) int64 first member of each cell.
        members: (N,) int32 faces, cell by cell, in order.
        pairs: (M, 2) int32 result.
        quiet: pairs of two faces below this number are passed over.
        first: the first cell that is looked at.
        last: the cell before which to stop.
    """
    found = 0
    for cell in range(first, last):
        end = start[cell + 1]
        loud = start[cell]
        while loud < end and members[loud] < quiet:
            loud += 1
        if loud == end:
            continue
        for i in range(start[cell], end):
            f = members[i]
            for j in range(max(i + 1, loud), end):
                g = members[j]
                if (
                    boxes[f, 0] > boxes[g, 3]
                    or boxes[g, 0] > boxes[f, 3]
                    or boxes[f, 1] > boxes[g, 4]
                    or boxes[g, 1] > boxes[f, 4]
                    or boxes[f, 2] > boxes[g, 5]
                    or boxes[g, 2] > boxes[f, 5]
                ):
                    continue
                x = max(cells[f, 0], cells[g, 0])
                y = max(cells[f, 1], cells[g, 1])
                z = max(cells[f, 2], cells[g, 2])
                if (x * shape[1] + y) * shape[2] + z != cell:
                    continue
                if not _cross(vertices, faces, f, g):
                    continue
                if found < pairs.shape[0]:
                    pairs[found, 0] = f
                    pairs[found, 1] = g
                found += 1
    return found
