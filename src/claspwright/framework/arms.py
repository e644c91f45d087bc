"""Circumferential retentive arms and reciprocal arms, laid on the crown as planned."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from claspwright.base import Finding, Floats
from claspwright.framework.arm_course import course_findings, course_over_line, through_course
from claspwright.framework.arm_plans import (
    LEAST_CLEARANCE,
    LEAST_WALL_DEG,
    RETENTIVE,
    ArmPlan,
    ArmStart,
    arm_section,
    bears,
    retentive_plan,
    rigid_plan,
)
from claspwright.framework.arm_roots import root_way
from claspwright.framework.chart import CrownChart
from claspwright.framework.design import Clasp, End, Side
from claspwright.framework.ground import Ground, Piece, laid_sweep, within_undercut
from claspwright.framework.model import Component
from claspwright.geometry import arc_lengths, resampled, smoothed

STEP = 0.15  # mm between stations
RIGID_HALF_WIDTH = 0.9  # mm, of a reciprocal arm
RIGID_THICKNESS = (1.25, 1.0)  # mm at its root and its end
PAST_MM = 1.0  # mm from its tip back within which an arm that ran too deep is ended
PAST_DEPTH = 0.02  # mm deeper than planned from which it is


def lay_arm(
    ground: Ground, chart: CrownChart, plan: ArmPlan, root: Floats
) -> tuple[Floats, Floats]:
    """Take a planned arm to the bare tooth.

    Returns:
        The (N, 3) centreline from the root's joint to the tip, grid frame, and the (N,)
        share of the springing arm reached, negative before its taper begins.
    """
    on_chart = chart.points(plan.angle, plan.height)
    arm = resampled(on_chart, STEP)
    arm = smoothed(arm, 0.5)
    arm = ground.scan.settle(arm)
    arm = _not_past(ground, resampled(arm, STEP), plan.reached_mm)
    # the joint lies within the plate; the springing part begins where its angle says
    along = arc_lengths(on_chart)
    count = len(on_chart) - 1
    fused = float(np.interp(plan.fused * count, np.arange(count + 1), along) / along[-1])
    lengths = arc_lengths(arm)
    free = lengths[-1] * (1.0 - fused)
    share = (lengths - lengths[-1] * fused) / free
    if len(root):
        joint = root_way(ground, chart, root, arm[0])
        lengths = arc_lengths(np.vstack([joint, arm[:1]]))
        before = share[0] + (lengths[:-1] - lengths[-1]) / free
        return np.vstack([joint, arm]), np.concatenate([before, share])
    return arm, share


def _not_past(ground: Ground, arm: Floats, reached: float) -> Floats:
    """An arm ended where it reads what it was planned to reach, where the laid one ran past it."""
    if reached <= 0.0:
        return arm
    end = arm[-1 - min(round(PAST_MM / STEP), len(arm) - 1) :]
    deep = ground.undercut(end)
    if deep[-1] <= reached + PAST_DEPTH or deep.min() >= reached:
        return arm
    last = int(np.flatnonzero(deep < reached)[-1])  # from here on it is too deep
    share = (reached - deep[last]) / (deep[last + 1] - deep[last])
    tip = end[last] + share * (end[last + 1] - end[last])
    return np.vstack([arm[: len(arm) - len(end) + last + 1], tip[None]])


def circumferential_arm(
    ground: Ground, tooth: int, clasp: Clasp, origin: End, root: Floats, start: ArmStart
) -> Piece:
    """A retentive arm from its root to a tip at the prescribed undercut."""
    chart = ground.charts[tooth]
    plan = retentive_plan(ground, chart, origin, clasp.side, clasp, start)
    if clasp.course:
        led = through_course(chart, plan.angle, plan.height, plan.fused, clasp.course)
        plan = replace(plan, height=led)
    line, share = lay_arm(ground, chart, plan, root)
    half, height = arm_section(clasp, share)
    shape = laid_sweep(ground.scan, line, half, height, fillet=0.4)
    last = np.flatnonzero(share >= RETENTIVE - 0.06)
    zone = laid_sweep(ground.scan, line[last], half[last] + 0.45, height[last] + 0.5, fillet=0.0)
    tip = within_undercut(ground, zone, plan.reached_mm)
    name = f"clasp.{tooth}.{clasp.side}"
    on_arm = slice(max(int(np.searchsorted(share, 0.0)) - 1, 0), None)
    free = float(plan.angle[0] + plan.fused * (plan.angle[-1] - plan.angle[0]))
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
        course_over_line(chart, line[on_arm], free, float(plan.angle[-1])),
    )
    doubts = shallow_tip(ground, component, plan, clasp)
    if clasp.course:
        doubts = (*doubts, *course_findings(ground, chart, component, plan.height))
    return Piece(component, shape, 0.4, tip, doubts)


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
    ground: Ground, tooth: int, clasp: Clasp, origin: End, root: Floats, start: ArmStart
) -> Piece | Finding:
    """The rigid arm on the side opposite to the retentive one, or why there is none."""
    chart = ground.charts[tooth]
    side: Side = "lingual" if clasp.side == "buccal" else "buccal"
    plan = rigid_plan(chart, origin, side, RIGID_HALF_WIDTH, start)
    if not bears(plan):
        return _no_wall(ground, tooth, side, plan)
    line, share = lay_arm(ground, chart, plan, root)
    line = ground.laid.settle(line)
    half = np.full(len(line), plan.half_mm)
    height = np.interp(share, [0.0, 1.0], RIGID_THICKNESS)
    shape = laid_sweep(ground.laid, line, half, height, fillet=0.4)
    on_arm = slice(max(int(np.searchsorted(share, 0.0)) - 1, 0), None)
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
            "on_wall_deg": plan.wall_deg,
        },
    )
    return Piece(component, shape, 0.4)


def _no_wall(ground: Ground, tooth: int, side: Side, plan: ArmPlan) -> Finding:
    """A finding where no rigid arm can lie between the survey line and the crown's edge."""
    spot = ground.charts[tooth].points(plan.angle[-1:], plan.height[-1:])
    x, y, z = (float(v) for v in ground.back(spot)[0])
    return Finding(
        rule="clasp.reciprocal",
        severity="look",
        text=(
            f"The {side} wall of tooth {tooth} gives no course for a reciprocal arm between the "
            f"survey line and the edge of the occlusal surface: {plan.wall_deg:.0f} degrees of it, "
            "so the arm is left off and only the plate and the rest stand against the clasp. "
            "Ask the dentist to lower the survey line there, carry a plate over that wall, or "
            "clasp another tooth."
        ),
        source="a reciprocal arm lies at or above the survey line [common practice]",
        measured=round(plan.wall_deg, 0),
        limit=LEAST_WALL_DEG,
        unit="degrees",
        at_mm=(x, y, z),
        component=f"retainer.{tooth}",
    )
