"""Curves and distances on a mesh: geodesics, level lines, borders, edge graph."""

from __future__ import annotations

from typing import Any

import numpy as np
import potpourri3d
from scipy.sparse import csr_array
from scipy.sparse.csgraph import connected_components, dijkstra
from scipy.spatial import KDTree

from claspwright.base import Bools, Floats, GeometryError, InputError, Ints
from claspwright.geometry.distance import mesh_edges
from claspwright.geometry.mesh import Mesh, face_areas

_SOLVERS: Any = potpourri3d  # the library has no types


class SurfacePaths:
    """Shortest paths on one connected mesh; holds the solver's state between questions."""

    def __init__(self, mesh: Mesh) -> None:
        self.mesh = mesh
        self._solver: Any = _SOLVERS.EdgeFlipGeodesicSolver(
            np.array(mesh.vertices), np.array(mesh.faces)
        )
        self._vertices = KDTree(mesh.vertices)
        self._piece = connected_components(edge_graph(mesh), directed=False)[1]

    def between(self, start: Floats, end: Floats) -> Floats:
        """(N, 3) shortest path on the mesh between two points near it [mm].

        It runs between the nearest vertices and then takes the given points as its ends.

        Raises:
            GeometryError: the two points lie on different pieces of the mesh.
        """
        return self.through(np.stack([start, end]))

    def through(self, stops: Floats) -> Floats:
        """(N, 3) shortest path through (M, 3) stops in order, straightened between them [mm]."""
        stops = np.asarray(stops, dtype=np.float64)
        near = np.asarray(self._vertices.query(stops)[1])
        if len(set(self._piece[near])) > 1:
            raise GeometryError(
                "the points lie on separate pieces of the surface",
                place=f"({stops[0, 0]:.1f}, {stops[0, 1]:.1f}, {stops[0, 2]:.1f}) mm",
                remedy="Join the pieces or choose points on one of them.",
            )
        line = [stops[:1]]
        for a, b, target in zip(near[:-1], near[1:], stops[1:], strict=True):
            if a != b:
                leg = np.asarray(self._solver.find_geodesic_path(int(a), int(b)))
                line.append(leg[1:-1])
            line.append(target[None])
        return np.concatenate(line)


def edge_graph(mesh: Mesh, scale: Floats | None = None) -> csr_array:
    """(V, V) symmetric graph of the mesh with edge lengths [mm], times (E,) `scale`.

    Edges come in the order of `mesh_edges`; edges of no length get 1e-12.
    """
    pairs, _ = mesh_edges(mesh)
    lengths = np.linalg.norm(mesh.vertices[pairs[:, 0]] - mesh.vertices[pairs[:, 1]], axis=1)
    weights = np.maximum(lengths if scale is None else lengths * scale, 1e-12)
    rows = np.concatenate([pairs[:, 0], pairs[:, 1]])
    columns = np.concatenate([pairs[:, 1], pairs[:, 0]])
    count = len(mesh.vertices)
    return csr_array((np.tile(weights, 2), (rows, columns)), shape=(count, count))


def edge_distance(mesh: Mesh, sources: Ints, limit: float = np.inf) -> Floats:
    """(V,) length of the shortest way along edges from the nearest source vertex [mm].

    Some 5 % longer than on the surface; infinite beyond `limit`.
    """
    found = dijkstra(edge_graph(mesh), indices=np.asarray(sources), min_only=True, limit=limit)
    return np.asarray(found, dtype=np.float64)


def geodesic_distance(mesh: Mesh, sources: Ints) -> Floats:
    """(V,) distance on the surface from the nearest source vertex, by the heat method [mm].

    Source:
        crane2013, Geodesics in heat.
    """
    sources = np.unique(np.asarray(sources))
    if not len(sources):
        raise InputError("a distance on the surface needs at least one source vertex")
    solver = _SOLVERS.MeshHeatMethodDistanceSolver(np.array(mesh.vertices), np.array(mesh.faces))
    return np.asarray(solver.compute_distance_multisource(list(sources)), dtype=np.float64)


def smoothed_values(mesh: Mesh, values: Floats, rounds: int = 10) -> Floats:
    """(V,) or (V, D) values averaged over the faces round each vertex, a number of times.

    Faces count by area, so that the fineness of the mesh does not pull. Each round spreads a
    value by about half an edge. Works on normals too; the caller makes them unit again.
    """
    areas = face_areas(mesh)
    count, number = len(mesh.vertices), len(mesh.faces)
    corner = mesh.faces.ravel()
    face = np.repeat(np.arange(number), 3)
    to_faces = csr_array((np.full(3 * number, 1 / 3), (face, corner)), shape=(number, count))
    to_vertices = csr_array((np.repeat(areas, 3), (corner, face)), shape=(count, number))
    round_vertex = np.maximum(to_vertices.sum(axis=1), 1e-300)
    values = np.asarray(values, dtype=np.float64)
    if values.ndim == 2:
        round_vertex = round_vertex[:, None]
    for _ in range(rounds):
        values = (to_vertices @ (to_faces @ values)) / round_vertex
    return values


