"""Arms planned on the chart of a crown: from the body of the retainer to the tip."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.ndimage import gaussian_filter1d

from claspwright.arch import Tooth
from claspwright.base import Bools, Floats
from claspwright.framework.chart import CrownChart
from claspwright.framework.design import Clasp, End, Side
from claspwright.framework.ground import Ground
from claspwright.framework.rulebook import proposal_rules
from claspwright.framework.spring import peak_strain
from claspwright.geometry import arc_lengths
from claspwright.limits import limit

MARGIN_CLEARANCE = 1.0  # mm from the tip's lower edge to the gingival margin, wanted
LEAST_CLEARANCE = 0.5  # mm, where the undercut lies no higher
LEAP = 0.3  # mm of radius from one station to the next: another tooth begins
SHORT_DEG = 8.0  # by which a rigid arm ends short of it
RETENTIVE = 2.0 / 3.0  # the last third enters the undercut
PLATE_START_DEG = 10.0  # arms begin inside the plate, or beyond the contact where there is none
REST_START_DEG = 34.0
TIP_OFF_PLATE = 1.6  # mm from the edge of a plate to the middle of a tip: it must spring
PLATE_OVERLAP = 0.3  # mm inside the edge of the plate at which the taper begins
STOPS_DEG = tuple(float(s) for s in range(24, 76, 4))  # angles short of the far end for a tip
NEAR_MARGIN_COST = 20.0  # degrees of arm given up to keep a tip its millimetre off the margin
SHORT_COST = 60.0  # degrees for each millimetre that an arm is too short for its strain
BELOW_EDGE = 0.5  # mm from the upper border of a rigid arm to the edge of the occlusal surface
LEAST_RIGID_HALF = 0.7  # mm, half the least width of a rigid arm
LEAST_WALL_DEG = 40.0  # of a wall that a reciprocal arm must cover to stand against a tip
LEAST_TIP = 0.5  # mm of thickness that a tip keeps (limits: clasp.tip_thickness)
FALL = 0.05  # mm between the heights at which a column is read
COLUMN = 64  # heights


@dataclass(frozen=True, slots=True)
class ArmStart:
    """Where an arm begins, in degrees from its origin's own direction."""

    joint_deg: float  # inside the plate or the shoulder
    taper_deg: float  # where it comes free and its taper begins
    stop_deg: float = 0.0  # short of the far end, at least: a plate stands there


@dataclass(frozen=True, slots=True, eq=False)
class ArmPlan:
    """An arm on the chart, from its joint to its tip."""

    angle: Floats  # (N,) rad
    height: Floats  # (N,) mm, grid frame
    reached_mm: float  # undercut at the tip
    fused: float = 0.0  # share of the angle that lies in the joint, before the taper
    half_mm: float = 0.0  # half width of a rigid arm
    wall_deg: float = 0.0  # over which a rigid arm lies on the wall, beyond its joint


def plate_half_width(tooth: Tooth) -> float:
    """Half the width of a proximal plate [mm]."""
    return float(np.clip(0.30 * tooth.buccolingual_mm, 1.6, 3.2))


def arm_section(clasp: Clasp, share: Floats) -> tuple[Floats, Floats]:
    """(N,) half widths and thicknesses of a retentive arm at shares of its free length [mm]."""
    taper = 1.0 - (1.0 - limit("clasp.taper").value) * np.clip(share, 0.0, 1.0)
    return clasp.width_mm / 2 * taper, np.maximum(clasp.thickness_mm * taper, LEAST_TIP)


def arm_start(
    chart: CrownChart, tooth: Tooth, origin: End, side: Side, plates: Sequence[End]
) -> ArmStart:
    """Where an arm leaves the plate or the shoulder of its rest, and where it must stop.

    The taper begins where the arm comes free: what lies within a plate does not spring. A tip
    keeps off a plate at the far end.

    Source:
        Length of an arm from the point where uniform taper begins (check-values C12).
    """
    far: End = "distal" if origin == "mesial" else "mesial"
    stop = 0.0
    if far in plates:
        apart = np.degrees(TIP_OFF_PLATE / (tooth.buccolingual_mm / 2))
        stop = _plate_edge(chart, tooth, far, side) + float(apart)
    if origin not in plates:
        return ArmStart(REST_START_DEG, REST_START_DEG, stop)
    return ArmStart(PLATE_START_DEG, _plate_edge(chart, tooth, origin, side), stop)


