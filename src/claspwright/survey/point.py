"""The undercut gauge set on one point of any mesh, with what explains its reading."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats, InputError
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    closest_points,
    is_watertight,
    vertex_normals,
    volume,
)
from claspwright.survey import _reading_kernels as kernels
from claspwright.survey.gauge import LIP_RADIUS_MM, read_gauge
from claspwright.survey.shadow import Shadow, cast_shadow

FARTHEST_MM = 2.0  # from the mesh that a point may lie
WIDE_REACH_MM = 10.0
LIKELY_SIZE_MM = (3.0, 300.0)  # of a mesh in mm


@dataclass(frozen=True, slots=True, eq=False)
class PointReading:
    """What the gauge reads at one point, in the frame of the mesh."""

    undercut_mm: float  # 0 where the way out is free
    below_survey_line_mm: float | None  # along the path, negative above it; None where no line is
    convergence_deg: float  # of the surface to the path at the point; positive where it undercuts
    point_mm: Floats  # (3,) on the surface
    moved_mm: float  # from the point given to that on the surface
    free_point_mm: Floats | None  # (3,) nearest point with a free way out, of the same plane
    path: Floats  # (3,) unit, out of the mouth
    closed: bool  # the mesh is a solid; else its outer side was read as a surface
    notes: tuple[str, ...]


def gauge_mesh(mesh: Mesh, path: Floats, point: Floats) -> PointReading:
    """Set the undercut gauge on one point of any mesh.

    The undercut is the distance, in the plane through the point across the path, to the nearest
    point from which the way out is free, the way there not passing through the solid. The
    convergence is the angle between the path and the surface, in the plane of its normal n:
    asin(-n . path), so that a wall that narrows towards the tissue is positive. The height is
    that along the path up to where the upright, set at the free point, touches.

    Args:
        mesh: closed, or open: then it is read as a surface, never with space behind it.
        path: (3,) direction out of the mouth, of any length.
        point: (3,) within 2 mm of the mesh; the nearest point of the surface is read [mm].

    Raises:
        InputError: no faces, no direction, or a point too far from the mesh.

    Source:
        check-values B10, B29, B30; angle of convergence as the Glossary of Prosthodontic Terms
        has it, from memory.
    """
    direction = _unit(path)
    if not len(mesh.faces):
        raise InputError("the mesh has no faces", remedy="Give a scan or a model with triangles.")
    notes = _size_notes(mesh)
    closed = is_watertight(mesh)
    if closed and volume(mesh) < 0:
        mesh = Mesh(mesh.vertices, mesh.faces[:, ::-1])
        notes.append("The mesh was inside out and was turned.")
    if not closed:
        notes.append(
            "The mesh is open: it was read as a surface, what lies behind it counting as solid; "
            "nothing is known beyond its border."
        )
    tree = DistanceTree(mesh)
    near = closest_points(tree, np.asarray(point, dtype=np.float64)[None])
    at, moved = near.points[0], abs(float(near.distance[0]))
    if moved > FARTHEST_MM:
        x, y, z = at.tolist()
        raise InputError(
            f"the point lies {moved:.1f} mm from the mesh, more than {FARTHEST_MM:.0f} mm",
            remedy=f"The nearest point of the mesh is {x:.2f},{y:.2f},{z:.2f}.",
        )
    normal = near.weights[0] @ vertex_normals(mesh)[mesh.faces[near.faces[0]]]
    normal /= max(float(np.linalg.norm(normal)), 1e-12)
    shadow = cast_shadow(mesh, direction)
    return _reading(shadow, at, normal, moved, closed, notes)


def _reading(
    shadow: Shadow, at: Floats, normal: Floats, moved: float, closed: bool, notes: list[str]
) -> PointReading:
    direction = shadow.direction
    read = read_gauge(shadow, at[None], normal[None], reach_mm=WIDE_REACH_MM)
    undercut, below = float(read.undercut_mm[0]), float(read.below_survey_line_mm[0])
    height: float | None = None if np.isnan(below) else below
    free: Floats | None = None if np.isnan(below) else read.free_points[0]
    if height is None:
        notes.append(
            f"No free way out within {WIDE_REACH_MM:.0f} mm; the undercut is that or more."
        )
    elif undercut == 0.0:
        height = _over_nearest_line(shadow, at)
        notes.append(_free_words(height))
    if read.narrow[0]:
        notes.append(
            f"A nearer way out is a slit of less than {2 * LIP_RADIUS_MM:.2f} mm; the gauge's lip "
            "does not enter it and it was left out."
        )
    if read.open_border[0]:
        notes.append("The nearest free point lies on the open border of the mesh.")
    slope = float(np.degrees(np.arcsin(np.clip(-normal @ direction, -1.0, 1.0))))
    return PointReading(undercut, height, slope, at, moved, free, direction, closed, tuple(notes))


def _over_nearest_line(shadow: Shadow, at: Floats) -> float | None:
    """How far a free point lies below the outline nearest in plan: negative above it [mm]."""
    x, y, z = shadow.frame.apply(at).tolist()
    piece, part, _ = kernels.nearest_outline(x, y, z, shadow.pieces)
    if piece < 0:
        return None
    row = shadow.pieces[piece]
    level = row[2] + part * (row[5] - row[2]) if np.isnan(row[8]) else row[8]
    return float(level - z)


def _free_words(height: float | None) -> str:
    if height is None:
        return "The way out is free, and the mesh has no survey line along this path."
    if height <= 0.0:
        return f"Not undercut: the point lies {-height:.2f} mm above the survey line."
    return (
        "Not undercut: the way out is free, though the nearest survey line runs "
        f"{height:.2f} mm higher."
    )


def _unit(path: Floats) -> Floats:
    direction = np.asarray(path, dtype=np.float64)
    size = float(np.linalg.norm(direction))
    if direction.shape != (3,) or not np.isfinite(size) or size < 1e-9:
        raise InputError(
            f"the path {np.round(direction, 6).tolist()} has no direction",
            remedy="Give three numbers out of the mouth, such as 0,0,1.",
        )
    return direction / size


def _size_notes(mesh: Mesh) -> list[str]:
    size = float(np.ptp(mesh.vertices, axis=0).max())
    if LIKELY_SIZE_MM[0] <= size <= LIKELY_SIZE_MM[1]:
        return []
    return [f"The mesh measures {size:.3g} mm across; is its unit the millimetre?"]
