"""A chart of one crown: its outer surface by angle round the tooth and height along the path.

Arms are planned on the chart, where the survey line, the undercut and the gingival margin
are functions of the angle, and then taken back to the tooth.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.ndimage import gaussian_filter1d, map_coordinates, median_filter, minimum_filter1d

from claspwright.arch import DentalArch, Tooth
from claspwright.base import Bools, Floats
from claspwright.framework.roof import OPEN, Roof
from claspwright.framework.stray_margin import bridged, stray_angles
from claspwright.framework.terrain import Terrain
from claspwright.geometry import first_exits

ANGLES = 144
RISE = 0.1  # mm between heights
REACH = 9.0  # mm from the axis
ARM_OUT = (0.3, 0.6, 0.9)  # mm off the crown at which an arm asks for room


@dataclass(frozen=True, slots=True, eq=False)
class CrownChart:
    """Radius, undercut and landmarks of a crown; angle 0 is mesial, 90 degrees buccal."""

    centre: Floats  # (3,) point of the axis, grid frame
    mesial: Floats  # (3,) unit, horizontal in the grid frame
    buccal: Floats  # (3,)
    heights: Floats  # (Z,) along the path, grid frame [mm]
    radius: Floats  # (A, Z) from the axis to the surface; NaN where unknown [mm]
    closed: Floats  # (A, Z) the same, the unknown filled from beside [mm]
    undercut: Floats  # (A, Z) distance below the free outline at this angle [mm]
    margin: Floats  # (A,) height of the gingival margin
    rim: Floats  # (M, 3) the gingival margin itself, grid frame
    contour: Floats  # (A,) height of the survey line
    top: Floats  # (A,) height to which the axial surface reaches
    ceiling: Floats  # (A,) height under the opposing teeth beside the crown
    stray: Bools  # (A,) where the mark ran over the crown; margin and rim are bridged there

    @property
    def roofed(self) -> Floats:
        """(A,) height that the upper edge of an arm may reach."""
        return np.minimum(self.top, self.ceiling)

    def angle_of(self, direction: Floats) -> float:
        """Angle of a horizontal direction [rad]."""
        return float(np.arctan2(direction @ self.buccal, direction @ self.mesial))

    def look_up(self, table: Floats, angle: Floats, height: Floats | None = None) -> Floats:
        """Interpolate an (A,) or (A, Z) table at angles [rad] and heights [mm]."""
        a = (np.asarray(angle) / (2 * np.pi) * ANGLES) % ANGLES
        if height is None:
            found = map_coordinates(table, [a], order=1, mode="grid-wrap")
        else:
            k = (np.asarray(height) - self.heights[0]) / RISE
            wrapped = np.concatenate([table, table[:1]])
            found = map_coordinates(wrapped, [a, np.clip(k, 0, table.shape[1] - 1)], order=1)
        return np.asarray(found, np.float64)

    def known(self, angle: float, height: Floats) -> Bools:
        """(N,) whether the surface was found at an angle and heights: not against a neighbour."""
        a = round(angle / (2 * np.pi) * ANGLES) % ANGLES
        k = np.clip(np.round((height - self.heights[0]) / RISE), 0, len(self.heights) - 1)
        return np.asarray(~np.isnan(self.radius[a, k.astype(int)]))

    def points(self, angle: Floats, height: Floats) -> Floats:
        """(N, 3) surface points at angles and heights, grid frame [mm]."""
        r = self.look_up(self.closed, angle, height)
        out = self.centre + r[:, None] * (
            np.cos(angle)[:, None] * self.mesial + np.sin(angle)[:, None] * self.buccal
        )
        out[:, 2] = height
        return np.asarray(out)


def filled(radius: Floats) -> Floats:
    """Fill unknown radii from the nearest known one at the same height, then any."""
    out = radius.copy()
    for k in range(out.shape[1]):
        known = np.flatnonzero(~np.isnan(out[:, k]))
        if known.size and known.size < len(out):
            out[:, k] = np.interp(np.arange(len(out)), known, out[known, k], period=len(out))
    for row in out:
        known = np.flatnonzero(~np.isnan(row))
        if known.size:
            row[:] = np.interp(np.arange(len(row)), known, row[known])
    return np.nan_to_num(out, nan=3.0)


def crown_chart(
    arch: DentalArch, tooth: Tooth, scan: Terrain, blocked: Terrain, roof: Roof | None = None
) -> CrownChart:
    """Chart a crown.

    Args:
        arch: the arch the tooth belongs to.
        tooth: the tooth to chart.
        scan: the bare master solid as terrain.
        blocked: the solid after parallel blockout along the same path.
        roof: the opposing teeth, where known.

    Returns:
        The chart in the survey's grid frame.
    """
    frame = scan.grid.frame
    corners = frame.apply(
        arch.scan.surface.vertices[np.unique(arch.scan.surface.faces[tooth.faces])]
    )
    margin = frame.apply(tooth.margin)
    middle = 0.5 * (np.percentile(corners, 2, axis=0) + np.percentile(corners, 98, axis=0))
    mesial = frame.turn(tooth.mesial)
    mesial = np.array([mesial[0], mesial[1], 0.0]) / np.hypot(mesial[0], mesial[1])
    buccal = frame.turn(tooth.buccal)
    buccal = buccal - (buccal @ mesial) * mesial
    buccal[2] = 0.0
    buccal /= np.linalg.norm(buccal)
    heights = np.arange(margin[:, 2].min() - 2.0, corners[:, 2].max() + RISE, RISE)
    angles = 2 * np.pi * np.arange(ANGLES) / ANGLES
    # from outside the fossae, and no further than the crown: beyond it stands a neighbour
    least = 0.25 * min(tooth.mesiodistal_mm, tooth.buccolingual_mm)
    most = 0.6 * float(np.hypot(tooth.mesiodistal_mm, tooth.buccolingual_mm)) + 0.3
    radius = _radii(scan, middle, mesial, buccal, heights, angles, least)
    radius[radius > most] = np.nan
    rim = margin - middle
    turn = np.arctan2(rim @ buccal, rim @ mesial)
    margin_z = _by_angle(turn, margin[:, 2], angles)
    mark = _by_angle(turn, np.hypot(rim @ mesial, rim @ buccal), angles)
    stray = stray_angles(radius, heights, margin_z, mark)
    if stray.any():
        margin_z, mark = bridged(margin_z, stray), bridged(mark, stray)
        ring = np.cos(angles)[:, None] * mesial + np.sin(angles)[:, None] * buccal
        margin = middle + mark[:, None] * ring
        margin[:, 2] = margin_z
    free = _radii(blocked, middle, mesial, buccal, heights, angles, least)
    undercut = np.nan_to_num(np.maximum(free - radius, 0.0), nan=0.0)
    top, contour = _landmarks(radius, undercut, heights, margin_z)
    ray = np.cos(angles)[:, None] * mesial + np.sin(angles)[:, None] * buccal
    closed = filled(radius)
    ceiling = _ceiling(middle, ray, closed, heights, top, roof)
    return CrownChart(
        middle, mesial, buccal, heights, radius, closed, undercut, margin_z, margin, contour, top,
        ceiling, stray,
    )  # fmt: skip


def _radii(
    ground: Terrain,
    centre: Floats,
    mesial: Floats,
    buccal: Floats,
    heights: Floats,
    angles: Floats,
    least: float,
) -> Floats:
    """(A, Z) distance from the axis to the first way out of the solid beyond `least` [mm]."""
    r = np.arange(max(least, 0.6), REACH, 0.1)
    ray = np.cos(angles)[:, None] * mesial + np.sin(angles)[:, None] * buccal
    spots = centre[None, None, :2] + r[None, :, None] * ray[:, None, :2]
    return first_exits(ground.field, spots, heights, r)


def _ceiling(
    centre: Floats, ray: Floats, radius: Floats, heights: Floats, top: Floats, roof: Roof | None
) -> Floats:
    """(A,) lowest height of the opposing teeth over metal that lies on the crown at each angle."""
    if roof is None:
        return np.full(len(ray), OPEN)
    level = np.clip(np.searchsorted(heights, top - 1.0), 0, len(heights) - 1)
    at = radius[np.arange(len(ray)), level]
    over = [roof.at(centre[:2] + (at + out)[:, None] * ray[:, :2]) for out in ARM_OUT]
    return np.asarray(minimum_filter1d(np.minimum.reduce(over), 5, mode="wrap"))


def _by_angle(angle: Floats, value: Floats, angles: Floats) -> Floats:
    order = np.argsort(angle)
    return np.interp(angles, angle[order], value[order], period=2 * np.pi)


def _landmarks(
    radius: Floats, undercut: Floats, heights: Floats, margin: Floats
) -> tuple[Floats, Floats]:
    """Heights of the occlusal limit of the axial surface and of the survey line, by angle."""
    top = np.empty(len(radius))
    contour = np.empty(len(radius))
    for a, row in enumerate(radius):
        known = np.flatnonzero(~np.isnan(row) & (heights > margin[a]))
        if known.size < 3:
            top[a], contour[a] = margin[a] + 3.0, margin[a] + 1.5
            continue
        reach = np.nanmax(row[known])
        # the axial surface ends where the outline has drawn in by a millimetre towards the cusps
        high = known[row[known] > reach - 1.2]
        top[a] = heights[high[-1]]
        deep = known[(undercut[a, known] > 0.015) & (heights[known] <= top[a])]
        contour[a] = heights[deep[-1]] + RISE if deep.size else margin[a]
    top = gaussian_filter1d(median_filter(top, 9, mode="wrap"), 2.0, mode="wrap")
    contour = gaussian_filter1d(median_filter(contour, 7, mode="wrap"), 1.5, mode="wrap")
    return top, np.minimum(contour, top)
