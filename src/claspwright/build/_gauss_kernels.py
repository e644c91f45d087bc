"""Sums over a map of the normals, from which downskins of any orientation follow.

The sphere of normals is folded onto a square (octahedral map) of `side` x `side` bins. A bin
holds, for all faces whose normal falls into it, the sum of area times normal, of area times
normal times centre, and of area times normal over the protected faces.
"""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _bin(x: float, y: float, z: float, side: int) -> int:
    size = abs(x) + abs(y) + abs(z)
    u, v = x / size, y / size
    if z < 0.0:
        u, v = (
            (1.0 - abs(v)) * (1.0 if u >= 0 else -1.0),
            (1.0 - abs(u)) * (1.0 if v >= 0 else -1.0),
        )
    i = min(int((u + 1.0) * 0.5 * side), side - 1)
    j = min(int((v + 1.0) * 0.5 * side), side - 1)
    return i * side + j


@numba.njit(cache=True, nogil=True, error_model="numpy")
def gather(vertices: Any, faces: Any, guarded: Any, side: int) -> Any:
    """(B, 3) area normals, (B, 9) their moments, (B, 3) those of protected faces."""
    normal = np.zeros((side * side, 3))
    moment = np.zeros((side * side, 9))
    kept = np.zeros((side * side, 3))
    n, c = np.empty(3), np.empty(3)
    for f in range(len(faces)):
        a, b, d = vertices[faces[f, 0]], vertices[faces[f, 1]], vertices[faces[f, 2]]
        for i in range(3):
            j, k = (i + 1) % 3, (i + 2) % 3
            n[i] = 0.5 * ((b[j] - a[j]) * (d[k] - a[k]) - (b[k] - a[k]) * (d[j] - a[j]))
            c[i] = (a[i] + b[i] + d[i]) / 3.0
        if n[0] == 0.0 and n[1] == 0.0 and n[2] == 0.0:
            continue
        at = _bin(n[0], n[1], n[2], side)
        for i in range(3):
            normal[at, i] += n[i]
            if guarded[f]:
                kept[at, i] += n[i]
            for j in range(3):
                moment[at, 3 * i + j] += n[i] * c[j]
    return normal, moment, kept


@numba.njit(cache=True, nogil=True, error_model="numpy")
def weigh(
    normal: Any, moment: Any, kept: Any, directions: Any, steep: float, flat: float, out: Any
) -> None:
    """For each direction taken as up: (area seen from below that needs support, the same times
    its height over the origin, protected part of that area, flat part of that area).

    A bin needs support where its mean normal points down by more than `steep` (a cosine).
    """  # noqa: D205
    for d in range(len(directions)):
        x, y, z = directions[d, 0], directions[d, 1], directions[d, 2]
        area = lifted = guarded = level = 0.0
        for b in range(len(normal)):
            down = -(normal[b, 0] * x + normal[b, 1] * y + normal[b, 2] * z)
            if down <= 0.0:
                continue
            size = np.sqrt(normal[b, 0] ** 2 + normal[b, 1] ** 2 + normal[b, 2] ** 2)
            if down <= steep * size:
                continue
            area += down
            m = moment[b]
            lifted -= (
                x * (m[0] * x + m[1] * y + m[2] * z)
                + y * (m[3] * x + m[4] * y + m[5] * z)
                + z * (m[6] * x + m[7] * y + m[8] * z)
            )
            guarded -= kept[b, 0] * x + kept[b, 1] * y + kept[b, 2] * z
            if down > flat * size:
                level += down
        out[d, 0], out[d, 1], out[d, 2], out[d, 3] = area, lifted, guarded, level


