"""The lingual bar: a half-pear section that follows the tissue below the gingival margins.

The line is fair: evened over the surface again and again, pressed down where its upper border
would come too near to a margin. Its ends turn into what they join, tapering, as wax is drawn out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from scipy.ndimage import gaussian_filter1d, maximum_filter1d, minimum_filter1d
from scipy.spatial import cKDTree
from shapely.geometry import MultiPoint, Point
from shapely.ops import unary_union

from claspwright.base import Floats, InfeasibleError
from claspwright.framework.apron import cingulum_rise, tooth_rows
from claspwright.framework.canvas import Section, section_sweep
from claspwright.framework.design import MajorConnector
from claspwright.framework.ground import Ground, Piece, steady_normals
from claspwright.framework.model import Component
from claspwright.framework.stations import SPACING, Stations, lingual_margin
from claspwright.framework.terrain import Terrain
from claspwright.geometry import (
    arc_lengths,
    resampled,
    smoothed,
    tangents,
)

EMBED = 2.2  # mm that the section reaches below the surface before it is cut
STEP = 0.4  # mm along a line
FAIR_MM = 6.0  # over which the line is evened in each round
ROUNDS = 16
PULL = 0.15  # share of its way home that the line goes in a round
LET_DOWN_MM = 1.5  # by which the line may be pressed below its asked height
SPAN_MM = 1.2  # off the surface that a line may span a corner; metal fills what is behind
NORMAL_MM = 3.5  # over which the section's turn is evened


@dataclass(frozen=True, slots=True, eq=False)
class BarLine:
    """The middle of a bar on the surface, patient's right end first; grid frame, mm."""

    line: Floats  # (N, 3)
    height_share: Floats  # (N,) of the bar's height; less where an end tapers
    thickness_share: Floats  # (N,)


@dataclass(frozen=True, slots=True, eq=False)
class Turn:
    """What one end of a bar runs into; grid frame, mm."""

    point: Floats  # (3,) where the bar ends
    along: Floats  # (3,) direction in which it arrives there
    leaves_at: Floats  # (3,) place on the bar from which it tapers
    height_share: float  # at the end
    thickness_share: float


def bar_line(
    ground: Terrain,
    stations: Stations,
    wanted: MajorConnector,
    ends: tuple[int, int],
    margins: list[Floats],
    below_mm: float,
) -> BarLine:
    """Lay a bar's middle between two stations.

    Args:
        ground: surface to lay it on.
        stations: along the arch.
        wanted: sizes.
        ends: first and last station.
        margins: (N, 3) gingival margins that the upper border keeps its distance from.
        below_mm: from a margin down to the middle of the bar, over the surface.
    """
    z = _asked_heights(ground, stations, below_mm)
    points = [
        _wall_point(ground, stations.plan[n], stations.inward[n], float(z[n]))
        for n in range(ends[0], ends[1] + 1)
    ]
    line = np.array([spot for spot in points if spot is not None])
    line = resampled(line, STEP)
    keep = np.vstack(margins) if margins else np.zeros((0, 3))
    keep = keep[keep[:, 2] > line[:, 2].min() - 20.0]
    for _ in range(ROUNDS):
        line = _pressed_down(ground, faired(ground, line), keep, wanted)
    line = bridged(ground, smoothed(resampled(line, STEP), 2.0))
    return BarLine(line, np.ones(len(line)), np.ones(len(line)))


def crown_bar_line(ground: Ground, stations: Stations, teeth: Sequence[int]) -> BarLine:
    """Lay a bar's middle over the cingula of a row of teeth.

    Raises:
        InfeasibleError: a tooth is missing in the row.
    """
    rows = tooth_rows(ground.arch, teeth)
    if len(rows) != 1:
        raise InfeasibleError(
            "a cingulum bar runs over standing teeth only, and the row is broken",
            place="major_connector",
            remedy="Choose a lingual bar or a lingual plate",
        )
    points = []
    for code in rows[0]:
        tooth = ground.tooth(code)
        point = lingual_margin(ground, tooth)
        height = float(point[2]) + cingulum_rise(tooth)
        inward = ground.aim(tooth.lingual)[:2]
        spot = _wall_point(ground.blocked, point[:2] - 3.5 * inward, inward, height)
        if spot is not None:
            points.append(spot)
    line = ground.blocked.settle(resampled(np.array(points), STEP))
    for _ in range(4):
        line = faired(ground.blocked, line)
    line = bridged(ground.blocked, smoothed(resampled(line, STEP), 1.0))
    return BarLine(line, np.ones(len(line)), np.ones(len(line)))


