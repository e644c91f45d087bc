"""The framework as it must be built, so that it has its designed form after finishing."""

from __future__ import annotations

import numpy as np
from scipy.sparse import csr_array

from claspwright.app.case_areas import regions_of
from claspwright.base import Bools, Floats
from claspwright.framework import Framework
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    Rigid,
    closest_points,
    face_areas,
    face_normals,
    simplified,
    vertex_normals,
)
from claspwright.inspection import region_of_faces
from claspwright.process import FinishingPlan, SurfaceKind

TO_BUILD = "framework_to_build.stl"  # beside framework.stl, which is the finished form
INNER_MM = 0.03  # a face this near to the blocked-out model is of the inner side
RINGS, EVENINGS = 2, 10  # vertices beside a border of allowances, and rounds of evening out
HALVINGS = 6  # of the growth where a face would turn over
TURNED = 0.3  # least cosine between a face before and after
_INNER: dict[str, SurfaceKind] = {"rests": "rest", "arms": "arm"}  # the others: tissue
SLIVER_MM = 0.0005  # what collapsing slivers may move the surface by


def as_built(framework: Framework, plan: FinishingPlan) -> Mesh:
    """The solid grown, surface by surface, by what finishing takes off; arch frame.

    Each vertex moves out by the allowance of the faces round it. Where a narrow
    groove leaves no room it grows less, so that no face turns over. Slivers are collapsed before,
    as their normals mislead, and after, so the faces are not those of the design.

    Source:
        the allowances are common practice without a source; see `finishing.toml`.
    """
    allowed = plan.allowances_mm()
    if not any(allowed.values()):
        return framework.solid
    solid = simplified(framework.solid, SLIVER_MM)
    kinds = surface_kinds(framework, solid)
    by_face = np.zeros(len(solid.faces))
    for kind, mm in allowed.items():
        by_face[kinds == kind] = mm
    return simplified(grown(solid, by_face), SLIVER_MM)


def carried_over(flags: Bools, design: Mesh, solid: Mesh) -> Bools:
    """(F,) flags of the faces of the design, on the nearest faces of the solid to build."""
    if solid is design:
        return flags
    centres = solid.corners.mean(axis=1)
    nearest = closest_points(DistanceTree(design), centres, 1.0).faces
    return np.asarray(flags[nearest] & (nearest >= 0))


def surface_kinds(framework: Framework, solid: Mesh) -> np.ndarray[tuple[int], np.dtype[np.str_]]:
    """(F,) kind of surface of each face: tissue, rest, arm on the inner side, else polished.

    Args:
        framework: with the blocked-out model and the lines of the components.
        solid: its solid, or the same with other faces; arch frame.
    """
    centres = solid.corners.mean(axis=1)
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
    """The solid with each vertex moved out by the allowance of its faces.

    Where allowances meet, the motion is evened out along the surface, but never beyond the
    allowance of the side that loses less. Where a face would turn over, its corners move less:
    half, and so on, at last not at all.

    Args:
        solid: closed, normals outside.
        by_face_mm: (F,) how far each face is to move out.
    """
    motion, faces = _evened(solid, by_face_mm), face_normals(solid)
    share = np.ones(len(motion))
    rounds = 0
    while True:  # ends: what has turned is set back, and nothing set back wholly can turn
        moved = Mesh(solid.vertices + share[:, None] * motion, solid.faces)
        turned: Bools = np.einsum("fd,fd->f", face_normals(moved), faces) < TURNED
        turned &= (faces != 0.0).any(axis=1)
        at = np.unique(solid.faces[turned])
        at = at[share[at] > 0.0]
        if not len(at):
            return moved
        share[at] *= 0.5 if rounds < HALVINGS else 0.0
        rounds += 1


def _evened(solid: Mesh, by_face: Floats) -> Floats:
    """(V, 3) motion of the vertices [mm], evened out where allowances meet."""
    count = len(solid.vertices)
    everywhere = np.ones(len(by_face))
    total, weight = (_summed(solid, each[:, None])[:, 0] for each in (by_face, everywhere))
    mean = np.divide(total, weight, out=np.zeros(count), where=weight > 0)
    motion = np.asarray(mean[:, None] * vertex_normals(solid))
    less = (by_face < by_face.max() - 1e-9).astype(float)  # faces of the side that loses less
    if not less.any():
        return motion
    normal = _summed(solid, less[:, None] * face_normals(solid))
    length = np.linalg.norm(normal, axis=1, keepdims=True)
    normal = np.divide(normal, length, out=np.zeros_like(normal), where=length > 0)
    touched = _summed(solid, less[:, None])[:, 0]
    most = _summed(solid, (less * by_face)[:, None])[:, 0]
    most = np.divide(most, touched, out=np.full(count, np.inf), where=touched > 0)
    start, end = solid.faces.ravel(), np.roll(solid.faces, -1, axis=1).ravel()
    links = csr_array((np.ones(len(start)), (start, end)), shape=(count, count))
    links = links + links.T
    at = (touched > 0) & (touched < weight * (1.0 - 1e-9))
    for _ in range(RINGS):
        at |= (links @ at.astype(float)) > 0
    near = np.flatnonzero(at)
    beside = links[near]
    number: Floats = np.asarray(beside.sum(axis=1), dtype=np.float64).reshape(-1, 1)
    for _ in range(EVENINGS):
        motion[near] = 0.5 * motion[near] + 0.5 * np.asarray(beside @ motion) / number
        over = np.einsum("vd,vd->v", motion, normal) - most
        motion -= np.maximum(over, 0.0)[:, None] * normal
    return motion


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
