"""Balls inscribed in a solid, and its thin ends, which no thicker metal near by carries.

Source:
    Ma, Bae, Choi, "3D medial point approximation using nearest neighbors and the normal
    field", Visual Computer 2012;28:7-19 [memory].
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Bools, Floats, Ints
from claspwright.geometry.blocks import PointBlocks
from claspwright.geometry.distance import DistanceTree, closest_points
from claspwright.geometry.mesh import face_normals
from claspwright.geometry.near import faces_near, near_groups

ROUNDS = 12
TOUCH = 2e-3  # mm by which a ball may still be cut into
TOGETHER = 0.5  # mm from face to face of one thin end


def ball_radii(tree: DistanceTree, start: Floats, normal: Floats, largest: float) -> Floats:
    """(N,) radius of the largest inscribed ball that touches each surface point [mm].

    Args:
        tree: of the closed solid.
        start: (N, 3) points on its surface.
        normal: (N, 3) outward unit normals there; inward ones for balls outside.
        largest: radius of the first ball [mm].
    """
    radius = np.full(len(start), largest)
    reach = largest * (1.0 + 1e-6)  # the surface point itself lies no further from the centre
    active = np.arange(len(start))
    for _ in range(ROUNDS):
        if not len(active):
            break
        centre = start[active] - radius[active, None] * normal[active]
        nearest = closest_points(tree, centre, reach)
        chord = start[active] - nearest.points
        depth = np.einsum("nc,nc->n", chord, normal[active])
        cut = (np.abs(nearest.distance) < radius[active] - TOUCH) & (depth > 1e-6)
        smaller = np.einsum("nc,nc->n", chord, chord) / (2 * np.maximum(depth, 1e-9))
        radius[active[cut]] = np.minimum(smaller[cut], radius[active[cut]])
        active = active[cut]
    return radius


@dataclass(frozen=True, slots=True, eq=False)
class ThinEnd:
    """Thin faces of a solid in one place."""

    faces: Ints  # (N,) of the solid
    length_mm: float  # diagonal of the box round them
    thickness_mm: float  # median of the inscribed balls
    at: Floats  # (3,) middle [mm]


def thin_ends(
    tree: DistanceTree, thin: float, carried: float, near: float, looked_at: Bools | None = None
) -> tuple[ThinEnd, ...]:
    """Where a solid is thinner than `thin` and nothing within `near` is as thick as `carried`.

    An edge runs out to nothing too, but its own flank carries it.

    Args:
        tree: of the closed solid.
        thin: thickness below which a face is asked about [mm].
        carried: thickness that carries it [mm].
        near: as far away as that may lie [mm].
        looked_at: (F,) the faces that are asked about; all where None.

    Returns:
        The longest first.
    """
    mesh, normals = tree.mesh, face_normals(tree.mesh)
    everything = np.ones(len(mesh.faces), bool)
    chosen = np.flatnonzero(everything if looked_at is None else looked_at)
    middles = mesh.middles
    diameter = np.full(len(mesh.faces), np.nan)
    diameter[chosen] = _diameters(tree, middles, normals, chosen, carried)
    alone = chosen[diameter[chosen] < thin]
    if not len(alone):
        return ()
    beside = np.flatnonzero(faces_near(mesh, middles[alone], 2.0 * near) & np.isnan(diameter))
    diameter[beside] = _diameters(tree, middles, normals, beside, carried)
    thick = diameter >= carried - 2.0 * TOUCH
    if thick.any():
        off, _ = PointBlocks(middles[thick], 2.0 * near).nearest(middles[alone], near)
        alone = alone[~np.isfinite(off)]
    if not len(alone):
        return ()
    group = near_groups(middles[alone], TOGETHER)
    found = []
    for n in range(int(group.max()) + 1):
        mine = alone[group == n]
        corners = mesh.corners[mine].reshape(-1, 3)
        found.append(
            ThinEnd(
                np.asarray(mine, np.int32),
                float(np.linalg.norm(np.ptp(corners, axis=0))),
                float(np.median(diameter[mine])),
                middles[mine].mean(axis=0),
            )
        )
    return tuple(sorted(found, key=lambda end: -end.length_mm))


def _diameters(
    tree: DistanceTree, middles: Floats, normals: Floats, faces: NDArray[np.intp], most: float
) -> Floats:
    """Of the balls that touch some faces, up to `most` [mm]."""
    return 2.0 * ball_radii(tree, middles[faces], normals[faces], most / 2.0)
