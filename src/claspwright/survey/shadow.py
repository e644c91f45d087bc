"""What a body hides along one path: rays along it, and the outlines seen from out of the mouth."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Bools, Floats, InputError, Ints
from claspwright.geometry import Mesh, Rigid, in_chunks, looking_along, mesh_edges
from claspwright.survey import _shadow_kernels as kernels

POINTS_A_CHUNK = 4096
LEAST_BIN_MM = 0.05
MOST_BINS = 4_000_000
SHARP_DEG = 40.0  # between two faces, from which their edge itself is the prominent line


@dataclass(frozen=True, slots=True, eq=False)
class Shadow:
    """A mesh turned so that the path is +z, binned in plan. Made by `cast_shadow`.

    The border of what lies hidden at any level is part of the outlines that lie over that level,
    and of the cut through the faces that look up there.
    """

    frame: Rigid  # world -> frame with +z along the path
    plan: Floats  # (5,) corner x, y of the bins, their size [mm], their numbers
    bins: tuple[NDArray[Any], ...]  # start, items, triangles (F, 10), highest z, lowest z
    pieces: Floats  # (P, 9) seen outlines: two ends in the frame, outward in plan, and the height
    # of greatest prominence between the two faces there; NaN on an edge that is sharp
    border: Bools  # (P,) True for a piece on the open border of the mesh
    piece_bins: tuple[NDArray[Any], ...]  # start, items

    @property
    def direction(self) -> Floats:
        """(3,) unit vector of the path."""
        return self.frame.inverse().turn(np.array([0.0, 0.0, 1.0]))

    def hides(self, points: Floats) -> Bools:
        """(N,) True for points from which the way along the path meets the mesh."""
        turned = np.ascontiguousarray(self.frame.apply(np.atleast_2d(points)), dtype=np.float64)
        out = np.empty(len(turned), np.bool_)

        def work(first: int, last: int) -> None:
            kernels.covered_points(turned[first:last], self.plan, self.bins, out[first:last])

        in_chunks(work, len(turned), POINTS_A_CHUNK)
        return out


def cast_shadow(mesh: Mesh, direction: Floats, *, edges: tuple[Ints, Ints] | None = None) -> Shadow:
    """Bin a mesh for readings along one path.

    Args:
        mesh: closed, or open: then its outer side counts as the surface and what lies behind
            it as solid wherever the path meets the surface.
        direction: unit vector out of the mouth.
        edges: those of the mesh, where they are known already.

    Raises:
        InputError: a mesh without faces.
    """
    if not len(mesh.faces):
        raise InputError("a mesh without faces hides nothing", remedy="Check what it was read from")
    frame = looking_along(direction)
    points = np.ascontiguousarray(frame.apply(mesh.vertices))
    pairs, edge_of = mesh_edges(mesh) if edges is None else edges
    count = len(mesh.faces)
    tris, low, top = np.empty((count, 10)), np.empty(count), np.empty(count)
    kernels.flatten(points, mesh.faces, tris, low, top)
    plan = _plan(points, pairs)
    start, items = _binned(tris, 3, plan)
    kernels.sort_bins(start, items, top)
    bins = (start, items, tris, top, low)
    raw, open_edge = _outlines(points, mesh.faces, pairs, edge_of, tris)
    pieces, border = _seen(raw, open_edge, plan, bins)
    return Shadow(frame, plan, bins, pieces, border, _binned(pieces, 2, plan))


def _plan(points: Floats, pairs: Ints) -> Floats:
    """Bins somewhat larger than an edge, not too many."""
    some = pairs[:: max(len(pairs) // 5000, 1)]
    edge = float(np.median(np.linalg.norm(points[some[:, 0]] - points[some[:, 1]], axis=1)))
    low, high = points[:, :2].min(axis=0), points[:, :2].max(axis=0)
    wide, deep = np.maximum(high - low, 1e-6)
    size = max(1.2 * edge, LEAST_BIN_MM, float(np.sqrt(wide * deep / MOST_BINS)))
    size = max(size, wide / MOST_BINS, deep / MOST_BINS)
    low = low - 1e-6
    nx, ny = int((high[0] - low[0]) / size) + 1, int((high[1] - low[1]) / size) + 1
    return np.array([low[0], low[1], size, nx, ny], dtype=np.float64)


def _binned(rows: Floats, corners: int, plan: Floats) -> tuple[Ints, Ints]:
    start = np.zeros(int(plan[3] * plan[4]) + 1, np.int32)
    nothing = np.empty(0, np.int32)
    kernels.bin_rows(rows, corners, plan, start, nothing, False)
    start = np.cumsum(start, dtype=np.int32)
    items = np.empty(start[-1], np.int32)
    kernels.bin_rows(rows, corners, plan, start.copy(), items, True)
    return start, items


def _outlines(
    points: Floats, faces: Ints, pairs: Ints, edge_of: Ints, tris: Floats
) -> tuple[Floats, Bools]:
    """(E, 9) edges where the surface turns away from the path or ends, and which end it."""
    kind = np.zeros(len(pairs), np.uint8)
    number = np.zeros(len(pairs), np.int32)
    across = np.zeros(len(pairs), np.int32)
    sides = np.full((len(pairs), 2), -1, np.int32)
    kernels.mark_edges(faces, edge_of, tris, kind, number, across, sides)
    chosen = (kind == kernels.UP | kernels.DOWN) | (number == 1)
    a, b = points[pairs[chosen, 0]], points[pairs[chosen, 1]]
    along = b[:, :2] - a[:, :2]
    size = np.linalg.norm(along, axis=1)
    outward = np.column_stack([along[:, 1], -along[:, 0]]) / np.maximum(size, 1e-12)[:, None]
    inward = points[across[chosen], :2] - a[:, :2]
    outward *= -np.sign(np.einsum("nd,nd->n", outward, inward))[:, None]
    rows = np.column_stack([a, b, outward, _prominence(tris, sides[chosen])])
    kept = size > 1e-9
    return np.ascontiguousarray(rows[kept]), (number[chosen] == 1)[kept]


def _prominence(tris: Floats, sides: Ints) -> Floats:
    """(E,) height where the slope is upright, linear between the middles of two faces [mm].

    An outline runs along edges, to and fro by up to half of one; this height does not. NaN where
    the faces meet at more than SHARP_DEG or one is missing.
    """
    out = np.full(len(sides), np.nan)
    both = np.flatnonzero((sides >= 0).all(axis=1))
    corners = tris[sides[both], :9].reshape(-1, 2, 3, 3)
    normals = np.cross(corners[:, :, 1] - corners[:, :, 0], corners[:, :, 2] - corners[:, :, 0])
    normals /= np.maximum(np.linalg.norm(normals, axis=2, keepdims=True), 1e-12)
    slope, height = normals[:, :, 2], corners[..., 2].mean(axis=2)
    smooth = np.einsum("nd,nd->n", normals[:, 0], normals[:, 1]) > np.cos(np.radians(SHARP_DEG))
    share = slope[:, 0] / np.maximum(slope[:, 0] - slope[:, 1], 1e-12)
    level = height[:, 0] + np.clip(share, 0.0, 1.0) * (height[:, 1] - height[:, 0])
    out[both[smooth]] = level[smooth]
    return out


def _seen(
    raw: Floats, open_edge: Bools, plan: Floats, bins: tuple[NDArray[Any], ...]
) -> tuple[Floats, Bools]:
    """The pieces of the outlines that nothing lies over, cut where they pass under others."""
    start, items = _binned(raw, 2, plan)
    breaks = np.empty((kernels.find_breaks(raw, start, items, plan, np.empty((0, 2))), 2))
    kernels.find_breaks(raw, start, items, plan, breaks)
    edges = np.arange(len(raw))
    rows = np.concatenate(
        [
            np.column_stack([edges, np.zeros(len(raw))]),
            breaks,
            np.column_stack([edges, np.ones(len(raw))]),
        ]
    )
    rows = np.unique(rows, axis=0)
    same = rows[:-1, 0] == rows[1:, 0]
    owner = rows[:-1, 0][same].astype(np.int64)
    one, two = rows[:-1, 1][same][:, None], rows[1:, 1][same][:, None]
    a, b = raw[owner, :3], raw[owner, 3:6]
    pieces = np.column_stack([a + one * (b - a), a + two * (b - a), raw[owner, 6:]])
    seen = np.empty(len(pieces), np.bool_)

    def work(first: int, last: int) -> None:
        kernels.seen_pieces(pieces, plan, bins, first, last, seen)

    in_chunks(work, len(pieces), POINTS_A_CHUNK)
    return np.ascontiguousarray(pieces[seen]), open_edge[owner][seen]