def _asked_heights(ground: Terrain, stations: Stations, below_mm: float) -> Floats:
    """(N,) height of a bar's middle at each station, evened, never above what a tooth asks."""
    z = np.full(len(stations.plan), np.nan)
    for n in np.flatnonzero(stations.on_tooth >= 0.5):
        profile = ground.profile(stations.plan[n], stations.inward[n], 14.0)
        z[n] = _height_below(profile, float(stations.height[n]), below_mm)
    known = np.flatnonzero(~np.isnan(z))
    if known.size == 0:
        return np.asarray(stations.height - below_mm)
    z = np.interp(np.arange(len(z)), known, z[known])
    lowest = minimum_filter1d(z, int(6.0 / SPACING))
    z = gaussian_filter1d(lowest, 5.0 / SPACING, mode="nearest")
    for _ in range(3):  # where the even line comes too near to a margin it is let down
        over = maximum_filter1d(np.maximum(z - lowest, 0.0), int(8.0 / SPACING))
        z = z - gaussian_filter1d(over, 2.0 / SPACING, mode="nearest")
    return np.asarray(z)


def _height_below(profile: Floats, margin: float, below_mm: float) -> float:
    """Height at so many mm down an (N, 3) profile, counted from where it passes a margin's height.

    One that begins on the crown counts from further down. Above its begin and below its end,
    where the edge of the scan may cut it off, the wall is taken as upright.
    """
    if len(profile) < 2:
        return float("nan")
    top = (*profile[0, :2], max(profile[0, 2], margin))
    foot = (*profile[-1, :2], min(profile[-1, 2], margin) - below_mm)
    wall = np.vstack([top, profile, foot])
    down, z = arc_lengths(wall), wall[:, 2]
    n = max(int(np.argmax(z <= margin)), 1)
    start = np.interp(-margin, -z[n - 1 : n + 1], down[n - 1 : n + 1])
    return float(np.interp(start + below_mm, down, z))


def _pressed_down(ground: Terrain, line: Floats, margins: Floats, wanted: MajorConnector) -> Floats:
    """Move a line down the surface where its upper border is too near to a margin."""
    if not len(margins):
        return line
    normal = steady_normals(ground, line, NORMAL_MM)
    up = np.cross(tangents(line), normal)
    up *= np.sign(up[:, 2:3] + 1e-9)
    up /= np.linalg.norm(up, axis=1, keepdims=True) + 1e-12
    border = line + wanted.height_mm / 2 * up
    gap, _ = cKDTree(margins).query(border)
    short = np.clip(wanted.margin_distance_mm + 0.1 - gap, 0.0, LET_DOWN_MM)
    step = STEP
    short = maximum_filter1d(short, int(3.0 / step))
    short = gaussian_filter1d(short, 2.5 / step, mode="nearest")
    return np.asarray(line - short[:, None] * up)


def faired(ground: Terrain, line: Floats, reach: float = FAIR_MM) -> Floats:
    """A line evened over a length, still on the surface or a little off it, never inside.

    Where the surface has a corner the line spans it, up to SPAN_MM off the surface.
    """
    even = smoothed(resampled(line, STEP), reach)
    even = even + (even - smoothed(even, reach))  # evening alone would draw it inwards
    normal = steady_normals(ground, even, 1.0)
    off = ground.distance(even)
    home = np.minimum(off, 0.0) + np.maximum(off - SPAN_MM, 0.0) + PULL * np.clip(off, 0, SPAN_MM)
    return np.asarray(even - home[:, None] * normal)


