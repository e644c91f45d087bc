"""Fields of a survey, whose grid has +k along the path."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


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
def sweep_tapered(values: Any, drop: float, first: int, last: int, out: Any) -> None:
    """The same, what comes down growing by `drop` a step."""
    for i in range(first, last):
        for j in range(values.shape[1]):
            low = values[i, j, values.shape[2] - 1]
            for k in range(values.shape[2] - 1, -1, -1):
                low = min(low - drop, values[i, j, k])
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
