"""The part of a scan about its border, worked on alone and put back.

What lies further inside is covered by a lid of one fan a loop, so that the part is a surface with
the same one border as the whole.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from claspwright.arch.topology import (
    border_edges,
    border_loops,
    border_vertices,
    edges_of,
    pieces,
    twin_pairs,
)
from claspwright.base import Bools, Floats, Ints
from claspwright.geometry import Mesh, compacted

ROUNDS = 8  # how often pinched places of the inner part are given to the outer one


@dataclass(frozen=True, slots=True, eq=False)
class Shore:
    """A part of a scan with a lid over the rest."""

    mesh: Mesh  # the part and its lid
    whole: Mesh  # what it was cut from
    core: Bools  # (F,) faces of `whole` under the lid
    tips: Floats  # (T, 3) the middle of each fan of the lid, a vertex under it
    rest: Floats  # (P, 3) vertices of the faces under the lid [mm]


def narrowed(whole: Mesh, depth_mm: float) -> Shore:
    """The part of a scan within `depth_mm` of its border; all of it where that is no less."""
    core = _core(whole, depth_mm)
    lid = _lid(whole, core)
    if lid is None:
        none = np.zeros(len(whole.faces), dtype=np.bool_)
        return Shore(whole, whole, none, np.empty((0, 3)), np.empty((0, 3)))
    fans, tips = lid
    part = compacted(whole.vertices, np.concatenate([whole.faces[~core], fans]))
    return Shore(part, whole, core, whole.vertices[tips], whole.vertices[_names(whole, core)])


def lid_faces(shore: Shore, mesh: Mesh) -> Bools:
    """(F,) True for the faces of the lid in a mesh made from `shore.mesh`."""
    on_tip = np.zeros(len(mesh.vertices), dtype=np.bool_)
    for tip in shore.tips:
        on_tip |= (mesh.vertices == tip).all(axis=1)
    return np.asarray(on_tip[mesh.faces].any(axis=1))


def restored(shore: Shore, mesh: Mesh) -> Mesh:
    """The whole scan again, with the part as it is now; vertices and faces keep their order.

    No face of the lid may be gone, and none of its corners may have moved or been parted. New
    vertices and faces come last.
    """
    if not shore.core.any():
        return mesh
    whole = shore.whole
    names = _names(whole, ~shore.core)
    known = {whole.vertices[i].tobytes(): int(i) for i in names[::-1]}
    part = mesh.faces[~lid_faces(shore, mesh)]
    came_from = np.array([known.get(row.tobytes(), -1) for row in mesh.vertices])
    under = _names(whole, shore.core)
    in_part = np.full(len(whole.vertices), -1, dtype=np.int64)
    in_part[came_from[came_from >= 0]] = np.flatnonzero(came_from >= 0)
    fresh = under[in_part[under] < 0]
    in_part[fresh] = len(mesh.vertices) + np.arange(len(fresh))
    vertices = np.concatenate([mesh.vertices, whole.vertices[fresh]])
    faces = np.concatenate([part, in_part[whole.faces[shore.core]]])
    new = len(whole.vertices) + np.arange(len(mesh.vertices))
    rank = np.concatenate([np.where(came_from < 0, new, came_from), fresh])
    place = np.concatenate(
        [_places(whole, shore.core, came_from[part]), np.flatnonzero(shore.core)]
    )
    return _in_order(vertices, faces.astype(np.int32), rank, place)


def _core(whole: Mesh, depth_mm: float) -> Bools:
    """(F,) the largest piece of faces further than `depth_mm` from the border, without pinches."""
    border = np.flatnonzero(border_vertices(whole))
    gap, _ = cKDTree(whole.vertices[border]).query(whole.vertices, distance_upper_bound=depth_mm)
    rows = np.ascontiguousarray(whole.vertices).view("V24").reshape(-1)
    _, which, times = np.unique(rows, return_inverse=True, return_counts=True)
    free = (gap == np.inf) & (times[which] == 1)  # vertices at one place cannot be told apart
    core = np.asarray(free[whole.faces].all(axis=1))
    a, b = twin_pairs(edges_of(whole.faces))
    for _ in range(ROUNDS):
        linked = core[a // 3] & core[b // 3]
        piece = pieces(len(core), a[linked] // 3, b[linked] // 3)
        size = np.bincount(piece[core], minlength=int(piece.max(initial=0)) + 1)
        core &= piece == int(np.argmax(size))
        start, _ = border_edges(whole.faces[core])
        _, times = np.unique(start, return_counts=True)
        pinched = np.unique(start)[times > 1]
        if not len(pinched):
            return core
        core &= ~np.isin(whole.faces, pinched).any(axis=1)
    return np.zeros(len(core), dtype=np.bool_)


def _lid(whole: Mesh, core: Bools) -> tuple[Ints, Ints] | None:
    """(N, 3) fans over the loops of the inner part, and the vertex in the middle of each."""
    if not core.any():
        return None
    loops = border_loops(whole.faces[core])
    inner = np.setdiff1d(whole.faces[core], np.concatenate([np.empty(0, np.int32), *loops]))
    if len(inner) < len(loops) or not loops:
        return None
    tree = cKDTree(whole.vertices[inner])
    fans, tips = [], []
    for loop in loops:
        near = tree.query(whole.vertices[loop].mean(axis=0), k=len(loops))[1]
        tip = next(int(inner[i]) for i in np.atleast_1d(near) if int(inner[i]) not in tips)
        tips.append(tip)
        fans.append(np.stack([loop, np.roll(loop, -1), np.full(len(loop), tip)], axis=1))
    return np.concatenate(fans).astype(np.int32), np.array(tips, dtype=np.int32)


def _places(whole: Mesh, core: Bools, part: Ints) -> Ints:
    """(N,) number of each face in the whole scan, beyond its end for faces that are new."""
    outer = np.flatnonzero(~core)
    base = len(whole.vertices)
    keys, asked = (_key(faces, base) for faces in (whole.faces[outer], part))
    order = np.argsort(keys, kind="stable")
    at = np.minimum(np.searchsorted(keys[order], asked), len(outer) - 1)
    found = order[at]
    fresh = len(whole.faces) + np.arange(len(part))
    same = (keys[found] == asked) & (part >= 0).all(axis=1)
    return np.asarray(np.where(same, outer[found], fresh), dtype=np.int32)


def _key(faces: Ints, base: int) -> NDArray[np.int64]:
    """(N,) one number for the three corners of each face, in their order."""
    a, b, c = (faces[:, k].astype(np.int64) for k in range(3))
    return (a * base + b) * base + c


def _names(mesh: Mesh, faces: Bools) -> Ints:
    """The vertices of some faces, in order."""
    used = np.zeros(len(mesh.vertices), dtype=np.bool_)
    used[mesh.faces[faces].reshape(-1)] = True
    return np.flatnonzero(used).astype(np.int32)


def _in_order(vertices: Floats, faces: Ints, rank: Ints, place: Ints) -> Mesh:
    """Vertices sorted by `rank` and faces by `place`; unused vertices are left out."""
    order = np.argsort(rank, kind="stable")
    new = np.empty(len(order), dtype=np.int32)
    new[order] = np.arange(len(order), dtype=np.int32)
    turned = new[faces][np.argsort(place, kind="stable")]
    return compacted(vertices[order], turned.astype(np.int32))
