"""Edges, borders and pieces of a triangle mesh, on plain index arrays."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.arch._topology_kernels import join_pieces, pair_twins
from claspwright.base import Bools, Floats, Ints
from claspwright.geometry import Mesh, gathered_edges


@dataclass(frozen=True, slots=True, eq=False)
class Edges:
    """The half-edges of a mesh, gathered into undirected edges.

    Half-edge 3 f + k runs from corner k of face f to its next corner.
    """

    of_half: Ints  # (3F,) index of the undirected edge of each half-edge
    count: Ints  # (E,) number of half-edges on each edge
    ends: Ints  # (E, 2) vertex indices, lower first


def half_edges(faces: Ints) -> tuple[Ints, Ints]:
    """(3F,) start and (3F,) end vertices of the half-edges, face by face."""
    start = faces.reshape(-1)
    end = np.roll(faces, -1, axis=1).reshape(-1)
    return start, end


def edges_of(faces: Ints) -> Edges:
    """Gather the half-edges of (F, 3) faces."""
    return Edges(*gathered_edges(faces))


def twin_pairs(edges: Edges) -> tuple[Ints, Ints]:
    """(N,), (N,) half-edges that share an edge which exactly two faces use."""
    first = np.empty(len(edges.count), dtype=np.int32)
    second = np.empty(len(edges.count), dtype=np.int32)
    pairs = pair_twins(edges.of_half, edges.count, first, second)
    return first[:pairs], second[:pairs]


def pieces(members: int, a: Ints, b: Ints) -> Ints:
    """(members,) number of the connected piece of each, by the links from `a` to `b`."""
    label = np.empty(members, dtype=np.int32)
    join_pieces(np.array(a, dtype=np.int32), np.array(b, dtype=np.int32), label)
    return label


def piece_of_face(faces: Ints) -> Ints:
    """(F,) number of the edge-connected piece that each face belongs to."""
    a, b = twin_pairs(edges_of(faces))
    return pieces(len(faces), a // 3, b // 3)


def split_fans(mesh: Mesh) -> Mesh:
    """Give each fan of faces its own vertex, so that edges and vertices become manifold.

    Fans are joined only through edges that exactly two faces use.
    """
    a, b = twin_pairs(edges_of(mesh.faces))
    start, _ = half_edges(mesh.faces)
    a_next, b_next = a - a % 3 + (a + 1) % 3, b - b % 3 + (b + 1) % 3
    same_way = start[a] == start[b]
    first = np.where(same_way, b, b_next)
    second = np.where(same_way, b_next, b)
    fan = pieces(mesh.faces.size, np.concatenate([a, a_next]), np.concatenate([first, second]))
    where = np.empty(int(fan.max(initial=-1)) + 1, dtype=np.int64)
    where[fan[::-1]] = np.arange(len(fan))[::-1]  # fans are numbered by their first corner
    corner_vertex = mesh.faces.reshape(-1)[where]
    order = np.argsort(corner_vertex, kind="stable")  # keep the order of the vertices
    rank = np.empty_like(order)
    rank[order] = np.arange(len(order))
    faces = rank[fan].reshape(-1, 3).astype(np.int32)
    return Mesh(mesh.vertices[corner_vertex[order]], faces)


def consistently_wound(mesh: Mesh) -> tuple[Mesh, int, Bools]:
    """Turn faces until neighbours agree; each piece keeps the way most of its area has.

    Returns:
        The mesh, the number of faces turned, and (F,) True on pieces that no winding fits.
    """
    faces = mesh.faces
    a, b = twin_pairs(edges_of(faces))
    start, _ = half_edges(faces)
    n = len(faces)
    f, g = a // 3, b // 3
    agree = start[a] != start[b]
    other = np.where(agree, g, g + n)
    mirror = np.where(agree, g + n, g)
    sheet = pieces(2 * n, np.concatenate([f, f + n]), np.concatenate([other, mirror]))
    one_sided = sheet[:n] == sheet[n:]
    corners = mesh.corners
    area = np.linalg.norm(
        np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1
    )
    size = np.bincount(sheet[:n], weights=area, minlength=int(sheet.max(initial=0)) + 1)
    flip = (size[sheet[:n]] < size[sheet[n:]]) & ~one_sided
    tie = (size[sheet[:n]] == size[sheet[n:]]) & (sheet[:n] > sheet[n:])
    flip |= tie & ~one_sided
    turned = faces.copy()
    turned[flip] = turned[flip][:, ::-1]
    return Mesh(mesh.vertices, turned), int(flip.sum()), one_sided


def border_edges(faces: Ints) -> tuple[Ints, Ints]:
    """(B,) start and (B,) end of the half-edges that have no neighbour."""
    edges = edges_of(faces)
    alone = edges.count[edges.of_half] == 1
    start, end = half_edges(faces)
    return start[alone], end[alone]


def border_loops(faces: Ints) -> list[Ints]:
    """Closed borders as vertex indices in the order of their half-edges, longest count first.

    The mesh must have been through `split_fans` and be consistently wound.
    """
    start, end = border_edges(faces)
    follow = dict(zip(start.tolist(), end.tolist(), strict=True))
    loops: list[Ints] = []
    while follow:
        first, here = next(iter(follow.items()))
        loop = [first]
        del follow[first]
        while here != first and here in follow:
            loop.append(here)
            here = follow.pop(here)
        if here == first:
            loops.append(np.array(loop, dtype=np.int32))
    loops.sort(key=lambda loop: (-len(loop), int(loop[0])))
    return loops


def border_vertices(mesh: Mesh) -> Bools:
    """(V,) True for the vertices on a border."""
    out = np.zeros(len(mesh.vertices), dtype=np.bool_)
    start, end = border_edges(mesh.faces)
    out[start] = True
    out[end] = True
    return out


def loop_length(points: Floats) -> float:
    """Length of a closed polyline of (N, 3) points [mm]."""
    return float(np.linalg.norm(np.roll(points, -1, axis=0) - points, axis=1).sum())
