"""Sums over a part for many orientations: extent, shadow, faces that hang, areas of sections."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

# No value is nan: so the lesser of two is one instruction, and several are found at once.
LOOSE = {"nnan", "nsz"}
BLOCK = 128  # faces whose hanging ones are counted together


@numba.njit(cache=True, nogil=True, error_model="numpy", fastmath=LOOSE)
def extents(points: Any, directions: Any, out: Any) -> None:
    """Lowest and highest of the points along each direction.

    The directions pass side by side, four points at a time.

    Args:
        points: (V, 3).
        directions: (3, D).
        out: (2, D) filled.
    """
    x, y, z = directions[0], directions[1], directions[2]
    low, high = out[0], out[1]
    low[:], high[:] = 1e300, -1e300
    end = len(points) - 1
    for n in range(0, len(points), 4):
        a, b, c, e = n, min(n + 1, end), min(n + 2, end), min(n + 3, end)
        ax, ay, az = points[a, 0], points[a, 1], points[a, 2]
        bx, by, bz = points[b, 0], points[b, 1], points[b, 2]
        cx, cy, cz = points[c, 0], points[c, 1], points[c, 2]
        ex, ey, ez = points[e, 0], points[e, 1], points[e, 2]
        for d in range(len(x)):
            one = ax * x[d] + ay * y[d] + az * z[d]
            two = bx * x[d] + by * y[d] + bz * z[d]
            three = cx * x[d] + cy * y[d] + cz * z[d]
            four = ex * x[d] + ey * y[d] + ez * z[d]
            least = one if one < two else two
            other = three if three < four else four
            least = least if least < other else other
            most = one if one > two else two
            other = three if three > four else four
            most = most if most > other else other
            low[d] = least if least < low[d] else low[d]
            high[d] = most if most > high[d] else high[d]


@numba.njit(cache=True, nogil=True, error_model="numpy", fastmath=LOOSE)
def shadows(points: Any, across: Any, ahead: Any, pixel: float, out: Any) -> None:
    """Number of pixels that the points fall into, looking along each direction.

    Args:
        points: (V, 3).
        across: (3, D) first axis of the picture of each direction.
        ahead: (3, D) second axis.
        pixel: side of a pixel.
        out: (D,) filled.
    """
    ends, sides = np.empty((2, across.shape[1])), np.empty((2, across.shape[1]))
    extents(points, across, ends)
    extents(points, ahead, sides)
    turned = np.ascontiguousarray(points.T)
    px, py, pz = turned[0], turned[1], turned[2]
    place = np.empty(len(points), np.int32)
    scale = 1.0 / pixel
    for d in range(across.shape[1]):
        ax, ay, az = across[0, d], across[1, d], across[2, d]
        bx, by, bz = ahead[0, d], ahead[1, d], ahead[2, d]
        low, left = ends[0, d], sides[0, d]
        # one more than asked for, lest rounding put a point beyond the edge
        columns = np.int32((sides[1, d] - left) * scale) + np.int32(2)
        rows = np.int32((ends[1, d] - low) * scale) + np.int32(2)
        for n in range(len(px)):
            i = np.int32((px[n] * ax + py[n] * ay + pz[n] * az - low) * scale)
            j = np.int32((px[n] * bx + py[n] * by + pz[n] * bz - left) * scale)
            place[n] = np.int32(i * columns + j)
        seen = np.zeros(rows * columns, np.uint8)
        for n in range(len(place)):
            seen[place[n]] = 1
        count = 0
        for k in range(len(seen)):
            count += seen[k]
        out[d] = count


@numba.njit(cache=True, nogil=True, error_model="numpy")
def hanging(
    vectors: Any, size: Any, guarded: Any, directions: Any, steep: float, flat: float,
    first: int, last: int, sums: Any, counts: Any,
) -> None:  # fmt: skip
    """Sums over the faces first to last that hang in each direction taken as up.

    Args:
        vectors: (3, F) normals as long as the area.
        size: (F,) area.
        guarded: (F,) protected faces.
        directions: (3, D).
        steep: a face hangs that points down by more than this (a cosine).
        flat: and is flat that points down by more than this.
        first: the first of the faces, a multiple of BLOCK.
        last: the one after the last of them.
        sums: (3, D) to which area seen from below, flat and protected part of it are added.
        counts: (F / BLOCK rounded up, D) to which the number in each block of faces is added.
    """
    x, y, z = directions[0], directions[1], directions[2]
    area, level, kept = sums[0], sums[1], sums[2]
    for f in range(first, last):
        nx, ny, nz = vectors[0, f], vectors[1, f], vectors[2, f]
        least, most = steep * size[f], flat * size[f]
        held = 1.0 if guarded[f] else 0.0
        count = counts[f // BLOCK]
        for d in range(len(x)):
            down = -(nx * x[d] + ny * y[d] + nz * z[d])
            seen = down if down > least else 0.0
            area[d] += seen
            kept[d] += held * seen
            level[d] += down if down > most else 0.0
            count[d] += 1.0 if down > least else 0.0


@numba.njit(cache=True, nogil=True, error_model="numpy")
def every_nth(
    vectors: Any, size: Any, up: Any, steep: float, counts: Any, step: int, chosen: Any
) -> int:
    """The first, and from there every step-th, of the faces that hang; how many they are.

    Args:
        vectors: (3, F).
        size: (F,).
        up: (3,).
        steep: as `hanging` takes it.
        counts: (B,) faces that hang in each block, from `hanging`.
        step: at least 1.
        chosen: room for them.
    """
    found = passed = 0
    for block in range(len(counts)):
        within = int(counts[block])
        if found * step < passed + within:
            at = passed
            for f in range(block * BLOCK, min((block + 1) * BLOCK, len(size))):
                down = -(vectors[0, f] * up[0] + vectors[1, f] * up[1] + vectors[2, f] * up[2])
                if not down > steep * size[f]:
                    continue
                if at == found * step:
                    chosen[found] = f
                    found += 1
                at += 1
        passed += within
    return found


@numba.njit(cache=True, nogil=True, error_model="numpy")
def section_areas(
    across: Any, ahead: Any, heights: Any, faces: Any, bottom: float, step: float, out: Any
) -> None:
    """Area of the cross-section at each height bottom + (k + 1/2) step, by the shoelace formula.

    across, ahead, heights: (V,) coordinates of the vertices along three axes at right angles,
    right-handed, the third of them up. The sense of a piece of contour follows from its face.
    """
    for f in range(len(faces)):
        a, b, c = faces[f, 0], faces[f, 1], faces[f, 2]
        low = min(heights[a], heights[b], heights[c])
        high = max(heights[a], heights[b], heights[c])
        k = max(int(np.ceil((low - bottom) / step - 0.5)), 0)
        while k < len(out) and bottom + (k + 0.5) * step <= high:
            height = bottom + (k + 0.5) * step
            found = 0
            px = py = qx = qy = 0.0
            one, two = c, a
            for _ in range(3):
                under = heights[one] < height
                if under != (heights[two] < height):
                    found += 1
                    t = (height - heights[one]) / (heights[two] - heights[one])
                    x = across[one] + t * (across[two] - across[one])
                    y = ahead[one] + t * (ahead[two] - ahead[one])
                    if under:  # the piece leaves a face by the edge that climbs
                        qx, qy = x, y
                    else:
                        px, py = x, y
                one, two = two, (b if two == a else c)
            if found == 2:
                out[k] += 0.5 * (px * qy - py * qx)
            k += 1
