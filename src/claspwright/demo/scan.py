"""From the fields of a jaw to what a scanner leaves: an open, ragged, slightly uneven mesh."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import map_coordinates
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from claspwright.base import Bools, Floats, Ints, Singles
from claspwright.demo.fields import slabs, smooth_min, softened
from claspwright.demo.solid import JawSolid, tooth_union
from claspwright.geometry import Field, Mesh, contour, vertex_normals

_SCANNER_NODES = 0.6  # a scanner does not see edges sharper than its points are dense


def surface(solid: JawSolid, teeth: Singles | None = None) -> Mesh:
    """Closed surface of teeth and gum together, with a fine crease at the margins."""
    whole = tooth_union(solid.grid, solid.boxes) if teeth is None else teeth
    both = np.empty(solid.grid.shape, dtype=np.float32)
    for rows in slabs(both.shape):
        both[rows] = smooth_min(whole[rows], solid.gum[rows], 0.42)
    return contour(Field(solid.grid, softened(both, _SCANNER_NODES)))


def _wander(arc: Floats, rng: np.random.Generator) -> Floats:
    """A ragged line: slow swings and short tears [mm]."""
    total = np.zeros_like(arc)
    for wave, size in ((23.0, 0.5), (9.0, 0.3), (3.7, 0.2), (1.6, 0.1), (0.7, 0.06)):
        total += size * np.sin(2 * np.pi * arc / wave + rng.uniform(0, 6.3))
    return total


def _inside_edge(solid: JawSolid, points: Floats, rng: np.random.Generator) -> Bools:
    """Which points the scan covers."""
    s = solid.stations
    nodes = solid.grid.to_nodes(points)[:, :2].T
    c = solid.columns
    arc, across, crest, buccal, fold, lingual, floor = (
        map_coordinates(v, nodes, order=1, mode="nearest")
        for v in (c.arc, c.across, c.crest, c.buccal, c.fold, c.lingual, c.floor)
    )
    depth = crest - points[:, 2]
    outside = across > (buccal + lingual) / 2
    rag = _wander(arc + 0.6 * points[:, 2], rng)
    keep = np.where(outside, depth < fold + 1.7 + rag, True)
    keep &= ~outside | (across < buccal + 6.0 + rag)
    ends = _wander(across * 1.3 + points[:, 2], rng)
    keep &= (arc > s.ends[0] + ends) & (arc < s.ends[1] - ends)
    if solid.jaw == "mandible":
        keep &= outside | ((depth < floor + 1.9 + rag) & (across > lingual - 7.0 + rag))
    else:
        back = min(solid.line.at(e)[0][1] for e in s.ends)
        keep &= points[:, 1] > back + 1.0 + _wander(points[:, 0], rng)
    low = solid.grid.origin[2] + 2.5 * solid.grid.spacing
    return np.asarray(keep & (points[:, 2] > low), dtype=np.bool_)


def _largest(faces: Ints, count: int) -> Bools:
    """Which faces belong to the biggest piece."""
    ones = np.ones(len(faces), dtype=np.int8)
    graph = coo_matrix(
        (np.tile(ones, 2), (np.tile(faces[:, 0], 2), np.concatenate([faces[:, 1], faces[:, 2]]))),
        shape=(count, count),
    )
    _, label = connected_components(graph, directed=False)
    of_face = label[faces[:, 0]]
    return np.asarray(of_face == np.bincount(of_face).argmax(), dtype=np.bool_)


def _used(vertices: Floats, faces: Ints) -> Mesh:
    kept, index = np.unique(faces, return_inverse=True)
    return Mesh(vertices[kept], index.reshape(faces.shape).astype(np.int32))


def open_scan(solid: JawSolid, closed: Mesh, rng: np.random.Generator) -> Mesh:
    """Drop what a scanner does not see, keep the biggest piece, trim dangling triangles."""
    keep = _inside_edge(solid, closed.vertices, rng)
    faces = closed.faces[keep[closed.faces].all(axis=1)]
    for _ in range(2):  # a triangle that hangs on one edge or one corner is torn off
        edges = np.sort(
            np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]]), axis=1
        )
        key = edges[:, 0].astype(np.int64) * len(closed.vertices) + edges[:, 1]
        _, inverse, count = np.unique(key, return_inverse=True, return_counts=True)
        lonely = (count[inverse] == 1).reshape(3, -1).sum(axis=0)
        faces = faces[lonely < 2]
    faces = faces[_largest(faces, len(closed.vertices))]
    return _used(closed.vertices, faces)


def uneven(mesh: Mesh, amplitude_mm: Floats, wave_mm: float, rng: np.random.Generator) -> Mesh:
    """Move vertices along their normals by a smooth random field: living surfaces are not even.

    Args:
        mesh: an open scan.
        amplitude_mm: (V,) standard deviation of the shift at each vertex.
        wave_mm: distance between independent shifts.
        rng: where the shifts come from.
    """
    low, high = mesh.bounds
    shape = np.ceil((high - low) / wave_mm).astype(int) + 4
    noise = rng.standard_normal(shape)
    nodes = (mesh.vertices - low) / wave_mm + 1.5
    shift = map_coordinates(noise, nodes.T, order=3, mode="nearest") * amplitude_mm
    return Mesh(mesh.vertices + vertex_normals(mesh) * shift[:, None], mesh.faces)


def noisy(mesh: Mesh, noise_um: float, rng: np.random.Generator) -> Mesh:
    """Scanner noise: independent shifts along the normals, standard deviation in um."""
    if noise_um <= 0:
        return mesh
    shift = rng.standard_normal(len(mesh.vertices)) * (noise_um / 1000.0)
    return Mesh(mesh.vertices + vertex_normals(mesh) * shift[:, None], mesh.faces)
