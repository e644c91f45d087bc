"""Cleaning a raw scan: welding, bad faces, non-manifold places, islands and flaps."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.spatial import cKDTree

from claspwright.arch.topology import (
    border_vertices,
    consistently_wound,
    edges_of,
    half_edges,
    piece_of_face,
    split_fans,
    twin_pairs,
)
from claspwright.base import Bools, Floats, InputError, Ints
from claspwright.geometry import Mesh, compacted, face_areas, kept_faces, near_groups

WELD_MM = 1e-3  # border vertices nearer than this are one vertex; scanners resolve no better
LAYER_MM = 0.4  # loose pieces nearer than this lie on the scan
BIG_PIECE = 0.02  # a loose piece with this share of the area is worth a word of its own


@dataclass(frozen=True, slots=True, eq=False)
class Cleaning:
    """What cleaning did, in numbers."""

    welded: int  # vertices that were joined
    degenerate: int  # faces without area or used twice, removed
    non_manifold: int  # edges with more than two faces, opened
    turned: int  # faces whose winding was turned
    one_sided: int  # faces removed because no winding fits
    island_faces: tuple[int, ...]  # sizes of the pieces that were dropped
    island_area_mm2: tuple[float, ...]
    island_at: Floats  # (I, 3) their centres
    doubled_mm2: float = 0.0  # of them lay on the scan like a second layer


def cleaned(mesh: Mesh) -> tuple[Mesh, Cleaning]:
    """One manifold, consistently wound piece from a raw scan in mm.

    Raises:
        InputError: nothing is left.
    """
    mesh, welded = _welded(mesh)
    mesh, degenerate = _without_bad_faces(mesh)
    if not len(mesh.faces):
        raise InputError(
            "the mesh has only faces without area", remedy="Export the scan again as triangles."
        )
    count = edges_of(mesh.faces).count
    mesh = split_fans(mesh)
    mesh, turned, one_sided = consistently_wound(mesh)
    mesh, cut = _two_sided(mesh, one_sided)
    whole = mesh
    mesh, island_faces, island_area, island_at = _largest_piece(mesh)
    doubled = sum(island_area) * _lying_on(whole, mesh) if island_area else 0.0
    mesh = _zipped(mesh)
    return mesh, Cleaning(
        welded,
        degenerate,
        int((count > 2).sum()),
        turned,
        cut,
        island_faces,
        island_area,
        island_at,
        doubled,
    )


def _lying_on(whole: Mesh, kept: Mesh) -> float:
    """Share of the vertices left out that lie on what was kept, as a second layer does."""
    gap = np.asarray(cKDTree(kept.vertices).query(whole.vertices)[0])
    left = gap[gap > 0]
    step = float(np.median(np.linalg.norm(np.diff(kept.corners[:, :2], axis=1), axis=2)))
    return float((left < max(LAYER_MM, 0.75 * step)).mean()) if len(left) else 0.0


def _welded(mesh: Mesh) -> tuple[Mesh, int]:
    """Join identical vertices, and border vertices within WELD_MM of one another."""
    _, first, which = np.unique(mesh.vertices, axis=0, return_index=True, return_inverse=True)
    order = np.argsort(first, kind="stable")
    rank = np.empty_like(order)
    rank[order] = np.arange(len(order))
    joined = Mesh(mesh.vertices[first[order]], rank[which.reshape(-1)][mesh.faces].astype(np.int32))
    near = _near_border_groups(joined)
    joined = Mesh(joined.vertices, near[joined.faces])
    done = compacted(joined.vertices, joined.faces)
    used = np.unique(mesh.faces).size
    return done, used - len(done.vertices)


def _near_border_groups(mesh: Mesh) -> Ints:
    """(V,) the vertex that stands for each vertex after welding near border vertices."""
    stand_in = np.arange(len(mesh.vertices), dtype=np.int32)
    border = np.flatnonzero(border_vertices(mesh))
    if border.size < 2:
        return stand_in
    group = near_groups(mesh.vertices[border], WELD_MM)
    _, first = np.unique(group, return_index=True)
    stand_in[border] = border[first[group]]
    return stand_in


def _without_bad_faces(mesh: Mesh) -> tuple[Mesh, int]:
    """Drop faces that repeat a vertex, have no area, or repeat another face."""
    faces = mesh.faces
    good = (
        (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    )
    extent = float(np.ptp(mesh.vertices, axis=0).max()) if len(mesh.vertices) else 0.0
    good &= face_areas(mesh) > 1e-14 * max(extent, 1e-30) ** 2
    kept = faces[good]
    _, first = np.unique(np.sort(kept, axis=1), axis=0, return_index=True)
    kept = kept[np.sort(first)]
    return compacted(mesh.vertices, kept), len(faces) - len(kept)


def _two_sided(mesh: Mesh, one_sided: Bools) -> tuple[Mesh, int]:
    """Remove the faces where a one-sided piece disagrees with itself, as it was filed."""
    if not one_sided.any():
        return mesh, 0
    edges = edges_of(mesh.faces)
    a, b = twin_pairs(edges)
    start, _ = half_edges(mesh.faces)
    clash = start[a] == start[b]
    bad = np.zeros(len(mesh.faces), dtype=np.bool_)
    bad[a[clash] // 3] = True
    bad[b[clash] // 3] = True
    bad &= one_sided
    mesh, _, still = consistently_wound(split_fans(kept_faces(mesh, ~bad)))
    return kept_faces(mesh, ~still), int(bad.sum() + still.sum())


def _largest_piece(mesh: Mesh) -> tuple[Mesh, tuple[int, ...], tuple[float, ...], Floats]:
    piece = piece_of_face(mesh.faces)
    if len(piece) and not piece.any():
        return compacted(mesh.vertices, mesh.faces), (), (), np.empty((0, 3))
    areas = face_areas(mesh)
    size = np.bincount(piece, weights=areas)
    keep = int(np.argmax(size))
    others = [int(i) for i in np.argsort(-size, kind="stable") if i != keep]
    centres = mesh.middles
    at = np.array([centres[piece == i].mean(axis=0) for i in others]).reshape(-1, 3)
    count = np.bincount(piece)
    return (
        kept_faces(mesh, piece == keep),
        tuple(int(count[i]) for i in others),
        tuple(float(size[i]) for i in others),
        at,
    )


def _zipped(mesh: Mesh) -> Mesh:
    """Join border vertices at the same place again where that leaves a manifold.

    Opening a non-manifold edge parts two good faces as well; once the flap is gone they belong
    together.
    """
    _, which = np.unique(mesh.vertices, axis=0, return_inverse=True)
    faces = which.reshape(-1)[mesh.faces].astype(np.int32)
    first = np.full(int(which.max()) + 1, -1, dtype=np.int32)
    first[which.reshape(-1)[::-1]] = np.arange(len(mesh.vertices), dtype=np.int32)[::-1]
    joined, _ = _without_bad_faces(compacted(mesh.vertices, first[faces]))
    joined = _without_crowded_edges(joined)
    joined, _, one_sided = consistently_wound(split_fans(joined))
    joined, _ = _two_sided(joined, one_sided)
    return _largest_piece(joined)[0]


def _without_crowded_edges(mesh: Mesh) -> Mesh:
    """Remove the faces at edges that more than two faces share."""
    edges = edges_of(mesh.faces)
    crowded = np.asarray((edges.count[edges.of_half] > 2).reshape(-1, 3).any(axis=1))
    return kept_faces(mesh, ~crowded) if crowded.any() else mesh


def single_piece(mesh: Mesh) -> Mesh:
    """The largest manifold piece of a mesh that faces were taken from."""
    return _largest_piece(split_fans(mesh))[0]


def without_ears(mesh: Mesh, rounds: int = 3) -> Mesh:
    """Remove border faces that hang on by a single edge, a few rounds."""
    for _ in range(rounds):
        edges = edges_of(mesh.faces)
        alone = (edges.count[edges.of_half] == 1).reshape(-1, 3).sum(axis=1)
        ears: Bools = np.asarray(alone >= 2)
        if not ears.any() or ears.all():
            break
        mesh = single_piece(kept_faces(mesh, ~ears))
    return mesh
