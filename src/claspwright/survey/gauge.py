"""The undercut gauge: what it reads at points of a body or of a surveyed arch."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Bools, Floats
from claspwright.geometry import DistanceTree, closest_points, in_chunks
from claspwright.survey import _reading_kernels as kernels
from claspwright.survey.model import Survey
from claspwright.survey.shadow import Shadow

REACH_MM = 3.0  # readings beyond this are given as this
LIP_RADIUS_MM = 0.05  # own choice, no source: of the thinnest thing that counts as a way out
GRAZE_MM = 0.03  # depth by which the gauge's level way may graze the solid
LIFT_MM = 0.002  # off the surface, so that a point is not covered by its own faces
SNAP_MM = 0.1  # points this near to the surface are taken to lie on it
POINTS_A_CHUNK = 1024


@dataclass(frozen=True, slots=True, eq=False)
class GaugeReading:
    """What the gauge reads at N points on a surface."""

    undercut_mm: Floats  # (N,) 0 where the way out is free; the reach where it is that or more
    below_survey_line_mm: Floats  # (N,) along the path; 0 where free, NaN beyond the reach
    free_points: Floats  # (N, 3) nearest point with a free way out; NaN beyond the reach
    narrow: Bools  # (N,) a nearer way out is too narrow for the gauge's lip and was left out
    open_border: Bools  # (N,) the free point lies on the open border of the surface


def gauge(survey: Survey, points: Floats) -> GaugeReading:
    """Reading of the undercut gauge at (N, 3) points on the surface, arch frame [mm].

    The undercut is the distance, in the plane through the point across the path, to the
    nearest point from which the way out is free, without passing through the solid. The height
    is that from the point up to where the gauge's upright touches. Points within 0.1 mm of the
    surface are read on it, others where they are.

    Raises:
        InputError: the survey keeps no solid.

    Source:
        check-values B10.
    """
    tree, shadow = survey.solid_and_shadow()
    return gauge_near(tree, shadow, points)


def gauge_near(
    tree: DistanceTree, shadow: Shadow, points: Floats, *, reach_mm: float = REACH_MM
) -> GaugeReading:
    """The same for a body given by its tree and its shadow along the path."""
    points = np.atleast_2d(np.asarray(points, dtype=np.float64))
    near = closest_points(tree, points, SNAP_MM)
    on = near.faces >= 0
    normals = np.zeros_like(points)
    if on.any():
        corners = tree.vertex_normals[tree.mesh.faces[near.faces[on]]]
        normals[on] = np.einsum("nc,ncd->nd", near.weights[on], corners)
    return read_gauge(shadow, near.points, normals, reach_mm=reach_mm)


def read_gauge(
    shadow: Shadow,
    points: Floats,
    normals: Floats,
    *,
    reach_mm: float = REACH_MM,
    lip_radius_mm: float = LIP_RADIUS_MM,
    graze_mm: float = GRAZE_MM,
) -> GaugeReading:
    """Exact readings at (N, 3) points on a mesh with outward normals (N, 3).

    Exact on the triangles as they are: no grid is involved. Ways out narrower than twice the
    lip's radius are left out.

    Args:
        shadow: of the mesh, along the path.
        points: on the mesh [mm].
        normals: outward; they need not be unit, zero for points in the air.
        reach_mm: readings beyond it are given as it.
        lip_radius_mm: 0 counts every slit as a way out.
        graze_mm: depth by which the level way may pass through bumps of the surface.
    """
    points = np.atleast_2d(np.asarray(points, dtype=np.float64))
    size = np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-12)
    turned = np.ascontiguousarray(shadow.frame.apply(points))
    off = np.ascontiguousarray(turned + LIFT_MM * shadow.frame.turn(normals / size))
    count = len(turned)
    undercut, below = np.empty(count), np.empty(count)
    ends, flags = np.empty((count, 2)), np.empty(count, np.uint8)

    def work(first: int, last: int) -> None:
        here = slice(first, last)
        kernels.read_points(
            turned[here], off[here], reach_mm, lip_radius_mm, graze_mm, shadow.plan, shadow.bins,
            shadow.pieces, shadow.border, shadow.piece_bins, undercut[here], below[here],
            ends[here], flags[here],
        )  # fmt: skip

    in_chunks(work, count, POINTS_A_CHUNK)
    free = shadow.frame.inverse().apply(np.column_stack([ends, turned[:, 2]]))
    free[np.isnan(below)] = np.nan
    return GaugeReading(
        undercut, below, free, (flags & kernels.NARROW) > 0, (flags & kernels.OPEN) > 0
    )
