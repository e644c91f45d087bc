"""The room that the opposing arch leaves over the master arch."""

from __future__ import annotations

import numpy as np
from embreex import rtcore_scene
from embreex.mesh_construction import TriangleMesh

from claspwright.arch.model import DentalArch
from claspwright.base import Bools, Floats
from claspwright.geometry import Mesh, face_normals

DEPTH_MM = 2.5  # penetration is measured down to this depth
SPARE_MM = 0.01  # round the points, for what single precision rounds


def gap_above(opposing: Mesh, points: Floats) -> Floats:
    """(P,) distance along +z from (P, 3) points to the opposing surface that looks down [mm].

    Negative where the point lies inside the opposing teeth, down to DEPTH_MM; inf where there
    is nothing above.
    """
    down = face_normals(opposing)[:, 2] < 0
    above = opposing.corners[down]
    above = above[_over(above, points)] if len(points) else above[:0]
    if not len(above):
        return np.full(len(points), np.inf)
    scene = rtcore_scene.EmbreeScene()
    TriangleMesh(scene, above.astype(np.float32))
    start = points - np.array([0.0, 0.0, DEPTH_MM])
    up = np.tile(np.array([0.0, 0.0, 1.0], dtype=np.float32), (len(points), 1))
    hit = scene.run(start.astype(np.float32), up, output=True)
    far = np.where(hit["primID"] >= 0, hit["tfar"], np.inf)
    return np.asarray(far.astype(np.float64) - DEPTH_MM)


def _over(corners: Floats, points: Floats) -> Bools:
    """(F,) which (F, 3, 3) faces may lie straight over some of the points: by their boxes."""
    low, high = corners[:, :, :2].min(axis=1), corners[:, :, :2].max(axis=1)
    first, last = points[:, :2].min(axis=0) - SPARE_MM, points[:, :2].max(axis=0) + SPARE_MM
    return np.asarray(((low <= last) & (high >= first)).all(axis=1))


def occlusal_clearance(arch: DentalArch) -> Floats:
    """(V,) distance along +z from each vertex of the master surface to the opposing arch [mm].

    inf where nothing opposes or no opposing arch is known, negative where teeth penetrate.
    """
    points = arch.scan.surface.vertices
    if arch.opposing is None:
        return np.full(len(points), np.inf)
    return gap_above(arch.opposing, points)
