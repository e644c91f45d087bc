"""Dual contouring with one vertex for each sheet of the surface in a cell.

Corner c of a cell lies at (c & 1, c >> 1 & 1, c >> 2 & 1); edge e = 4 * axis + position, with
position numbering the four edges along that axis by the two other coordinates, lower axis
first. A set bit of a mask is a corner inside. Nodes outside the field count as outside.
"""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

RIM = 0.005  # vertices keep this part of a cell's side from its walls
KINK = 0.1  # bend, against the slope, from which a field counts as creased
TIE = 0.01  # weight of the mean crossing against the planes


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _value(f: Any, i: int, j: int, k: int, level: float) -> Any:
    """Field less the level; NaN outside."""
    n = f.shape
    if i < 0 or j < 0 or k < 0 or i >= n[0] or j >= n[1] or k >= n[2]:
        return np.nan
    return f[i, j, k] - level


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _raw_mask(f: Any, i: int, j: int, k: int, level: float) -> Any:
    mask = 0
    n = f.shape
    if 0 <= i < n[0] - 1 and 0 <= j < n[1] - 1 and 0 <= k < n[2] - 1:
        for c in range(8):
            if f[i + (c & 1), j + (c >> 1 & 1), k + (c >> 2)] < level:
                mask |= 1 << c
        return mask
    for c in range(8):
        if _value(f, i + (c & 1), j + (c >> 1 & 1), k + (c >> 2), level) < 0.0:
            mask |= 1 << c
    return mask


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _sheet_mask(f: Any, i: int, j: int, k: int, level: float, fused: Any) -> Any:
    """The mask to look sheets up by: turned over where two fused cells share a doubtful face."""
    mask = _raw_mask(f, i, j, k, level)
    face = fused[mask]
    if face >= 0:
        axis, up = face // 2, face % 2
        step = 2 * up - 1
        other = _raw_mask(
            f, i + step * (axis == 0), j + step * (axis == 1), k + step * (axis == 2), level
        )
        if fused[other] == face + 1 - 2 * up:
            return mask ^ 255
    return mask


