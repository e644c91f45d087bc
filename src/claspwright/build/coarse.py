"""A part with one vertex for each cell of a grid, quick to send rays at and to cut."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Bools, Floats, Ints
from claspwright.build import _coarse_kernels as kernels
from claspwright.build import _pose_kernels as pose_kernels
from claspwright.geometry import Mesh
from claspwright.geometry._ray_kernels import cast
from claspwright.geometry._tree_kernels import build_tree

COARSE_MM = 0.45  # side of a cell


@dataclass(frozen=True, slots=True, eq=False)
class CoarsePart:
    """The coarse part and a box tree over its faces."""

    points: Floats  # (P, 3)
    faces: Ints  # (G, 3)
    guarded: Bools  # (G,) protected faces, in the order of the tree
    tree: tuple[NDArray[Any], ...]  # corners, child boxes, children, leaf start

    def below(self, starts: Floats, down: Floats) -> tuple[Floats, Bools]:
        """(N,) way down to the first face, inf where there is none; whether it is protected."""
        ways, hits = np.empty(len(starts)), np.empty(len(starts), np.int32)
        cast(starts, down, False, self.tree, ways, hits)
        return ways, (hits >= 0) & self.guarded[hits]


def coarse_part(mesh: Mesh, protected: Bools) -> CoarsePart:
    """Thin a closed part out; where next to nothing would be left, it is taken as it is."""
    low, high = extent(mesh.vertices, np.eye(3))
    points, faces, was = kernels.thinned(mesh.vertices, mesh.faces, low, high, COARSE_MM)
    if len(faces) < 4:
        points, faces, was = (
            np.array(mesh.vertices),
            np.array(mesh.faces),
            np.arange(len(mesh.faces)),
        )
    order, child_boxes, children, leaf_start = build_tree(kernels.boxes(points, faces))
    tree = (points[faces[order]], child_boxes, children, leaf_start)
    return CoarsePart(points, faces, protected[was[order]], tree)


def extent(points: Floats, directions: Floats) -> Floats:
    """(2, D) lowest and highest of (V, 3) points along each of (3, D) directions."""
    out = np.empty((2, directions.shape[1]))
    pose_kernels.extents(points, directions, out)
    return out
