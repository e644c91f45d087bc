"""The framework as it must be built, so that it has its designed form after finishing."""

from __future__ import annotations

import numpy as np

from claspwright.app.case_areas import regions_of
from claspwright.base import Bools, Floats
from claspwright.framework import Framework
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    Rigid,
    closest_points,
    face_normals,
    simplified,
    vertex_normals,
)
from claspwright.inspection import region_of_faces
from claspwright.process import FinishingPlan, SurfaceKind

TO_BUILD = "framework_to_build.stl"  # beside framework.stl, which is the finished form
INNER_MM = 0.03  # a face this near to the blocked-out model is of the inner side
HALVINGS = 6  # of the growth where a face would turn over
TURNED = 0.3  # least cosine between a face before and after
_INNER: dict[str, SurfaceKind] = {"rests": "rest", "arms": "arm"}  # the others: tissue
SLIVER_MM = 0.0005  # what collapsing slivers may move the surface by


def as_built(framework: Framework, plan: FinishingPlan) -> Mesh:
    """The solid grown, surface by surface, by what finishing takes off; arch frame.

    Each vertex moves out along its normal by the allowance of the faces round it. Where a narrow
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
    """The solid with each vertex moved out by the mean allowance of its faces, weighted by area.

    Where a face would turn over, its corners move less: half, and so on, at last not at all.

    Args:
        solid: closed, normals outside.
        by_face_mm: (F,) how far each face is to move out.
    """
    wanted = _at_vertices(solid, by_face_mm)
    normals, faces = vertex_normals(solid), face_normals(solid)
    share = np.ones(len(wanted))
    rounds = 0
    while True:  # ends: what has turned is set back, and nothing set back wholly can turn
        moved = Mesh(solid.vertices + (share * wanted)[:, None] * normals, solid.faces)
        turned: Bools = np.einsum("fd,fd->f", face_normals(moved), faces) < TURNED
        turned &= (faces != 0.0).any(axis=1)
        at = np.unique(solid.faces[turned])
        at = at[share[at] > 0.0]
        if not len(at):
            return moved
        share[at] *= 0.5 if rounds < HALVINGS else 0.0
        rounds += 1


def _at_vertices(solid: Mesh, by_face: Floats) -> Floats:
    corners = solid.corners
    area = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]),
                          axis=1)  # fmt: skip
    count = len(solid.vertices)
    total, weight = np.zeros(count), np.zeros(count)
    for corner in range(3):
        total += np.bincount(solid.faces[:, corner], weights=area * by_face, minlength=count)
        weight += np.bincount(solid.faces[:, corner], weights=area, minlength=count)
    return np.asarray(np.divide(total, weight, out=np.zeros(count), where=weight > 0))
