"""Undercut lines: where the gauge reads a depth, as smooth curves on each crown."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.arch import DentalArch
from claspwright.base import Bools, Floats, InputError
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    closest_points,
    length,
    level_lines,
    mesh_edges,
    smoothed,
    vertex_normals,
)
from claspwright.survey.gauge import GaugeReading, read_gauge
from claspwright.survey.model import Survey
from claspwright.survey.shadow import Shadow

GAUGES_MM = (0.25, 0.50, 0.75)  # check-values B03
FINE_MM = 0.3  # edges to which a crown is cut before it is read
MOST_CUTS = 3  # halvings of the edges
SMOOTH_MM = 0.25  # reach of the smoothing along a line
LEAST_LINE_MM = 0.8
LEAST_LOOP_MM = 2.5  # a shorter closed line is a dent, not an undercut of the crown


@dataclass(frozen=True, slots=True, eq=False)
class UndercutLine:
    """One line of equal undercut on a crown, arch frame."""

    tooth: int
    undercut_mm: float
    points: Floats  # (N, 3) on the surface; a closed line repeats its first point [mm]
    below_survey_line_mm: Floats  # (N,) along the path; NaN where the reading ends elsewhere
    convergence_deg: Floats  # (N,) of the surface to the path, positive where it narrows

    @property
    def length_mm(self) -> float:
        """Length along the line [mm]."""
        return length(self.points)


def undercut_lines(
    arch: DentalArch, survey: Survey, tooth: int, depths_mm: tuple[float, ...] = GAUGES_MM
) -> tuple[UndercutLine, ...]:
    """Smooth lines on a crown where the gauge reads each of the depths, deeper ones later.

    The crown is cut to edges of 0.3 mm and read exactly there; lines are smoothed along
    themselves and laid back onto the surface. Open pieces under 0.8 mm and closed ones under
    2.5 mm are left out.

    Raises:
        InputError: the arch has no such tooth, or a depth is not positive.

    Source:
        check-values B03 for the depths, B10 for the reading.
    """
    if tooth not in arch.teeth:
        raise InputError(f"tooth {tooth} is not among {sorted(arch.teeth)}")
    for depth in depths_mm:
        if not depth > 0:
            raise InputError(f"an undercut line needs a positive depth, got {depth} mm")
    faces = arch.crown_of_face == tooth
    if not faces.any():
        return ()
    tree, shadow = survey.solid_and_shadow()
    crown, normals = _cut_finely(arch.scan.surface, faces)
    undercut = read_gauge(shadow, crown.vertices, normals).undercut_mm
    patch = DistanceTree(crown)
    found = []
    for depth in depths_mm:
        lines = [_smooth_on(patch, line) for line in level_lines(crown, undercut, depth)]
        for line in sorted(filter(_long_enough, lines), key=length, reverse=True):
            found.append(_described(line, tooth, depth, tree, shadow, survey.path.direction))
    return tuple(found)


def undercut_line(
    arch: DentalArch, survey: Survey, tooth: int, depth_mm: float
) -> tuple[Floats, ...]:
    """(N, 3) lines on a crown where the gauge reads one depth, the longest first [mm].

    Raises:
        InputError: the arch has no such tooth, or the depth is not positive.
    """
    return tuple(line.points for line in undercut_lines(arch, survey, tooth, (depth_mm,)))


def convergence_deg(normals: Floats, direction: Floats) -> Floats:
    """(N,) angle of a surface to the path, positive where it narrows towards the tissue."""
    return np.asarray(np.degrees(np.arcsin(np.clip(-(normals @ direction), -1.0, 1.0))))


def _described(
    line: Floats, tooth: int, depth: float, tree: DistanceTree, shadow: Shadow, direction: Floats
) -> UndercutLine:
    near = closest_points(tree, line)
    corners = tree.vertex_normals[tree.mesh.faces[near.faces]]
    normals = np.einsum("nc,ncd->nd", near.weights, corners)
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-12)
    read: GaugeReading = read_gauge(shadow, near.points, normals)
    return UndercutLine(
        tooth, depth, line, read.below_survey_line_mm, convergence_deg(normals, direction)
    )


def _cut_finely(surface: Mesh, faces: Bools) -> tuple[Mesh, Floats]:
    """A patch of a surface with halved edges, and unit normals at its vertices."""
    used, index = np.unique(surface.faces[faces], return_inverse=True)
    patch = Mesh(surface.vertices[used], np.asarray(index.reshape(-1, 3), np.int32))
    normals = vertex_normals(surface)[used]
    ends = patch.vertices[mesh_edges(patch)[0]]
    edge = float(np.median(np.linalg.norm(ends[:, 0] - ends[:, 1], axis=1)))
    for _ in range(int(np.clip(np.ceil(np.log2(max(edge, 1e-6) / FINE_MM)), 0, MOST_CUTS))):
        patch, normals = _halved(patch, normals)
    return patch, normals


def _halved(mesh: Mesh, normals: Floats) -> tuple[Mesh, Floats]:
    pairs, edge_of = mesh_edges(mesh)
    count = len(mesh.vertices)
    a, b, c = mesh.faces.T
    x, y, z = edge_of.T + np.int32(count)  # middles of ab, bc, ca
    cut = ((a, x, z), (x, b, y), (z, y, c), (x, y, z))
    faces = np.asarray(np.concatenate([np.column_stack(three) for three in cut]), np.int32)
    both = np.concatenate([normals, normals[pairs].sum(axis=1)])
    both /= np.maximum(np.linalg.norm(both, axis=1, keepdims=True), 1e-12)
    middles = mesh.vertices[pairs].mean(axis=1)
    return Mesh(np.concatenate([mesh.vertices, middles]), faces), both


def _smooth_on(tree: DistanceTree, line: Floats) -> Floats:
    closed = bool(np.array_equal(line[0], line[-1]))
    laid = closest_points(tree, smoothed(line, SMOOTH_MM, closed=closed)).points
    if closed:
        laid[-1] = laid[0]
    return laid


def _long_enough(line: Floats) -> bool:
    closed = bool(np.array_equal(line[0], line[-1]))
    return length(line) >= (LEAST_LOOP_MM if closed else LEAST_LINE_MM)
