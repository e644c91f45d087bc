"""Wall thickness of a solid by shrinking balls.

From each sample on the surface the largest ball is sought that touches it from inside and
holds no other surface; its diameter is the thickness there. Every edge runs out to nothing, so
a wall counts as thin only where no ball within a short way round the sample is thicker.

Source:
    Ma, Bae, Choi, "3D medial point approximation using nearest neighbors and the normal
    field", Visual Computer 2012;28:7-19 [memory].
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.spatial import cKDTree

from claspwright.base import Floats, Ints
from claspwright.geometry import (
    DistanceTree,
    ball_radii,
    closest_points,
    face_areas,
    face_normals,
)

START = 1.0  # mm radius of the first ball: thicker parts are not of interest
ROUND = 0.75  # mm round a sample within which thicker metal carries it
NEIGHBOURS = 128  # more than lie within ROUND on both sides of a wall
SAMPLES = 40_000
FACING = -0.8  # cosine between the normals of two walls that face each other, at most
AREA = 0.04  # mm2 of surface for a sample, at least


@dataclass(frozen=True, slots=True, eq=False)
class Samples:
    """Thickness of the walls at points of a surface."""

    points: Floats  # (N, 3) mm
    thickness: Floats  # (N,) of the thickest ball near by; two starting radii or more is thick
    area: Floats  # (N,) surface that each sample stands for [mm2]


def wall_thickness(tree: DistanceTree) -> Samples:
    """Thickness of the walls of a closed solid, at evenly spread samples of its surface.

    Args:
        tree: of the solid.
    """
    mesh = tree.mesh
    areas, normals = face_areas(mesh), face_normals(mesh)
    chosen = _spread(areas)
    start = mesh.corners[chosen].mean(axis=1)
    diameter = 2.0 * ball_radii(tree, start, normals[chosen], START)
    near = cKDTree(start)
    count = min(NEIGHBOURS, len(start))
    _, beside = near.query(start, k=count, distance_upper_bound=ROUND)
    padded = np.append(diameter, 0.0)  # a missing neighbour has the index len(start)
    thickest = padded[beside.reshape(len(start), count)].max(axis=1)
    share = float(areas.sum()) / max(len(chosen), 1)
    return Samples(start, thickest, np.full(len(start), share))


def thickness_at(tree: DistanceTree, point: Floats) -> float:
    """Thickness of the wall of a closed solid at a (3,) point of its surface [mm].

    As `wall_thickness` has it: of the thickest ball near by; two starting radii or more is thick.
    """
    mesh = tree.mesh
    middles = mesh.middles
    off = np.linalg.norm(middles - point, axis=1)
    near = np.flatnonzero(off < max(ROUND, float(off.min()) + 1e-9))[:NEIGHBOURS]
    return 2.0 * float(ball_radii(tree, middles[near], face_normals(mesh)[near], START).max())


@dataclass(frozen=True, slots=True, eq=False)
class Gaps:
    """Walls of a solid that face each other across a gap, at samples of its surface."""

    points: Floats  # (N, 3) on the one wall [mm]
    width: Floats  # (N,) of the gap [mm]
    faces: Ints  # (N, 2) face of the one wall and of the other
    area: float  # surface that each sample stands for [mm2]


def facing_walls(tree: DistanceTree, reach: float) -> Gaps:
    """Where walls of a closed solid face each other across less than `reach` [mm].

    From each sample the largest ball is sought that touches it from outside. What it meets first
    is the other wall, where that looks back (FACING); the sides of an open crease do not.

    Args:
        tree: of the solid.
        reach: widest gap that is looked for [mm].
    """
    mesh = tree.mesh
    areas, normals = face_areas(mesh), face_normals(mesh)
    chosen = _spread(areas)
    start = mesh.corners[chosen].mean(axis=1)
    radius = ball_radii(tree, start, -normals[chosen], reach / 2.0)
    met = radius < reach / 2.0
    chosen, start, radius = chosen[met], start[met], radius[met]
    share = float(areas.sum()) / max(len(met), 1)
    if not len(chosen):
        return Gaps(start, radius, np.zeros((0, 2), dtype=np.int64), share)
    other = closest_points(tree, start + 2.0 * radius[:, None] * normals[chosen]).faces
    faces: Floats = np.einsum("nd,nd->n", normals[chosen], normals[other])
    back = faces < FACING
    pairs = np.stack([chosen, other], axis=1)[back]
    return Gaps(start[back], 2.0 * radius[back], pairs, share)


def _spread(areas: Floats) -> Floats:
    """Faces at even steps of the summed area, each at most once."""
    total = np.cumsum(areas)
    count = min(SAMPLES, len(areas), max(int(total[-1] / AREA), 1))
    steps = (np.arange(count) + 0.5) / count * total[-1]
    return np.unique(np.searchsorted(total, steps))