def level_lines(
    mesh: Mesh, values: Floats, level: float = 0.0, faces: Bools | None = None
) -> tuple[Floats, ...]:
    """Polylines on the mesh where a value at the vertices, linear between, equals `level`.

    Args:
        mesh: the surface.
        values: (V,) at the vertices.
        level: the value sought.
        faces: (F,) True for the faces to draw on; all when None.

    Returns:
        (N, 3) polylines with the higher values on their left, seen from outside [mm]; a closed
        one repeats its first point.
    """
    above = np.asarray(values) >= level
    chosen = mesh.faces if faces is None else mesh.faces[faces]
    high = above[chosen]
    mixed = high.any(axis=1) & ~high.all(axis=1)
    tri, high = chosen[mixed], high[mixed]
    lone_high = high.sum(axis=1) == 1
    lone = np.where(lone_high, high.argmax(axis=1), high.argmin(axis=1))
    rows = np.arange(len(tri))
    tip, after, before = (tri[rows, (lone + n) % 3] for n in range(3))
    keys = [_edge_key(tip, after, len(values)), _edge_key(tip, before, len(values))]
    start = np.where(lone_high, keys[0], keys[1])
    end = np.where(lone_high, keys[1], keys[0])
    return tuple(_crossings(mesh, values, level, chain) for chain in chained(start, end))


def _edge_key(a: Ints, b: Ints, count: int) -> Any:
    return np.minimum(a, b).astype(np.int64) * count + np.maximum(a, b)


def _crossings(mesh: Mesh, values: Floats, level: float, chain: Any) -> Floats:
    low, high = np.divmod(chain, len(values))
    a, b = values[low], values[high]
    t = ((level - a) / (b - a))[:, None]
    return np.asarray((1.0 - t) * mesh.vertices[low] + t * mesh.vertices[high])


def chained(start: Any, end: Any) -> list[Any]:
    """Directed links joined to chains; a closed chain repeats its first number.

    Each number should start at most one link and end at most one; of others, one is kept.
    """
    follow = dict(zip(start.tolist(), end.tolist(), strict=True))
    heads = sorted(set(follow) - set(follow.values()))
    out = []
    for head in [*heads, *sorted(follow)]:
        if head not in follow:
            continue
        chain = [head]
        while chain[-1] in follow:
            chain.append(follow.pop(chain[-1]))
        out.append(np.array(chain, dtype=np.int64))
    return out


def boundary_loops(mesh: Mesh) -> tuple[Ints, ...]:
    """Vertices along each open border, the longest border first, surface on the left.

    A loop does not repeat its first vertex. Where borders touch at a vertex one of the two
    ways through it is taken.
    """
    start = mesh.faces.ravel().astype(np.int64)
    end = np.roll(mesh.faces, -1, axis=1).ravel().astype(np.int64)
    count = len(mesh.vertices)
    forth, back = start * count + end, np.sort(end * count + start)
    at = np.minimum(np.searchsorted(back, forth), len(back) - 1)
    open_edge = back[at] != forth
    chains = chained(start[open_edge], end[open_edge])
    loops = [chain[:-1] if chain[0] == chain[-1] else chain for chain in chains]

    def size(loop: Any) -> float:
        around = mesh.vertices[np.concatenate([loop, loop[:1]])]
        return float(np.linalg.norm(np.diff(around, axis=0), axis=1).sum())

    return tuple(loop.astype(np.int32) for loop in sorted(loops, key=size, reverse=True))


def connected_vertices(mesh: Mesh, keep: Bools | None = None) -> Ints:
    """(V,) number of the connected piece of each vertex; edges count if both ends are kept.

    Vertices that are not kept get -1; pieces are numbered by falling number of vertices.
    """
    graph = edge_graph(mesh).tocoo()
    kept = np.ones(len(mesh.vertices), bool) if keep is None else np.asarray(keep)
    both = kept[graph.coords[0]] & kept[graph.coords[1]]
    links = csr_array(
        (graph.data[both], (graph.coords[0][both], graph.coords[1][both])), shape=graph.shape
    )
    raw = connected_components(links, directed=False)[1]
    sizes = np.bincount(raw[kept], minlength=raw.max() + 1 if len(raw) else 0)
    rank = np.empty(len(sizes), np.int32)
    rank[np.argsort(-sizes, kind="stable")] = np.arange(len(sizes))
    return np.where(kept, rank[raw], -1).astype(np.int32)
