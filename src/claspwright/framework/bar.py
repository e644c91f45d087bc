"""The lingual bar: a half-pear section that follows the tissue below the gingival margins."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.ndimage import gaussian_filter1d, maximum_filter1d, minimum_filter1d
from shapely.geometry import MultiPoint, Point
from shapely.ops import unary_union

from claspwright.base import Floats, Singles
from claspwright.framework import _sweep_kernels as kernels
from claspwright.framework.canvas import FAR, Shape, box_round
from claspwright.framework.design import MajorConnector
from claspwright.framework.ground import Ground, Piece, steady_normals
from claspwright.framework.model import Component
from claspwright.framework.stations import SPACING, Stations
from claspwright.framework.terrain import Terrain
from claspwright.geometry import arc_lengths, resampled, smoothed

TABLE_STEP = 0.05
EMBED = 0.8  # mm that the section reaches below the surface before it is cut


@dataclass(frozen=True, slots=True, eq=False)
class BarLine:
    """The middle of the bar on the surface; grid frame, mm."""

    line: Floats  # (N, 3)
    station: Floats  # (N,) index into the stations


def bar_line(
    ground: Terrain, stations: Stations, wanted: MajorConnector, ends: tuple[int, int]
) -> BarLine:
    """Lay the bar's middle between two stations.

    The upper border keeps its distance below the lingual margins, measured over the surface;
    between teeth and over spans the height is carried on smoothly.
    """
    first, last = ends
    reach = wanted.margin_distance_mm + wanted.height_mm / 2
    z = np.full(len(stations.plan), np.nan)
    for n in range(len(stations.plan)):
        if stations.on_tooth[n] < 0.5:
            continue
        profile = ground.profile(stations.plan[n], stations.inward[n], 14.0)
        if len(profile) < 5:
            continue
        s = arc_lengths(profile)
        z[n] = np.interp(reach, s, profile[:, 2])
    known = np.flatnonzero(~np.isnan(z))
    if known.size == 0:
        z[:] = stations.height - reach
    else:
        z = np.interp(np.arange(len(z)), known, z[known])
    lowest = minimum_filter1d(z, int(6.0 / SPACING))
    z = gaussian_filter1d(lowest, 5.0 / SPACING, mode="nearest")
    for _ in range(3):  # where the even line comes too near to a margin it is let down
        over = maximum_filter1d(np.maximum(z - lowest, 0.0), int(8.0 / SPACING))
        z = z - gaussian_filter1d(over, 2.0 / SPACING, mode="nearest")
    points, at = [], []
    for n in range(first, last + 1):
        spot = _wall_point(ground, stations.plan[n], stations.inward[n], float(z[n]))
        if spot is not None:
            points.append(spot)
            at.append(float(n))
    line = np.array(points)
    smooth = smoothed(resampled(line, 0.4), 3.0)
    laid = ground.settle(smooth)
    laid = smoothed(laid, 1.0)
    where = np.interp(
        arc_lengths(laid) / max(arc_lengths(laid)[-1], 1e-9),
        arc_lengths(line) / max(arc_lengths(line)[-1], 1e-9),
        at,
    )
    return BarLine(laid, where)


def _wall_point(ground: Terrain, start: Floats, inward: Floats, z: float) -> Floats | None:
    """Where the tongue-side wall passes through a height, going inwards from a station."""
    s = np.arange(0.0, 16.0, 0.1)
    plan = start + s[:, None] * inward
    heights = ground.height(plan)
    good = ~np.isnan(heights)
    below = np.flatnonzero(good & (heights <= z))
    if below.size == 0:
        return None
    n = int(below[0])
    return np.array([plan[n, 0], plan[n, 1], z])


def pear_section(height: float, thickness: float) -> tuple[Singles, Floats]:
    """Signed distance table of a half-pear, thickest in its lower third.

    Args:
        height: along the surface [mm].
        thickness: off the surface [mm].

    Returns:
        (U, W) table over (across: up positive, off the surface) and its lowest corner [mm].

    Source:
        check-values C22: half-pear, thickest inferiorly.
    """
    big = min(0.29 * height, 0.58 * thickness)
    small = 0.13 * height
    outline = MultiPoint(
        [
            *Point(-height / 2 + big, thickness - big).buffer(big, 24).exterior.coords,
            *Point(height / 2 - small, 0.42 * thickness - small).buffer(small, 24).exterior.coords,
            (-height / 2 + 0.25 * big, 0.0),
            (height / 2 - 0.4 * small, 0.0),
        ]
    ).convex_hull
    foot = MultiPoint(
        [
            (-height / 2 + 0.25 * big, 0.05),
            (height / 2 - 0.4 * small, 0.05),
            (-height / 2 + 0.35 * big, -EMBED),
            (height / 2 - 0.5 * small, -EMBED),
        ]
    ).convex_hull
    ring = np.array(unary_union([outline, foot]).exterior.coords)[:-1]
    low = np.array([-height / 2 - 1.6, -EMBED - 1.6])
    us = np.arange(low[0], height / 2 + 1.6, TABLE_STEP)
    ws = np.arange(low[1], thickness + 1.6, TABLE_STEP)
    table = kernels.polygon_distance(us, ws, ring, np.array([0.0, float(len(ring))]), 9.0)
    return np.asarray(table, np.float32), low


def section_sweep(
    ground: Terrain, line: Floats, normal: Floats, table: Singles, low: Floats
) -> Shape:
    """Sweep a section table along a line."""
    size = float(np.hypot(*(np.array(table.shape) * TABLE_STEP)) / 2)
    reach = size + 0.3
    box = box_round(ground.grid, line, reach)
    out = np.full(box.shape, FAR, np.float32)
    best = np.full(box.shape, FAR * FAR, np.float32)
    kernels.sweep_section(
        out,
        best,
        box.low,
        ground.grid.spacing,
        np.ascontiguousarray(line),
        np.ascontiguousarray(normal),
        table,
        low,
        TABLE_STEP,
        reach,
    )
    return Shape(box, out)


def lay_bar(ground: Ground, placed: BarLine, wanted: MajorConnector) -> Piece:
    """Build the bar on the relieved surface along its laid line."""
    line = ground.laid.settle(placed.line)
    line = smoothed(resampled(line, 0.4), 0.8)
    table, low = pear_section(wanted.height_mm, wanted.thickness_mm)
    normal = steady_normals(ground.laid, line, 2.5)
    shape = section_sweep(ground.laid, line, normal, table, low)
    component = Component(
        "major_connector",
        "major connector",
        ground.back(line),
        np.array([wanted.height_mm]),
        np.array([wanted.thickness_mm]),
        None,
        {"length_mm": float(arc_lengths(line)[-1]), "height_mm": wanted.height_mm},
    )
    return Piece(component, shape, 0.8)
