"""Meshes with fewer faces, for showing only."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats, GeometryError
from claspwright.geometry import Mesh, simplified

SHOWN_WITHIN_MM = 0.006  # of a solid's surface, before vertices are merged


def lightened(
    mesh: Mesh, most_faces: int, values: Floats | None = None
) -> tuple[Mesh, Floats | None]:
    """Fewer triangles: a solid first loses those that its shape does not need.

    What is still too large has the vertices merged that share a cell of a grid, the cell as
    small as `most_faces` allows. The merged vertex lies at their mean, within one cell diagonal
    of each; a value is the largest of theirs, so that no undercut is shown smaller than it is.

    Returns:
        The lighter mesh and its (V,) values; both unchanged when the mesh is small enough.
    """
    if len(mesh.faces) > most_faces and values is None:
        mesh = _sparer(mesh)
    if len(mesh.faces) <= most_faces:
        return mesh, values
    area = float(np.linalg.norm(_doubled_areas(mesh), axis=1).sum() / 2)
    cell = np.sqrt(2 * area / most_faces) * 0.9
    while True:
        light, kept = _clustered(mesh, cell, values)
        if len(light.faces) <= most_faces:
            return light, kept
        cell *= 1.08


def _sparer(mesh: Mesh) -> Mesh:
    """The solid within SHOWN_WITHIN_MM of itself; an open or faulty mesh stays as it is."""
    try:
        return simplified(mesh, SHOWN_WITHIN_MM)
    except GeometryError:
        return mesh


def _doubled_areas(mesh: Mesh) -> Floats:
    a, b, c = (mesh.corners[:, i] for i in range(3))
    return np.asarray(np.cross(b - a, c - a))


def _clustered(mesh: Mesh, cell: float, values: Floats | None) -> tuple[Mesh, Floats | None]:
    floor = mesh.bounds[0]
    cells = np.floor((mesh.vertices - floor) / cell).astype(np.int64)
    size = cells.max(axis=0) + 1
    keys = (cells[:, 0] * size[1] + cells[:, 1]) * size[2] + cells[:, 2]
    _, owner, count = np.unique(keys, return_inverse=True, return_counts=True)
    sums = [
        np.bincount(owner, weights=mesh.vertices[:, axis], minlength=len(count))
        for axis in range(3)
    ]
    points = np.stack(sums, axis=1).astype(np.float64) / count[:, None]
    faces = owner[mesh.faces]
    distinct = (
        (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    )
    faces = faces[distinct]
    _, first = np.unique(np.sort(faces, axis=1), axis=0, return_index=True)
    kept = None
    if values is not None:
        kept = np.full(len(count), -np.inf)
        np.maximum.at(kept, owner, np.nan_to_num(values, nan=-np.inf))
        kept = np.where(np.isfinite(kept), kept, np.nan)
    return Mesh(points, faces[np.sort(first)].astype(np.int32)), kept
