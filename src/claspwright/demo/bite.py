"""The bite record: the outer sides of both arches, scanned while the teeth are closed."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import map_coordinates

from claspwright.base import Bools
from claspwright.demo.solid import JawSolid
from claspwright.geometry import Mesh, Rigid, face_normals


def _outer_side(solid: JawSolid, mesh: Mesh) -> Bools:
    """(F,) faces that a scanner sees from the cheek, canine to second molar on both sides."""
    middle = mesh.middles
    nodes = solid.grid.to_nodes(middle)[:, :2].T
    c = solid.columns
    arc, across, crest, fold = (
        map_coordinates(v, nodes, order=1, mode="nearest")
        for v in (c.arc, c.across, c.crest, c.fold)
    )
    index = np.searchsorted(solid.line.arc, arc).clip(0, len(solid.line.arc) - 1)
    outwards = solid.line.normal[index]
    facing = np.einsum("ij,ij->i", face_normals(mesh)[:, :2], outwards)
    reach = min(abs(end) for end in solid.stations.ends) - 8.0
    rag = 0.5 * np.sin(arc * 1.9) + 0.3 * np.sin(middle[:, 2] * 2.7 + arc)
    keep = (facing > 0.2) & (across > -0.5) & (crest - middle[:, 2] < fold - 2.5 + rag)
    keep &= (np.abs(arc) > 13.0 + rag) & (np.abs(arc) < reach + rag)
    return np.asarray(keep, dtype=np.bool_)


def bite_record(
    master: JawSolid, master_mesh: Mesh, opposing: JawSolid, opposing_mesh: Mesh, motion: Rigid
) -> Mesh:
    """Buccal patches of both arches in one open mesh, in the master's arch frame.

    Args:
        master: fields of the master jaw.
        master_mesh: its open scan, arch frame.
        opposing: fields of the other jaw.
        opposing_mesh: its open scan, its own arch frame.
        motion: from the opposing arch frame to the master's.
    """
    one = master_mesh.faces[_outer_side(master, master_mesh)]
    two = opposing_mesh.faces[_outer_side(opposing, opposing_mesh)]
    vertices = np.concatenate([master_mesh.vertices, motion.apply(opposing_mesh.vertices)])
    faces = np.concatenate([one, two + len(master_mesh.vertices)])
    kept, index = np.unique(faces, return_inverse=True)
    return Mesh(vertices[kept], index.reshape(faces.shape).astype(np.int32))