@numba.njit(cache=True, nogil=True, error_model="numpy")
def count_cells(f: Any, level: float, i: int, fused: Any, counts: Any, rows: Any) -> Any:
    """(vertices, crossed edges) of the cells in slab i, -1 <= i < shape[0].

    The crossed edges are those that start at node plane i. rows[j + 1] becomes True for the rows
    of cells with a vertex; all False before.
    """
    nx, ny, nz = f.shape
    vertices = 0
    edges = 0
    for j in range(-1, ny):
        inner_row = 0 <= i < nx - 1 and 0 <= j < ny - 1
        below = False
        above = False
        if inner_row:
            a = f[i, j, 0] < level
            below = a
            above = not a
            if (f[i, j + 1, 0] < level) != a or (f[i + 1, j, 0] < level) != a:
                below = above = True
            if (f[i + 1, j + 1, 0] < level) != a:
                below = above = True
        for k in range(-1, nz):
            if inner_row and 0 <= k < nz - 1:
                a = f[i, j, k + 1] < level
                b = f[i, j + 1, k + 1] < level
                c = f[i + 1, j, k + 1] < level
                d = f[i + 1, j + 1, k + 1] < level
                top_in = a or b or c or d
                top_out = not (a and b and c and d)
                mixed = (below or top_in) and (above or top_out)
                below, above = top_in, top_out
                if not mixed:
                    continue
            mask = _sheet_mask(f, i, j, k, level, fused)
            if mask == 0 or mask == 255:
                continue
            vertices += counts[mask]
            rows[j + 1] = True
            raw = _raw_mask(f, i, j, k, level)
            corner = raw & 1
            for axis in range(3):
                if (raw >> (1 << axis) & 1) != corner:
                    edges += 1
    return vertices, edges


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _one_slope(a: float, b: float, c: float, d: float, e: float) -> Any:
    """Slope at c of five values in a row: mostly from the side on which they bend less.

    Where both sides are alike, as in a smooth field, it is the central difference; beside a
    crease it looks away from it.
    """
    back = c - b
    ahead = d - c
    size = KINK * (abs(back) + abs(ahead)) + 1e-12
    bend_back = (abs(c - 2.0 * b + a) + size) ** 2
    bend_ahead = (abs(c - 2.0 * d + e) + size) ** 2
    return (back * bend_ahead + ahead * bend_back) / (bend_back + bend_ahead)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _slope(f: Any, i: int, j: int, k: int, out: Any) -> None:
    """Gradient at a node, per step; beyond the border the field runs on level."""
    nx, ny, nz = f.shape
    out[0] = _one_slope(
        f[max(i - 2, 0), j, k], f[max(i - 1, 0), j, k], f[i, j, k],
        f[min(i + 1, nx - 1), j, k], f[min(i + 2, nx - 1), j, k],
    )  # fmt: skip
    out[1] = _one_slope(
        f[i, max(j - 2, 0), k], f[i, max(j - 1, 0), k], f[i, j, k],
        f[i, min(j + 1, ny - 1), k], f[i, min(j + 2, ny - 1), k],
    )  # fmt: skip
    out[2] = _one_slope(
        f[i, j, max(k - 2, 0)], f[i, j, max(k - 1, 0)], f[i, j, k],
        f[i, j, min(k + 1, nz - 1)], f[i, j, min(k + 2, nz - 1)],
    )  # fmt: skip


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _crossing(
    f: Any, level: float, i: int, j: int, k: int, axis: int, point: Any, normal: Any, work: Any
) -> None:
    """Where the edge from node (i, j, k) along an axis crosses the level, and the normal."""
    di, dj, dk = int(axis == 0), int(axis == 1), int(axis == 2)
    a = _value(f, i, j, k, level)
    b = _value(f, i + di, j + dj, k + dk, level)
    point[0], point[1], point[2] = i, j, k
    if np.isnan(a) or np.isnan(b):
        point[axis] += 0.5
        normal[0] = normal[1] = normal[2] = 0.0
        normal[axis] = -1.0 if np.isnan(a) else 1.0
        return
    t = a / (a - b)
    point[axis] += t
    _slope(f, i, j, k, normal)
    _slope(f, i + di, j + dj, k + dk, work)
    length = 0.0
    for n in range(3):
        normal[n] += t * (work[n] - normal[n])
        length += normal[n] * normal[n]
    length = np.sqrt(length)
    if length > 0.0:
        for n in range(3):
            normal[n] /= length
    else:
        normal[axis] = 1.0 if b > a else -1.0


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _solve(m: Any, r: Any, x: Any) -> None:
    """X of the symmetric positive definite m x = r: (xx, xy, xz, yy, yz, zz)."""
    c00 = m[3] * m[5] - m[4] * m[4]
    c01 = m[2] * m[4] - m[1] * m[5]
    c02 = m[1] * m[4] - m[2] * m[3]
    c11 = m[0] * m[5] - m[2] * m[2]
    c12 = m[1] * m[2] - m[0] * m[4]
    c22 = m[0] * m[3] - m[1] * m[1]
    det = m[0] * c00 + m[1] * c01 + m[2] * c02
    x[0] = (c00 * r[0] + c01 * r[1] + c02 * r[2]) / det
    x[1] = (c01 * r[0] + c11 * r[1] + c12 * r[2]) / det
    x[2] = (c02 * r[0] + c12 * r[1] + c22 * r[2]) / det


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _sheet_vertex(
    f: Any, level: float, i: int, j: int, k: int, sheets: Any, sheet: int, ends: Any, work: Any
) -> None:
    """Vertex of one sheet in a cell into work[0]: least squares of the tangent planes."""
    points, normals = work[2:14], work[14:26]
    work[0:2] = 0.0
    number = 0
    for e in range(12):
        if sheets[e] != sheet:
            continue
        c = ends[e]
        _crossing(
            f, level, i + (c & 1), j + (c >> 1 & 1), k + (c >> 2), e // 4,
            points[number], normals[number], work[1],
        )  # fmt: skip
        work[0] += points[number]
        number += 1
    work[0] /= number
    work[26:30] = 0.0
    m, r, x = work[26:28].reshape(6), work[28], work[29]
    m[0] = m[3] = m[5] = TIE * number
    for n in range(number):
        a, b, c2 = normals[n, 0], normals[n, 1], normals[n, 2]
        off = 0.0
        for axis in range(3):
            off += normals[n, axis] * (points[n, axis] - work[0, axis])
        m[0] += a * a
        m[1] += a * b
        m[2] += a * c2
        m[3] += b * b
        m[4] += b * c2
        m[5] += c2 * c2
        r[0] += a * off
        r[1] += b * off
        r[2] += c2 * off
    _solve(m, r, x)
    work[0] += x
    low = (i, j, k)
    for axis in range(3):
        work[0, axis] = min(max(work[0, axis], low[axis] + RIM), low[axis] + 1.0 - RIM)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def fill_slab(
    f: Any, level: float, i: int, fused: Any, counts: Any, rows: Any, sheets: Any, ends: Any,
    first: int, vertices: Any, cells: Any, masks: Any,
) -> None:  # fmt: skip
    """Vertices of the cells in slab i; cells[j + 1, k + 1] takes the first index or -1.

    Only rows with rows[j + 1] True are looked through.
    """
    nx, ny, nz = f.shape
    work = np.zeros((30, 3))
    number = first
    cells[:] = -1
    for j in range(-1, ny):
        if not rows[j + 1]:
            continue
        for k in range(-1, nz):
            if 0 <= i < nx - 1 and 0 <= j < ny - 1 and 0 <= k < nz - 1:
                a = f[i, j, k] < level
                if (
                    (f[i, j, k + 1] < level) == a
                    and (f[i, j + 1, k] < level) == a
                    and (f[i, j + 1, k + 1] < level) == a
                    and (f[i + 1, j, k] < level) == a
                    and (f[i + 1, j, k + 1] < level) == a
                    and (f[i + 1, j + 1, k] < level) == a
                    and (f[i + 1, j + 1, k + 1] < level) == a
                ):
                    continue
            mask = _sheet_mask(f, i, j, k, level, fused)
            if mask == 0 or mask == 255:
                continue
            cells[j + 1, k + 1] = number
            masks[j + 1, k + 1] = mask
            for sheet in range(counts[mask]):
                _sheet_vertex(f, level, i, j, k, sheets[mask], sheet, ends, work)
                vertices[number] = work[0]
                number += 1


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _corner_vertex(cells: Any, masks: Any, sheets: Any, j: int, k: int, edge: int) -> Any:
    return cells[j + 1, k + 1] + sheets[masks[j + 1, k + 1], edge]


