"""Trimming the ragged edge of a scan to a smooth border."""

from __future__ import annotations

import numpy as np
from scipy.spatial import cKDTree

from claspwright.arch.repair import single_piece
from claspwright.arch.topology import border_edges, edges_of
from claspwright.base import Floats, Ints
from claspwright.geometry import Mesh, compacted

OPEN_MM = 1.0  # tongues of the edge narrower than twice this are cut off
BACK_MM = 0.85  # how far the border goes out again after it was moved in by OPEN_MM
SNAP = 0.15  # a cut nearer to a vertex than this share of the edge goes through the vertex


def smoothly_trimmed(mesh: Mesh) -> Mesh:
    """Cut off the ragged edge: move the border in by OPEN_MM, then out again by BACK_MM.

    What is kept lies within BACK_MM of a point that is OPEN_MM from the old border, so the
    new border is smooth, and where the old one was smooth it moves by their difference only.
    Faces across the new border are split; the shape of the surface does not change.
    """
    start, end = border_edges(mesh.faces)
    if not len(start):
        return mesh
    border = cKDTree(_dense(mesh.vertices[start], mesh.vertices[end]))
    reach = 2 * OPEN_MM
    gap = np.asarray(border.query(mesh.vertices, distance_upper_bound=reach)[0])
    inner: Floats = np.minimum(gap, reach) - OPEN_MM
    if not (inner > 0).any():
        return mesh
    middle = _crossings(mesh, inner)
    if not len(middle):
        return mesh
    out = cKDTree(middle).query(mesh.vertices, distance_upper_bound=2 * OPEN_MM)[0]
    keep = np.where(inner >= 0, 1.0, BACK_MM - np.minimum(out, 2 * OPEN_MM))
    return single_piece(cut_along_zero(mesh, keep))


def distance_over(mesh: Mesh, vertices: Ints, radius: float) -> Floats:
    """(V,) distance to the nearest of some vertices less a radius, known 1 mm beyond it [mm].

    A mesh cut along its zero has smooth borders there; giving up whole faces would leave jagged
    ones, which no wall can follow.
    """
    reach = radius + 1.0
    gap = cKDTree(mesh.vertices[vertices]).query(mesh.vertices, distance_upper_bound=reach)[0]
    return np.asarray(np.minimum(gap, reach) - radius)


def _dense(start: Floats, end: Floats) -> Floats:
    """Points at most 0.1 mm apart along the border edges."""
    longest = float(np.linalg.norm(end - start, axis=1).max())
    n = min(32, max(1, int(np.ceil(longest / 0.1))))
    t = (np.arange(n) / n)[:, None, None]
    return np.asarray((start[None] * (1 - t) + end[None] * t).reshape(-1, 3))


def _crossings(mesh: Mesh, values: Floats) -> Floats:
    """(N, 3) points dense along the zero line of values at the vertices."""
    ends = edges_of(mesh.faces).ends
    a, b = values[ends[:, 0]], values[ends[:, 1]]
    cut = (a < 0) != (b < 0)
    t = (a[cut] / (a[cut] - b[cut]))[:, None]
    points = mesh.vertices[ends[cut, 0]] * (1 - t) + mesh.vertices[ends[cut, 1]] * t
    return np.asarray(points)


def cut_along_zero(mesh: Mesh, values: Floats) -> Mesh:
    """The part of a mesh where values at the vertices are positive, faces split at zero."""
    values = _snapped(mesh, values)
    faces = mesh.faces
    positive = values > 0
    count = positive[faces].sum(axis=1)
    negative = (values < 0)[faces].sum(axis=1)
    whole = faces[(negative == 0) & (count > 0)]
    mixed = faces[(negative > 0) & (count > 0)]
    vertices, parts = _split(mesh.vertices, mixed, values)
    return compacted(vertices, np.concatenate([whole, parts]))


def _snapped(mesh: Mesh, values: Floats) -> Floats:
    """Values with zero at vertices that a cut would pass too near."""
    ends = edges_of(mesh.faces).ends
    out = values.copy()
    a, b = values[ends[:, 0]], values[ends[:, 1]]
    cut = a * b < 0
    t = a[cut] / (a[cut] - b[cut])
    out[ends[cut, 0][t < SNAP]] = 0.0
    out[ends[cut, 1][t > 1 - SNAP]] = 0.0
    return out


def _split(vertices: Floats, mixed: Ints, values: Floats) -> tuple[Floats, Ints]:
    """Positive parts of faces with corners on both sides of zero."""
    points = [vertices]
    made: dict[tuple[int, int], int] = {}
    parts: list[tuple[int, int, int]] = []

    def cut(i: int, j: int) -> int:
        key = (min(i, j), max(i, j))
        if key not in made:
            low, high = key
            t = values[low] / (values[low] - values[high])
            points.append((vertices[low] * (1 - t) + vertices[high] * t)[None])
            made[key] = len(vertices) + len(made)
        return made[key]

    for face in mixed.tolist():
        ring: list[int] = []
        for i, j in zip(face, face[1:] + face[:1], strict=True):
            if values[i] >= 0:
                ring.append(i)
            if values[i] * values[j] < 0:
                ring.append(cut(i, j))
        parts += [(ring[0], ring[k], ring[k + 1]) for k in range(1, len(ring) - 1)]
    return np.concatenate(points), np.array(parts, dtype=np.int32).reshape(-1, 3)