def _wall_point(ground: Terrain, start: Floats, inward: Floats, z: float) -> Floats | None:
    """Where the tongue-side wall passes through a height, going inwards from a station."""
    s = np.arange(0.0, 16.0, 0.1)
    plan = start + s[:, None] * inward
    heights = ground.height(plan)
    good = ~np.isnan(heights)
    above = np.flatnonzero(good & (heights > z))
    first = int(above[0]) if above.size and good[: above[0]].all() else 0
    below = np.flatnonzero(good & (heights <= z) & (np.arange(len(s)) >= first))
    if below.size == 0:
        return None
    n = int(below[0])
    return np.array([plan[n, 0], plan[n, 1], z])


def turned(ground: Terrain, placed: BarLine, turn: Turn, last: bool) -> BarLine:
    """Let one end of a bar run out in a fair curve into what it joins.

    Args:
        ground: surface the curve lies on.
        placed: the bar so far.
        turn: where it ends.
        last: True for the line's last point, False for its first.
    """
    flip = slice(None) if last else slice(None, None, -1)
    line = placed.line[flip]
    n = int(np.linalg.norm(line - turn.leaves_at, axis=1).argmin())
    n = min(max(n, 3), len(line) - 1)
    start, along = line[n], tangents(line)[n]
    size = float(np.linalg.norm(turn.point - start)) / 2.6
    t = np.linspace(0.0, 1.0, 24)[:, None]
    curve = (
        (1 - t) ** 3 * start
        + 3 * t * (1 - t) ** 2 * (start + size * along)
        + 3 * t**2 * (1 - t) * (turn.point - size * turn.along)
        + t**3 * turn.point
    )
    curve = ground.settle(curve)
    whole = faired(ground, np.vstack([line[:n], curve]), 1.0)
    body = float(arc_lengths(line)[n])
    along_mm = arc_lengths(whole)
    run = np.clip((along_mm - body) / max(along_mm[-1] - body, 1e-9), 0.0, 1.0)
    run = run * run * (3 - 2 * run)
    before = arc_lengths(placed.line[flip])
    shares = [
        np.interp(along_mm, before[: n + 1], share[flip][: n + 1]) * (1 - run) + end * run
        for share, end in (
            (placed.height_share, turn.height_share),
            (placed.thickness_share, turn.thickness_share),
        )
    ]
    return replace(
        placed, line=whole[flip], height_share=shares[0][flip], thickness_share=shares[1][flip]
    )


def pear_section(height: float, thickness: float) -> Section:
    """Section of a half-pear, thickest in its lower third.

    Args:
        height: along the surface, up positive [mm].
        thickness: off the surface [mm].

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
    return Section.of(np.array(unary_union([outline, foot]).exterior.coords)[:-1])


def lay_bar(ground: Ground, placed: BarLine, wanted: MajorConnector) -> Piece:
    """Build the bar on the relieved surface along its laid line."""
    line = resampled(placed.line, STEP)
    at = arc_lengths(line) / arc_lengths(line)[-1]
    from_ = arc_lengths(placed.line) / arc_lengths(placed.line)[-1]
    shares = [np.interp(at, from_, s) for s in (placed.height_share, placed.thickness_share)]
    line = bridged(ground.laid, line)
    normal = steady_normals(ground.laid, line, NORMAL_MM)
    if np.cross(tangents(line), normal)[:, 2].mean() < 0:  # on the lip side: thick side down too
        line, normal, shares = line[::-1], normal[::-1], [s[::-1] for s in shares]
    section = pear_section(wanted.height_mm, wanted.thickness_mm)
    shape = section_sweep(ground.grid, line, normal, section, *shares)
    component = Component(
        "major_connector",
        "major connector",
        ground.back(line),
        wanted.height_mm * shares[0],
        wanted.thickness_mm * shares[1],
        None,
        {"length_mm": float(arc_lengths(line)[-1]), "height_mm": wanted.height_mm},
    )
    return Piece(component, shape, 0.8)


def bridged(ground: Terrain, line: Floats) -> Floats:
    """A line raised where it would dive into the surface: hollows are spanned, not followed."""
    deep = np.maximum(-ground.distance(line), 0.0)
    deep = maximum_filter1d(deep, int(2.0 / STEP))
    deep = gaussian_filter1d(deep, 1.5 / STEP, mode="nearest")
    return np.asarray(line + deep[:, None] * steady_normals(ground, line, 1.5))
