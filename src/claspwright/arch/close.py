"""From an open scan to the closed master solid.

The border of the scan is joined by a narrow band to a smooth ring just below it, the ring goes
straight down to a flat base. Border faces that the band or the wall would cross are given up
first, so that no wall passes through the scan and the inside is below the scan everywhere.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.ndimage import gaussian_filter1d
from scipy.spatial import cKDTree
from shapely import STRtree
from shapely.geometry import LinearRing, LineString

from claspwright.arch.crossing import find_crossings
from claspwright.arch.holes import Hole, border_and_holes, planar_faces, without_holes
from claspwright.arch.repair import single_piece, without_ears
from claspwright.arch.topology import border_edges, kept_faces
from claspwright.base import Bools, Floats, GeometryError, Ints
from claspwright.geometry import Mesh, face_areas, face_normals

BASE_MM = 3.0  # thickness below the deepest point of the scan
DROP_MM = 1.0  # how far the smooth ring lies below the border
FOLD_MM = 2.0  # border faces that look down are given up to this depth
SMOOTH_MM = (1.0, 1.5, 2.5, 4.0)  # how strongly the ring is smoothed, tried in turn
ROUNDS = 40  # how often border faces are given up before closing is refused


@dataclass(frozen=True, slots=True, eq=False)
class Closed:
    """The surface that is kept, and the solid that starts with it."""

    surface: Mesh
    solid: Mesh
    holes: tuple[Hole, ...]  # filled while closing
    trimmed_mm2: float  # border faces given up
    crossings: int  # pairs of surface faces that still pass through one another
    crossing_at: Floats  # (3,) where, the origin when there are none


def closed(mesh: Mesh, edge_mm: float) -> Closed:
    """Close an open, clean scan in the arch frame.

    Raises:
        GeometryError: no wall can be found that keeps clear of the scan.
    """
    before = float(face_areas(mesh).sum())
    mesh = without_ears(_without_folds(mesh))
    mesh, holes = without_holes(mesh)
    filled = list(holes)
    for _ in range(ROUNDS):
        loop, _ = border_and_holes(mesh)
        ring, knots = _ring(mesh.vertices[loop], mesh)
        if len(knots):
            bad = _faces_at(mesh, loop[knots])
        else:
            skirt = _skirt(mesh, loop, ring)
            bad = _hit_faces(mesh, skirt, loop, edge_mm)
            if not bad.any():
                return _result(mesh, skirt, (filled, before, edge_mm))
        mesh = without_ears(single_piece(kept_faces(mesh, ~bad)))
        mesh, holes = without_holes(mesh)
        filled += holes
    raise GeometryError(
        "the border of the scan is so folded that it cannot be closed",
        remedy="Trim the edge of the scan a few millimetres in the scanning program.",
    )


def _result(mesh: Mesh, skirt: Mesh, book: tuple[list[Hole], float, float]) -> Closed:
    holes, before, edge_mm = book
    crossing = find_crossings(mesh, 2 * edge_mm)
    at = mesh.corners[crossing[0, 0]].mean(axis=0) if len(crossing) else np.zeros(3)
    solid = Mesh(
        np.concatenate([mesh.vertices, skirt.vertices[len(mesh.vertices) :]]),
        np.concatenate([mesh.faces, skirt.faces]),
    )
    lost = before + sum(h.area_mm2 for h in holes) - float(face_areas(mesh).sum())
    return Closed(mesh, solid, tuple(holes), max(0.0, lost), len(crossing), at)


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


def _ring(border: Floats, surface: Mesh) -> tuple[Floats, Ints]:
    """(N, 3) smooth ring under the (N, 3) border, and the points at which it crosses itself.

    Seen from above the ring is the border, smoothed as little as makes it simple.
    """
    flat = border[:, :2]
    for width in SMOOTH_MM:
        smooth = _smoothed_ring(flat, width)
        if LinearRing(smooth).is_simple and _turns_left(smooth):
            break
    else:
        return np.empty((0, 3)), _knots(smooth)
    reach = 1.5 * width
    level = np.array(
        [
            surface.vertices[near, 2].min() if near else np.inf
            for near in cKDTree(surface.vertices[:, :2]).query_ball_point(smooth, reach)
        ]
    )
    level = np.minimum(level, border[:, 2]) - DROP_MM
    return np.column_stack([smooth, level]), np.empty(0, dtype=np.int32)


def _knots(ring: Floats) -> Ints:
    """Points of the shorter way round between each two steps of a ring that cross."""
    n = len(ring)
    steps = [LineString(pair) for pair in np.stack([ring, np.roll(ring, -1, axis=0)], axis=1)]
    one, two = STRtree(steps).query(steps, predicate="intersects")
    apart = (two - one) % n
    clash = (apart > 1) & (apart < n - 1) & (apart <= n // 2)
    bad = np.zeros(n, dtype=np.bool_)
    for i, reach in zip(one[clash], apart[clash], strict=True):
        if reach < n // 4:
            bad[(i + np.arange(reach + 2)) % n] = True
        else:
            bad[[i, (i + 1) % n, (i + reach) % n, (i + reach + 1) % n]] = True
    if not bad.any():
        bad[:] = True
    return np.flatnonzero(bad).astype(np.int32)


def _faces_at(mesh: Mesh, vertices: Ints) -> Bools:
    """(F,) True for the faces at some vertices."""
    marked = np.zeros(len(mesh.vertices), dtype=np.bool_)
    marked[vertices] = True
    return np.asarray(marked[mesh.faces].any(axis=1))


def _turns_left(ring: Floats) -> bool:
    x, y = ring.T
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) > 0


def _smoothed_ring(ring: Floats, width: float) -> Floats:
    """The closed ring of (N, 2) points, each averaged with its neighbours over `width` [mm].

    Gaussian weights of the distance along the ring; the number of points stays.
    """
    step = np.linalg.norm(np.roll(ring, -1, axis=0) - ring, axis=1)
    step = np.maximum(step, 1e-9)
    total = float(step.sum())
    at = np.concatenate([[0.0], np.cumsum(step)[:-1]])
    fine = np.arange(0.0, total, min(0.1, width / 8))
    closed_at = np.concatenate([at, [total]])
    dense = np.column_stack(
        [np.interp(fine, closed_at, np.append(ring[:, i], ring[0, i])) for i in range(2)]
    )
    dense = gaussian_filter1d(dense, width / (total / len(fine)), axis=0, mode="wrap")
    wrapped = np.concatenate([dense, dense[:1]])
    places = np.append(fine, total)
    return np.column_stack([np.interp(at, places, wrapped[:, i]) for i in range(2)])


def _skirt(mesh: Mesh, loop: Ints, ring: Floats) -> Mesh:
    """Band, wall and base below the border; its vertices start with those of the mesh."""
    n, first = len(loop), len(mesh.vertices)
    floor = float(mesh.vertices[:, 2].min()) - BASE_MM
    base = np.column_stack([ring[:, :2], np.full(n, floor)])
    upper = np.arange(n, dtype=np.int32) + first
    lower = upper + n
    band = _strip(loop, upper)
    wall = _strip(upper, lower)
    bottom = lower[planar_faces(ring[:, :2])][:, ::-1]
    return Mesh(np.concatenate([mesh.vertices, ring, base]), np.concatenate([band, wall, bottom]))


def _strip(upper: Ints, lower: Ints) -> Ints:
    """Two triangles a step between two closed rings, looking outwards below a left-hand border."""
    after, below = np.roll(upper, -1), np.roll(lower, -1)
    first = np.stack([after, upper, lower], axis=1)
    second = np.stack([after, lower, below], axis=1)
    return np.stack([first, second], axis=1).reshape(-1, 3).astype(np.int32)


def _hit_faces(mesh: Mesh, skirt: Mesh, loop: Ints, edge_mm: float) -> Bools:
    """(F,) True for the surface faces that make the skirt cross something, with neighbours."""
    n, count = len(mesh.faces), len(loop)
    both = Mesh(skirt.vertices, np.concatenate([mesh.faces, skirt.faces[: 4 * count]]))
    pairs = find_crossings(both, max(2 * edge_mm, 0.5))
    hit = pairs[(pairs >= n).any(axis=1)].reshape(-1)
    if not len(hit):
        return np.zeros(n, dtype=np.bool_)
    owners = loop[((hit[hit >= n] - n) % (2 * count)) // 2]
    return _faces_at(mesh, np.concatenate([owners, mesh.faces[hit[hit < n]].reshape(-1)]))
