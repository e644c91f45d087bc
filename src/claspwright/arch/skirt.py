"""Wall and base under the border of a scan.

Seen from above, the wall stands on a ring: the outline of the region that the border runs round,
rid of spikes. Unrolled along the ring the border is a curve (s, z); the part of the wall between
that curve and a line just below it is triangulated in the unrolled plane, so that a border which
climbs a cut through a tooth, back and forth over its undercuts, is filled as a flat section.
Below the line the wall is vertical.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.spatial import cKDTree
from shapely import (
    STRtree,
    constrained_delaunay_triangles,
    contains_xy,
    get_coordinates,
    linestrings,
)
from shapely.geometry import LineString, Polygon
from shapely.ops import polygonize, unary_union

from claspwright.arch._skirt_kernels import follow_ring, lowest_along, lowest_around
from claspwright.arch.holes import planar_faces
from claspwright.base import Bools, Floats, Ints
from claspwright.geometry import Mesh

BASE_MM = 3.0  # thickness below the deepest point of the scan
DROP_MM = 1.0  # how far the vertical wall starts below the border and the scan near it
SPIKE_MM = 0.5  # tongues of the border narrower than twice this are not walled
FAR_MM = 4.0  # border points further outside the ring than this are given up at once
NO_POINTS = np.empty((0, 3))
NEAR_MM = 1.5  # how far about itself the start of the vertical wall looks for lower places


@dataclass(frozen=True, slots=True, eq=False)
class Skirt:
    """Faces that close a surface; the vertices start with those of the surface."""

    mesh: Mesh  # vertices of the surface and the new ones; only the new faces
    steep: int  # number of its faces that do not belong to the base
    owner: Ints  # (steep,) border vertex of the surface nearest to each of these faces


@dataclass(frozen=True, slots=True, eq=False)
class _Ring:
    """The simple closed outline on which the wall stands, counter-clockwise."""

    points: Floats  # (M, 2) mm
    at: Floats  # (M + 1,) arc length, the last one the whole length


def build_skirt(surface: Mesh, loop: Ints, others: Floats = NO_POINTS) -> Skirt | Ints:
    """Close the surface below the border `loop`, or name the border vertices that prevent it.

    Args:
        surface: the scan, or the part of it about its border.
        loop: (N,) vertices of its border in order.
        others: (P, 3) points of the scan that `surface` leaves out [mm].
    """
    border = surface.vertices[loop]
    ring = _outline(border[:, :2])
    if ring is None:
        return loop
    spikes = _spikes(border[:, :2], ring)
    if spikes.any():
        return loop[spikes]
    s = _unrolled(border[:, :2], ring)
    length = float(ring.at[-1])
    if s is None:
        off = _nearest(border[:, :2], ring)[1] > SPIKE_MM
        return loop[off] if off.any() else loop
    first = _clean_start(s, length)
    order = np.roll(np.arange(len(loop)), -first)
    s = np.concatenate([s[first:], s[:first] + length])
    loop = loop[order]
    ring = _started_at(ring, float(s[0]))
    s = s - s[0]
    points = np.concatenate([surface.vertices, others])
    floor = float(points[:, 2].min()) - BASE_MM
    level = _wall_top(points, border[order], s, ring)
    top = np.column_stack([s, border[order, 2]])
    knots = _knots(top)
    if len(knots):
        return loop[knots]
    return _assembled(surface, loop, top, (ring, level, floor))


def _outline(flat: Floats) -> _Ring | None:
    """Outline of what the border winds round, opened by SPIKE_MM."""
    lines = unary_union(LineString(np.concatenate([flat, flat[:1]])))
    cells = [cell for cell in polygonize(lines) if _winding(cell, flat) > 0]
    if not cells:
        return None
    opened = unary_union(cells).buffer(-SPIKE_MM).buffer(SPIKE_MM).simplify(0.02)
    parts = list(getattr(opened, "geoms", [opened]))
    largest = max(parts, key=lambda part: part.area)
    if largest.is_empty or largest.area < 100.0:
        return None
    outside = largest.exterior.segmentize(0.8)
    points = np.asarray(outside.coords)[:-1]
    if not outside.is_ccw:
        points = points[::-1]
    return _ring(points)


def _ring(points: Floats) -> _Ring:
    steps = np.linalg.norm(np.roll(points, -1, axis=0) - points, axis=1)
    return _Ring(np.ascontiguousarray(points), np.concatenate([[0.0], np.cumsum(steps)]))


def _winding(cell: Polygon, flat: Floats) -> int:
    """How often the closed line runs round a cell, counter-clockwise."""
    inner = cell.representative_point()
    rel = flat - np.array([inner.x, inner.y])
    after = np.roll(rel, -1, axis=0)
    turn = np.arctan2(rel[:, 0] * after[:, 1] - rel[:, 1] * after[:, 0], (rel * after).sum(axis=1))
    return int(np.rint(turn.sum() / (2 * np.pi)))


def _spikes(flat: Floats, ring: _Ring) -> Bools:
    """(N,) True for border points that stand out of the ring further than it can follow."""
    outside = ~contains_xy(Polygon(ring.points), flat)
    far = _nearest(flat, ring)[1] > FAR_MM
    return np.asarray(outside & far)


def _nearest(flat: Floats, ring: _Ring) -> tuple[Floats, Floats]:
    """(N,) arc length of, and (N,) distance to, the nearest point of the ring, to 0.02 mm."""
    step = np.diff(ring.at)
    n = max(2, int(np.ceil(step.max() / 0.02)))
    t = (np.arange(n) / n)[:, None]
    after = np.roll(ring.points, -1, axis=0)
    dense = (ring.points[None] * (1 - t[:, None]) + after[None] * t[:, None]).reshape(-1, 2)
    at = (ring.at[None, :-1] + t * step[None]).reshape(-1)
    gap, where = cKDTree(dense).query(flat)
    return at[where], np.asarray(gap)


def _unrolled(flat: Floats, ring: _Ring) -> Floats | None:
    """(N,) arc length of the border points along the ring, without jumps; None if it is lost.

    The nearest point is sought near that of the point before, so that the line cannot jump to
    the other side of a narrow place.
    """
    length = float(ring.at[-1])
    nearest, gap = _nearest(flat, ring)
    start = int(np.argmin(gap))
    s = np.empty(len(flat))
    here = float(
        follow_ring(np.ascontiguousarray(flat), ring.points, ring.at, start, nearest[start], s)
    )
    if abs(here - float(nearest[start]) - length) > 2.0:
        return None
    s[:start] -= length  # points before the start belong to the round before
    return s


def _clean_start(s: Floats, length: float) -> int:
    """A border point whose place on the ring no distant part of the border shares."""
    n = len(s)
    ahead = np.concatenate([s, s + length, s + 2 * length])
    highest = np.maximum.accumulate(ahead)
    lowest = np.minimum.accumulate(ahead[::-1])[::-1]
    i = np.arange(n) + n
    room = np.minimum(ahead[i] - highest[i - 1], lowest[i + 1] - ahead[i])
    return int(np.argmax(room))


def _started_at(ring: _Ring, s: float) -> _Ring:
    """The same ring with its first point at arc length s."""
    s = s % float(ring.at[-1])
    k = int(np.searchsorted(ring.at, s, side="right")) - 1
    k = min(k, len(ring.points) - 1)
    a, b = ring.points[k], ring.points[(k + 1) % len(ring.points)]
    t = (s - ring.at[k]) / max(float(ring.at[k + 1] - ring.at[k]), 1e-30)
    rest = np.roll(ring.points, -(k + 1), axis=0)
    if t < 1e-9:
        return _ring(np.concatenate([a[None], rest[:-1]]))
    return _ring(np.concatenate([(a + t * (b - a))[None], rest]))


def _wall_top(points: Floats, border: Floats, s: Floats, ring: _Ring) -> Floats:
    """(M,) height at which the vertical wall starts, below the border and the scan about it."""
    level = np.full(len(ring.points), np.inf)
    lowest_around(points, ring.points, NEAR_MM, level)
    lowest_along(s, border[:, 2].copy(), ring.at, NEAR_MM + 0.5, level)
    neighbours = np.minimum(np.roll(level, 1), np.roll(level, -1))
    return np.asarray(np.minimum(level, neighbours) - DROP_MM)


def _knots(top: Floats) -> Ints:
    """Points of the unrolled border between two of its steps that cross."""
    steps = linestrings(np.stack([top[:-1], top[1:]], axis=1))
    one, two = STRtree(steps).query(steps, predicate="intersects")
    clash = two - one > 1
    bad = np.zeros(len(top), dtype=np.bool_)
    for i, j in zip(one[clash], two[clash], strict=True):
        if j - i < len(top) // 4:
            bad[i : j + 2] = True
        else:
            bad[[i, i + 1, j, j + 1]] = True
    return np.flatnonzero(bad).astype(np.int32)


def _assembled(
    surface: Mesh, loop: Ints, top: Floats, under: tuple[_Ring, Floats, float]
) -> Skirt | Ints:
    ring, level, floor = under
    m, first = len(ring.points), len(surface.vertices)
    length = float(ring.at[-1])
    bottom = np.column_stack([ring.at, np.append(level, level[0])])
    corners = np.concatenate([top, [[length, top[0, 1]]], bottom[::-1]])
    upper = np.arange(m, dtype=np.int32) + first
    names = np.concatenate([loop, loop[:1], upper[:1], upper[::-1]])
    inside = _planar_triangles(corners)
    if inside is None:
        lowest = np.interp(top[:, 0], bottom[:, 0], bottom[:, 1])
        bad = (top[:, 1] <= lowest + 1e-9) | (top[:, 0] < 0) | (top[:, 0] > length)
        return loop[bad] if bad.any() else loop
    band = names[inside].astype(np.int32)
    band = band[
        (band[:, 0] != band[:, 1]) & (band[:, 1] != band[:, 2]) & (band[:, 2] != band[:, 0])
    ]
    lower = upper + m
    wall = _strip(upper, lower)
    flat = _planar_triangles(ring.points)
    base = lower[planar_faces(ring.points) if flat is None else flat][:, ::-1]
    vertices = np.concatenate(
        [
            surface.vertices,
            np.column_stack([ring.points, level]),
            np.column_stack([ring.points, np.full(m, floor)]),
        ]
    )
    steep = np.concatenate([band, wall])
    owner = loop[cKDTree(surface.vertices[loop]).query(vertices[steep].mean(axis=1))[1]]
    return Skirt(Mesh(vertices, np.concatenate([steep, base])), len(steep), owner)


def _planar_triangles(corners: Floats) -> Ints | None:
    """Constrained Delaunay triangles of a simple polygon as corner indices, counter-clockwise."""
    polygon = Polygon(corners)
    if not polygon.is_valid:
        return None
    triangles = constrained_delaunay_triangles(polygon)
    points = get_coordinates(triangles)  # rings of four, the first corner again at the end
    if len(points) != 4 * (len(corners) - 2):
        return None
    found = cKDTree(corners).query(points.reshape(-1, 4, 2)[:, :3].reshape(-1, 2))
    if np.max(found[0]) > 1e-9:
        return None
    faces = found[1].reshape(-1, 3).astype(np.int32)
    a, b, c = (corners[faces[:, i]] for i in range(3))
    turn = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    faces[turn < 0] = faces[turn < 0][:, ::-1]
    return faces


def _strip(upper: Ints, lower: Ints) -> Ints:
    """Two triangles a step between two closed rings, looking outwards."""
    after, below = np.roll(upper, -1), np.roll(lower, -1)
    first = np.stack([after, upper, lower], axis=1)
    second = np.stack([after, lower, below], axis=1)
    return np.stack([first, second], axis=1).reshape(-1, 3).astype(np.int32)