def _plate_edge(chart: CrownChart, tooth: Tooth, end: End, side: Side) -> float:
    """Degrees from an end's own direction at which its plate ends on one face."""
    degrees = np.arange(PLATE_START_DEG, 60.0, 1.0)
    first = np.array([sweep_angles(end, side, d, 90.0)[0] for d in degrees])
    radius = chart.look_up(chart.closed, first, chart.look_up(chart.contour, first))
    free = radius * np.sin(np.radians(degrees)) > plate_half_width(tooth) - PLATE_OVERLAP
    return float(degrees[np.argmax(free)]) if free.any() else float(degrees[-1])


def sweep_angles(origin: End, side: Side, start_deg: float, stop_deg: float) -> tuple[float, float]:
    """First and last chart angle of an arm that runs from its origin round one side [rad].

    Args:
        origin: the end of the tooth where the arm begins.
        side: the side of the tooth that it runs over.
        start_deg: angle from the origin's own direction at which it begins.
        stop_deg: angle short of the opposite end at which it stops.
    """
    first, last = np.radians(start_deg), np.pi - np.radians(stop_deg)
    if origin == "distal":
        first, last = np.pi - first, np.pi - last
    return (first, last) if side == "buccal" else (-first, -last)


@dataclass(frozen=True, slots=True, eq=False)
class Columns:
    """What the gauge reads down the face of a crown, at some angles; heights fall."""

    angle: Floats  # (A,) rad
    height: Floats  # (A, Z) grid frame [mm]
    depth: Floats  # (A, Z) undercut, 0 where the surface is not known [mm]
    rim: Floats  # (A, Z) distance to the gingival margin [mm]
    margin: Floats  # (A,) height of the margin


def read_columns(ground: Ground, chart: CrownChart, angles: Floats) -> Columns:
    """Read the gauge down the crown at (A,) angles, from the survey line to the margin."""
    margin = chart.look_up(chart.margin, angles)
    high = np.maximum(chart.look_up(chart.contour, angles), margin + 1.0) + 0.3
    count = int(np.clip(np.ceil((high - margin).max() / FALL), 8, 2 * COLUMN))
    z = high[:, None] - FALL * np.arange(count)[None, :]
    spots = chart.points(np.repeat(angles, count), z.ravel())
    spots = ground.scan.settle(spots)
    rim = np.linalg.norm(spots[:, None] - chart.rim[None], axis=2).min(axis=1).reshape(z.shape)
    known = np.stack([chart.known(float(a), row) for a, row in zip(angles, z, strict=True)])
    use = known & (z > margin[:, None] + LEAST_CLEARANCE)
    depth = np.zeros(z.shape)
    depth[use] = ground.undercut(spots[use.ravel()])
    return Columns(angles, z, depth, rim, margin)


def tip_in(columns: Columns, n: int, wanted: float, half_tip: float) -> tuple[float, float, bool]:
    """Height at which the gauge reads the wanted undercut in one column.

    Where the column is not deep enough above the margin's clearance, its deepest point there.

    Returns:
        The height, the reading there, and whether the tip keeps its whole millimetre.
    """
    height, reading = 0.0, -1.0
    for clearance in (MARGIN_CLEARANCE, LEAST_CLEARANCE):
        z, least = columns.height[n], half_tip + clearance
        free = (columns.rim[n] >= least) & (z >= columns.margin[n] + least - 1e-9)
        depth = np.where(free, columns.depth[n], 0.0)
        deep = np.flatnonzero(depth >= wanted)
        if deep.size and deep[0] > 0:
            k = int(deep[0])
            share = (wanted - depth[k - 1]) / (depth[k] - depth[k - 1])
            return float(z[k - 1] + share * (z[k] - z[k - 1])), wanted, clearance > 0.9
        shallow = np.where(depth <= wanted, depth, 0.0)
        k = int(np.argmax(shallow)) if shallow.any() else int(np.argmin(np.abs(
            z - columns.margin[n] - least)))  # fmt: skip
        height, reading = float(z[k]), float(shallow[k])
    return height, reading, False


def tip_height(
    ground: Ground, chart: CrownChart, angle: float, wanted: float, half_tip: float
) -> tuple[float, float]:
    """Height at which the gauge reads the wanted undercut at an angle, and that reading."""
    height, reading, _ = tip_in(read_columns(ground, chart, np.array([angle])), 0, wanted, half_tip)
    return height, reading


