"""The reading of the undercut gauge on the fields of a survey.

All lengths are in steps of the grid unless the name says mm; +k is the path. The free region
of a plane k = const is where the blocked-out field is positive.
"""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

LEVEL_MM = 0.002  # depth up to which a point counts as free: level tissue is neither


@numba.njit(cache=True, nogil=True, error_model="numpy")
def clear_above(values: Any, tops: Any, first: int, last: int) -> None:
    """Make the nodes of each column above its top (NX, NY), in fractional k, outside ones."""
    for i in range(first, last):
        for j in range(values.shape[1]):
            start = 0
            if tops[i, j] > -1.0:
                start = int(np.ceil(tops[i, j] + 1e-6))
            for k in range(max(start, 0), values.shape[2]):
                values[i, j, k] = abs(values[i, j, k])


@numba.njit(cache=True, nogil=True, error_model="numpy")
def sweep_down(values: Any, first: int, last: int, out: Any) -> None:
    """Running minimum from the top along -k on the planes first:last."""
    for i in range(first, last):
        for j in range(values.shape[1]):
            low = values[i, j, values.shape[2] - 1]
            for k in range(values.shape[2] - 1, -1, -1):
                low = min(low, values[i, j, k])
                out[i, j, k] = low


@numba.njit(cache=True, nogil=True, error_model="numpy")
def trilinear(f: Any, x: float, y: float, z: float) -> Any:
    """Value at fractional nodes, clamped to the border."""
    nx, ny, nz = f.shape
    x = min(max(x, 0.0), nx - 1.0)
    y = min(max(y, 0.0), ny - 1.0)
    z = min(max(z, 0.0), nz - 1.0)
    i, j, k = min(int(x), nx - 2), min(int(y), ny - 2), min(int(z), nz - 2)
    x -= i
    y -= j
    z -= k
    a = f[i, j, k] * (1.0 - z) + f[i, j, k + 1] * z
    b = f[i, j + 1, k] * (1.0 - z) + f[i, j + 1, k + 1] * z
    c = f[i + 1, j, k] * (1.0 - z) + f[i + 1, j, k + 1] * z
    d = f[i + 1, j + 1, k] * (1.0 - z) + f[i + 1, j + 1, k + 1] * z
    return (a * (1.0 - y) + b * y) * (1.0 - x) + (c * (1.0 - y) + d * y) * x


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _is_clear(scan: Any, x: float, y: float, z: float, qx: float, qy: float, slack: float) -> Any:
    """True when the level way from (x, y) to (qx, qy) does not pass through the solid."""
    length = np.hypot(qx - x, qy - y)
    pieces = int(np.ceil(2.0 * length))
    for n in range(1, pieces):
        t = n / pieces
        if trilinear(scan, x + t * (qx - x), y + t * (qy - y), z) < -slack:
            return False
    return True


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _column(f: Any, i: int, j: int, k: int, w: float) -> Any:
    """How far a point between two nodes of a column is free."""
    return f[i, j, k] * (1.0 - w) + f[i, j, k + 1] * w + LEVEL_MM


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _outline(g: Any, i: int, j: int, ends: Any) -> int:
    """Border of the free region in one square: (x, y) pairs of up to two segments in ends."""
    a, b, c, d = g  # (0, 0), (1, 0), (1, 1), (0, 1)
    n = 0
    if (a < 0.0) != (b < 0.0):
        ends[n, 0], ends[n, 1] = i + a / (a - b), j
        n += 1
    if (b < 0.0) != (c < 0.0):
        ends[n, 0], ends[n, 1] = i + 1.0, j + b / (b - c)
        n += 1
    if (c < 0.0) != (d < 0.0):
        ends[n, 0], ends[n, 1] = i + 1.0 - c / (c - d), j + 1.0
        n += 1
    if (d < 0.0) != (a < 0.0):
        ends[n, 0], ends[n, 1] = i, j + 1.0 - d / (d - a)
        n += 1
    if n == 4 and (a < 0.0) == (a + b + c + d < 0.0):  # cut off corners b and d, not a and c
        return 4
    if n == 4:
        x, y = ends[3, 0], ends[3, 1]
        for m in range(3, 0, -1):
            ends[m, 0], ends[m, 1] = ends[m - 1, 0], ends[m - 1, 1]
        ends[0, 0], ends[0, 1] = x, y
    return n


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _nearest_free(
    block: Any, scan: Any, x: float, y: float, z: float, reach: float, slack: float, ends: Any
) -> Any:
    """(distance, x, y) of the nearest free point of the plane at z; reach if none nearer."""
    nx, ny, nz = block.shape
    k = min(max(int(z), 0), nz - 2)
    w = min(max(z - k, 0.0), 1.0)
    best, best_x, best_y = reach, x, y
    ci, cj = int(np.floor(x)), int(np.floor(y))
    for ring in range(int(reach) + 2):
        if ring - 1 >= best:
            break
        for i in range(max(ci - ring, 0), min(ci + ring, nx - 2) + 1):
            edge = i == ci - ring or i == ci + ring
            step = 1 if edge or ring == 0 else 2 * ring
            for j in range(cj - ring, cj + ring + 1, step):
                if j < 0 or j > ny - 2:
                    continue
                dx = max(max(i - x, x - i - 1.0), 0.0)
                dy = max(max(j - y, y - j - 1.0), 0.0)
                if dx * dx + dy * dy >= best * best:
                    continue
                g = (
                    _column(block, i, j, k, w), _column(block, i + 1, j, k, w),
                    _column(block, i + 1, j + 1, k, w), _column(block, i, j + 1, k, w),
                )  # fmt: skip
                number = _outline(g, i, j, ends)
                for n in range(0, number, 2):
                    ax, ay = ends[n, 0], ends[n, 1]
                    ex, ey = ends[n + 1, 0] - ax, ends[n + 1, 1] - ay
                    size = ex * ex + ey * ey
                    t = 0.0
                    if size > 0.0:
                        t = min(max(((x - ax) * ex + (y - ay) * ey) / size, 0.0), 1.0)
                    qx, qy = ax + t * ex, ay + t * ey
                    distance = np.hypot(qx - x, qy - y)
                    if distance < best and _is_clear(scan, x, y, z, qx, qy, slack):
                        best, best_x, best_y = distance, qx, qy
    return best, best_x, best_y


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _touch(scan: Any, x: float, y: float, z: float, slack: float) -> Any:
    """Height over z at which the upright through (x, y) first touches the solid.

    Half a step at a time: past where it leaves the surface that it stands on, down to the
    first dip of the distance that comes within the slack of the least one.
    """
    count = max(int(2.0 * (scan.shape[2] - 1.0 - z)), 2)
    start = 0
    while start < count and trilinear(scan, x, y, z + 0.5 * (start + 1)) >= trilinear(
        scan, x, y, z + 0.5 * start
    ):
        start += 1
    least = np.inf
    for n in range(start, count + 1):
        least = min(least, trilinear(scan, x, y, z + 0.5 * n))
    for n in range(start, count):
        here = trilinear(scan, x, y, z + 0.5 * n)
        above = trilinear(scan, x, y, z + 0.5 * (n + 1))
        if here > least + slack or above < here:
            continue
        if n == 0:
            return 0.0
        below = trilinear(scan, x, y, z + 0.5 * (n - 1))
        bend = below - 2.0 * here + above
        return 0.5 * (n + (0.5 * (below - above) / bend if bend > 0.0 else 0.0))
    return 0.5 * start


