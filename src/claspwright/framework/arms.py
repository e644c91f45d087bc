"""Circumferential retentive arms and reciprocal arms, planned on the crown's chart."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Finding, Floats
from claspwright.framework.chart import CrownChart, filled
from claspwright.framework.design import Clasp, End, Side
from claspwright.framework.ground import Ground, Piece, laid_sweep, within_undercut
from claspwright.framework.model import Component
from claspwright.geometry import arc_lengths, resampled, smoothed
from claspwright.limits import limit

STEP = 0.15  # mm between stations
MARGIN_CLEARANCE = 1.0  # mm from the tip's lower edge to the gingival margin, wanted
LEAST_CLEARANCE = 0.5  # mm, where the undercut lies no higher
LEAST_TIP = 0.5  # mm of thickness that a tip keeps (limits: clasp.tip_thickness)
LEAP = 0.3  # mm of radius from one station to the next: another tooth begins
SHORT_DEG = 8.0  # by which a rigid arm ends short of it
RETENTIVE = 2.0 / 3.0  # the last third enters the undercut


@dataclass(frozen=True, slots=True, eq=False)
class ArmPlan:
    """An arm on the chart, from the line angle where its taper begins to its tip."""

    angle: Floats  # (N,) rad
    height: Floats  # (N,) mm, grid frame
    reached_mm: float  # undercut at the tip


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


def retentive_plan(
    ground: Ground, chart: CrownChart, origin: End, side: Side, clasp: Clasp, start_deg: float
) -> ArmPlan:
    """Plan a retentive arm whose tip reads the prescribed undercut."""
    half_tip = limit("clasp.taper").value * clasp.width_mm / 2
    best: tuple[float, float, float, float] | None = None
    for stop_deg in np.arange(24.0, 76.0, 4.0):
        first, last = sweep_angles(origin, side, start_deg, float(stop_deg))
        height, reading = tip_height(ground, chart, last, clasp.undercut_mm, half_tip)
        shortfall = max(clasp.undercut_mm - reading, 0.0)
        if best is None or shortfall < best[0] - 0.005:
            best = (shortfall, last, height, reading)
        if shortfall <= 0.005:
            break
    assert best is not None
    _, last, tip_z, reading = best
    angles = np.linspace(first, last, 60)
    return ArmPlan(angles, descending(chart, angles, tip_z, clasp.width_mm / 2), reading)


def tip_height(
    ground: Ground, chart: CrownChart, angle: float, wanted: float, half_tip: float
) -> tuple[float, float]:
    """Height at which the gauge reads the wanted undercut at an angle, and that reading.

    Where the column is not deep enough above the margin's clearance, its deepest point there.
    """
    for clearance in (MARGIN_CLEARANCE, LEAST_CLEARANCE):
        height, reading = _tip_above(ground, chart, angle, wanted, half_tip + clearance)
        if reading >= wanted - 0.005:
            break
    return height, reading


def _tip_above(
    ground: Ground, chart: CrownChart, angle: float, wanted: float, above_margin: float
) -> tuple[float, float]:
    low = float(chart.look_up(chart.margin, np.array([angle]))[0]) + above_margin
    high = float(chart.look_up(chart.contour, np.array([angle]))[0])
    z = np.arange(max(high, low) + 0.3, low - 1e-9, -0.05)
    if z.size < 2:
        z = np.array([low + 0.1, low])
    spots = ground.scan.settle(chart.points(np.full(z.size, angle), z))
    clear = np.linalg.norm(spots[:, None] - chart.rim[None], axis=2).min(axis=1) >= above_margin
    depth = np.where(chart.known(angle, z) & clear, ground.undercut(spots), 0.0)
    deep = np.flatnonzero(depth >= wanted)
    if deep.size and deep[0] > 0:
        n = int(deep[0])
        share = (wanted - depth[n - 1]) / (depth[n] - depth[n - 1])
        return float(z[n - 1] + share * (z[n] - z[n - 1])), wanted
    shallow = np.where(depth <= wanted, depth, 0.0)
    n = int(np.argmax(shallow))
    return float(z[n]), float(shallow[n])


def descending(chart: CrownChart, angles: Floats, tip_z: float, half_root: float) -> Floats:
    """Heights of an arm that stays on the rigid side of the survey line for two thirds.

    One curve without inflection, z = z0 - (z0 - tip) t^p: the start height and the power that
    break the survey line least, and cross it nearest to the beginning of the last third.
    """
    t = np.linspace(0.0, 1.0, len(angles))
    contour = chart.look_up(chart.contour, angles)
    top = chart.look_up(chart.top, angles)
    half = half_root * (1.0 - 0.5 * t)
    rigid = t < RETENTIVE - 0.02
    cross = int(np.argmin(np.abs(t - RETENTIVE)))
    start_low = float(min(contour[0], top[0] - 0.5))
    best, best_cost = np.full(len(t), tip_z), np.inf
    for z0 in np.arange(start_low, float(max(top[0], tip_z + 0.6)) + 0.6, 0.1):
        for power in np.arange(1.2, 5.01, 0.2):
            z = z0 - (z0 - tip_z) * t**power
            below = np.maximum(contour + 0.6 * half - z, 0.0)[rigid]
            above = np.maximum(z + half - top, 0.0)
            cost = (
                4 * float((below**2).mean())
                + 2 * float((above**2).mean())
                + 0.3 * float((z[cross] - contour[cross]) ** 2)
                + 0.01 * power
            )
            if cost < best_cost:
                best, best_cost = z, cost
    return best


def rigid_plan(
    chart: CrownChart, origin: End, side: Side, half_width: float, start_deg: float
) -> ArmPlan:
    """Plan a reciprocal arm: at or above the survey line all the way, gently curved."""
    first, last = sweep_angles(origin, side, start_deg, 36.0)
    angles = np.linspace(first, last, 60)
    level = chart.look_up(chart.contour, angles) + half_width * 0.9
    angles = np.linspace(first, _last_free(chart, angles, level), 60)
    t = np.linspace(0.0, 1.0, 60)
    floor = chart.look_up(chart.contour, angles) + half_width * 0.9
    roof = chart.look_up(chart.top, angles) - half_width * 0.7
    wanted = np.where(floor < roof, 0.5 * (floor + np.minimum(roof, floor + 1.0)), floor)
    curve = np.polynomial.Polynomial.fit(t, wanted, 2)
    heights = curve(t)
    lift = float(np.max(floor - heights))
    heights = heights + max(min(lift, 0.6), 0.0)
    return ArmPlan(angles, np.minimum(heights, np.maximum(roof, floor)), 0.0)


def _last_free(chart: CrownChart, angles: Floats, height: Floats) -> float:
    """The angle at which an arm must end: short of a neighbour that touches the crown [rad]."""
    known = [chart.known(float(a), z[None])[0] for a, z in zip(angles, height, strict=True)]
    radius = chart.look_up(filled(chart.radius), angles, height)
    leaps = np.abs(np.diff(radius, prepend=radius[0])) > LEAP
    lost = np.flatnonzero(~np.array(known) | leaps)
    lost = lost[lost >= len(angles) // 2]
    if not lost.size:
        return float(angles[-1])
    back = np.sign(angles[-1] - angles[0]) * np.radians(SHORT_DEG)
    return float(angles[lost[0]] - back)


def lay_arm(
    ground: Ground, chart: CrownChart, plan: ArmPlan, root: Floats
) -> tuple[Floats, Floats]:
    """Take a planned arm to the bare tooth.

    Returns:
        The (N, 3) centreline from the root's joint to the tip, grid frame, and the (N,)
        share of the tapered arm reached, negative on the joint before the taper begins.
    """
    on_chart = chart.points(plan.angle, plan.height)
    arm = resampled(on_chart, STEP)
    arm = smoothed(arm, 0.5)
    arm = ground.scan.settle(arm)
    arm = resampled(arm, STEP)
    share = arc_lengths(arm) / arc_lengths(arm)[-1]
    if len(root):
        joint = resampled(np.vstack([root, arm[:1]]), STEP)
        joint = ground.laid.settle(smoothed(joint, 0.6))[:-1]
        lengths = arc_lengths(np.vstack([joint, arm[:1]]))
        before = (lengths[:-1] - lengths[-1]) / arc_lengths(arm)[-1]
        return np.vstack([joint, arm]), np.concatenate([before, share])
    return arm, share


def circumferential_arm(
    ground: Ground, tooth: int, clasp: Clasp, origin: End, root: Floats, start_deg: float
) -> Piece:
    """A retentive arm from its root to a tip at the prescribed undercut."""
    chart = ground.charts[tooth]
    plan = retentive_plan(ground, chart, origin, clasp.side, clasp, start_deg)
    line, share = lay_arm(ground, chart, plan, root)
    taper = 1.0 - (1.0 - limit("clasp.taper").value) * np.clip(share, 0.0, 1.0)
    half = clasp.width_mm / 2 * taper
    height = np.maximum(clasp.thickness_mm * taper, LEAST_TIP)
    shape = laid_sweep(ground.scan, line, half, height, fillet=0.4)
    last = np.flatnonzero(share >= RETENTIVE - 0.06)
    zone = laid_sweep(ground.scan, line[last], half[last] + 0.45, height[last] + 0.5, fillet=0.0)
    tip = within_undercut(ground, zone, plan.reached_mm)
    name = f"clasp.{tooth}.{clasp.side}"
    on_arm = share >= 0
    component = Component(
        name,
        "retentive arm",
        ground.back(line[on_arm]),
        2 * half[on_arm],
        height[on_arm],
        tooth,
        {
            "undercut_mm": plan.reached_mm,
            "prescribed_undercut_mm": clasp.undercut_mm,
            "length_mm": float(arc_lengths(line[on_arm])[-1]),
            "encircled_deg": float(np.degrees(abs(plan.angle[-1] - plan.angle[0]))),
        },
    )
    return Piece(component, shape, 0.4, tip, shallow_tip(ground, component, plan, clasp))


def shallow_tip(
    ground: Ground, component: Component, plan: ArmPlan, clasp: Clasp
) -> tuple[Finding, ...]:
    """A finding where the tooth does not offer the prescribed undercut within reach."""
    if plan.reached_mm >= clasp.undercut_mm - 0.02:
        return ()
    x, y, z = component.line[-1]
    return (
        Finding(
            rule="clasp.undercut_available",
            severity="look",
            text=(
                f"The {clasp.side} side of tooth {component.tooth} offers only "
                f"{plan.reached_mm:.2f} mm of undercut within reach of the arm, "
                f"{LEAST_CLEARANCE:g} mm clear of the gingival margin. Choose another tooth or "
                "side, or ask the dentist to recontour."
            ),
            source="tip at the prescribed undercut, arm clear of the margin [common practice]",
            measured=round(plan.reached_mm, 3),
            limit=clasp.undercut_mm,
            unit="mm",
            at_mm=(float(x), float(y), float(z)),
            component=component.id,
        ),
    )


def reciprocal_arm(
    ground: Ground, tooth: int, clasp: Clasp, origin: End, root: Floats, start_deg: float
) -> Piece:
    """The rigid arm on the side opposite to the retentive one."""
    chart = ground.charts[tooth]
    side: Side = "lingual" if clasp.side == "buccal" else "buccal"
    half_width = 0.9
    plan = rigid_plan(chart, origin, side, half_width, start_deg)
    line, share = lay_arm(ground, chart, plan, root)
    line = ground.laid.settle(line)
    half = np.full(len(line), half_width)
    height = 1.25 - 0.25 * np.clip(share, 0.0, 1.0)
    shape = laid_sweep(ground.laid, line, half, height, fillet=0.4)
    on_arm = share >= 0
    component = Component(
        f"reciprocal.{tooth}.{side}",
        "reciprocal arm",
        ground.back(line[on_arm]),
        2 * half[on_arm],
        height[on_arm],
        tooth,
        {
            "length_mm": float(arc_lengths(line[on_arm])[-1]),
            "encircled_deg": float(np.degrees(abs(plan.angle[-1] - plan.angle[0]))),
        },
    )
    return Piece(component, shape, 0.4)
