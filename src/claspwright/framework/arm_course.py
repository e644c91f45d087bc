"""The course of an arm between its ends where the sheet prescribes places of it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from scipy.interpolate import CubicSpline

from claspwright.base import Finding, Floats
from claspwright.framework.chart import CrownChart
from claspwright.framework.design import CoursePoint
from claspwright.framework.ground import Ground
from claspwright.framework.model import Component
from claspwright.limits import limit

POWERS = (1.0, 8.0)  # of one curve without inflection: from a straight fall to a late one
TOLD = 0.8  # mm of second difference over the square of the way: less is straight
NEAR_TIP = 0.9  # share of the way from which the rule on the tip speaks


def course_heights(share: Floats, points: Sequence[tuple[float, float]], tip_z: float) -> Floats:
    """(N,) heights of an arm through places between its ends [mm].

    One place: the curve z0 - (z0 - tip) t^p through it, which has no inflection, where there is
    one; else, and for more places, the natural cubic spline, the least bent of all curves.

    Args:
        share: (N,) share of the way, from 0 at the beginning of the arm to 1 at its tip.
        points: share and height of the beginning, then of each place in order.
        tip_z: height of the tip [mm].
    """
    start_z = points[0][1]
    if len(points) == 2:
        at, z = points[1]
        part = (start_z - z) / (start_z - tip_z) if start_z != tip_z else -1.0
        if 0.0 < part < 1.0:
            power = float(np.log(part) / np.log(at))
            if POWERS[0] <= power <= POWERS[1]:
                return np.asarray(start_z - (start_z - tip_z) * np.clip(share, 0, 1) ** power)
    knots = np.array([*points, (1.0, tip_z)])
    spline = CubicSpline(knots[:, 0], knots[:, 1], bc_type="natural")
    return np.asarray(spline(np.clip(share, 0.0, 1.0)), np.float64)


def through_course(
    chart: CrownChart, angles: Floats, heights: Floats, fused: float, course: Sequence[CoursePoint]
) -> Floats:
    """(N,) heights of a planned arm, led through the places that the sheet prescribes [mm].

    Args:
        chart: of the crown.
        angles: (N,) even steps from the joint to the tip [rad].
        heights: (N,) as planned without them; beginning and tip stay [mm].
        fused: share of the angle that lies in the joint.
        course: in the order of their shares.
    """
    t = np.linspace(0.0, 1.0, len(angles))
    points = [(0.0, float(heights[0]))]
    for place in course:
        at = fused + place.at_share * (1.0 - fused)
        level = chart.look_up(chart.contour, np.interp([at], t, angles))[0]
        points.append((at, float(level) + place.above_line_mm))
    return course_heights(t, points, float(heights[-1]))


def bends(heights: Floats) -> list[int]:
    """Stations at which a course changes the way it curves: its inflections."""
    second = np.diff(heights, 2) * (len(heights) - 1) ** 2
    told = np.flatnonzero(np.abs(second) > TOLD)
    turns = np.flatnonzero(np.diff(np.sign(second[told])) != 0)
    return [int(told[n] + told[n + 1]) // 2 + 1 for n in turns]


def course_over_line(chart: CrownChart, line: Floats, first: float, last: float) -> Floats:
    """(N, 2) share of the way round the tooth and height above the survey line [mm].

    Args:
        chart: of the crown.
        line: (N, 3) an arm, grid frame.
        first: angle at which it comes free [rad].
        last: angle of its tip.
    """
    off = line - chart.centre
    angle = np.arctan2(off @ chart.buccal, off @ chart.mesial)
    middle = 0.5 * (first + last)
    angle = middle + (angle - middle + np.pi) % (2 * np.pi) - np.pi
    above = line[:, 2] - chart.look_up(chart.contour, angle)
    return np.column_stack([(angle - first) / (last - first), above])


def course_findings(
    ground: Ground, chart: CrownChart, component: Component, heights: Floats
) -> tuple[Finding, ...]:
    """What speaks against a prescribed course: an inflection, or the margin too near."""
    found = []
    line = component.line
    for at in bends(heights)[:1]:
        spot = line[min(round(at / (len(heights) - 1) * (len(line) - 1)), len(line) - 1)]
        found.append(
            Finding(
                "clasp.course_bend", "look",
                f"The prescribed course of {component.id} bends both ways: it has an inflection. "
                "Take one of its places out, or bring them nearer to one even curve.",
                "an arm runs in one even curve, and does not wave [common practice]",
                measured=len(bends(heights)), limit=0,
                at_mm=(float(spot[0]), float(spot[1]), float(spot[2])), component=component.id,
            )
        )  # fmt: skip
    here = ground.here(line)
    away = np.linalg.norm(here[:, None] - chart.rim[None], axis=2).min(axis=1)
    gap = away - np.broadcast_to(component.width_mm, len(line)) / 2
    gap = gap[: max(round(NEAR_TIP * len(gap)), 1)]
    worst, least = int(np.argmin(gap)), limit("clasp.tip_margin").look_below or 0.5
    if gap[worst] < least:
        spot = line[worst]
        found.append(
            Finding(
                "clasp.course_margin", "look",
                f"On its prescribed course {component.id} comes within {gap[worst]:.1f} mm of the "
                "gingival margin. Lead it higher there; it would irritate the margin.",
                limit("clasp.tip_margin").cited,
                measured=round(float(gap[worst]), 2), limit=least, unit="mm",
                at_mm=(float(spot[0]), float(spot[1]), float(spot[2])), component=component.id,
            )
        )  # fmt: skip
    return tuple(found)
