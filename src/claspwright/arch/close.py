"""From an open scan to the closed master solid.

A wall goes from the border of the scan down to a flat base. The ragged edge and border faces that
the wall would cross are given up first, so that the inside is below the scan everywhere.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from claspwright.arch._skirt_kernels import beside
from claspwright.arch.crossing import find_crossings
from claspwright.arch.holes import Hole, border_and_holes, without_holes
from claspwright.arch.repair import single_piece, without_ears
from claspwright.arch.shore import Shore, lid_faces, narrowed, restored
from claspwright.arch.skirt import Skirt, build_skirt
from claspwright.arch.topology import border_edges, edges_of, twin_pairs
from claspwright.arch.trim import cut_along_zero, distance_over, smoothly_trimmed
from claspwright.base import Bools, Floats, GeometryError, Ints
from claspwright.geometry import Mesh, face_areas, face_normals, kept_faces

FOLD_MM = 2.0  # border faces that look down are given up to this depth
ROUNDS = 24  # how often border faces are given up before closing is refused
MOST_LOST = 0.25  # a wall that costs a larger share of the scan is refused
BESIDE_MM = 3.0  # how far from the wall, seen from above, the scan is held against it
DEPTHS_MM = (
    2.0,
    4.0,
    7.0,
    12.0,
    np.inf,
)  # the rounds work on the part of the scan so near its border
GIVEN_MM = 0.3  # how far round what is in the way of a wall the scan is given up at first
GROWTH_MM = (0.15, 0.5, 1.0)  # by how much more is given up in each round, tried in turn


@dataclass(frozen=True, slots=True, eq=False)
class Closed:
    """The surface that is kept, and the solid that starts with it."""

    surface: Mesh
    solid: Mesh
    holes: tuple[Hole, ...]  # filled while closing
    trimmed_mm2: float  # border faces given up
    crossings: int  # pairs of surface faces that still pass through one another
    crossing_at: Floats  # (3,) where, the origin when there are none
    border_depth_mm: float | None = None  # median depth of the border; None: a closed model


def closed(mesh: Mesh, edge_mm: float) -> Closed:
    """Close an open, clean scan in the arch frame.

    Raises:
        GeometryError: no wall can be found that keeps clear of the scan.
    """
    if not len(border_edges(mesh.faces)[0]):
        return _already_closed(mesh, edge_mm)
    before = float(face_areas(mesh).sum())
    start = without_ears(smoothly_trimmed(_without_folds(mesh)))
    for growth in GROWTH_MM:
        found = _walled(start, growth, edge_mm, MOST_LOST * before)
        if found is not None:
            kept, skirt, filled = found
            result = _result(kept, skirt, (filled, before, edge_mm))
            if result.trimmed_mm2 <= MOST_LOST * before:
                return result
    raise GeometryError(
        "the border of the scan is so folded that it cannot be closed",
        remedy="Trim the edge of the scan a few millimetres in the scanning program.",
    )


def _walled(
    mesh: Mesh, growth: float, edge_mm: float, most_mm2: float
) -> tuple[Mesh, Skirt, list[Hole]] | None:
    """Give up parts of the border until a wall keeps clear of the scan.

    The rounds work on the part near the border, on a deeper one as soon as they reach its end,
    and the wall is held against the whole scan before it is accepted. None after ROUNDS, or when
    more than `most_mm2` would be lost.
    """
    mesh, holes = without_holes(mesh)
    filled = list(holes)
    depths = iter(DEPTHS_MM)
    shore = narrowed(mesh, next(depths))
    mesh, round_, lost = shore.mesh, 0, 0.0
    while round_ < ROUNDS:
        skirt, bad, deep = _attempt(mesh, shore, edge_mm)
        done = skirt is not None and not len(bad) and not deep
        if skirt is not None and done and not shore.core.any():
            return mesh, skirt, filled
        if not done and not deep:
            keep = distance_over(mesh, bad, GIVEN_MM + growth * round_)
            lid = lid_faces(shore, mesh)
            deep = bool((keep[mesh.faces[lid]] <= 0).any())
        if not done and not deep:
            if not (keep > 0).any():
                return None
            less, holes = without_holes(without_ears(single_piece(cut_along_zero(mesh, keep))))
            lost += float(face_areas(mesh).sum()) - float(face_areas(less).sum())
            if lost > most_mm2:
                return None
            deep = int(lid_faces(shore, less).sum()) != int(lid.sum())
        if done or deep:
            shore = narrowed(restored(shore, mesh), np.inf if done else next(depths))
            mesh = shore.mesh
            continue
        mesh, round_ = less, round_ + 1
        filled += holes
    return None


def _attempt(mesh: Mesh, shore: Shore, edge_mm: float) -> tuple[Skirt | None, Ints, bool]:
    """A wall about a mesh, the vertices that are in its way, and whether the lid hides some."""
    loop, _ = border_and_holes(mesh)
    skirt = build_skirt(mesh, loop, shore.rest)
    if not isinstance(skirt, Skirt):
        return None, skirt, False
    bad, deep = _hit_vertices(mesh, skirt, shore, edge_mm)
    return skirt, bad, deep


def without_crossings(mesh: Mesh, edge_mm: float) -> Mesh:
    """Cut out small places where a surface passes through itself, and patch them.

    A round is taken back where it would cost more than half a percent of the surface or leave
    as many crossings as before.
    """
    whole = float(face_areas(mesh).sum())
    pairs = find_crossings(mesh, 1.5 * edge_mm)
    for round_ in range(3):
        if not len(pairs):
            break
        bad = _faces_about(mesh, np.unique(mesh.faces[pairs.reshape(-1)]), 0.5 * edge_mm * round_)
        if float(face_areas(mesh)[bad].sum()) > 0.005 * whole:
            break
        mended, _ = without_holes(single_piece(kept_faces(mesh, ~bad)))
        again = find_crossings(mended, 1.5 * edge_mm)
        if len(again) >= len(pairs):
            break
        mesh, pairs = mended, again
    return mesh


def _result(mesh: Mesh, skirt: Skirt, book: tuple[list[Hole], float, float]) -> Closed:
    holes, before, edge_mm = book
    crossing = find_crossings(mesh, 1.5 * edge_mm)
    at = mesh.corners[crossing[0, 0]].mean(axis=0) if len(crossing) else np.zeros(3)
    solid = Mesh(
        np.concatenate([mesh.vertices, skirt.mesh.vertices[len(mesh.vertices) :]]),
        np.concatenate([mesh.faces, skirt.mesh.faces]),
    )
    lost = before + sum(h.area_mm2 for h in holes) - float(face_areas(mesh).sum())
    depth = -float(np.median(mesh.vertices[border_and_holes(mesh)[0], 2]))
    return Closed(mesh, solid, tuple(holes), max(0.0, lost), len(crossing), at, depth)


def _already_closed(mesh: Mesh, edge_mm: float) -> Closed:
    """A closed model: its surface is all but the base that it stands on."""
    down = face_normals(mesh)[:, 2] < -0.5
    a, b = twin_pairs(edges_of(mesh.faces))
    inside = down[a // 3] & down[b // 3]
    n = len(mesh.faces)
    graph = coo_matrix((np.ones(int(inside.sum())), (a[inside] // 3, b[inside] // 3)), shape=(n, n))
    patch = connected_components(graph, directed=False)[1]
    height = mesh.corners[:, :, 2].mean(axis=1)
    lowest = int(np.argmin(np.where(down, height, np.inf)))
    base = down & (patch == patch[lowest])
    keep = ~base
    order = np.concatenate([np.flatnonzero(keep), np.flatnonzero(~keep)])
    faces = mesh.faces[order]
    _, first = np.unique(faces.reshape(-1), return_index=True)
    rank = np.empty(len(mesh.vertices), dtype=np.int32)
    names = faces.reshape(-1)[np.sort(first)]
    rank[names] = np.arange(len(names), dtype=np.int32)
    solid = Mesh(mesh.vertices[names], rank[faces])
    kept = int(keep.sum())
    used = int(solid.faces[:kept].max()) + 1
    surface = Mesh(solid.vertices[:used], solid.faces[:kept])
    crossing = find_crossings(surface, 1.5 * edge_mm)
    at = surface.corners[crossing[0, 0]].mean(axis=0) if len(crossing) else np.zeros(3)
    return Closed(surface, solid, (), 0.0, len(crossing), at)


def _without_folds(mesh: Mesh) -> Mesh:
    """Give up border faces that look down, round after round, up to 2 mm deep."""
    down = face_normals(mesh)[:, 2] < -0.3
    border = np.unique(np.concatenate(border_edges(mesh.faces)))
    near = np.asarray(cKDTree(mesh.vertices[border]).query(mesh.vertices)[0] < FOLD_MM)
    loose = down & near[mesh.faces].all(axis=1)
    keep = np.ones(len(mesh.faces), dtype=np.bool_)
    for _ in range(8):
        on_border = np.zeros(len(mesh.vertices), dtype=np.bool_)
        on_border[np.concatenate(border_edges(mesh.faces[keep]))] = True
        fold = keep & loose & on_border[mesh.faces].any(axis=1)
        if not fold.any():
            break
        keep &= ~fold
    return mesh if keep.all() else single_piece(kept_faces(mesh, keep))


def _faces_about(mesh: Mesh, vertices: Ints, radius: float) -> Bools:
    """(F,) True for the faces at some vertices, or with a corner within a radius of them."""
    marked = np.zeros(len(mesh.vertices), dtype=np.bool_)
    marked[vertices] = True
    if radius > 0:
        gap, _ = cKDTree(mesh.vertices[vertices]).query(
            mesh.vertices, distance_upper_bound=radius + 1e-9
        )
        marked |= gap <= radius
    return np.asarray(marked[mesh.faces].any(axis=1))


def _hit_vertices(mesh: Mesh, skirt: Skirt, shore: Shore, edge_mm: float) -> tuple[Ints, bool]:
    """Vertices about which the skirt crosses the scan or itself, or shares an edge.

    The second value says whether the skirt crosses what lies under the lid of the shore.
    """
    outline = skirt.mesh.vertices[np.unique(skirt.mesh.faces[: skirt.steep])][:, :2].copy()
    near = np.flatnonzero(_beside(outline, mesh) & ~lid_faces(shore, mesh))
    hidden = np.flatnonzero(_beside(outline, shore.whole) & shore.core)
    n, m, first = len(near), len(near) + len(hidden), len(skirt.mesh.vertices)
    steep = skirt.mesh.faces[: skirt.steep]
    faces = np.concatenate([mesh.faces[near], shore.whole.faces[hidden] + first, steep])
    both = Mesh(np.concatenate([skirt.mesh.vertices, shore.whole.vertices]), faces)
    pairs = find_crossings(both, max(1.5 * edge_mm, 0.25), quiet=m)
    hit = pairs.reshape(-1)
    own = mesh.faces[near[hit[hit < n]]].reshape(-1)
    edges = edges_of(np.concatenate([mesh.faces[near], steep]))
    crowded = edges.ends[edges.count > 2].reshape(-1)
    crowded = crowded[crowded < len(mesh.vertices)]
    bad = np.concatenate([skirt.owner[hit[hit >= m] - m], own, crowded])
    return np.unique(bad).astype(np.int32), bool(((hit >= n) & (hit < m)).any())


def _beside(outline: Floats, mesh: Mesh) -> Bools:
    """(F,) True for the faces with a corner within BESIDE_MM of the outline seen from above."""
    near = np.zeros(len(mesh.vertices), dtype=np.bool_)
    beside(np.array(mesh.vertices), outline, BESIDE_MM, near)
    return np.asarray(near[mesh.faces].any(axis=1))