def retentive_columns(ground: Ground, chart: CrownChart, origin: End, side: Side) -> Columns:
    """The columns in which the tip of an arm may lie, the longest arm first."""
    last = [sweep_angles(origin, side, PLATE_START_DEG, stop)[1] for stop in STOPS_DEG]
    return read_columns(ground, chart, np.array(last))


def retentive_plan(
    ground: Ground,
    chart: CrownChart,
    origin: End,
    side: Side,
    clasp: Clasp,
    start: ArmStart,
    columns: Columns | None = None,
) -> ArmPlan:
    """Plan a retentive arm whose tip reads the prescribed undercut.

    The longest arm that does so; a shorter one where its tip then keeps its whole millimetre
    from the gingival margin and the arm is still long enough for the strain that it bears.
    """
    columns = columns or retentive_columns(ground, chart, origin, side)
    half_tip = limit("clasp.taper").value * clasp.width_mm / 2
    needed, found = _length_needed(clasp), []
    for n, stop in enumerate(STOPS_DEG):
        if stop < min(start.stop_deg, STOPS_DEG[-1]):
            continue
        height, reading, clear = tip_in(columns, n, clasp.undercut_mm, half_tip)
        shortfall = max(clasp.undercut_mm - reading, 0.0)
        short = round(shortfall, 3) if shortfall > 0.005 else 0.0
        lacking = max(needed - _length_to(chart, origin, side, start, stop), 0.0)
        cost = stop + SHORT_COST * lacking + (0.0 if clear else NEAR_MARGIN_COST)
        found.append((short, cost, n, height, reading))
    _, _, n, tip_z, reading = min(found)
    first, last = sweep_angles(origin, side, start.joint_deg, STOPS_DEG[n])
    angles = np.linspace(first, last, 60)
    free = sweep_angles(origin, side, start.taper_deg, STOPS_DEG[n])[0]
    fused = float((free - first) / (last - first))
    height_of = descending(chart, angles, tip_z, clasp.width_mm / 2, fused)
    return ArmPlan(angles, height_of, reading, fused)


def _length_needed(clasp: Clasp) -> float:
    """Length at which the arm just bears its undercut; its strain goes with 1 / length^2 [mm]."""
    at_ten = peak_strain(10.0, *arm_section(clasp, np.linspace(0.0, 1.0, 41)), clasp.undercut_mm)
    return 10.0 * float(np.sqrt(at_ten / proposal_rules().numbers["allowed_strain"]))


def _length_to(
    chart: CrownChart, origin: End, side: Side, start: ArmStart, stop_deg: float
) -> float:
    """Length of the springing part of an arm that stops there, along the survey line [mm]."""
    angles = np.linspace(*sweep_angles(origin, side, start.taper_deg, stop_deg), 40)
    line = chart.points(angles, chart.look_up(chart.contour, angles))
    return float(arc_lengths(line * [1.0, 1.0, 0.0])[-1])


def descending(
    chart: CrownChart, angles: Floats, tip_z: float, half_root: float, fused: float = 0.0
) -> Floats:
    """Heights of an arm that stays on the rigid side of the survey line for two thirds.

    Its upper edge keeps below the crown's top and below the opposing teeth.

    One curve without inflection, z = z0 - (z0 - tip) t^p: the start height and the power that
    break the survey line least, and cross it nearest to the beginning of the last third.
    """
    t = np.linspace(0.0, 1.0, len(angles))
    contour = chart.look_up(chart.contour, angles)
    top = chart.look_up(chart.roofed, angles)
    free = (t - fused) / (1.0 - fused)  # share of the springing part
    half = half_root * (1.0 - 0.5 * np.clip(free, 0.0, 1.0))
    rigid = free < RETENTIVE - 0.02
    cross = int(np.argmin(np.abs(free - RETENTIVE)))
    start_low = float(min(contour[0], top[0] - 0.5))
    begins = np.arange(start_low, float(max(top[0], tip_z + 0.6)) + 0.6, 0.1)
    powers = np.arange(1.2, 5.01, 0.2)
    courses = begins[:, None, None] - (begins - tip_z)[:, None, None] * t ** powers[:, None]
    below = np.maximum(contour + 0.6 * half - courses, 0.0)[:, :, rigid]
    above = np.maximum(courses + half - top, 0.0)
    cost = (
        4 * (below**2).mean(axis=2)
        + 6 * (above**2).mean(axis=2)
        + 0.3 * (courses[:, :, cross] - contour[cross]) ** 2
        + 0.01 * powers
        + (np.maximum(tip_z + 0.3 - begins, 0.0) ** 2)[:, None]  # no arm climbs to its tip
    )
    best = int(np.argmin(cost))
    return np.asarray(courses.reshape(-1, len(t))[best])


