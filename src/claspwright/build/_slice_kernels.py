"""Layer contours of a closed mesh by integer layer numbers and triangle adjacency.

A half-edge h = 3 * face + corner runs from that corner to the next. A vertex carries the number
of slicing planes at or below it, so that no plane ever passes through a vertex: a vertex on a
plane counts as above. All topology is then integer arithmetic.
"""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True, error_model="numpy")
def pair_edges(faces: Any, vertices: int, across: Any) -> int:
    """Fill across (3F,) with the opposite of each half-edge; returns how many have none."""
    start = np.zeros(vertices + 1, np.int32)
    for f in range(len(faces)):
        for c in range(3):
            start[min(faces[f, c], faces[f, (c + 1) % 3]) + 1] += 1
    for v in range(vertices):
        start[v + 1] += start[v]
    fill = start[:-1].copy()
    bucket = np.empty(3 * len(faces), np.int32)
    for f in range(len(faces)):
        for c in range(3):
            low = min(faces[f, c], faces[f, (c + 1) % 3])
            bucket[fill[low]] = 3 * f + c
            fill[low] += 1
    across[:] = -1
    unpaired = 0
    for v in range(vertices):
        for i in range(start[v], start[v + 1]):
            h = bucket[i]
            if across[h] >= 0:
                continue
            a, b = faces[h // 3, h % 3], faces[h // 3, (h % 3 + 1) % 3]
            if a == b:
                across[h] = h
                continue
            for j in range(i + 1, start[v + 1]):
                g = bucket[j]
                if (
                    across[g] < 0
                    and faces[g // 3, g % 3] == b
                    and (faces[g // 3, (g % 3 + 1) % 3] == a)
                ):
                    across[h], across[g] = g, h
                    break
            if across[h] < 0:
                unpaired += 1
    return unpaired


@numba.njit(cache=True, nogil=True, error_model="numpy")
def number_levels(values: Any, bottom: float, step: float, count: int, out: Any) -> None:
    """How many of the `count` planes bottom + (k + 1/2) step lie at or below each value."""
    for v in range(len(values)):
        n = int(np.floor((values[v] - bottom) / step - 0.5)) + 1
        n = min(max(n, 0), count)
        while n < count and bottom + (n + 0.5) * step <= values[v]:
            n += 1
        while n > 0 and bottom + (n - 0.5) * step > values[v]:
            n -= 1
        out[v] = n


@numba.njit(cache=True, nogil=True, error_model="numpy")
def count_segments(faces: Any, numbers: Any, first: Any, of_layer: Any) -> None:
    """Running number of the segments of each face, and how many each layer has.

    first (F + 1,): one segment for each plane that a face crosses; of_layer (L,), zero before.
    """
    first[0] = 0
    for f in range(len(faces)):
        a, b, c = numbers[faces[f, 0]], numbers[faces[f, 1]], numbers[faces[f, 2]]
        low, high = min(a, b, c), max(a, b, c)
        first[f + 1] = first[f] + high - low
        for k in range(low, high):
            of_layer[k] += 1


@numba.njit(cache=True, nogil=True, error_model="numpy")
def trace(
    vertices: Any, faces: Any, numbers: Any, across: Any, first: Any, bottom: float, step: float,
    under: int, above: int, points: Any, layer_of: Any, end_of: Any,
) -> int:  # fmt: skip
    """Walk every closed contour of the layers from `under` to below `above`; returns how many.

    A walk leaves each face by the edge that climbs through the plane, so the solid lies on the
    left: outer contours run counter-clockwise, holes clockwise, seen from above. The crossing is
    always reckoned from the upper vertex, so that it does not depend on the face.
    """
    seen = np.zeros(first[-1], np.bool_)
    done = 0
    contours = 0
    for f in range(len(faces)):
        low = min(numbers[faces[f, 0]], numbers[faces[f, 1]], numbers[faces[f, 2]])
        for k in range(max(low, under), min(low + first[f + 1] - first[f], above)):
            if seen[first[f] + k - low]:
                continue
            height = bottom + (k + 0.5) * step
            begin = done
            g = f
            while True:
                base = min(numbers[faces[g, 0]], numbers[faces[g, 1]], numbers[faces[g, 2]])
                seen[first[g] + k - base] = True
                c = 0
                while not (numbers[faces[g, c]] <= k < numbers[faces[g, (c + 1) % 3]]):
                    c += 1
                lower, upper = faces[g, c], faces[g, (c + 1) % 3]
                top = vertices[upper, 2]
                t = (height - top) / (vertices[lower, 2] - top)
                t = min(max(t, 0.0), 1.0)
                x = vertices[upper, 0] + t * (vertices[lower, 0] - vertices[upper, 0])
                y = vertices[upper, 1] + t * (vertices[lower, 1] - vertices[upper, 1])
                if done == begin or x != points[done - 1, 0] or y != points[done - 1, 1]:
                    points[done, 0], points[done, 1] = x, y
                    done += 1
                g = across[3 * g + c] // 3
                if g == f:
                    break
            if done > begin + 1 and (
                points[done - 1, 0] == points[begin, 0] and points[done - 1, 1] == points[begin, 1]
            ):
                done -= 1
            if done - begin < 3:
                done = begin
                continue
            layer_of[contours] = k
            end_of[contours] = done
            contours += 1
    return contours


@numba.njit(cache=True, nogil=True, error_model="numpy")
def signed_areas(points: Any, start: Any, out: Any) -> None:
    """Area of each contour by the shoelace formula, positive counter-clockwise."""
    for n in range(len(start) - 1):
        x0, y0 = points[start[n], 0], points[start[n], 1]
        total = 0.0
        for i in range(start[n] + 1, start[n + 1] - 1):
            total += (points[i, 0] - x0) * (points[i + 1, 1] - y0) - (points[i + 1, 0] - x0) * (
                points[i, 1] - y0
            )
        out[n] = 0.5 * total


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _farthest(points: Any, a: int, b: int, tolerance: float) -> int:
    """The point between a and b farthest from their chord, -1 where all are near.

    Squared distances are compared times the squared length of the chord: no division.
    """
    x, y = points[a, 0], points[a, 1]
    ex, ey = points[b, 0] - x, points[b, 1] - y
    length = ex * ex + ey * ey
    scale = length if length > 0.0 else 1.0
    best, worst = -1, tolerance * tolerance * scale
    for i in range(a + 1, b):
        px, py = points[i, 0] - x, points[i, 1] - y
        along = px * ex + py * ey
        if along <= 0.0:
            d = (px * px + py * py) * scale
        elif along >= length:
            px, py = px - ex, py - ey
            d = (px * px + py * py) * scale
        else:
            d = px * ey - py * ex
            d *= d
        if d > worst:
            best, worst = i, d
    return best


@numba.njit(cache=True, nogil=True, error_model="numpy")
def simplify(points: Any, start: Any, order: Any, tolerance: float, out: Any, ends: Any) -> int:
    """Copy the contours in the given order with fewer points; returns how many points are left.

    A point nearer than the tolerance to the line that is left is dropped. Each contour starts at
    its lowest x, of equals the lowest y. One of which a mere line is left becomes empty.

    Source:
        douglas1973, Algorithms for the reduction of the number of points.
    """
    longest = 0
    for n in range(len(start) - 1):
        longest = max(longest, start[n + 1] - start[n])
    ring = np.empty((longest + 1, 2))
    keep = np.empty(longest + 1, np.bool_)
    stack = np.empty((longest + 2, 2), np.int64)
    done = 0
    for number in range(len(order)):
        n = order[number]
        size = start[n + 1] - start[n]
        low = start[n]
        for i in range(start[n] + 1, start[n + 1]):
            if points[i, 0] < points[low, 0] or (
                points[i, 0] == points[low, 0] and points[i, 1] < points[low, 1]
            ):
                low = i
        far, reach = 0, -1.0
        for i in range(size):
            at = start[n] + (low - start[n] + i) % size
            ring[i, 0], ring[i, 1] = points[at, 0], points[at, 1]
            keep[i] = False
            d = (ring[i, 0] - ring[0, 0]) ** 2 + (ring[i, 1] - ring[0, 1]) ** 2
            if d > reach:
                far, reach = i, d
        ring[size, 0], ring[size, 1] = ring[0, 0], ring[0, 1]
        keep[0] = keep[far] = True
        stack[0, 0], stack[0, 1] = 0, far
        stack[1, 0], stack[1, 1] = far, size
        depth = 2
        while depth > 0:
            depth -= 1
            a, b = stack[depth, 0], stack[depth, 1]
            best = _farthest(ring, a, b, tolerance)
            if best >= 0:
                keep[best] = True
                stack[depth, 0], stack[depth, 1] = a, best
                stack[depth + 1, 0], stack[depth + 1, 1] = best, b
                depth += 2
        begin = done
        for i in range(size):
            if keep[i]:
                out[done, 0], out[done, 1] = ring[i, 0], ring[i, 1]
                done += 1
        if done - begin < 3:
            done = begin
        ends[number] = done
    return done
