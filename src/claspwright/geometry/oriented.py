"""Oriented points spread evenly over a surface."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.spatial import cKDTree

from claspwright.base import Floats, GeometryError, frozen_floats
from claspwright.geometry._normal_kernels import lengths
from claspwright.geometry.mesh import Mesh, face_vectors, vertex_normals
from claspwright.geometry.rigid import Rigid


@dataclass(frozen=True, slots=True, eq=False)
class OrientedPoints:
    """Points of a surface with the unit normals there."""

    points: Floats  # (P, 3) mm
    normals: Floats  # (P, 3)

    def __post_init__(self) -> None:
        object.__setattr__(self, "points", frozen_floats(self.points, (None, 3), "points"))
        object.__setattr__(self, "normals", frozen_floats(self.normals, (None, 3), "normals"))

    def moved(self, rigid: Rigid) -> OrientedPoints:
        """The same points after a rigid motion."""
        return OrientedPoints(rigid.apply(self.points), rigid.turn(self.normals))

    def picked(self, count: int) -> OrientedPoints:
        """About `count` of them, in even steps."""
        step = max(1, len(self.points) // max(count, 1))
        return OrientedPoints(self.points[::step], self.normals[::step])


def spread_points(mesh: Mesh, count: int, *, seed: int, smooth: int = 0) -> OrientedPoints:
    """`count` points spread over the faces in proportion to area, with the face normals.

    Args:
        mesh: any mesh with some area.
        count: number of points.
        seed: of the random places within the strata of equal area.
        smooth: average each normal over that many nearest points that face the same way.

    Raises:
        GeometryError: the mesh has no area.
    """
    vectors = face_vectors(mesh)
    areas = 0.5 * lengths(vectors)
    total = float(areas.sum())
    if not total > 0:
        raise GeometryError("a mesh without area has no points to spread", remedy="Check the mesh.")
    random = np.random.default_rng(seed)
    at = (np.arange(count) + random.random(count)) * (total / count)
    faces = np.minimum(np.searchsorted(np.cumsum(areas), at, side="right"), len(areas) - 1)
    u, v = random.random((2, count))
    root = np.sqrt(u)
    weights = np.stack([1.0 - root, root * (1.0 - v), root * v], axis=1)
    points = np.einsum("pc,pcd->pd", weights, mesh.vertices[mesh.faces[faces]])
    normals = vectors[faces] / (2.0 * np.maximum(areas[faces, None], 1e-300))
    shuffled = random.permutation(count)
    points, normals = points[shuffled], normals[shuffled]
    if smooth > 1:
        normals = smoothed_normals(points, normals, smooth)
    return OrientedPoints(points, normals)


def smoothed_normals(points: Floats, normals: Floats, count: int) -> Floats:
    """(P, 3) each normal averaged over its nearest points that face the same way."""
    near = cKDTree(points).query(points, k=min(count, len(points)))[1]
    around = normals[np.asarray(near).reshape(len(points), -1)]
    same = np.einsum("pkd,pd->pk", around, normals) > 0.5
    total = (around * same[..., None]).sum(axis=1)
    length = np.linalg.norm(total, axis=1, keepdims=True)
    return np.asarray(np.divide(total, length, out=normals.copy(), where=length > 0))


def oriented_vertices(mesh: Mesh, count: int | None = None) -> OrientedPoints:
    """The vertices, or about `count` of them in even steps, with their area-weighted normals.

    Vertices of no face are left out.
    """
    normals = vertex_normals(mesh)
    used = np.flatnonzero(np.logical_or.reduce([normals[:, a] != 0.0 for a in range(3)]))
    used = used[:: max(1, len(used) // max(count or len(used), 1))]
    return OrientedPoints(mesh.vertices[used], normals[used])
