"""The framework as it must be built, so that it has its designed form after finishing."""

from __future__ import annotations

import numpy as np

from claspwright.app.case_areas import regions_of
from claspwright.base import Bools, Floats, Ints
from claspwright.framework import Framework
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    Rigid,
    closest_points,
    face_areas,
    face_normals,
    simplified,
)
from claspwright.inspection import region_of_faces
from claspwright.process import FinishingPlan, SurfaceKind

TO_BUILD = "framework_to_build.stl"  # beside framework.stl, which is the finished form
INNER_MM = 0.03  # a face this near to the blocked-out model is of the inner side
FLAT = 0.01  # least share of an edge's normals across it for which it is moved as an edge
MITRE = 2.0  # a corner moves out at most by so many times the greatest allowance of its faces
TOGETHER, HALVINGS = 12, 6  # rounds: corners of a face that would turn move as one, then less
TURNED = 0.3  # least cosine between a face before and after
_INNER: dict[str, SurfaceKind] = {"rests": "rest", "arms": "arm"}  # the others: tissue
SLIVER_MM = (0.002, 0.0005)  # what collapsing slivers may move the surface by, before and after


def as_built(framework: Framework, plan: FinishingPlan) -> Mesh:
    """The solid grown, surface by surface, by what finishing takes off; arch frame.

    Each face moves out by its allowance (`grown`). Slivers are collapsed before, as they turn over
    first, and after, so the faces are not those of the design.

    Source:
        the allowances are common practice without a source; see `finishing.toml`.
    """
    if not any(plan.allowances_mm().values()):
        return framework.solid
    solid = simplified(framework.solid, SLIVER_MM[0])
    return simplified(grown(solid, growth_of_faces(framework, solid, plan)), SLIVER_MM[1])


def growth_of_faces(framework: Framework, solid: Mesh, plan: FinishingPlan) -> Floats:
    """(F,) how far each face of the framework's solid moves out for finishing [mm].

    Args:
        framework: with the blocked-out model and the lines of the components.
        solid: its solid, or the same with other faces; arch frame.
        plan: steps of finishing, and what is masked.
    """
    kinds = surface_kinds(framework, solid)
    by_face = np.zeros(len(solid.faces))
    for kind, mm in plan.allowances_mm().items():
        by_face[kinds == kind] = mm
    return by_face


def carried_over(flags: Bools, design: Mesh, solid: Mesh) -> Bools:
    """(F,) flags of the faces of the design, on the nearest faces of the solid to build."""
    if solid is design:
        return flags
    centres = solid.middles
    nearest = closest_points(DistanceTree(design), centres, 1.0).faces
    return np.asarray(flags[nearest] & (nearest >= 0))


def surface_kinds(framework: Framework, solid: Mesh) -> np.ndarray[tuple[int], np.dtype[np.str_]]:
    """(F,) kind of surface of each face: tissue, rest, arm on the inner side, else polished.

    Args:
        framework: with the blocked-out model and the lines of the components.
        solid: its solid, or the same with other faces; arch frame.
    """
    centres = solid.middles
    model = DistanceTree(framework.blocked_out.model)
    inner = np.abs(closest_points(model, centres, 10 * INNER_MM).distance) < INNER_MM
    out = np.full(len(centres), "polished", dtype="<U8")
    out[inner] = "tissue"
    regions = tuple(regions_of(framework.components, Rigid(np.eye(3), np.zeros(3))))
    if regions:
        kinds = np.array([_INNER.get(region.group, "tissue") for region in regions])
        out[inner] = kinds[region_of_faces(solid, regions)][inner]
    return out


