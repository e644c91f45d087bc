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
def _in_squares(points: Any, side: float) -> Any:
    """Sort (N, 2) points into squares: corner (2,), squares each way (2,), start, members."""
    corner = np.array([points[:, 0].min(), points[:, 1].min()])
    wide = int((points[:, 0].max() - corner[0]) / side) + 1
    tall = int((points[:, 1].max() - corner[1]) / side) + 1
    start = np.zeros(wide * tall + 1, dtype=np.int64)
    square = np.empty(points.shape[0], dtype=np.int64)
    for i in range(points.shape[0]):
        x, y = int((points[i, 0] - corner[0]) / side), int((points[i, 1] - corner[1]) / side)
        square[i] = x * tall + y
        start[square[i] + 1] += 1
    for k in range(wide * tall):
        start[k + 1] += start[k]
    fill = start.copy()
    members = np.empty(points.shape[0], dtype=np.int64)
    for i in range(points.shape[0]):
        members[fill[square[i]]] = i
        fill[square[i]] += 1
    return corner, np.array([wide, tall]), start, members


@numba.njit(cache=True, nogil=True)
def _squares_about(x: float, y: float, corner: Any, side: float, size: Any) -> Any:
    """Ranges of squares, each way, in which points nearer than a side to (x, y) lie."""
    u = int(np.floor((x - corner[0]) / side))
    v = int(np.floor((y - corner[1]) / side))
    return max(u - 1, 0), min(u + 2, size[0]), max(v - 1, 0), min(v + 2, size[1])


@numba.njit(cache=True, nogil=True)
def lowest_around(points: Any, ring: Any, radius: float, level: Any) -> None:
    """Lower each level to the lowest point within a radius of its ring point, seen from above.

    Args:
        points: (N, 3) float64.
        ring: (M, 2) float64.
        radius: how far a ring point looks [mm].
        level: (M,) float64, lowered in place.
    """
    corner, size, start, members = _in_squares(ring, radius)
    for i in range(points.shape[0]):
        x, y, z = points[i, 0], points[i, 1], points[i, 2]
        left, right, low, high = _squares_about(x, y, corner, radius, size)
        for u in range(left, right):
            for v in range(low, high):
                for n in range(start[u * size[1] + v], start[u * size[1] + v + 1]):
                    k = members[n]
                    if z < level[k]:
                        away = (x - ring[k, 0]) ** 2 + (y - ring[k, 1]) ** 2
                        if away <= radius * radius:
                            level[k] = z


@numba.njit(cache=True, nogil=True)
def beside(points: Any, outline: Any, reach: float, near: Any) -> None:
    """Mark the points that lie nearer than a reach to a point of an outline, seen from above.

    Args:
        points: (N, 3) float64.
        outline: (M, 2) float64.
        reach: how near [mm].
        near: (N,) bool, False at first.
    """
    corner, size, start, members = _in_squares(outline, reach)
    for i in range(points.shape[0]):
        x, y = points[i, 0], points[i, 1]
        left, right, low, high = _squares_about(x, y, corner, reach, size)
        for u in range(left, right):
            for v in range(low, high):
                for n in range(start[u * size[1] + v], start[u * size[1] + v + 1]):
                    k = members[n]
                    away = (x - outline[k, 0]) ** 2 + (y - outline[k, 1]) ** 2
                    if away < reach * reach:
                        near[i] = True
                        break
                if near[i]:
                    break
            if near[i]:
                break


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
