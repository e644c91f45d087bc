"""Points and faces counted into cubes; the nearest of many points, looked up ring by ring."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True, error_model="numpy")
def into_blocks(points: Any, low: Any, side: float, shape: Any, start: Any, order: Any) -> None:
    """Sort points by their cube.

    Args:
        points: (N, 3).
        low: (3,) corner of the first cube.
        side: of a cube.
        shape: (3,) cubes a side.
        start: (M + 1,) int32 result, begin of each cube in the order; zero before.
        order: (N,) int32 result.
    """
    cube = np.empty(len(points), np.int64)
    for n in range(len(points)):
        at = 0
        for axis in range(3):
            c = int((points[n, axis] - low[axis]) / side)
            at = at * shape[axis] + min(max(c, 0), shape[axis] - 1)
        cube[n] = at
        start[at + 1] += 1
    for m in range(len(start) - 1):
        start[m + 1] += start[m]
    fill = start[:-1].copy()
    for n in range(len(points)):
        order[fill[cube[n]]] = n
        fill[cube[n]] += 1


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _outside(place: float, low: float, cube: int, side: float) -> float:
    """How far a coordinate lies outside the range of a cube."""
    begin = low + cube * side
    return max(begin - place, place - (begin + side), 0.0)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def nearest(
    spots: Any, points: Any, order: Any, start: Any, hollow: Any, low: Any, side: float, shape: Any,
    reach: float, first: int, last: int, gap: Any, which: Any,
) -> None:  # fmt: skip
    """Nearest of the sorted points for spots[first:last].

    Args:
        spots: (S, 3).
        points: (N, 3) in the order of their cubes.
        order: (N,) their numbers.
        start: (M + 1,) begin of each cube.
        hollow: shape, rings of empty cubes round each one.
        low: (3,) corner of the first cube.
        side: of a cube.
        shape: (3,) cubes a side.
        reach: only points nearer than this are found.
        first: of the spots.
        last: beyond the spots.
        gap: (S,) result, infinite where none is found.
        which: (S,) result, its number; len(points) where none is found.
    """
    home = np.empty(3, np.int64)
    before = -1
    for s in range(first, last):
        x, y, z = spots[s, 0], spots[s, 1], spots[s, 2]
        ring, rings = 0, 0
        for axis in range(3):
            home[axis] = int(np.floor((spots[s, axis] - low[axis]) / side))
            ring = max(ring, -home[axis], home[axis] - (shape[axis] - 1))
            rings = max(rings, home[axis], shape[axis] - 1 - home[axis])
        if ring == 0:
            ring = hollow[home[0], home[1], home[2]]
        best, found = reach * reach, -1
        if before >= 0:  # of the spot before: likely near this one too
            a, b, c = points[before, 0] - x, points[before, 1] - y, points[before, 2] - z
            d = a * a + b * b + c * c
            if d < best:
                best, found = d, before
        while ring <= rings:
            # no cube of the ring is nearer than the cubes within it are wide
            clear = max((ring - 1) * side, 0.0)
            if clear * clear >= best:
                break
            for i in range(max(home[0] - ring, 0), min(home[0] + ring + 1, shape[0])):
                dx = _outside(x, low[0], i, side)
                if dx * dx >= best:
                    continue
                for j in range(max(home[1] - ring, 0), min(home[1] + ring + 1, shape[1])):
                    dy = _outside(y, low[1], j, side)
                    if dx * dx + dy * dy >= best:
                        continue
                    shell = abs(i - home[0]) == ring or abs(j - home[1]) == ring
                    k = home[2] - ring
                    while k <= home[2] + ring:
                        if 0 <= k < shape[2]:
                            dz = _outside(z, low[2], k, side)
                            cube = (i * shape[1] + j) * shape[2] + k
                            if dx * dx + dy * dy + dz * dz < best:
                                for n in range(start[cube], start[cube + 1]):
                                    a, b, c = points[n, 0] - x, points[n, 1] - y, points[n, 2] - z
                                    d = a * a + b * b + c * c
                                    if d < best:
                                        best, found = d, n
                        k += 1 if shell or ring == 0 else 2 * ring
            ring += 1
        before = found
        gap[s] = np.sqrt(best) if found >= 0 else np.inf
        which[s] = order[found] if found >= 0 else len(points)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def faces_in_cells(vertices: Any, faces: Any, taken: Any, low: Any, side: float, out: Any) -> None:
    """Write whether a face has a corner in a taken cell, or a side longer than one.

    Args:
        vertices: (V, 3).
        faces: (F, 3).
        taken: (X, Y, Z) cells.
        low: (3,) corner of the first cell.
        side: of a cell.
        out: (F,) result.
    """
    near = np.empty(len(vertices), np.bool_)
    for v in range(len(vertices)):
        i = np.floor((vertices[v, 0] - low[0]) / side)
        j = np.floor((vertices[v, 1] - low[1]) / side)
        k = np.floor((vertices[v, 2] - low[2]) / side)
        near[v] = (
            0 <= i < taken.shape[0]
            and 0 <= j < taken.shape[1]
            and 0 <= k < taken.shape[2]
            and taken[int(i), int(j), int(k)]
        )
    for f in range(len(faces)):
        out[f] = near[faces[f, 0]] or near[faces[f, 1]] or near[faces[f, 2]]
        for c in range(3):
            a, b = faces[f, c], faces[f, (c + 1) % 3]
            size = 0.0
            for axis in range(3):
                size += (vertices[a, axis] - vertices[b, axis]) ** 2
            if np.sqrt(size) > side:
                out[f] = True
