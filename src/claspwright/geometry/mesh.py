"""A triangle mesh as a frozen value."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Bools, Floats, InputError, Ints, frozen_floats, frozen_ints
from claspwright.geometry import _normal_kernels as kernels
from claspwright.geometry.rigid import Rigid

Kind = TypeVar("Kind", bound=np.generic)


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
    def middles(self) -> Floats:
        """(F, 3) middle of each face [mm]."""
        out = np.empty((len(self.faces), 3))
        kernels.face_middles(self.vertices, self.faces, out)
        return out

    @property
    def bounds(self) -> Floats:
        """(2, 3) lowest and highest coordinate [mm]."""
        return np.stack([self.vertices.min(axis=0), self.vertices.max(axis=0)])

    def moved(self, rigid: Rigid) -> Mesh:
        """The same mesh after a rigid motion."""
        return Mesh(rigid.apply(self.vertices), self.faces)


def face_vectors(mesh: Mesh) -> Floats:
    """(F, 3) normals whose length is twice the face area [mm2]."""
    vectors: Floats = kernels.face_vectors(_in_rows(mesh.vertices), _in_rows(mesh.faces))
    return vectors


def face_areas(mesh: Mesh) -> Floats:
    """(F,) area of each face [mm2]."""
    return np.asarray(0.5 * kernels.lengths(face_vectors(mesh)))


def face_normals(mesh: Mesh) -> Floats:
    """(F, 3) unit normals; zero for faces without area."""
    normals: Floats = kernels.units(face_vectors(mesh))
    return normals


def vertex_normals(mesh: Mesh) -> Floats:
    """(V, 3) unit normals, averaged over the faces round each vertex, weighted by area."""
    return summed_normals(mesh, face_vectors(mesh))


def summed_normals(mesh: Mesh, vectors: Floats) -> Floats:
    """(V, 3) unit normals of the vertices from the (F, 3) vectors that `face_vectors` gives."""
    total = kernels.summed_at_vertices(vectors, _in_rows(mesh.faces), len(mesh.vertices))
    normals: Floats = kernels.units(total)
    return normals


def _in_rows(array: NDArray[Kind]) -> NDArray[Kind]:
    """A read-only array whose rows lie in a row in memory: the one kind kernels are made for."""
    rows = np.ascontiguousarray(array)
    rows.setflags(write=False)
    return rows


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
    return float(kernels.signed_volume(mesh.vertices, mesh.faces))