def rigid_plan(
    chart: CrownChart, origin: End, side: Side, half_width: float, start: ArmStart
) -> ArmPlan:
    """Plan a reciprocal arm: on the wall between the survey line and the crown's edge.

    At or above the survey line where the wall is high enough, its upper border below the edge;
    narrower, and at last with its lower border on the blockout, where the wall is low. It ends
    where the wall is lost (see `bears`).
    """
    first, last = sweep_angles(origin, side, start.joint_deg, max(36.0, start.stop_deg))
    taper = abs(sweep_angles(origin, side, start.taper_deg, 90.0)[0] - first)
    angles = np.linspace(first, last, 60)
    level = chart.look_up(chart.contour, angles) + half_width * 0.9
    angles = np.linspace(first, _last_free(chart, angles, level), 60)
    half = _half_that_fits(chart, angles, np.abs(angles - first) >= taper, half_width)
    angles = np.linspace(first, _last_on_wall(chart, angles, half), 60)
    t = np.linspace(0.0, 1.0, 60)
    floor, border = _wall(chart, angles, half)
    line = chart.look_up(chart.contour, angles)
    roof = np.where(np.abs(angles - first) < taper, np.maximum(border, floor),
                    np.maximum(border, line))  # fmt: skip
    wanted = np.where(floor < border, 0.5 * (floor + np.minimum(border, floor + 1.0)), roof)
    heights = np.polynomial.Polynomial.fit(t, wanted, 2)(t)
    lift = float(np.max(np.minimum(floor, roof) - heights))
    heights = np.minimum(heights + max(min(lift, 0.6), 0.0), roof)
    heights = np.minimum(gaussian_filter1d(heights, 2.0, mode="nearest"), roof)
    on_wall = (border >= line) & (np.abs(angles - first) >= taper)
    free_deg = float(on_wall.mean() * np.degrees(abs(angles[-1] - first)))
    return ArmPlan(angles, heights, 0.0, half_mm=half, wall_deg=free_deg)


def bears(plan: ArmPlan) -> bool:
    """Whether enough of a reciprocal arm lies on the wall of its tooth to stand against a tip."""
    return plan.wall_deg >= LEAST_WALL_DEG


def _wall(chart: CrownChart, angles: Floats, half: float) -> tuple[Floats, Floats]:
    """Least and greatest height of the middle of a rigid arm on the wall of the crown."""
    floor = chart.look_up(chart.contour, angles) + half * 0.9
    edge = chart.look_up(chart.top, angles) - BELOW_EDGE
    return floor, np.minimum(edge, chart.look_up(chart.ceiling, angles)) - half


def _half_that_fits(chart: CrownChart, angles: Floats, free: Bools, half: float) -> float:
    """The widest half width of a rigid arm for which the wall is high enough, or the least."""
    for narrower in np.arange(half, LEAST_RIGID_HALF - 1e-9, -0.1):
        floor, border = _wall(chart, angles[free], float(narrower))
        if np.all(floor <= border):
            return float(narrower)
    return min(half, LEAST_RIGID_HALF)


def _last_on_wall(chart: CrownChart, angles: Floats, half: float) -> float:
    """The last angle at which the middle of a rigid arm still lies above the line [rad]."""
    _, border = _wall(chart, angles, half)
    high = np.flatnonzero(border >= chart.look_up(chart.contour, angles))
    return float(angles[max(int(high[-1]), len(angles) // 4)] if high.size else angles[-1])


def _last_free(chart: CrownChart, angles: Floats, height: Floats) -> float:
    """The angle at which an arm must end: short of a neighbour that touches the crown [rad]."""
    known = [chart.known(float(a), z[None])[0] for a, z in zip(angles, height, strict=True)]
    radius = chart.look_up(chart.closed, angles, height)
    leaps = np.abs(np.diff(radius, prepend=radius[0])) > LEAP
    lost = np.flatnonzero(~np.array(known) | leaps)
    lost = lost[lost >= len(angles) // 2]
    if not lost.size:
        return float(angles[-1])
    back = np.sign(angles[-1] - angles[0]) * np.radians(SHORT_DEG)
    return float(angles[lost[0]] - back)
