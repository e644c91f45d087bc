"""The border of a scan followed along the ring on which its wall stands."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True)
def follow_ring(flat: Any, points: Any, at: Any, start: int, here: float, s: Any) -> float:
    """Write the arc length of each border point and return the one reached after a full round.

    The nearest place is sought near that of the point before.

    Args:
        flat: (N, 2) float64 border points in order.
        points: (M, 2) float64 corners of the closed ring.
        at: (M + 1,) float64 arc length at the corners, the last one the whole length.
        start: the border point to begin with.
        here: its arc length.
        s: (N,) float64 result.
    """
    n, m = flat.shape[0], points.shape[0]
    length = at[m]
    s[start] = here
    for k in range(1, n + 1):
        i = (start + k) % n
        before = (start + k - 1) % n
        px, py = flat[i, 0], flat[i, 1]
        step = np.sqrt((px - flat[before, 0]) ** 2 + (py - flat[before, 1]) ** 2)
        least, shift = np.inf, 0.0
        for j in range(m):
            reach = (at[j + 1] - at[j]) / 2
            away = (at[j] + reach - here + length / 2) % length - length / 2
            if abs(away) > reach + 2.0 * step + 1.5:
                continue
            ax, ay = points[j, 0], points[j, 1]
            dx, dy = points[(j + 1) % m, 0] - ax, points[(j + 1) % m, 1] - ay
            t = ((px - ax) * dx + (py - ay) * dy) / max(dx * dx + dy * dy, 1e-30)
            t = min(max(t, 0.0), 1.0)
            gap = np.sqrt((ax + t * dx - px) ** 2 + (ay + t * dy - py) ** 2)
            cost = gap + 1e-3 * abs(away)
            if cost < least:
                least, shift = cost, away + (2 * t - 1) * reach
        here += shift
        if i != start:
            s[i] = here
    return here


@numba.njit(cache=True, nogil=True)
def lowest_around(points: Any, ring: Any, radius: float, level: Any) -> None:
    """Lower each level to the lowest point within a radius of its ring point, seen from above.

    Args:
        points: (N, 3) float64.
        ring: (M, 2) float64.
        radius: how far a ring point looks [mm].
        level: (M,) float64, lowered in place.
    """
    for i in range(points.shape[0]):
        x, y, z = points[i, 0], points[i, 1], points[i, 2]
        for k in range(ring.shape[0]):
            if z < level[k] and (x - ring[k, 0]) ** 2 + (y - ring[k, 1]) ** 2 <= radius * radius:
                level[k] = z


@numba.njit(cache=True, nogil=True)
def lowest_along(s: Any, heights: Any, at: Any, reach: float, level: Any) -> None:
    """Lower each level to the lowest border point within a reach along the ring, or the nearest.

    Args:
        s: (N,) float64 arc length of the border points.
        heights: (N,) float64 their heights.
        at: (M + 1,) float64 arc length of the ring points, the last one the whole length.
        reach: how far along the ring a point looks [mm].
        level: (M,) float64, lowered in place.
    """
    length = at[level.shape[0]]
    for k in range(level.shape[0]):
        lowest, nearest, gap = np.inf, 0.0, np.inf
        for i in range(s.shape[0]):
            away = abs((s[i] - at[k] + length / 2) % length - length / 2)
            if away < reach:
                lowest = min(lowest, heights[i])
            if away < gap:
                gap, nearest = away, heights[i]
        level[k] = min(level[k], lowest if lowest < np.inf else nearest)