@numba.njit(cache=True, nogil=True, error_model="numpy")
def quads_at_plane(
    f: Any, level: float, i: int, rows: Any, sheets: Any, cells: Any, masks: Any, first: int,
    quads: Any,
) -> int:  # fmt: skip
    """Quads of the edges that start at node plane i, from slabs i - 1 (0) and i (1).

    Counter-clockwise seen from outside. For i = -1 only the edges along the first axis exist.
    """
    ny, nz = f.shape[1], f.shape[2]
    count = first
    for j in range(-1, ny):
        if not rows[j + 1]:
            continue
        for k in range(-1, nz):
            if cells[1, j + 1, k + 1] < 0:
                continue
            here = _value(f, i, j, k, level) < 0.0
            for axis in range(3):
                di, dj, dk = int(axis == 0), int(axis == 1), int(axis == 2)
                there = _value(f, i + di, j + dj, k + dk, level) < 0.0
                if here == there:
                    continue
                # edge position 3 - p of the cell that lies back by the bits of p
                for p in range(4):
                    u, w = p & 1, p >> 1
                    if axis == 0:
                        slab, cj, ck = 1, j - u, k - w
                    elif axis == 1:
                        slab, cj, ck = 1 - u, j, k - w
                    else:
                        slab, cj, ck = 1 - u, j - w, k
                    slot = p ^ (p >> 1)  # round the edge: 0, 1, 3, 2
                    v = _corner_vertex(cells[slab], masks[slab], sheets, cj, ck, 4 * axis + p)
                    quads[count, slot] = v
                if here == (axis == 1):
                    quads[count, 1], quads[count, 3] = quads[count, 3], quads[count, 1]
                count += 1
    return count


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _at(f: Any, level: float, p: Any, q: Any) -> Any:
    """Trilinear |field - level| midway between two points in nodes; 0 outside."""
    n = f.shape
    x, y, z = 0.5 * (p[0] + q[0]), 0.5 * (p[1] + q[1]), 0.5 * (p[2] + q[2])
    i, j, k = int(np.floor(x)), int(np.floor(y)), int(np.floor(z))
    if i < 0 or j < 0 or k < 0 or i >= n[0] - 1 or j >= n[1] - 1 or k >= n[2] - 1:
        return 0.0
    x, y, z = x - i, y - j, z - k
    total = 0.0
    for c in range(8):
        a, b, d = c & 1, c >> 1 & 1, c >> 2
        weight = (x if a else 1.0 - x) * (y if b else 1.0 - y) * (z if d else 1.0 - z)
        total += weight * f[i + a, j + b, k + d]
    return abs(total - level)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def split_quads(f: Any, level: float, vertices: Any, quads: Any, faces: Any) -> None:
    """Two triangles a quad, along the diagonal that lies nearer to the level."""
    for n in range(len(quads)):
        a, b, c, d = quads[n]
        one = _at(f, level, vertices[a], vertices[c])
        two = _at(f, level, vertices[b], vertices[d])
        if one == two:
            for axis in range(3):
                one += (vertices[a, axis] - vertices[c, axis]) ** 2
                two += (vertices[b, axis] - vertices[d, axis]) ** 2
        if one <= two:
            faces[2 * n, 0], faces[2 * n, 1], faces[2 * n, 2] = a, b, c
            faces[2 * n + 1, 0], faces[2 * n + 1, 1], faces[2 * n + 1, 2] = a, c, d
        else:
            faces[2 * n, 0], faces[2 * n, 1], faces[2 * n, 2] = b, c, d
            faces[2 * n + 1, 0], faces[2 * n + 1, 1], faces[2 * n + 1, 2] = b, d, a
