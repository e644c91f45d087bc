"""Height of a mesh over a plane grid, by drawing its triangles with a depth test."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True, error_model="numpy")
def draw(points: Any, faces: Any, low: Any, spacing: float, heights: Any) -> None:
    """Raise heights (nx, ny) to the highest triangle over each node.

    points (V, 3) in the frame of the grid; node (i, j) lies at low + spacing * (i, j).
    """
    nx, ny = heights.shape
    for f in range(len(faces)):
        a, b, c = faces[f]
        ax = (points[a, 0] - low[0]) / spacing
        ay = (points[a, 1] - low[1]) / spacing
        bx = (points[b, 0] - low[0]) / spacing
        by = (points[b, 1] - low[1]) / spacing
        cx = (points[c, 0] - low[0]) / spacing
        cy = (points[c, 1] - low[1]) / spacing
        area = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
        if area == 0.0:
            continue
        first = max(int(np.ceil(min(ax, bx, cx))), 0)
        last = min(int(np.floor(max(ax, bx, cx))), nx - 1)
        lower = max(int(np.ceil(min(ay, by, cy))), 0)
        upper = min(int(np.floor(max(ay, by, cy))), ny - 1)
        for i in range(first, last + 1):
            for j in range(lower, upper + 1):
                v = ((i - ax) * (cy - ay) - (j - ay) * (cx - ax)) / area
                w = ((bx - ax) * (j - ay) - (by - ay) * (i - ax)) / area
                if v >= -1e-12 and w >= -1e-12 and v + w <= 1.0 + 1e-12:
                    z = points[a, 2] + v * (points[b, 2] - points[a, 2])
                    z += w * (points[c, 2] - points[a, 2])
                    if z > heights[i, j]:
                        heights[i, j] = z


@numba.njit(cache=True, nogil=True, error_model="numpy")
def bilinear(heights: Any, nodes: Any, out: Any) -> None:
    """Heights at (N, 2) fractional nodes; a side without height does not count."""
    nx, ny = heights.shape
    for n in range(len(nodes)):
        x = min(max(nodes[n, 0], 0.0), nx - 1.0)
        y = min(max(nodes[n, 1], 0.0), ny - 1.0)
        i = min(int(x), nx - 2)
        j = min(int(y), ny - 2)
        x -= i
        y -= j
        total = 0.0
        weight = 0.0
        for a in range(2):
            for b in range(2):
                h = heights[i + a, j + b]
                if h > -np.inf:
                    share = (x if a else 1.0 - x) * (y if b else 1.0 - y)
                    total += share * h
                    weight += share
        out[n] = total / weight if weight > 0.0 else -np.inf
