"""Where supports touch the part: lowest points, downskins, free ends; off protected faces."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from claspwright.base import Bools, Floats, Point
from claspwright.build import _depth_kernels as kernels
from claspwright.build.machine import SupportPlan
from claspwright.geometry import Mesh, face_vectors, mesh_edges, vertex_normals

ContactKind = Literal["lowest point", "downskin", "free end", "island"]

LEAST_DOWNSKIN_MM2 = 0.2  # a smaller patch bridges itself
WIDER = 1.0  # spacings more, at the self-supporting angle, than on a flat downskin
LOWEST_APART_MM = 0.6  # lowest points nearer than this share a contact
PROTECTED_REACH = 1.7  # a protected downskin is left alone within this many spacings
LEVEL_MM = 1e-6  # vertices this close in height lie level
BESIDE_MM = 0.35  # how far a contact may move to leave a protected face


@dataclass(frozen=True, slots=True)
class Contact:
    """One place where a support touches the part; plate frame."""

    at_mm: Point
    kind: ContactKind
    protected: bool  # on a face that no support should touch
    face: int  # of the part


def find_contacts(
    mesh: Mesh,
    protected: Bools,
    plan: SupportPlan,
    free_ends: Floats | None = None,
    *,
    deep_mm: float = 0.02,
) -> tuple[Contact, ...]:
    """Contacts that carry a part which stands as it will be built (+z up).

    Free ends come first, then every local lowest point, then downskins flatter than the
    self-supporting angle, lowest first, so that no point of them lies farther from a contact than
    the spacing where it is flat, growing to twice that at the self-supporting angle, where each
    layer reaches less far over the one below [common practice, no source]. A protected face gets a
    contact only under a lowest point of its own or where no other contact lies within 1.7 times
    as far.

    Args:
        mesh: the part, above the plate.
        protected: (F,) faces that no support should touch.
        plan: measures of supports.
        free_ends: (N, 3) places near long free ends.
        deep_mm: a lowest point that is less deep, below where the metal round it joins more,
            begins within a layer and needs no contact.
    """
    points, faces, heavy = _downskin(mesh, plan)
    need = _need(mesh, faces, plan)
    ends, end_faces = _snapped(points, faces, free_ends)
    lows, low_faces = _moved_off(mesh, protected, *_lowest_points(mesh, deep_mm))
    taken: list[Contact] = []
    _take(taken, ends, end_faces, protected, "free end", np.full(len(ends), 0.5 * plan.spacing_mm))
    _take(taken, lows, low_faces, protected, "lowest point", np.full(len(lows), LOWEST_APART_MM))
    open_ = heavy & ~protected[faces]
    _take(taken, points[open_], faces[open_], protected, "downskin", need[open_])
    shut = heavy & protected[faces]
    _take(taken, points[shut], faces[shut], protected, "downskin", PROTECTED_REACH * need[shut])
    return tuple(taken)


def _need(mesh: Mesh, faces: NDArray[Any], plan: SupportPlan) -> Floats:
    """(N,) how far a contact may lie from a point of each face [mm]."""
    vectors = face_vectors(mesh)[faces]
    size = np.maximum(np.linalg.norm(vectors, axis=1), 1e-12)
    angle = np.degrees(np.arccos(np.clip(-vectors[:, 2] / size, 0.0, 1.0)))
    return np.asarray(plan.spacing_mm * (1.0 + WIDER * angle / plan.self_supporting_deg))


def _take(
    taken: list[Contact], points: Floats, faces: NDArray[Any], protected: Bools,
    kind: ContactKind, apart: Floats,
) -> None:  # fmt: skip
    """Add points, lowest first, that have none within their own distance."""
    if not len(points):
        return
    order = np.lexsort((points[:, 1], points[:, 0], np.round(points[:, 2], 3)))
    tree = cKDTree(points)
    gone = np.zeros(len(points), bool)
    most = float(apart.max())

    def serve(at: Floats) -> None:
        near = np.array(tree.query_ball_point(at, most), dtype=np.intp)
        gone[near[np.linalg.norm(points[near] - at, axis=1) <= apart[near]]] = True

    for contact in taken:
        serve(np.array(contact.at_mm))
    for n in order.tolist():
        if gone[n]:
            continue
        x, y, z = points[n].tolist()
        taken.append(Contact((x, y, z), kind, bool(protected[faces[n]]), int(faces[n])))
        serve(points[n])


def _downskin(mesh: Mesh, plan: SupportPlan) -> tuple[Floats, NDArray[Any], Bools]:
    """Points spread over the downskins, the face of each, and whether its patch is worth it."""
    vectors = 0.5 * face_vectors(mesh)
    size = np.linalg.norm(vectors, axis=1)
    steep = np.cos(np.radians(plan.self_supporting_deg))
    hanging = np.flatnonzero((-vectors[:, 2] > steep * size) & (size > 0))
    if not len(hanging):
        return np.zeros((0, 3)), hanging, np.zeros(0, bool)
    corners = mesh.vertices[mesh.faces[hanging]]
    longest = np.linalg.norm(corners - np.roll(corners, 1, axis=1), axis=2).max(axis=1)
    parts = np.maximum(np.ceil(longest / (0.4 * plan.spacing_mm)).astype(int), 1)
    found, whose, weight = [], [], []
    for n in np.unique(parts).tolist():
        here = np.flatnonzero(parts == n)
        spots = _barycentric(n)
        found.append(np.einsum("sk,fkd->fsd", spots, corners[here]).reshape(-1, 3))
        whose.append(np.repeat(hanging[here], len(spots)))
        weight.append(np.repeat(size[hanging[here]] / len(spots), len(spots)))
    points, faces, areas = np.concatenate(found), np.concatenate(whose), np.concatenate(weight)
    patch = _patch_areas(points, areas, plan.spacing_mm / 3.0)
    return points, faces, patch >= LEAST_DOWNSKIN_MM2


def _patch_areas(points: Floats, areas: Floats, cell_mm: float) -> Floats:
    """(N,) area of downskin in the cell of each point and the cells round it [mm2]."""
    cell = np.floor((points - points.min(axis=0)) / cell_mm).astype(np.int64) + 1
    wide, tall = cell[:, :2].max(axis=0) + 2
    key = (cell[:, 2] * tall + cell[:, 1]) * wide + cell[:, 0]
    known, which = np.unique(key, return_inverse=True)
    own = np.append(np.bincount(which, weights=areas), 0.0)
    total = np.zeros(len(known))
    steps = (-1, 0, 1)
    for shift in ((z * tall + y) * wide + x for z in steps for y in steps for x in steps):
        at = np.searchsorted(known, known + shift)
        there = (at < len(known)) & (known[np.minimum(at, len(known) - 1)] == known + shift)
        total += own[np.where(there, at, len(known))]
    return np.asarray(total[which])


def _barycentric(n: int) -> Floats:
    """(S, 3) weights of points spread evenly inside a triangle; one point for n = 1."""
    if n == 1:
        return np.full((1, 3), 1.0 / 3.0)
    rows = [(i, j) for i in range(n) for j in range(n - i)]
    first = np.array([((i + 1 / 3) / n, (j + 1 / 3) / n) for i, j in rows])
    return np.column_stack([first, 1.0 - first.sum(axis=1)])


def _snapped(
    points: Floats, faces: NDArray[Any], ends: Floats | None
) -> tuple[Floats, NDArray[Any]]:
    """The downskin points nearest to the free ends, where one lies within 2 mm."""
    if ends is None or not len(ends) or not len(points):
        return np.zeros((0, 3)), np.zeros(0, int)
    distance, nearest = cKDTree(points).query(ends, distance_upper_bound=2.0)
    chosen = np.asarray(nearest)[np.isfinite(distance)]
    return points[chosen], faces[chosen]


def _lowest_points(mesh: Mesh, deep_mm: float) -> tuple[Floats, NDArray[Any]]:
    """Vertices lower than all round them with metal above, and a face at each.

    Those less deep than asked for below the saddle to a lower one are left out.

    Of vertices that lie level with each other the one next to their middle counts.
    """
    pairs, _ = mesh_edges(mesh)
    height = mesh.vertices[:, 2]
    count = len(height)
    a, b = pairs[:, 0], pairs[:, 1]
    level = np.abs(height[a] - height[b]) < LEVEL_MM
    links = csr_array((np.ones(level.sum(), np.int8), (a[level], b[level])), shape=(count, count))
    number, plateau = connected_components(links, directed=False)
    lowest = np.ones(number, bool)
    higher = np.where(height[a] > height[b], a, b)[~level]
    lowest[plateau[higher]] = False
    used = np.zeros(count, bool)
    used[mesh.faces] = True
    depth = kernels.depths(height, np.argsort(height, kind="stable"), *_beside(a, b, count))
    deep = np.zeros(number, bool)
    deep[plateau[depth >= deep_mm]] = True
    lowest &= deep
    some = np.flatnonzero(lowest[plateau] & used & (vertex_normals(mesh)[:, 2] < 0))
    found = _middles(mesh.vertices, some, plateau[some])
    face_at = np.empty(count, np.int64)
    face_at[mesh.faces.ravel()] = np.repeat(np.arange(len(mesh.faces)), 3)
    return mesh.vertices[found], face_at[found]


def _beside(a: NDArray[Any], b: NDArray[Any], count: int) -> tuple[NDArray[Any], NDArray[Any]]:
    """Neighbours of each vertex, one after the other, and where those of each begin."""
    start, end = np.concatenate([a, b]), np.concatenate([b, a])
    order = np.argsort(start, kind="stable")
    first = np.concatenate([[0], np.cumsum(np.bincount(start, minlength=count))])
    return np.ascontiguousarray(end[order]), first


def _moved_off(
    mesh: Mesh, protected: Bools, points: Floats, faces: NDArray[Any]
) -> tuple[Floats, NDArray[Any]]:
    """Lowest points on protected faces moved to an open face close by, where there is one."""
    shut = np.flatnonzero(protected[faces])
    open_ = np.flatnonzero(~protected)
    if not len(shut) or not len(open_):
        return points, faces
    centres = mesh.vertices[mesh.faces[open_]].mean(axis=1)
    found = cKDTree(centres).query(points[shut], distance_upper_bound=BESIDE_MM)
    distance, nearest = (np.asarray(array) for array in found)
    near = np.isfinite(distance)
    near[near] &= np.abs(centres[nearest[near], 2] - points[shut[near], 2]) < 0.5 * BESIDE_MM
    points, faces = points.copy(), faces.copy()
    points[shut[near]] = centres[nearest[near]]
    faces[shut[near]] = open_[nearest[near]]
    return points, faces


def _middles(points: Floats, some: NDArray[Any], group: NDArray[Any]) -> NDArray[Any]:
    """Of each group of vertices the one nearest to their mean."""
    if not len(some):
        return some
    order = np.argsort(group, kind="stable")
    some, group = some[order], group[order]
    _, first, which = np.unique(group, return_index=True, return_inverse=True)
    sizes = np.diff(np.concatenate([first, [len(group)]]))
    mean = np.add.reduceat(points[some], first, axis=0) / sizes[:, None]
    far = np.linalg.norm(points[some] - mean[which], axis=1)
    best = np.lexsort((some, far, which))
    return np.asarray(some[best[first]])
