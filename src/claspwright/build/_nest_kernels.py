"""Which outer contour a hole lies in, and which contours repeat those below."""

from __future__ import annotations

from typing import Any

import numba


@numba.njit(cache=True, nogil=True, error_model="numpy")
def holds(points: Any, first: int, last: int, x: float, y: float) -> bool:
    """Even-odd test of a point against a closed contour."""
    inside = False
    j = last - 1
    for i in range(first, last):
        if (points[i, 1] > y) != (points[j, 1] > y):
            t = (y - points[i, 1]) / (points[j, 1] - points[i, 1])
            if x < points[i, 0] + t * (points[j, 0] - points[i, 0]):
                inside = not inside
        j = i
    return inside


@numba.njit(cache=True, nogil=True, error_model="numpy")
def holders(points: Any, start: Any, layer_start: Any, areas: Any, out: Any) -> None:
    """For each hole the smallest outer contour of its layer round its first point, or -1."""
    for layer in range(len(layer_start) - 1):
        for h in range(layer_start[layer], layer_start[layer + 1]):
            if areas[h] >= 0.0:
                continue
            x, y = points[start[h], 0], points[start[h], 1]
            best = -1
            for o in range(layer_start[layer], layer_start[layer + 1]):
                if areas[o] <= 0.0 or (best >= 0 and areas[o] >= areas[best]):
                    continue
                if holds(points, start[o], start[o + 1], x, y):
                    best = o
            out[h] = best


@numba.njit(cache=True, nogil=True, error_model="numpy")
def firsts(points: Any, start: Any, layer_start: Any, alone: Any, out: Any) -> None:
    """For each contour the lowest one that it repeats point by point, layer upon layer.

    alone: (C,) contours that may be told to repeat another; the rest count as their own first.
    """
    for layer in range(len(layer_start) - 1):
        for n in range(layer_start[layer], layer_start[layer + 1]):
            out[n] = n
            if layer == 0 or not alone[n]:
                continue
            size = start[n + 1] - start[n]
            for m in range(layer_start[layer - 1], layer_start[layer]):
                if not alone[m] or start[m + 1] - start[m] != size:
                    continue
                i = 0
                while i < size and (
                    points[start[n] + i, 0] == points[start[m] + i, 0]
                    and points[start[n] + i, 1] == points[start[m] + i, 1]
                ):
                    i += 1
                if i == size:
                    out[n] = out[m]
                    break
