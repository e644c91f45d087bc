"""Sums over a map of the normals, from which downskins of any orientation follow.

The sphere of normals is folded onto a square (octahedral map) of `side` x `side` bins. A bin
holds, for all faces whose normal falls into it, the sum of area times normal n, of area times the
products of normal n and centre c, and of area times normal over the protected faces: a row of
(n, nx cx, ny cy, nz cz, nx cy + ny cx, nx cz + nz cx, ny cz + nz cy, n of the protected faces).
"""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

TERMS = 12  # of a row
THIRD = 1.0 / 3.0
BLOCK = 512  # faces that stay near the processor from one step to the next


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _bins(vectors: Any, side: int, out: Any) -> None:
    """Bin of each of the vectors (3, N) on the map; nothing of use for those without length."""
    for n in range(len(out)):
        x, y, z = vectors[0, n], vectors[1, n], vectors[2, n]
        whole = max(abs(x) + abs(y) + abs(z), 1e-300)
        u, v = x / whole, y / whole
        over = 1.0 - abs(v) if u >= 0.0 else abs(v) - 1.0
        beyond = 1.0 - abs(u) if v >= 0.0 else abs(u) - 1.0
        u, v = (over, beyond) if z < 0.0 else (u, v)
        i = min(np.int32((u + 1.0) * (0.5 * side)), np.int32(side - 1))
        j = min(np.int32((v + 1.0) * (0.5 * side)), np.int32(side - 1))
        out[n] = i * np.int32(side) + j


@numba.njit(cache=True, nogil=True, error_model="numpy")
def gather(
    vertices: Any, faces: Any, guarded: Any, side: int, first: int, last: int, rows: Any,
    vectors: Any, size: Any,
) -> None:  # fmt: skip
    """Add the faces first to last to the map.

    Args:
        vertices: (V, 3).
        faces: (F, 3).
        guarded: (F,) protected faces.
        side: bins a side of the map.
        first: the first of the faces.
        last: the one after the last of them.
        rows: (side * side, TERMS) the map.
        vectors: (3, F) filled with normals as long as the area.
        size: (F,) filled with the area.
    """
    normal, centre, at = np.zeros((3, BLOCK)), np.empty((3, BLOCK)), np.empty(BLOCK, np.int32)
    for begin in range(first, last, BLOCK):
        count = min(BLOCK, last - begin)
        for n in range(count):
            f = begin + n
            a, b, d = faces[f, 0], faces[f, 1], faces[f, 2]
            ax, ay, az = vertices[a, 0], vertices[a, 1], vertices[a, 2]
            bx, by, bz = vertices[b, 0], vertices[b, 1], vertices[b, 2]
            dx, dy, dz = vertices[d, 0], vertices[d, 1], vertices[d, 2]
            x = 0.5 * ((by - ay) * (dz - az) - (bz - az) * (dy - ay))
            y = 0.5 * ((bz - az) * (dx - ax) - (bx - ax) * (dz - az))
            z = 0.5 * ((bx - ax) * (dy - ay) - (by - ay) * (dx - ax))
            normal[0, n], normal[1, n], normal[2, n] = x, y, z
            vectors[0, f], vectors[1, f], vectors[2, f] = x, y, z
            size[f] = np.sqrt(x * x + y * y + z * z)
            centre[0, n], centre[1, n], centre[2, n] = (
                (ax + bx + dx) * THIRD, (ay + by + dy) * THIRD, (az + bz + dz) * THIRD,
            )  # fmt: skip
        _bins(normal, side, at)
        for n in range(count):
            x, y, z = normal[0, n], normal[1, n], normal[2, n]
            if x == 0.0 and y == 0.0 and z == 0.0:
                continue
            cx, cy, cz = centre[0, n], centre[1, n], centre[2, n]
            b = at[n]
            rows[b, 0] += x
            rows[b, 1] += y
            rows[b, 2] += z
            rows[b, 3] += x * cx
            rows[b, 4] += y * cy
            rows[b, 5] += z * cz
            rows[b, 6] += x * cy + y * cx
            rows[b, 7] += x * cz + z * cx
            rows[b, 8] += y * cz + z * cy
            if guarded[begin + n]:
                rows[b, 9] += x
                rows[b, 10] += y
                rows[b, 11] += z


@numba.njit(cache=True, nogil=True, error_model="numpy")
def weigh(rows: Any, directions: Any, steep: float, flat: float, out: Any) -> None:
    """For each direction taken as up: (area seen from below that needs support, the same times
    its height over the origin, protected part of that area, flat part of that area).

    A bin needs support where its mean normal points down by more than `steep` (a cosine), and is
    flat where it does by more than `flat`. The directions pass side by side, bin after bin.

    Args:
        rows: (B, TERMS) the map; empty bins may be left out.
        directions: (3, D) unit vectors.
        steep: at least 0.
        flat: at least `steep`.
        out: (4, D) filled.
    """  # noqa: D205
    x, y, z = directions[0], directions[1], directions[2]
    area, lifted, guarded, even = out[0], out[1], out[2], out[3]
    out[:] = 0.0
    for b in range(len(rows)):
        nx, ny, nz = rows[b, 0], rows[b, 1], rows[b, 2]
        xx, yy, zz, xy, xz, yz = (
            rows[b, 3], rows[b, 4], rows[b, 5], rows[b, 6], rows[b, 7], rows[b, 8],
        )  # fmt: skip
        gx, gy, gz = rows[b, 9], rows[b, 10], rows[b, 11]
        size = np.sqrt(nx * nx + ny * ny + nz * nz)
        least, most = -steep * size, -flat * size
        for d in range(len(x)):
            up = nx * x[d] + ny * y[d] + nz * z[d]
            moment = (
                x[d] * (xx * x[d] + xy * y[d] + xz * z[d])
                + y[d] * (yy * y[d] + yz * z[d])
                + z[d] * zz * z[d]
            )
            kept = gx * x[d] + gy * y[d] + gz * z[d]
            hangs = up < least
            area[d] -= up if hangs else 0.0
            lifted[d] -= moment if hangs else 0.0
            guarded[d] -= kept if hangs else 0.0
            even[d] -= up if up < most else 0.0
