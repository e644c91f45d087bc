"""Signed distance to a closed triangle mesh, at points and on grids."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import label

from claspwright.base import (
    Bools,
    Floats,
    GeometryError,
    InputError,
    Ints,
    Progress,
    Singles,
    part,
    silent,
)
from claspwright.geometry import _distance_kernels as kernels
from claspwright.geometry import _tree_kernels as tree_kernels
from claspwright.geometry.edges import gathered_edges
from claspwright.geometry.grid import Field, Grid
from claspwright.geometry.mesh import Mesh, face_normals
from claspwright.geometry.threads import beside, in_chunks

POINTS_A_CHUNK = 8192


@dataclass(frozen=True, slots=True, eq=False)
class DistanceTree:
    """A box tree over the triangles of a mesh, with normals on faces, edges and vertices.

    Distances are exact for any mesh; signs only for closed ones that do not cross themselves.
    """

    mesh: Mesh
    order: Ints = field(init=False)  # (F,) face of each triangle of the tree
    arrays: tuple[NDArray[Any], ...] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        mesh = self.mesh
        if not len(mesh.faces):
            raise GeometryError(
                "a mesh without faces has no distance", remedy="Check what made it empty."
            )
        corners = mesh.corners
        boxes = tree_kernels.boxes_of(corners)
        tree, sides = beside(
            lambda: tree_kernels.build_tree(boxes), lambda: _pseudonormals(mesh, corners)
        )
        order, child_boxes, children, leaf_start = tree
        normals, edge_normals, vertex_normals, edge_of = sides
        arrays = (
            np.ascontiguousarray(corners[order]), child_boxes, children, leaf_start,
            normals[order], edge_normals, vertex_normals, edge_of[order], mesh.faces[order],
        )  # fmt: skip
        for array in (order, *arrays):
            array.setflags(write=False)
        object.__setattr__(self, "order", order)
        object.__setattr__(self, "arrays", arrays)

    @property
    def vertex_normals(self) -> Floats:
        """(V, 3) outward normals of the vertices, weighted by angle; not of unit length."""
        normals: Floats = self.arrays[6]
        return normals


def _pseudonormals(mesh: Mesh, corners: Floats) -> tuple[Floats, Floats, Floats, Ints]:
    """Normals of faces, edges and vertices, and the (F, 3) edges of the faces."""
    normals = face_normals(mesh)
    edges, edge_of = mesh_edges(mesh)
    edge_normals = np.zeros((len(edges), 3))
    vertex_normals = np.zeros((len(mesh.vertices), 3))
    tree_kernels.add_pseudonormals(
        corners, mesh.faces, edge_of, normals, edge_normals, vertex_normals
    )
    return normals, edge_normals, vertex_normals, edge_of


@dataclass(frozen=True, slots=True, eq=False)
class ClosestPoints:
    """The nearest points of a mesh to N given points."""

    points: Floats  # (N, 3) on the mesh [mm]
    faces: Ints  # (N,) face that each lies on; -1 beyond the limit
    distance: Floats  # (N,) signed, negative inside; the limit where nothing is nearer [mm]
    weights: Floats  # (N, 3) of the face's vertices


def mesh_edges(mesh: Mesh) -> tuple[Ints, Ints]:
    """Undirected edges of a mesh.

    Returns:
        (E, 2) vertex pairs, lower index first, in order; (F, 3) edge from each corner to the
        next.
    """
    of_half, _, ends = gathered_edges(mesh.faces)
    return ends, of_half.reshape(-1, 3)


def closest_points(
    tree: DistanceTree, points: Floats, limit: float = np.inf, *, chunk: int = POINTS_A_CHUNK
) -> ClosestPoints:
    """Nearest points of the mesh to (N, 3) points, within `limit` [mm].

    Fast when consecutive points lie near each other. The sign counts only on a closed mesh.
    Where nothing lies within the limit, the point itself is returned with face -1. A thread
    takes `chunk` points at a time.
    """
    points = np.ascontiguousarray(np.atleast_2d(points), dtype=np.float64)
    if points.ndim != 2 or points.shape[1] != 3 or not np.isfinite(points).all():
        raise InputError(f"points must be (N, 3) finite numbers, got {points.shape}")
    count = len(points)
    found = np.empty(count, np.int32)
    inner = np.empty((count, 2))
    distance = np.empty(count)
    faces, nearest, weights = np.empty(count, np.int32), points.copy(), np.empty((count, 3))

    def work(first: int, last: int) -> None:
        here = slice(first, last)
        kernels.query_points(
            points[here], limit, tree.arrays, found[here], inner[here], distance[here]
        )
        kernels.place_found(
            found[here], inner[here], tree.order, tree.arrays[0],
            faces[here], nearest[here], weights[here],
        )  # fmt: skip

    in_chunks(work, count, chunk)
    return ClosestPoints(nearest, faces, distance, weights)


def signed_distance(tree: DistanceTree, points: Floats, limit: float = np.inf) -> Floats:
    """(N,) distance of (N, 3) points to a closed mesh, negative inside [mm].

    Beyond `limit` the value is +limit on either side: use a limit only where it is certain
    that the points lie within it or outside the solid.
    """
    return closest_points(tree, points, limit).distance


def distance_field(
    tree: DistanceTree,
    grid: Grid,
    band: float,
    *,
    exact: float = 0.4,
    middle: float = 1.5,
    progress: Progress = silent,
) -> Field:
    """Signed distance to a closed mesh on a grid, clamped to +-band with the right sign.

    Three lattices: exact on every 4th node within the band, trilinear between; exact on every
    2nd node nearer than `middle`; exact on all nodes nearer than `exact` [mm]. Both are raised
    where needed to twice the diagonal of the lattice above, so that no sign can be wrong.

    Raises:
        InputError: the band is thinner than four steps of the grid.
    """
    if not band >= 4.0 * grid.spacing:
        raise InputError(
            f"a band of {band} mm on a grid of {grid.spacing} mm is thinner than 4 steps"
        )
    lattice = _Lattice(tree, grid)
    coarse, seeds = lattice.coarsest(band, part(progress, 0.0, 0.4))
    half, seeds = lattice.finer(2, coarse, seeds, max(middle, 3.5 * grid.spacing), True,
                                part(progress, 0.4, 0.7))  # fmt: skip
    full, _ = lattice.finer(1, half, seeds, max(exact, 1.8 * grid.spacing), False,
                            part(progress, 0.7, 1.0))  # fmt: skip
    np.clip(full, -band, band, out=full)
    progress(1.0, "distance field")
    return Field(grid, full)


class _Lattice:
    """The lattices of one grid, laid into the frame of the mesh."""

    def __init__(self, tree: DistanceTree, grid: Grid) -> None:
        self.tree, self.grid = tree, grid
        back = grid.frame.inverse()
        self.turn = np.ascontiguousarray(back.rotation)
        self.origin = np.ascontiguousarray(back.apply(grid.origin))

    def shape(self, stride: int) -> tuple[int, int, int]:
        """Nodes of the lattice of every `stride`-th node that covers the next finer one."""
        shape = self.grid.shape
        for _ in range(stride.bit_length() - 1):
            shape = (shape[0] // 2 + 1, shape[1] // 2 + 1, shape[2] // 2 + 1)
        return shape

    def coarsest(self, band: float, progress: Progress) -> tuple[Singles, Ints]:
        values = np.empty(self.shape(4), np.float32)
        found = np.empty(self.shape(4), np.int32)
        step = 4 * self.grid.spacing
        turn = self.turn * step

        def work(first: int, last: int) -> None:
            kernels.query_lattice(
                first, last, turn, self.origin, band, self.tree.arrays, values, found
            )

        in_chunks(work, len(values), 4, progress=progress, phase="distance field")
        self._settle_signs(values, step, band)
        return values, found

    def _settle_signs(self, values: Singles, step: float, band: float) -> None:
        """One sign for each connected region of nodes that no surface can pass between.

        Two neighbours that are both farther from the surface than half a step lie on the same
        side. The nodes of a region vote; a region beyond the band asks for one exact sign. So
        folds and crossings of the surface cannot turn the sign of what lies beyond them.
        """
        far = ~(np.abs(values) <= 0.51 * step)
        regions, count = label(far)
        if not count:
            return
        votes = np.bincount(
            regions.ravel(), weights=np.sign(np.nan_to_num(values)).ravel(), minlength=count + 1
        )
        silent_ones = np.flatnonzero(votes == 0.0)
        silent_ones = silent_ones[silent_ones > 0]
        if len(silent_ones):
            _, first = np.unique(regions.ravel(), return_index=True)
            nodes = np.stack(np.unravel_index(first[silent_ones], values.shape), axis=1) * step
            votes[silent_ones] = signed_distance(self.tree, nodes @ self.turn.T + self.origin)
        sides = np.where(votes < 0.0, -1.0, 1.0).astype(np.float32)[regions[far]]
        values[far] = np.where(np.isnan(values[far]), band, np.abs(values[far])) * sides

    def finer(
        self, stride: int, coarse: Singles, seeds: Ints, exact: float, keep: bool,
        progress: Progress,
    ) -> tuple[Singles, Ints]:  # fmt: skip
        values = np.empty(self.shape(stride), np.float32)
        found = np.empty(values.shape if keep else (0, 0, 0), np.int32)
        turn = self.turn * (stride * self.grid.spacing)
        tree = self.tree.arrays

        def work(first: int, last: int) -> None:
            kernels.refine_lattice(
                first, last, turn, self.origin, exact, tree, coarse, seeds, values, found
            )

        in_chunks(work, len(values), 4, progress=progress, phase="distance field")
        if keep:
            self._settle_signs(values, stride * self.grid.spacing, np.inf)
        return values, found


def inside(tree: DistanceTree, points: Floats) -> Bools:
    """(N,) True for points inside a closed mesh."""
    return signed_distance(tree, points) < 0.0
