"""What is prepared on a tooth, and what the dentist should still reduce: seats, guiding planes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from shapely import contains_xy
from shapely.geometry import MultiPoint

from claspwright.arch.model import DentalArch, RestSeat, SeatPlace, Tooth
from claspwright.arch.planes import GuidingPlane, find_guiding_plane
from claspwright.arch.seats import find_rest_seat
from claspwright.base import Floats, frozen_floats
from claspwright.geometry import Mesh, face_areas, face_normals

PLANE_MM = {"bounded": 3.0, "free": 1.5}  # least height (check-values B16, B17)
ABOVE_MARGIN_MM = 1.0  # a plane ends so far above the gingival margin
BELOW_TOP_MM = 1.0  # and begins so far below the top of the crown
STEP_MM = 0.1
WALL_COSINE = 0.7  # of the angle between a wall's normal and the occlusal direction
FLOOR_SHARE = 0.7  # of a seat's outline that its floor is fitted over


@dataclass(frozen=True, slots=True, eq=False)
class SeatReading:
    """A rest seat with the angles of its floor; arch frame."""

    seat: RestSeat
    floor_to_axis_deg: float | None  # floor inwards against the tooth's axis towards the root
    floor_to_connector_deg: float | None  # the same against a minor connector along the path
    reduce_mm: float  # what the floor still lies too high; 0 where it is deep enough
    wanted_mm: float  # depth under the marginal ridge that is asked for


@dataclass(frozen=True, slots=True, eq=False)
class PlaneReading:
    """A guiding plane as it is, and the least reduction that makes it high enough."""

    plane: GuidingPlane
    wanted_mm: float  # height along the path
    reduce_mm: float  # deepest cut; 0 where the plane is high enough
    at: Floats  # (3,) where the most is to be taken off [mm]
    from_top_mm: float  # the plane would begin so far below the top of the crown

    @property
    def width_mm(self) -> float:
        """Mean width of the facet that is there [mm]."""
        return self.plane.area_mm2 / max(self.plane.height_mm, STEP_MM)

    def __post_init__(self) -> None:
        object.__setattr__(self, "at", frozen_floats(self.at, (3,), "at"))


def read_seat(
    arch: DentalArch, tooth: int, where: SeatPlace, path: Floats, *, wanted_mm: float
) -> SeatReading:
    """Measure a rest seat, or the place where one is asked for.

    Args:
        arch: the arch with its teeth.
        tooth: ISO 3950 code of a present tooth.
        where: which seat.
        path: (3,) unit vector out of the mouth.
        wanted_mm: least depth of the floor under the marginal ridge.

    Raises:
        InputError: the tooth does not stand, or has no such place.
    """
    seat = find_rest_seat(arch, tooth, where)
    reduce = max(0.0, wanted_mm - seat.depth_mm)
    normal = _floor_normal(arch, seat)
    if not seat.prepared or normal is None:
        return SeatReading(seat, None, None, reduce, wanted_mm)
    inwards = seat.direction - (seat.direction @ normal) / max(normal[2], 0.2) * np.array([0, 0, 1])
    inwards = inwards / np.linalg.norm(inwards)
    axis = long_axis(arch, arch.teeth[tooth])
    return SeatReading(seat, _angle(inwards, -axis), _angle(inwards, -path), reduce, wanted_mm)


def read_plane(
    arch: DentalArch, tooth: int, where: Literal["mesial", "distal"], path: Floats, *, free: bool
) -> PlaneReading:
    """Measure a guiding plane, and find the least cut along the path that makes it high enough.

    Args:
        arch: the arch with its teeth.
        tooth: ISO 3950 code of a present tooth.
        where: which proximal surface.
        path: (3,) unit vector out of the mouth.
        free: the base beside it ends free, for which a lower plane is asked.

    Raises:
        InputError: the tooth does not stand.
    """
    plane = find_guiding_plane(arch, tooth, where, path)
    wanted = PLANE_MM["free" if free else "bounded"]
    found = arch.teeth[tooth]
    height, reach, points = _proximal_profile(arch, found, where, path)
    if plane.height_mm >= wanted or not len(height):
        middle = found.centre if not len(points) else points[int(np.argmax(reach))]
        return PlaneReading(plane, wanted, 0.0, middle, BELOW_TOP_MM)
    steps = max(1, int(round(min(wanted, STEP_MM * len(height)) / STEP_MM)))
    windows = np.lib.stride_tricks.sliding_window_view(reach, steps)
    cut = windows.max(axis=1) - windows.min(axis=1)
    best = int(np.argmin(cut))
    most = best + int(np.argmax(windows[best]))
    top = float(height[0] + BELOW_TOP_MM)
    return PlaneReading(plane, wanted, float(cut[best]), points[most], float(top - height[best]))


def long_axis(arch: DentalArch, tooth: Tooth) -> Floats:
    """(3,) unit vector from root to crown, as far as the crown shows it.

    The direction that the walls of the crown run along: the one across which their normals lie
    most nearly, found by least squares over the faces steeper than about 45 degrees.
    """
    crown = Mesh(arch.scan.surface.vertices, arch.scan.surface.faces[tooth.faces])
    normals, areas = face_normals(crown), face_areas(crown)
    walls = np.abs(normals[:, 2]) < WALL_COSINE
    if walls.sum() < 10:
        return np.array([0.0, 0.0, 1.0])
    spread = (normals[walls] * areas[walls, None]).T @ normals[walls]
    axis = np.linalg.eigh(spread)[1][:, 0]
    return np.asarray(axis * np.sign(axis[2] or 1.0))


def _floor_normal(arch: DentalArch, seat: RestSeat) -> Floats | None:
    """(3,) mean normal of the floor of a seat; None where the scan shows too few faces of it."""
    if len(seat.outline) < 3:
        return None
    hull = MultiPoint(seat.outline[:, :2]).convex_hull
    middle = seat.point[:2]
    surface = arch.scan.surface
    faces = arch.teeth[seat.tooth].faces
    centres = surface.corners[faces].mean(axis=1)
    grown = middle + (centres[:, :2] - middle) / FLOOR_SHARE
    normals = face_normals(surface)[faces]
    inside = contains_xy(hull, grown[:, 0], grown[:, 1]) & (normals[:, 2] > 0.7)
    if inside.sum() < 4:
        return None
    rows = np.column_stack([np.ones(int(inside.sum())), centres[inside][:, :2] - middle])
    slope = np.linalg.lstsq(rows, centres[inside][:, 2], rcond=None)[0]
    normal = np.array([-slope[1], -slope[2], 1.0])
    return np.asarray(normal / np.linalg.norm(normal))


def _angle(a: Floats, b: Floats) -> float:
    return float(np.degrees(np.arccos(np.clip(a @ b, -1.0, 1.0))))


def _proximal_profile(
    arch: DentalArch, tooth: Tooth, where: str, path: Floats
) -> tuple[Floats, Floats, Floats]:
    """Steps down a proximal surface: (K,) height along the path, (K,) reach, (K, 3) the point."""
    out = tooth.mesial if where == "mesial" else tooth.distal
    out = out - (out @ path) * path
    out = out / np.linalg.norm(out)
    points = arch.scan.surface.corners[tooth.faces].mean(axis=1)
    across = np.abs((points - tooth.centre) @ np.cross(path, out))
    points = points[across < 0.25 * tooth.buccolingual_mm]
    if not len(points):
        return np.empty(0), np.empty(0), np.empty((0, 3))
    height, reach = points @ path, points @ out
    low = float((tooth.margin @ path).min()) + ABOVE_MARGIN_MM
    near = np.linalg.norm(tooth.margin - points[int(np.argmax(reach))], axis=1)
    low = max(low, float(tooth.margin[int(np.argmin(near))] @ path) + ABOVE_MARGIN_MM)
    rows = []
    level = float(height.max()) - BELOW_TOP_MM
    while level > low:
        band = np.flatnonzero(np.abs(height - level) < max(STEP_MM, 0.5 * arch.scan.edge_mm))
        if len(band):
            k = int(band[np.argmax(reach[band])])
            rows.append((level, float(reach[k]), points[k]))
        level -= STEP_MM
    if not rows:
        return np.empty(0), np.empty(0), np.empty((0, 3))
    return (
        np.array([row[0] for row in rows]),
        np.array([row[1] for row in rows]),
        np.array([row[2] for row in rows]),
    )
