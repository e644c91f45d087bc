"""Local thickness of a solid by shrinking balls.

From each sample on the surface the largest ball is sought that touches it from inside and
holds no other surface. Where the ball touches a wall that faces the sample, its diameter is
the thickness there; where it touches the flank of a nearby edge, it says nothing of thickness
and the sample is left out.

Source:
    Ma, Bae, Choi, "3D medial point approximation using nearest neighbors and the normal
    field", Visual Computer 2012;28:7-19 [memory].
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats
from claspwright.geometry import DistanceTree, closest_points, face_areas, face_normals

START = 2.0  # mm radius of the first ball: thicker parts are not of interest
ROUNDS = 12
TOUCH = 2e-3  # mm by which a ball may still be cut into
FACING = -0.7  # cosine between the walls at both touching points: within 45 degrees
SAMPLES = 40_000


@dataclass(frozen=True, slots=True, eq=False)
class Samples:
    """Thickness at points of a surface between two walls that face each other."""

    points: Floats  # (N, 3) mm
    thickness: Floats  # (N,) mm
    area: Floats  # (N,) surface that each sample stands for [mm2]


def local_thickness(tree: DistanceTree) -> Samples:
    """Thickness of a closed solid at evenly spread samples of its surface.

    Args:
        tree: of the solid.

    Returns:
        Samples at face centres; parts thicker than two starting radii are left out.
    """
    mesh = tree.mesh
    areas, normals = face_areas(mesh), face_normals(mesh)
    chosen = _spread(areas)
    start = mesh.corners[chosen].mean(axis=1)
    normal = normals[chosen]
    share = float(areas.sum()) / max(len(chosen), 1)
    radius = np.full(len(chosen), START)
    wall = np.full(len(chosen), -1, np.int64)
    active = np.arange(len(chosen))
    for _ in range(ROUNDS):
        if not len(active):
            break
        centre = start[active] - radius[active, None] * normal[active]
        nearest = closest_points(tree, centre)
        reach = np.abs(nearest.distance)
        chord = start[active] - nearest.points
        depth = np.einsum("nc,nc->n", chord, normal[active])
        cut = (reach < radius[active] - TOUCH) & (depth > 1e-6)
        smaller = np.einsum("nc,nc->n", chord, chord) / (2 * np.maximum(depth, 1e-9))
        wall[active[cut]] = nearest.faces[cut]
        radius[active[cut]] = np.minimum(smaller[cut], radius[active[cut]])
        active = active[cut]
    facing = np.einsum("nc,nc->n", normals[np.maximum(wall, 0)], normal) < FACING
    good = (wall >= 0) & facing
    return Samples(start[good], 2 * radius[good], np.full(int(good.sum()), share))


def _spread(areas: Floats) -> Floats:
    """Faces at even steps of the summed area, each at most once."""
    total = np.cumsum(areas)
    count = min(SAMPLES, len(areas))
    steps = (np.arange(count) + 0.5) / count * total[-1]
    return np.unique(np.searchsorted(total, steps))
