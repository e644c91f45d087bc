"""Filling the small holes of a scan, the big opening left open."""

from __future__ import annotations

from dataclasses import dataclass

import mapbox_earcut
import numpy as np

from claspwright.arch.topology import border_loops, loop_length
from claspwright.base import Floats, Ints
from claspwright.geometry import Mesh

PATCH_LIMIT = 150  # corners up to which the patch of least area is searched


@dataclass(frozen=True, slots=True, eq=False)
class Hole:
    """A hole that was filled."""

    at: Floats  # (3,) its middle [mm]
    length_mm: float  # along its edge
    span_mm: float  # between its farthest corners
    area_mm2: float  # of the patch


def border_and_holes(mesh: Mesh) -> tuple[Ints, list[Ints]]:
    """The longest border loop, and the others as holes."""
    loops = border_loops(mesh.faces)
    if not loops:
        return np.empty(0, dtype=np.int32), []
    lengths = [loop_length(mesh.vertices[loop]) for loop in loops]
    longest = int(np.argmax(lengths))
    return loops[longest], [loop for i, loop in enumerate(loops) if i != longest]


def without_holes(mesh: Mesh, *, all_of_them: bool = False) -> tuple[Mesh, tuple[Hole, ...]]:
    """Patch every hole but, as a rule, the longest; old vertices and faces come first."""
    longest, loops = border_and_holes(mesh)
    if all_of_them and len(longest):
        loops = [longest, *loops]
    faces, holes = [mesh.faces], []
    for loop in loops:
        patch = patch_faces(mesh.vertices[loop[::-1]])
        faces.append(loop[::-1][patch].astype(np.int32))
        holes.append(_hole(mesh.vertices[loop], mesh.vertices[loop[::-1]][patch]))
    return Mesh(mesh.vertices, np.concatenate(faces)), tuple(holes)


def _hole(ring: Floats, patch: Floats) -> Hole:
    away = np.linalg.norm(ring[:, None] - ring[None, :: max(1, len(ring) // 64)], axis=2)
    area = np.linalg.norm(
        np.cross(patch[:, 1] - patch[:, 0], patch[:, 2] - patch[:, 0]), axis=1
    ).sum()
    return Hole(ring.mean(axis=0), loop_length(ring), float(away.max()), float(area) / 2)


def patch_faces(ring: Floats) -> Ints:
    """(N - 2, 3) triangles over a closed ring of (N, 3) points, wound as the ring runs."""
    if len(ring) < 3:
        return np.empty((0, 3), dtype=np.int32)
    if len(ring) <= PATCH_LIMIT:
        return _least_area(ring)
    flat = _flattened(ring)
    return planar_faces(flat)


def _flattened(ring: Floats) -> Floats:
    """(N, 2) the ring seen along its own area vector, counter-clockwise."""
    shifted = ring - ring.mean(axis=0)
    normal = np.cross(shifted, np.roll(shifted, -1, axis=0)).sum(axis=0)
    normal /= max(float(np.linalg.norm(normal)), 1e-30)
    side = np.cross(normal, np.eye(3)[np.argmin(np.abs(normal))])
    side /= np.linalg.norm(side)
    return np.stack([shifted @ side, shifted @ np.cross(normal, side)], axis=1)


def planar_faces(ring: Floats) -> Ints:
    """(N - 2, 3) triangles over a counter-clockwise ring of (N, 2) points, every corner used.

    Corners that lie in one line with their neighbours are kept too.
    """
    n = len(ring)
    found = mapbox_earcut.triangulate_float64(ring, np.array([n], dtype=np.uint32))
    faces = np.asarray(found, dtype=np.int32).reshape(-1, 3)
    if len(faces) == n - 2:
        a, b, c = (ring[faces[:, i]] for i in range(3))
        turn = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
        return faces if turn.sum() > 0 else faces[:, ::-1].copy()
    return _clipped(ring)


def _clipped(ring: Floats) -> Ints:
    """Ear clipping that keeps every corner: the least obtuse ear first."""
    left = list(range(len(ring)))
    out: list[tuple[int, int, int]] = []
    while len(left) > 3:
        best, where = -np.inf, 0
        for i in range(len(left)):
            a, b, c = left[i - 1], left[i], left[(i + 1) % len(left)]
            u, v = ring[b] - ring[a], ring[c] - ring[b]
            turn = float(u[0] * v[1] - u[1] * v[0])
            score = turn / max(float(np.linalg.norm(u) * np.linalg.norm(v)), 1e-30)
            if score > best and not _any_inside(ring, left, (a, b, c)):
                best, where = score, i
        out.append((left[where - 1], left[where], left[(where + 1) % len(left)]))
        del left[where]
    out.append((left[0], left[1], left[2]))
    return np.array(out, dtype=np.int32)


def _any_inside(ring: Floats, left: list[int], ear: tuple[int, int, int]) -> bool:
    a, b, c = (ring[i] for i in ear)
    points = ring[[i for i in left if i not in ear]]
    sides = [
        (q[0] - p[0]) * (points[:, 1] - p[1]) - (q[1] - p[1]) * (points[:, 0] - p[0])
        for p, q in ((a, b), (b, c), (c, a))
    ]
    return bool((np.min(sides, axis=0) > 0).any())


def _least_area(ring: Floats) -> Ints:
    """Triangulation of a ring with the least total area, by dynamic programming.

    Source:
        Barequet and Sharir, Filling gaps in the boundary of a polyhedron, Computer Aided
        Geometric Design 1995;12:207-229 (from memory).
    """
    n = len(ring)
    cost = np.zeros((n, n))
    split = np.zeros((n, n), dtype=np.int32)
    for span in range(2, n):
        for i in range(n - span):
            k = i + span
            middle = np.arange(i + 1, k)
            area = np.linalg.norm(np.cross(ring[middle] - ring[i], ring[k] - ring[i]), axis=1)
            total = cost[i, middle] + cost[middle, k] + area
            best = int(np.argmin(total))
            cost[i, k], split[i, k] = total[best], middle[best]
    out, stack = [], [(0, n - 1)]
    while stack:
        i, k = stack.pop()
        if k - i < 2:
            continue
        j = int(split[i, k])
        out.append((i, j, k))
        stack += [(i, j), (j, k)]
    return np.array(out, dtype=np.int32)
