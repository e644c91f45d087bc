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
def _crossed(face: Any, numbers: Any) -> Any:
    """The first plane that a face crosses, and the first above it that it does not cross."""
    a, b, c = numbers[face[0]], numbers[face[1]], numbers[face[2]]
    return min(a, b, c), max(a, b, c)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def count_crossed(faces: Any, numbers: Any, start: Any) -> None:
    """Count how many faces cross the planes below each one: start (L + 1,), zero before."""
    for f in range(len(faces)):
        low, high = _crossed(faces[f], numbers)
        for k in range(low, high):
            start[k + 1] += 1
    for k in range(len(start) - 1):
        start[k + 1] += start[k]


@numba.njit(cache=True, nogil=True, error_model="numpy")
def list_crossed(faces: Any, numbers: Any, start: Any, out: Any) -> None:
    """List the faces that cross each plane, plane by plane, in their order: out (start[-1],)."""
    fill = start[:-1].copy()
    for f in range(len(faces)):
        low, high = _crossed(faces[f], numbers)
        for k in range(low, high):
            out[fill[k]] = f
            fill[k] += 1


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _climbing(face: Any, numbers: Any, k: int) -> int:
    """The corner from which the edge of a face climbs through plane k."""
    c = 0
    while not (numbers[face[c]] <= k < numbers[face[(c + 1) % 3]]):
        c += 1
    return c


@numba.njit(cache=True, nogil=True, error_model="numpy")
def trace(
    vertices: Any, faces: Any, numbers: Any, across: Any, crossed: Any, start: Any, bottom: float,
    step: float, under: int, above: int, points: Any, layer_of: Any, end_of: Any,
) -> int:  # fmt: skip
    """Walk every closed contour of the layers from `under` to below `above`; returns how many.

    A walk leaves each face by the edge that climbs through the plane, so the solid lies on the
    left: outer contours run counter-clockwise, holes clockwise, seen from above. It comes in by
    an edge that descends, so the third vertex alone tells which of the two others climbs. The
    crossing is always reckoned from the upper vertex, so that it does not depend on the face.
    """
    seen = np.full(len(faces), -1, np.int32)  # the last layer in which a face was walked over
    done = 0
    contours = 0
    for k in range(under, above):
        height = bottom + (k + 0.5) * step
        for n in range(start[k], start[k + 1]):
            f = crossed[n]
            if seen[f] == k:
                continue
            begin = done
            g = f
            c = _climbing(faces[f], numbers, k)
            lower, upper = faces[f, c], faces[f, (c + 1) % 3]
            x0, y0, z0 = vertices[lower, 0], vertices[lower, 1], vertices[lower, 2]
            x1, y1, z1 = vertices[upper, 0], vertices[upper, 1], vertices[upper, 2]
            while True:
                seen[g] = k
                t = (height - z1) / (z0 - z1)
                t = min(max(t, 0.0), 1.0)
                x = x1 + t * (x0 - x1)
                y = y1 + t * (y0 - y1)
                if done == begin or x != points[done - 1, 0] or y != points[done - 1, 1]:
                    points[done, 0], points[done, 1] = x, y
                    done += 1
                h = across[3 * g + c]
                g = h // 3
                if g == f:
                    break
                c = (h - 3 * g + 2) % 3
                third = faces[g, c]
                if numbers[third] > k:
                    x1, y1, z1 = vertices[third, 0], vertices[third, 1], vertices[third, 2]
                    c = (c + 2) % 3
                else:
                    x0, y0, z0 = vertices[third, 0], vertices[third, 1], vertices[third, 2]
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
def inset_convex(points: Any, start: Any, depths: Any, plain: Any, out: Any) -> None:
    """Move the sides of convex contours inwards, as far as no side is lost.

    Of a convex contour whose sides all keep some length, what is left at a distance inside has
    the same sides, and corners on the bisectors.

    Args:
        points: (N, 2) of contours that run counter-clockwise.
        start: (C + 1,) begins of the contours.
        depths: (D,) distances.
        plain: (C,) which contours are tried; those stay True that are convex and keep all sides.
        out: (D, N, 2) result.
    """
    for c in range(len(start) - 1):
        first, last = start[c], start[c + 1]
        if not plain[c]:
            continue
        for i in range(first, last):
            x, y = points[i, 0], points[i, 1]
            before = i - 1 if i > first else last - 1
            after = i + 1 if i + 1 < last else first
            ax, ay = x - points[before, 0], y - points[before, 1]
            bx, by = points[after, 0] - x, points[after, 1] - y
            a, b = np.sqrt(ax * ax + ay * ay), np.sqrt(bx * bx + by * by)
            if a <= 0.0 or b <= 0.0:
                plain[c] = False
                break
            ax, ay, bx, by = ax / a, ay / a, bx / b, by / b
            along = ax * bx + ay * by
            if ax * by - ay * bx < -1e-9 or along < -0.5:  # turns right, or too sharply
                plain[c] = False
                break
            share = 1.0 / (1.0 + along)
            for d in range(len(depths)):
                out[d, i, 0] = x - depths[d] * share * (ay + by)
                out[d, i, 1] = y + depths[d] * share * (ax + bx)
        if not plain[c]:
            continue
        for d in range(len(depths)):
            for i in range(first, last):
                j = i + 1 if i + 1 < last else first
                kept = (out[d, j, 0] - out[d, i, 0]) * (points[j, 0] - points[i, 0])
                kept += (out[d, j, 1] - out[d, i, 1]) * (points[j, 1] - points[i, 1])
                if kept <= 0.0:
                    plain[c] = False


