"""Readings of many points along many ways out at once."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _value(f: Any, x: float, y: float, z: float) -> Any:
    """Trilinear value at fractional nodes within the grid."""
    i, j, k = np.uintp(x), np.uintp(y), np.uintp(z)  # unsigned: no test for indices from the end
    i1, j1, k1 = i + np.uintp(1), j + np.uintp(1), k + np.uintp(1)
    x, y, z = x - i, y - j, z - k
    a = f[i, j, k] * (1.0 - z) + f[i, j, k1] * z
    b = f[i, j1, k] * (1.0 - z) + f[i, j1, k1] * z
    c = f[i1, j, k] * (1.0 - z) + f[i1, j, k1] * z
    d = f[i1, j1, k] * (1.0 - z) + f[i1, j1, k1] * z
    return (a * (1.0 - y) + b * y) * (1.0 - x) + (c * (1.0 - y) + d * y) * x


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _within(f: Any, x: float, y: float, z: float) -> Any:
    return (
        (0.0 <= x < f.shape[0] - 1.0)
        and (0.0 <= y < f.shape[1] - 1.0)
        and (0.0 <= z < f.shape[2] - 1.0)
    )


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _onward(f: Any, at: Any, way: Any, low: float, step: float, spacing: float) -> Any:
    """The next node of a way, and the least value so far."""
    x, y, z = at
    value = _value(f, x, y, z)
    low = min(low, value)
    far = max(step, (value - low) / spacing)
    return (x + far * way[0], y + far * way[1], z + far * way[2]), low


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _start(nodes: Any, ways: Any, t: int) -> Any:
    n, d = t // len(ways), t % len(ways)
    at = (nodes[n, 0], nodes[n, 1], nodes[n, 2])
    return at, (ways[d, 0], ways[d, 1], ways[d, 2])


@numba.njit(cache=True, nogil=True, error_model="numpy")
def blocked_by(f: Any, nodes: Any, ways: Any, step: float, spacing: float, out: Any) -> None:
    """How deep the solid of a distance field blocks each way (D, 3) from each node (N, 3).

    out (N, D): the negative of the least value along the way, 0 where the way is free [mm].
    The field changes by no more than the way walked, so a step may be as long as what the
    value exceeds the least one by. Ways are unit vectors of the grid's frame with z > 0; they
    end where they leave the grid. Points of a node run through all ways, so that the part of
    the field that they share stays near at hand. Two ways are walked side by side: each step
    waits for the one before it, but not for that of the other way.
    """
    count = len(nodes) * len(ways)
    for t in range(0, count, 2):
        here, way = _start(nodes, ways, t)
        there, other = _start(nodes, ways, min(t + 1, count - 1))
        low, least = np.inf, np.inf
        while _within(f, *here) and _within(f, *there):
            here, low = _onward(f, here, way, low, step, spacing)
            there, least = _onward(f, there, other, least, step, spacing)
        while _within(f, *here):
            here, low = _onward(f, here, way, low, step, spacing)
        while _within(f, *there):
            there, least = _onward(f, there, other, least, step, spacing)
        out[t // len(ways), t % len(ways)] = max(-low, 0.0)
        if t + 1 < count:
            out[(t + 1) // len(ways), (t + 1) % len(ways)] = max(-least, 0.0)


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
