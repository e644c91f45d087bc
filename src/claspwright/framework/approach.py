"""The way of an approach arm: along the tissue below the margin, then straight up over it."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats
from claspwright.framework.chart import CrownChart
from claspwright.framework.ground import Ground
from claspwright.geometry import arc_lengths, distance_to_line, resampled, smoothed
from claspwright.limits import limit

STEP = 0.15
DEEPER = 2.0  # mm that it may turn lower than on an even wall, to keep off every margin
BESIDE = 0.5  # rad to both sides over which the direction of the margin is read


def upright_arm(
    ground: Ground, chart: CrownChart, angle: float, top: Floats, start: Floats
) -> Floats:
    """(N, 3) from a base along the tissue below the margin, then straight up to a point.

    Args:
        ground: surfaces.
        chart: of the crown.
        angle: of the point on the chart [rad].
        top: (3,) the point on the crown, grid frame [mm].
        start: (3,) on the base's outer rail.
    """
    low = _below_margin(ground, chart, angle, top)
    knee = _route(ground, start, low)
    upright = np.linspace(low, top, 24)[1:]
    line = smoothed(resampled(np.vstack([knee, upright]), STEP), 1.2)
    return resampled(ground.laid.settle(line), STEP)


def _below_margin(ground: Ground, chart: CrownChart, angle: float, tip: Floats) -> Floats:
    """The point straight below the tip where the approach arm turns upwards."""
    away = _square_to_margin(chart, angle)
    margin = float(chart.look_up(chart.margin, np.array([angle]))[0])
    drop = limit("clasp.approach_margin").value + 0.9
    profile = ground.laid.profile(tip - 1.0 * away, away, 12.0)
    below = profile[profile[:, 2] <= margin]
    if len(below) < 3:
        return np.asarray(tip + 1.0 * away - np.array([0, 0, drop]))
    s = arc_lengths(below)
    gaps = _to_margins(ground, below)  # of neighbours too, and where the tissue flares
    gaps[s > drop + DEEPER] = 0.0
    far = np.flatnonzero(gaps >= drop)
    n = int(far[0]) if far.size else int(np.argmax(gaps))
    return np.asarray(below[n])


def _square_to_margin(chart: CrownChart, angle: float) -> Floats:
    """(3,) horizontal unit direction away from the crown, square to its margin at an angle."""
    away = np.cos(angle) * chart.mesial + np.sin(angle) * chart.buccal
    rim = chart.rim - chart.centre
    turn = np.arctan2(rim @ chart.buccal, rim @ chart.mesial) - angle
    near = np.abs((turn + np.pi) % (2 * np.pi) - np.pi) < BESIDE
    if int(near.sum()) < 3:
        return np.asarray(away)
    plan = chart.rim[near, :2] - chart.rim[near, :2].mean(axis=0)
    along = np.linalg.svd(plan, full_matrices=False)[2][0]
    square = np.array([-along[1], along[0], 0.0])
    return np.asarray(square * np.sign(square @ away))


def _route(ground: Ground, start: Floats, low: Floats) -> Floats:
    """From the base along the tissue: down and forward in one sweep, then level to the turn."""
    t = np.linspace(0.0, 1.0, 60)[:, None]
    wanted = (limit("clasp.approach_margin").look_below or 0.0) + 0.9
    best, widest = np.zeros((0, 3)), -1.0
    for lower in (0.0, 1.0, 2.0, 3.0):  # no lower than it must
        knee = start + 0.45 * (low - start)
        knee[2] = min(start[2], low[2]) - lower
        sweep = (1 - t) ** 2 * start + 2 * t * (1 - t) * knee + t**2 * low
        laid = resampled(ground.laid.settle(sweep), STEP)
        laid = ground.laid.settle(smoothed(laid, 2.5))
        gap = float(_to_margins(ground, laid[1:-1]).min())
        if gap > widest + 0.05:
            best, widest = laid, gap
        if gap >= wanted:
            break
    return np.vstack([start, best[1:-1], low])


def _to_margins(ground: Ground, points: Floats) -> Floats:
    """(N,) distance of points to the nearest gingival margin [mm]."""
    rims = [ground.here(tooth.margin) for tooth in ground.arch.teeth.values()]
    gaps = [distance_to_line(np.vstack([rim, rim[:1]]), points)[0] for rim in rims]
    return np.asarray(np.min(gaps, axis=0))


def settled_at_tip(ground: Ground, line: Floats, tip: Floats) -> Floats:
    """An arm on the relieved tissue, its last part on the bare tooth."""
    remaining = arc_lengths(line)[-1] - arc_lengths(line)
    on_tissue = ground.laid.settle(line)
    on_tooth = ground.scan.settle(line)
    share = np.clip((2.4 - remaining) / 1.6, 0.0, 1.0)[:, None]
    share = share * share * (3 - 2 * share)
    mixed = (1 - share) * on_tissue + share * on_tooth
    mixed[-1] = tip
    return resampled(mixed, STEP)