@numba.njit(cache=True, nogil=True, error_model="numpy")
def shadows(points: Any, across: Any, ahead: Any, pixel: float, out: Any) -> None:
    """Number of pixels that the points fall into, looking along each direction.

    across, ahead: (D, 3) axes of the picture of each direction.
    """
    for d in range(len(across)):
        low_x = low_y = 1e30
        high_x = high_y = -1e30
        place = np.empty((len(points), 2))
        for n in range(len(points)):
            x = y = 0.0
            for i in range(3):
                x += points[n, i] * across[d, i]
                y += points[n, i] * ahead[d, i]
            place[n, 0], place[n, 1] = x, y
            low_x, high_x = min(low_x, x), max(high_x, x)
            low_y, high_y = min(low_y, y), max(high_y, y)
        wide = int((high_x - low_x) / pixel) + 1
        tall = int((high_y - low_y) / pixel) + 1
        seen = np.zeros((wide, tall), np.bool_)
        count = 0
        for n in range(len(points)):
            i = int((place[n, 0] - low_x) / pixel)
            j = int((place[n, 1] - low_y) / pixel)
            if not seen[i, j]:
                seen[i, j] = True
                count += 1
        out[d] = count


@numba.njit(cache=True, nogil=True, error_model="numpy")
def section_areas(
    points: Any, faces: Any, heights: Any, up: Any, bottom: float, step: float, out: Any
) -> None:
    """Area of the cross-section at each height bottom + (k + 1/2) step, by the shoelace formula.

    points: (V, 3); heights: (V,) of them along the unit vector up. The sense of a piece of
    contour follows from its face.
    """
    p, q = np.empty(3), np.empty(3)
    ux, uy, uz = up[0], up[1], up[2]
    for f in range(len(faces)):
        h0, h1, h2 = heights[faces[f, 0]], heights[faces[f, 1]], heights[faces[f, 2]]
        low, high = min(h0, h1, h2), max(h0, h1, h2)
        k = max(int(np.ceil((low - bottom) / step - 0.5)), 0)
        while k < len(out) and bottom + (k + 0.5) * step <= high:
            height = bottom + (k + 0.5) * step
            found = 0
            for c in range(3):
                a, b = faces[f, c], faces[f, (c + 1) % 3]
                ha, hb = heights[a], heights[b]
                below = ha < height
                if below == (hb < height):
                    continue
                t = (height - ha) / (hb - ha)
                found += 1
                for i in range(3):
                    cut = points[a, i] + t * (points[b, i] - points[a, i])
                    if below:  # the piece leaves a face by the edge that climbs
                        q[i] = cut
                    else:
                        p[i] = cut
            if found == 2:
                out[k] += 0.5 * (
                    ux * (p[1] * q[2] - p[2] * q[1])
                    + uy * (p[2] * q[0] - p[0] * q[2])
                    + uz * (p[0] * q[1] - p[1] * q[0])
                )
            k += 1


@numba.njit(cache=True, nogil=True, error_model="numpy")
def hanging(
    vectors: Any, size: Any, guarded: Any, up: Any, steep: float, flat: float, chosen: Any
) -> Any:
    """(downskin, flat part, protected part, number of faces) of one orientation [mm2].

    vectors: (F, 3) area normals of length size. The faces that hang go into chosen.
    """
    area = level = kept = 0.0
    count = 0
    ux, uy, uz = up[0], up[1], up[2]
    for f in range(len(vectors)):
        down = -(vectors[f, 0] * ux + vectors[f, 1] * uy + vectors[f, 2] * uz)
        if down <= steep * size[f] or down <= 0.0:
            continue
        area += down
        if down > flat * size[f]:
            level += down
        if guarded[f]:
            kept += down
        chosen[count] = f
        count += 1
    return area, level, kept, count


@numba.njit(cache=True, nogil=True, error_model="numpy")
def area_normals(vertices: Any, faces: Any, vectors: Any, size: Any) -> None:
    """Normals as long as the area, and the area, of every face."""
    n = np.empty(3)
    for f in range(len(faces)):
        a, b, d = faces[f, 0], faces[f, 1], faces[f, 2]
        for i in range(3):
            j, k = (i + 1) % 3, (i + 2) % 3
            n[i] = 0.5 * (
                (vertices[b, j] - vertices[a, j]) * (vertices[d, k] - vertices[a, k])
                - (vertices[b, k] - vertices[a, k]) * (vertices[d, j] - vertices[a, j])
            )
            vectors[f, i] = n[i]
        size[f] = np.sqrt(n[0] ** 2 + n[1] ** 2 + n[2] ** 2)
