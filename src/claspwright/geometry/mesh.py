"""A triangle mesh as a frozen value."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Bools, Floats, InputError, Ints, frozen_floats, frozen_ints
from claspwright.geometry.rigid import Rigid


@dataclass(frozen=True, slots=True, eq=False)
class Mesh:
    """Triangles with counter-clockwise vertices seen from outside; lengths in mm."""

    vertices: Floats  # (V, 3) mm
    faces: Ints  # (F, 3) vertex indices

    def __post_init__(self) -> None:
        object.__setattr__(self, "vertices", frozen_floats(self.vertices, (None, 3), "vertices"))
        object.__setattr__(self, "faces", frozen_ints(self.faces, (None, 3), "faces"))
        if self.faces.size and (self.faces.min() < 0 or self.faces.max() >= len(self.vertices)):
            raise InputError(f"faces point outside the {len(self.vertices)} vertices")

    @property
    def corners(self) -> Floats:
        """(F, 3, 3) coordinates of the three corners of each face [mm]."""
        return self.vertices[self.faces]

    @property
    def bounds(self) -> Floats:
        """(2, 3) lowest and highest coordinate [mm]."""
        return np.stack([self.vertices.min(axis=0), self.vertices.max(axis=0)])

    def moved(self, rigid: Rigid) -> Mesh:
        """The same mesh after a rigid motion."""
        return Mesh(rigid.apply(self.vertices), self.faces)


def face_vectors(mesh: Mesh) -> Floats:
    """(F, 3) normals whose length is twice the face area [mm2]."""
    first = mesh.vertices[mesh.faces[:, 0]]
    b, c = ((mesh.vertices[mesh.faces[:, i]] - first).T for i in (1, 2))
    out = np.empty_like(first)
    out[:, 0] = b[1] * c[2] - b[2] * c[1]
    out[:, 1] = b[2] * c[0] - b[0] * c[2]
    out[:, 2] = b[0] * c[1] - b[1] * c[0]
    return out


def face_areas(mesh: Mesh) -> Floats:
    """(F,) area of each face [mm2]."""
    return np.asarray(0.5 * np.linalg.norm(face_vectors(mesh), axis=1))


def face_normals(mesh: Mesh) -> Floats:
    """(F, 3) unit normals; zero for faces without area."""
    vectors = face_vectors(mesh)
    length = np.linalg.norm(vectors, axis=1, keepdims=True)
    return np.asarray(np.divide(vectors, length, out=np.zeros_like(vectors), where=length > 0))


def vertex_normals(mesh: Mesh) -> Floats:
    """(V, 3) unit normals, averaged over the faces round each vertex, weighted by area."""
    vectors = face_vectors(mesh)
    total = np.zeros_like(mesh.vertices)
    for corner in range(3):
        for axis in range(3):
            total[:, axis] += np.bincount(
                mesh.faces[:, corner], weights=vectors[:, axis], minlength=len(total)
            )
    length = np.linalg.norm(total, axis=1, keepdims=True)
    return np.asarray(np.divide(total, length, out=np.zeros_like(total), where=length > 0))


def compacted(vertices: Floats, faces: Ints) -> Mesh:
    """The mesh without the vertices that no face uses; order is kept."""
    used = np.zeros(len(vertices), dtype=np.bool_)
    used[faces.reshape(-1)] = True
    new = np.cumsum(used) - 1
    return Mesh(vertices[used], new[faces].astype(np.int32))


def kept_faces(mesh: Mesh, keep: Bools) -> Mesh:
    """The faces where (F,) `keep` is True, without unused vertices."""
    return compacted(mesh.vertices, mesh.faces[keep])


def volume(mesh: Mesh) -> float:
    """Signed volume of a closed mesh by the divergence sum (a . b x c) / 6 [mm3].

    Source:
        check-values J06.
    """
    corners = mesh.corners
    a, b, c = (corners[:, i] for i in range(3))
    return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6.0)
