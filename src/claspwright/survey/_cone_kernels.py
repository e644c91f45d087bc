"""Readings of many points along many ways out at once."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _value(f: Any, x: float, y: float, z: float) -> Any:
    """Trilinear value at fractional nodes within the grid."""
    i, j, k = int(x), int(y), int(z)
    x -= i
    y -= j
    z -= k
    a = f[i, j, k] * (1.0 - z) + f[i, j, k + 1] * z
    b = f[i, j + 1, k] * (1.0 - z) + f[i, j + 1, k + 1] * z
    c = f[i + 1, j, k] * (1.0 - z) + f[i + 1, j, k + 1] * z
    d = f[i + 1, j + 1, k] * (1.0 - z) + f[i + 1, j + 1, k + 1] * z
    return (a * (1.0 - y) + b * y) * (1.0 - x) + (c * (1.0 - y) + d * y) * x


@numba.njit(cache=True, nogil=True, error_model="numpy")
def blocked_by(f: Any, nodes: Any, ways: Any, step: float, spacing: float, out: Any) -> None:
    """How deep the solid of a distance field blocks each way (D, 3) from each node (N, 3).

    out (N, D): the negative of the least value along the way, 0 where the way is free [mm].
    The field changes by no more than the way walked, so a step may be as long as what the
    value exceeds the least one by. Ways are unit vectors of the grid's frame with z > 0; they
    end where they leave the grid. Points of a node run through all ways, so that the part of
    the field that they share stays near at hand.
    """
    high_x, high_y, high_z = f.shape[0] - 1.0, f.shape[1] - 1.0, f.shape[2] - 1.0
    for n in range(len(nodes)):
        for d in range(len(ways)):
            x, y, z = nodes[n, 0], nodes[n, 1], nodes[n, 2]
            dx, dy, dz = ways[d, 0], ways[d, 1], ways[d, 2]
            low = np.inf
            while 0.0 <= x < high_x and 0.0 <= y < high_y and 0.0 <= z < high_z:
                value = _value(f, x, y, z)
                low = min(low, value)
                way = max(step, (value - low) / spacing)
                x += way * dx
                y += way * dy
                z += way * dz
            out[n, d] = max(-low, 0.0)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def deepest_of(depth: Any, areas: Any, area: float, halvings: int, out: Any) -> None:
    """Depth (N, D) that the deepest `area` of points has at least, for each way (D,)."""
    for d in range(depth.shape[1]):
        high = 0.0
        for n in range(depth.shape[0]):
            high = max(high, depth[n, d])
        low = 0.0
        for _ in range(halvings):
            middle = 0.5 * (low + high)
            reached = 0.0
            for n in range(depth.shape[0]):
                if depth[n, d] >= middle:
                    reached += areas[n]
            if reached >= area:
                low = middle
            else:
                high = middle
        least = np.inf  # the lowest depth of those that reach the area
        for n in range(depth.shape[0]):
            if depth[n, d] >= low:
                least = min(least, depth[n, d])
        out[d] = least


@numba.njit(cache=True, nogil=True, error_model="numpy")
def guiding_bands(along: Any, graded: Any, band: float, width: float, out: Any) -> None:
    """Height (D,) over which graded area (N, D) is at least so wide; part of a band counts.

    along (N, D): heights along each way [mm]. The area of a point is shared by the two bands
    whose middles it lies between, so that the height changes smoothly with the way.
    """
    for d in range(along.shape[1]):
        low, high = np.inf, -np.inf
        for n in range(along.shape[0]):
            low = min(low, along[n, d])
            high = max(high, along[n, d])
        out[d] = 0.0
        if not high >= low:
            continue
        bands = np.zeros(int((high - low) / band) + 2)
        for n in range(along.shape[0]):
            at = (along[n, d] - low) / band
            k = int(at)
            bands[k] += graded[n, d] * (1.0 - (at - k))
            bands[k + 1] += graded[n, d] * (at - k)
        for k in range(len(bands)):
            out[d] += band * min(bands[k] / (band * width), 1.0)