def grown(solid: Mesh, by_face_mm: Floats) -> Mesh:
    """The solid with each face moved out by its allowance.

    A vertex moves so that the planes of its faces move out by their allowances, as nearly as least
    squares can: an edge keeps its sharpness and a thin strip between edges its full allowance.
    Where allowances meet on a surface that runs on smoothly, the border keeps to the lesser.
    Corners of a face that would turn over move as one; where that does not help they move less:
    half, and so on, at last not at all.

    Args:
        solid: closed, normals outside.
        by_face_mm: (F,) how far each face is to move out.
    """
    motion = _mitred(solid, by_face_mm)
    side, most = _lesser_side(solid, by_face_mm)
    motion -= _beyond(motion, side, most)
    most = np.einsum("vd,vd->v", motion, side)
    faces = face_normals(solid)
    whole = (faces != 0.0).any(axis=1)
    share = np.ones(len(motion))
    rounds = 0
    while True:  # ends: what has turned is set back, and nothing set back wholly can turn
        moved = Mesh(solid.vertices + share[:, None] * motion, solid.faces)
        turned: Bools = np.einsum("fd,fd->f", face_normals(moved), faces) < TURNED
        at = solid.faces[turned & whole]
        at = at[(share[at] > 0.0).any(axis=1)]
        if not len(at):
            return moved
        if rounds < TOGETHER:
            _move_as_one(motion, at)
            motion -= _beyond(motion, side, most)
        else:
            share[np.unique(at)] *= 0.5 if rounds < TOGETHER + HALVINGS else 0.0
        rounds += 1


def _mitred(solid: Mesh, by_face: Floats) -> Floats:
    """(V, 3) motion m of the vertices with n . m = allowance on each face, by least squares [mm].

    The sum of the faces' areas times (n . m - allowance)^2 is least; along directions in which the
    normals hardly reach (an edge that is nearly flat) nothing moves.
    """
    normals = face_normals(solid)
    products = (normals[:, :, None] * normals[:, None, :]).reshape(-1, 9)
    total = _summed(solid, np.ones((len(normals), 1)))
    total[total == 0.0] = 1.0
    values, axes = np.linalg.eigh((_summed(solid, products) / total).reshape(-1, 3, 3))
    asked = _summed(solid, by_face[:, None] * normals) / total
    along = np.einsum("vdi,vd->vi", axes, asked)
    along = np.divide(along, values, out=np.zeros_like(along), where=values > FLAT)
    motion: Floats = np.einsum("vdi,vi->vd", axes, along)
    most = np.zeros(len(motion))
    np.maximum.at(most, solid.faces.ravel(), np.repeat(by_face, 3))
    length = np.linalg.norm(motion, axis=1)
    far = length > MITRE * most
    motion[far] *= (MITRE * most[far] / length[far])[:, None]
    return motion


def _lesser_side(solid: Mesh, by_face: Floats) -> tuple[Floats, Floats]:
    """(V, 3) mean normal of those of a vertex's faces that grow least, (V,) by how much [mm].

    The second is infinite where all of them grow alike.
    """
    corners, count = solid.faces.ravel(), len(solid.vertices)
    asked = np.repeat(by_face, 3)
    least, most = np.full(count, np.inf), np.zeros(count)
    np.minimum.at(least, corners, asked)
    np.maximum.at(most, corners, asked)
    of_least = asked <= least[corners] + 1e-9
    vectors = np.repeat(face_areas(solid)[:, None] * face_normals(solid), 3, axis=0)[of_least]
    total = [np.bincount(corners[of_least], weights=v, minlength=count) for v in vectors.T]
    side = np.stack(total, axis=1)
    length = np.linalg.norm(side, axis=1, keepdims=True)
    side = np.divide(side, length, out=np.zeros_like(side), where=length > 0)
    return side, np.where(most > least + 1e-9, least, np.inf)


def _beyond(motion: Floats, side: Floats, most: Floats) -> Floats:
    """(V, 3) what of the motion along a direction is more than it may be [mm]."""
    over: Floats = np.maximum(np.einsum("vd,vd->v", motion, side) - most, 0.0)[:, None]
    return over * side


def _move_as_one(motion: Floats, triangles: Ints) -> None:
    """Give the corners of triangles the mean motion of the three, in place."""
    at = triangles.ravel()
    mean = np.repeat(motion[triangles].mean(axis=1), 3, axis=0)
    number = np.bincount(at, minlength=len(motion))
    total = [np.bincount(at, weights=m, minlength=len(motion)) for m in mean.T]
    met = number > 0
    motion[met] = np.stack(total, axis=1)[met] / number[met, None]


def _summed(solid: Mesh, by_face: Floats) -> Floats:
    """(V, D) values of the faces round each vertex, times their areas, summed."""
    weighted = face_areas(solid)[:, None] * by_face
    out = np.zeros((len(solid.vertices), by_face.shape[1]))
    for corner in range(3):
        for axis in range(by_face.shape[1]):
            out[:, axis] += np.bincount(
                solid.faces[:, corner], weights=weighted[:, axis], minlength=len(out)
            )
    return out