@numba.njit(cache=True, nogil=True, error_model="numpy")
def read_gauge(
    nodes: Any, block: Any, scan: Any, reach: float, slack: float, undercut: Any, below: Any,
    ends: Any,
) -> None:  # fmt: skip
    """Undercut, height below the survey line and free end (N, 2) at (N, 3) points, in steps."""
    corners = np.empty((4, 2))
    for n in range(len(nodes)):
        x, y, z = nodes[n, 0], nodes[n, 1], nodes[n, 2]
        undercut[n] = 0.0
        below[n] = 0.0
        ends[n, 0], ends[n, 1] = x, y
        if trilinear(block, x, y, z) >= -LEVEL_MM:
            continue
        found, qx, qy = _nearest_free(block, scan, x, y, z, reach, slack, corners)
        undercut[n] = found
        ends[n, 0], ends[n, 1] = qx, qy
        below[n] = _touch(scan, qx, qy, z, slack) if found < reach else np.nan


@numba.njit(cache=True, nogil=True, error_model="numpy")
def least_along(f: Any, nodes: Any, direction: Any, step: float, spacing: float, out: Any) -> None:
    """Least value of a distance field along a ray from each of (N, 3) nodes, both ends counted.

    The field changes by no more than the way walked, so a step may be as long as what the
    value exceeds the least one by. `direction` is a unit vector of the grid's frame.
    """
    nx, ny, nz = f.shape
    for n in range(len(nodes)):
        x, y, z = nodes[n, 0], nodes[n, 1], nodes[n, 2]
        low = trilinear(f, x, y, z)
        while z < nz - 1.0 and 0.0 <= x <= nx - 1.0 and 0.0 <= y <= ny - 1.0:
            value = trilinear(f, x, y, z)
            low = min(low, value)
            way = max(step, (value - low) / spacing)
            x += way * direction[0]
            y += way * direction[1]
            z += way * direction[2]
        out[n] = low
