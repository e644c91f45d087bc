"""The first surface that each pixel of an orthographic picture meets."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Floats, Ints
from claspwright.geometry import Mesh
from claspwright.report._picture_kernels import draw_faces, seen_points

Indices = NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class Hits:
    """Row-major over the picture; where nothing is met, item and face are -1, depth is -inf."""

    item: Ints  # (H, W) index of the mesh
    face: Ints  # (H, W) index of the face within its mesh
    weight: Floats  # (H, W, 2) barycentric weights of the face's second and third corner
    depth: Floats  # (H, W) height towards the eye [mm]


def first_hits(meshes: tuple[Mesh, ...], rotation: Floats, across: Floats, down: Floats) -> Hits:
    """What each pixel meets first, by a depth buffer.

    Args:
        meshes: at one depth the first of them is met.
        rotation: (3, 3) world to picture frame: x right, y up, z towards the eye.
        across: (W,) x of the pixel centres in the picture frame, in even steps upwards [mm].
        down: (H,) y of the pixel centres in the picture frame, in even steps downwards [mm].
    """
    shape = (len(down), len(across))
    hits = Hits(
        np.full(shape, -1, dtype=np.int32),
        np.full(shape, -1, dtype=np.int32),
        np.zeros((*shape, 2)),
        np.full(shape, -np.inf),
    )
    view = np.array(rotation)
    place = np.array([across[0], down[0], _per_mm(across), _per_mm(down)])
    for index, mesh in enumerate(meshes):
        points = seen_points(np.array(mesh.vertices), view, place)
        draw_faces(
            points, np.array(mesh.faces), index, hits.item, hits.face, hits.weight, hits.depth
        )
    return hits


def _per_mm(centres: Floats) -> float:
    """Pixels a mm along even centres, negative where these run downwards."""
    return (len(centres) - 1) / float(centres[-1] - centres[0])
