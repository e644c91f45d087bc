"""Triangles binned in plan, so that a ray along the path asks one bin; and the seen outlines.

Coordinates are in a frame whose +z is the path. A triangle is a row of ten: three corners and
twice its area in plan, positive where it faces out of the mouth.
"""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

PUSH = 1e-7  # mm beyond an outline at which its outer side is asked
SLACK = 1e-12  # mm2, so that no ray slips between two triangles
UP, DOWN = 1, 2


@numba.njit(cache=True, nogil=True, error_model="numpy")
def flatten(points: Any, faces: Any, tris: Any, low: Any, top: Any) -> None:
    """Rows of the triangles (F, 10), their lowest and highest z (F,)."""
    for f in range(len(faces)):
        low[f], top[f] = np.inf, -np.inf
        for c in range(3):
            for a in range(3):
                tris[f, 3 * c + a] = points[faces[f, c], a]
            low[f] = min(low[f], tris[f, 3 * c + 2])
            top[f] = max(top[f], tris[f, 3 * c + 2])
        ax, ay = tris[f, 0], tris[f, 1]
        tris[f, 9] = (tris[f, 3] - ax) * (tris[f, 7] - ay) - (tris[f, 6] - ax) * (tris[f, 4] - ay)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def mark_edges(
    faces: Any, edge_of: Any, tris: Any, kind: Any, count: Any, across: Any, sides: Any
) -> None:
    """Which way the faces of each edge look, their number, and a vertex that faces one of them.

    That vertex belongs to a face that looks up where there is one. `sides` (E, 2) gets a face
    that looks up and one that does not, -1 where there is none.
    """
    for f in range(len(faces)):
        way = UP if tris[f, 9] > SLACK else DOWN
        for c in range(3):
            e = edge_of[f, c]
            if count[e] == 0 or (way == UP and kind[e] & UP == 0):
                across[e] = faces[f, (c + 2) % 3]
            kind[e] |= way
            sides[e, 0 if way == UP else 1] = f
            count[e] += 1


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _strip(ax: float, ay: float, bx: float, by: float, y0: float, y1: float, span: Any) -> None:
    """Widen the span (2,) of x by the part of a segment between two levels of y."""
    if ay > by:
        ax, ay, bx, by = bx, by, ax, ay
    if by < y0 or ay > y1:
        return
    s, t = 0.0, 1.0
    if by > ay:
        s = max((y0 - ay) / (by - ay), 0.0)
        t = min((y1 - ay) / (by - ay), 1.0)
    one, two = ax + s * (bx - ax), ax + t * (bx - ax)
    span[0] = min(span[0], one, two)
    span[1] = max(span[1], one, two)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def bin_rows(rows: Any, corners: int, plan: Any, start: Any, items: Any, fill: bool) -> None:
    """Count the rows of each bin into start[1:], or fill items where start holds where.

    A row begins with `corners` points of three numbers; two make a segment, three a triangle.
    The plan holds x and y of the corner of the bins, their size, and their numbers along x, y.
    """
    x0, y0, size = plan[0], plan[1], plan[2]
    nx, ny = int(plan[3]), int(plan[4])
    span = np.empty(2)
    last = corners if corners > 2 else 1
    for r in range(len(rows)):
        low, high = np.inf, -np.inf
        for c in range(corners):
            low = min(low, rows[r, 3 * c + 1])
            high = max(high, rows[r, 3 * c + 1])
        for j in range(int((low - y0) / size), min(int((high - y0) / size), ny - 1) + 1):
            span[0], span[1] = np.inf, -np.inf
            base = y0 + j * size
            for c in range(last):
                a, b = 3 * c, 3 * ((c + 1) % corners)
                _strip(rows[r, a], rows[r, a + 1], rows[r, b], rows[r, b + 1],
                       base - 1e-9, base + size + 1e-9, span)  # fmt: skip
            first = max(int((span[0] - x0 - 1e-9) / size), 0)
            for i in range(first, min(int((span[1] - x0 + 1e-9) / size), nx - 1) + 1):
                cell = i * ny + j
                if fill:
                    items[start[cell]] = r
                    start[cell] += 1
                else:
                    start[cell + 1] += 1