@numba.njit(cache=True, nogil=True, error_model="numpy")
def closed_rings(points: Any, whose: Any, starts: Any) -> int:
    """Where rings begin in points that stand ring after ring; returns how many there are.

    A ring ends where its first point comes again; none reaches from one owner to the next.
    """
    rings, n = 0, 0
    while n < len(points):
        starts[rings] = n
        rings += 1
        i = n + 1
        while (
            i < len(points)
            and whose[i] == whose[n]
            and not (points[i, 0] == points[n, 0] and points[i, 1] == points[n, 1])
        ):
            i += 1
        n = i + 1
    starts[rings] = len(points)
    return rings


@numba.njit(cache=True, nogil=True, error_model="numpy")
def turn_rings(points: Any, start: Any, forwards: Any) -> None:
    """Reverse the contours that do not run forwards, in place; their first point moves."""
    for n in range(len(start) - 1):
        if forwards[n]:
            continue
        a, b = start[n], start[n + 1] - 1
        while a < b:
            for c in range(2):
                points[a, c], points[b, c] = points[b, c], points[a, c]
            a += 1
            b -= 1


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _farthest(xs: Any, ys: Any, a: int, b: int, tolerance: float) -> int:
    """The point between a and b farthest from their chord, -1 where all are near.

    Squared distances are compared times the squared length of the chord: no division.
    """
    x, y = xs[a], ys[a]
    ex, ey = xs[b] - x, ys[b] - y
    length = ex * ex + ey * ey
    scale = length if length > 0.0 else 1.0
    best, worst = -1, tolerance * tolerance * scale
    for i in range(a + 1, b):
        px, py = xs[i] - x, ys[i] - y
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
def _thin(xs: Any, ys: Any, first: int, last: int, tolerance: float, stack: Any, keep: Any) -> None:
    """Mark which points between two that stay are kept."""
    stack[0, 0], stack[0, 1] = first, last
    depth = 1
    while depth > 0:
        depth -= 1
        a, b = stack[depth, 0], stack[depth, 1]
        best = _farthest(xs, ys, a, b, tolerance)
        if best < 0:
            continue
        keep[best] = True
        if best > a + 1:
            stack[depth, 0], stack[depth, 1] = a, best
            depth += 1
        if b > best + 1:
            stack[depth, 0], stack[depth, 1] = best, b
            depth += 1


@numba.njit(cache=True, nogil=True, error_model="numpy")
def simplify(
    points: Any, start: Any, order: Any, tolerance: float, corner: float, out: Any, ends: Any
) -> int:
    """Copy the contours in the given order with fewer points; returns how many points are left.

    A point nearer than the tolerance to the line that is left is dropped. One that stands farther
    than `corner` off the chord of its neighbours is kept at once, which leaves short runs to look
    through; infinite: none is. Each contour starts at its lowest x, of equals the lowest y. One of
    which a mere line is left becomes empty.

    Source:
        douglas1973, Algorithms for the reduction of the number of points.
    """
    longest = 0
    for n in range(len(start) - 1):
        longest = max(longest, start[n + 1] - start[n])
    xs, ys = np.empty(longest + 1), np.empty(longest + 1)
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
            at = low + i if low + i < start[n + 1] else low + i - size
            xs[i], ys[i] = points[at, 0], points[at, 1]
            d = (xs[i] - xs[0]) ** 2 + (ys[i] - ys[0]) ** 2
            if d > reach:
                far, reach = i, d
        xs[size], ys[size] = xs[0], ys[0]
        for i in range(1, size):
            keep[i] = _farthest(xs, ys, i - 1, i + 1, corner) >= 0
        keep[0] = keep[far] = keep[size] = True
        last = 0
        for i in range(1, size + 1):
            if keep[i]:
                if i > last + 1:
                    _thin(xs, ys, last, i, tolerance, stack, keep)
                last = i
        begin = done
        for i in range(size):
            if keep[i]:
                out[done, 0], out[done, 1] = xs[i], ys[i]
                done += 1
        if done - begin < 3:
            done = begin
        ends[number] = done
    return done
