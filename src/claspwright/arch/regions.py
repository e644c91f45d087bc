"""Crown regions: competition between seeds over the surface, in which creases cost extra.

A front grows from the seeds of every tooth and of the gum at once; a step costs its length and
`CREASE_MM` for each radian that the surface turns inwards on it, so that fronts meet in the
creases between crowns and along the gingival margins. The turning angle does not depend on
the resolution of the scan.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from scipy.sparse import coo_matrix, csr_matrix
from scipy.sparse.csgraph import connected_components, dijkstra

from claspwright.arch.topology import edges_of, twin_pairs
from claspwright.base import Bools, Floats, InputError, Ints
from claspwright.geometry import Mesh, face_areas, face_normals

CREASE_MM = 50.0  # mm of way that one radian of inward turning costs
BLUR_MM = 0.25  # normals are averaged over this distance before turning is measured
SMOOTH_PER_MM = 0.25  # rad/mm of inward turning that counts as plain surface


@dataclass(frozen=True, slots=True, eq=False)
class FaceGraph:
    """Faces as nodes, shared edges as links."""

    centres: Floats  # (F, 3) mm
    normals: Floats  # (F, 3) unit, averaged over BLUR_MM
    areas: Floats  # (F,) mm2
    pairs: Ints  # (E, 2) faces on both sides of an edge
    reach: Floats  # (E,) distance between the two centres [mm]
    turn: Floats  # (E,) angle by which the surface turns inwards there, >= 0 [rad]
    edge: Floats  # (E,) length of the shared edge [mm]
    on_border: Bools  # (F,) True where a face has an open side


def face_graph(mesh: Mesh) -> FaceGraph:
    """Link the faces of a mesh and measure how sharply each link turns inwards."""
    edges = edges_of(mesh.faces)
    a, b = twin_pairs(edges)
    pairs = np.stack([a // 3, b // 3], axis=1).astype(np.int32)
    centres = mesh.middles
    areas = face_areas(mesh)
    step = centres[pairs[:, 1]] - centres[pairs[:, 0]]
    reach = np.linalg.norm(step, axis=1) + 1e-9
    normals = _blurred(face_normals(mesh), areas, pairs, float(np.median(reach)))
    swing = normals[pairs[:, 1]] - normals[pairs[:, 0]]
    inward = -np.einsum("ij,ij->i", swing, step) / reach
    turn = np.clip(inward - SMOOTH_PER_MM * reach, 0.0, None)
    ends = mesh.vertices[edges.ends[edges.of_half[a]]]
    edge = np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1)
    open_half = edges.count[edges.of_half] == 1
    on_border = open_half.reshape(-1, 3).any(axis=1)
    return FaceGraph(centres, normals, areas, pairs, reach, turn, edge, on_border)


def _blurred(normals: Floats, areas: Floats, pairs: Ints, step: float) -> Floats:
    """Average normals over neighbours until they are smooth over about BLUR_MM."""
    rounds = int(round((BLUR_MM / step) ** 2))
    if rounds == 0:
        return normals
    n = len(normals)
    weight = areas + 1e-12
    rows = np.concatenate([pairs[:, 0], pairs[:, 1], np.arange(n)])
    columns = np.concatenate([pairs[:, 1], pairs[:, 0], np.arange(n)])
    spread = csr_matrix((weight[columns], (rows, columns)), shape=(n, n))
    for _ in range(rounds):
        normals = spread @ normals
        normals = normals / (np.linalg.norm(normals, axis=1, keepdims=True) + 1e-300)
    return np.asarray(normals)


def grow_regions(
    graph: FaceGraph,
    seeds: Mapping[int, Ints],
    *,
    limit_mm: float = np.inf,
    crease_mm: float = CREASE_MM,
) -> Ints:
    """Let the seeds compete for the surface.

    Args:
        graph: the faces and their links.
        seeds: faces from which each label grows; label 0 is tissue. Where a face is listed
            twice, the first label keeps it.
        limit_mm: cost beyond which a face stays tissue.
        crease_mm: of way that one radian of inward turning costs.

    Returns:
        (F,) label of each face; 0 where no seed reaches.

    Raises:
        InputError: there is no seed.
    """
    faces = np.concatenate([np.empty(0, np.int32), *seeds.values()]).astype(np.int64)
    if not len(faces):
        raise InputError("no seed to grow a crown region from", remedy="Set a mark on each tooth.")
    labels = np.concatenate([np.full(len(f), k) for k, f in seeds.items()])
    faces, first = np.unique(faces, return_index=True)
    labels = labels[first]
    n = len(graph.areas)
    links = _links(graph, graph.reach + crease_mm * graph.turn)
    _, _, source = dijkstra(
        links, indices=faces, min_only=True, return_predecessors=True, limit=limit_mm
    )
    of_seed = np.zeros(n, np.int32)
    of_seed[faces] = labels
    return np.where(source >= 0, of_seed[np.clip(source, 0, None)], 0).astype(np.int32)


def refined(
    graph: FaceGraph, labels: Ints, band_mm: float, *, crease_mm: float = CREASE_MM
) -> Ints:
    """Let the borders compete again within a band, all from the same distance.

    The first competition starts at seeds that lie at different distances from a crease; a
    second one, from a band's edge on both sides, finds the strongest crease within the band.
    """
    one, two = graph.pairs[:, 0], graph.pairs[:, 1]
    differs = labels[one] != labels[two]
    border = np.unique(np.concatenate([one[differs], two[differs]]))
    if not len(border):
        return labels
    plain = _links(graph, graph.reach)
    away = dijkstra(plain, indices=border, min_only=True, limit=band_mm)
    inner = ~np.isfinite(away)
    seeds = {int(code): np.flatnonzero(inner & (labels == code)) for code in np.unique(labels)}
    for code, faces in seeds.items():
        if not len(faces):  # a small region keeps what lies deepest in it
            own = np.flatnonzero(labels == code)
            seeds[code] = own[away[own] >= 0.7 * away[own].max()]
    whole = {k: f.astype(np.int32) for k, f in seeds.items()}
    return grow_regions(graph, whole, crease_mm=crease_mm)


def _links(graph: FaceGraph, cost: Floats) -> csr_matrix:
    one, two = graph.pairs[:, 0], graph.pairs[:, 1]
    n = len(graph.areas)
    rows, columns = np.concatenate([one, two]), np.concatenate([two, one])
    return csr_matrix((np.concatenate([cost, cost]), (rows, columns)), shape=(n, n))


def tidied(graph: FaceGraph, labels: Ints, *, smooth_mm: float = 0.3) -> Ints:
    """Smooth the borders between regions and keep each label in one piece, without holes.

    The share of each label is averaged over neighbours, less across creases, and each face
    takes the label with the largest share.
    """
    labels = _in_one_piece(graph, labels)
    step = float(np.median(graph.reach))
    rounds = int(np.ceil((smooth_mm / step) ** 2))
    codes = np.unique(labels)
    one, two = graph.pairs[:, 0], graph.pairs[:, 1]
    n = len(labels)
    hold = graph.edge * np.exp(-graph.turn / 0.15)
    near = np.zeros(n, np.bool_)
    differs = labels[one] != labels[two]
    near[one[differs]] = near[two[differs]] = True
    links = _links(graph, hold)
    for _ in range(rounds + 2):
        near = near | ((links @ near.astype(np.float64)) > 0)
    band = np.flatnonzero(near)
    inner = links[band][:, band]
    total = np.asarray(inner.sum(axis=1)).ravel() + graph.areas[band] ** 0.5
    slot = np.searchsorted(codes, labels[band])
    share = np.zeros((len(band), len(codes)))
    share[np.arange(len(band)), slot] = 1.0
    own = graph.areas[band] ** 0.5
    for _ in range(rounds):
        share = (inner @ share + own[:, None] * share) / total[:, None]
    out = labels.copy()
    out[band] = codes[np.argmax(share, axis=1)]
    return _in_one_piece(graph, out)


def _in_one_piece(graph: FaceGraph, labels: Ints) -> Ints:
    """Keep the largest piece of each label; the rest takes the label around it."""
    n = len(labels)
    one, two = graph.pairs[:, 0], graph.pairs[:, 1]
    same = labels[one] == labels[two]
    joined = coo_matrix((np.ones(int(same.sum()), np.int8), (one[same], two[same])), shape=(n, n))
    count, piece = connected_components(joined, directed=False)
    area = np.bincount(piece, graph.areas, count)
    label = np.zeros(count, np.int32)
    label[piece] = labels
    order = np.lexsort((area, label))
    largest = np.zeros(count, np.bool_)
    largest[order[np.r_[np.flatnonzero(np.diff(label[order])), count - 1]]] = True
    touching = np.zeros(count, np.bool_)
    touching[piece[graph.on_border]] = True
    loose = ~largest & ~((label == 0) & touching)  # tissue may lie in pieces at the scan's edge
    if not loose.any():
        return labels
    across = piece[one] != piece[two]
    p, q, length = piece[one[across]], piece[two[across]], graph.edge[across]
    p, q, length = np.r_[p, q], np.r_[q, p], np.r_[length, length]
    wanted = loose[p] & ~loose[q]
    votes = np.zeros((count, int(label.max()) + 1))
    np.add.at(votes, (p[wanted], label[q[wanted]]), length[wanted])
    new = np.where(loose & (votes.sum(axis=1) > 0), np.argmax(votes, axis=1), label)
    new = np.where(loose & (votes.sum(axis=1) == 0), 0, new)
    return new[piece].astype(np.int32)
