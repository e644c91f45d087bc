"""How far a denture base may reach down both sides of a ridge."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from scipy.ndimage import gaussian_filter1d, minimum_filter1d
from scipy.spatial import cKDTree

from claspwright.base import Bools, Floats, Ints
from claspwright.geometry import DistanceTree, Mesh, closest_points, face_normals

STEP = 0.25  # mm of each step across the surface
EDGE = 1.0  # mm that a base stays away from the border of the scan
RISE = 0.4  # mm that the surface may rise again before the sulcus is taken as passed
TUCK = 0.6  # mm that a flange may reach back under the ridge's widest place


@dataclass(frozen=True, slots=True, eq=False)
class Flanges:
    """The surface that flanges are walked on."""

    surface: Mesh
    tree: DistanceTree
    tissue: Bools  # (F,)
    on_border: Bools  # (F,)
    normals: Floats = field(init=False, repr=False)  # (F, 3)
    border: cKDTree | None = field(init=False, repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "normals", face_normals(self.surface))
        edge = self.surface.corners[self.on_border].mean(axis=1)
        object.__setattr__(self, "border", cKDTree(edge) if len(edge) else None)


def flange_widths(flanges: Flanges, crest: Floats, side: Floats, most_mm: float) -> Floats:
    """(K,) surface length from each crest point to the limit of a base on one side [mm].

    Each walk goes straight across the ridge, in the vertical plane of its `side`, and ends at
    the depth of the sulcus (where the surface rises again), where the surface goes back under
    the ridge, 1 mm before the border of the scan, before a crown, or at `most_mm`.

    Args:
        flanges: the surface.
        crest: (K, 3) points on the ridge crest.
        side: (K, 3) horizontal unit vectors to that side.
        most_mm: the longest flange.
    """
    points, faces = walked(flanges, crest, side, int(np.ceil(most_mm / STEP)))
    z = np.concatenate([crest[None, :, 2], points[..., 2]])
    lowest = np.minimum.accumulate(z, axis=0)[1:]
    reach = np.einsum("skj,kj->sk", points - crest, side)
    farthest = np.maximum.accumulate(np.maximum(reach, 0.0), axis=0)
    back = reach < farthest - TUCK
    risen = points[..., 2] > lowest + RISE
    blocked = back | ~flanges.tissue[faces]
    if flanges.border is not None:
        away = np.asarray(flanges.border.query(points.reshape(-1, 3))[0])
        blocked |= away.reshape(back.shape) < EDGE
    count = len(points)
    first_risen = np.where(risen.any(axis=0), risen.argmax(axis=0), count)
    depth = np.array([int(np.argmin(points[: n + 1, k, 2])) for k, n in enumerate(first_risen)])
    limit = np.where(blocked.any(axis=0), blocked.argmax(axis=0), count)
    limit = np.where((first_risen < limit) & (depth * STEP > 2.0), depth, limit)
    narrow = minimum_filter1d(limit * STEP, 5, mode="nearest")  # one long walk does not count
    return np.clip(gaussian_filter1d(narrow, 2.0, mode="nearest"), 0.0, most_mm)


def walked(flanges: Flanges, crest: Floats, side: Floats, steps: int) -> tuple[Floats, Ints]:
    """Walk over the surface from each crest point, straight to one side.

    Returns:
        (S, K, 3) points after each step of STEP, and (S, K) the faces that they lie on.
    """
    across = np.cross(np.array([0.0, 0.0, 1.0]), side)  # normals of the section planes
    here, heading = np.array(crest), np.array(side)
    points, faces = np.empty((steps, *crest.shape)), np.empty((steps, len(crest)), np.int32)
    for step in range(steps):
        ahead = here + STEP * heading
        ahead -= np.einsum("ij,ij->i", ahead - crest, across)[:, None] * across
        found = closest_points(flanges.tree, ahead)
        here, faces[step] = found.points, found.faces
        points[step] = here
        turned = _unit(np.cross(flanges.normals[found.faces], across))
        turned *= np.where(np.einsum("ij,ij->i", turned, heading) < 0, -1.0, 1.0)[:, None]
        heading = _unit(0.5 * heading + 0.5 * turned)
    return points, faces


def _unit(vectors: Floats) -> Floats:
    return np.asarray(vectors / (np.linalg.norm(vectors, axis=1, keepdims=True) + 1e-12))
