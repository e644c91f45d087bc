"""Guiding planes: the near-parallel part of a proximal surface."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from claspwright.arch.model import DentalArch
from claspwright.arch.topology import edges_of, twin_pairs
from claspwright.base import Floats, InputError, Ints, frozen_ints
from claspwright.geometry import Mesh, face_areas, face_normals

PARALLEL_DEG = 4.0  # from the path, up to which a facet still guides
FACING_DEG = 50.0  # from the proximal direction
LEVEL_FROM_TOP = 1.0  # mm below the crown's top that belong to the marginal ridge


@dataclass(frozen=True, slots=True, eq=False)
class GuidingPlane:
    """The largest near-parallel facet on one proximal surface."""

    tooth: int
    where: Literal["mesial", "distal"]
    faces: Ints  # (N,) of the master surface; empty where there is none
    area_mm2: float
    height_mm: float  # along the path
    mean_deviation_deg: float  # of the surface from the path

    def __post_init__(self) -> None:
        object.__setattr__(self, "faces", frozen_ints(self.faces, (None,), "faces"))


def find_guiding_plane(
    arch: DentalArch, tooth: int, where: Literal["mesial", "distal"], path: Floats
) -> GuidingPlane:
    """Find the connected proximal faces that run along the path of placement.

    Args:
        arch: the arch with its teeth.
        tooth: ISO 3950 code of a present tooth.
        where: which proximal surface.
        path: (3,) unit vector out of the mouth, arch frame.

    Raises:
        InputError: the tooth does not stand on the arch.
    """
    if tooth not in arch.teeth:
        raise InputError(f"tooth {tooth} does not stand on this arch", remedy="Check the code.")
    found = arch.teeth[tooth]
    out = found.mesial if where == "mesial" else found.distal
    surface = arch.scan.surface
    crown = Mesh(surface.vertices, surface.faces[found.faces])
    normals, areas = face_normals(crown), face_areas(crown)
    tilt = np.degrees(np.arcsin(np.clip(normals @ path, -1.0, 1.0)))
    facing = normals @ out > np.cos(np.radians(FACING_DEG))
    height = crown.middles @ path
    facing &= height < height.max() - LEVEL_FROM_TOP
    near = np.flatnonzero((np.abs(tilt) < PARALLEL_DEG) & facing).astype(np.int32)
    piece = _largest_piece(crown, near, areas)
    if not len(piece):
        return GuidingPlane(tooth, where, found.faces[:0], 0.0, 0.0, 0.0)
    area = float(areas[piece].sum())
    corners = crown.corners[piece].reshape(-1, 3) @ path
    low, high = np.percentile(corners, [1, 99])
    deviation = float(np.average(np.abs(tilt[piece]), weights=areas[piece]))
    return GuidingPlane(tooth, where, found.faces[piece], area, float(high - low), deviation)


def _largest_piece(mesh: Mesh, faces: Ints, areas: Floats) -> Ints:
    """The connected part of a set of faces that has the most area."""
    if not len(faces):
        return faces
    a, b = twin_pairs(edges_of(mesh.faces[faces]))
    n = len(faces)
    links = coo_matrix((np.ones(len(a), np.int8), (a // 3, b // 3)), shape=(n, n))
    count, piece = connected_components(links, directed=False)
    largest = int(np.argmax(np.bincount(piece, areas[faces], count)))
    return np.asarray(faces[piece == largest], np.int32)