@numba.njit(cache=True, nogil=True, error_model="numpy")
def sort_bins(start: Any, items: Any, top: Any) -> None:
    """Order each bin from its highest triangle to its lowest."""
    for cell in range(len(start) - 1):
        for m in range(start[cell] + 1, start[cell + 1]):
            item = items[m]
            n = m - 1
            while n >= start[cell] and top[items[n]] < top[item]:
                items[n + 1] = items[n]
                n -= 1
            items[n + 1] = item


@numba.njit(cache=True, nogil=True, error_model="numpy")
def covered(x: float, y: float, z: float, plan: Any, bins: Any) -> Any:
    """True where a triangle lies over a point, along +z; `bins` are start, items, tris, top."""
    start, items, tris, top = bins[0], bins[1], bins[2], bins[3]
    i, j = int(np.floor((x - plan[0]) / plan[2])), int(np.floor((y - plan[1]) / plan[2]))
    if i < 0 or j < 0 or i >= plan[3] or j >= plan[4]:
        return False
    cell = i * int(plan[4]) + j
    for m in range(start[cell], start[cell + 1]):
        f = items[m]
        if top[f] <= z:
            return False
        t = tris[f]
        area = t[9]
        if abs(area) <= SLACK:
            continue
        side = 1.0 if area > 0.0 else -1.0
        u = side * ((t[3] - x) * (t[7] - y) - (t[6] - x) * (t[4] - y))
        if u < -SLACK:
            continue
        v = side * ((t[6] - x) * (t[1] - y) - (t[0] - x) * (t[7] - y))
        if v < -SLACK:
            continue
        w = side * area - u - v
        if w < -SLACK:
            continue
        if (u * t[2] + v * t[5] + w * t[8]) * side / area > z:
            return True
    return False


@numba.njit(cache=True, nogil=True, error_model="numpy")
def covered_points(points: Any, plan: Any, bins: Any, out: Any) -> None:
    """The same for (N, 3) points."""
    for n in range(len(points)):
        out[n] = covered(points[n, 0], points[n, 1], points[n, 2], plan, bins)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def crossing(s: Any, t: Any) -> Any:
    """Where two segments (ax, ay, az, bx, by, bz, ...) cross in plan: (on s, on t), or -1, -1."""
    px, py = s[3] - s[0], s[4] - s[1]
    qx, qy = t[3] - t[0], t[4] - t[1]
    det = px * qy - py * qx
    if abs(det) < 1e-18:
        return -1.0, -1.0
    dx, dy = t[0] - s[0], t[1] - s[1]
    return (dx * qy - dy * qx) / det, (dx * py - dy * px) / det


@numba.njit(cache=True, nogil=True, error_model="numpy")
def find_breaks(edges: Any, start: Any, items: Any, plan: Any, found: Any) -> int:
    """Where edges pass under or through others in plan: (edge, way along it); returns how many.

    With no room in `found` they are counted only.
    """
    count = 0
    nx, ny = int(plan[3]), int(plan[4])
    for cell in range(nx * ny):
        for m in range(start[cell], start[cell + 1]):
            for n in range(m + 1, start[cell + 1]):
                a, b = edges[items[m]], edges[items[n]]
                s, t = crossing(a, b)
                if not (-1e-9 <= s <= 1.0 + 1e-9 and -1e-9 <= t <= 1.0 + 1e-9):
                    continue
                za, zb = a[2] + s * (a[5] - a[2]), b[2] + t * (b[5] - b[2])
                for way, which, under in ((s, items[m], za - zb), (t, items[n], zb - za)):
                    if under > 1e-9 or not 1e-9 < way < 1.0 - 1e-9:
                        continue
                    if count < len(found):
                        found[count, 0], found[count, 1] = which, way
                    count += 1
    return count


@numba.njit(cache=True, nogil=True, error_model="numpy")
def seen_pieces(pieces: Any, plan: Any, bins: Any, first: int, last: int, seen: Any) -> None:
    """Which pieces of outline (ax, ay, az, bx, by, bz, outward x, y, ...) nothing lies over."""
    for n in range(first, last):
        p = pieces[n]
        x, y, z = 0.5 * (p[0] + p[3]), 0.5 * (p[1] + p[4]), 0.5 * (p[2] + p[5])
        seen[n] = not covered(x + PUSH * p[6], y + PUSH * p[7], z + 1e-9, plan, bins)
