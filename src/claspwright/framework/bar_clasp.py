"""The I-bar: an approach arm from the base that crosses the margin at a right angle."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats
from claspwright.framework.arm_plans import LEAST_TIP, ArmPlan, read_columns, tip_in
from claspwright.framework.arms import shallow_tip
from claspwright.framework.chart import CrownChart
from claspwright.framework.design import Clasp, End
from claspwright.framework.ground import Ground, Piece, laid_sweep, within_undercut
from claspwright.framework.model import Component
from claspwright.geometry import arc_lengths, resampled, smoothed
from claspwright.limits import limit

STEP = 0.15
BAR_OFFSETS_DEG = (12.0, 0.0, 24.0, -12.0, 36.0, 48.0, -24.0)  # from mid-side
BAR_END = 0.3  # mm below the end of the bar that still lies on the tooth


def i_bar(ground: Ground, tooth: int, clasp: Clasp, gap: End, start: Floats) -> Piece:
    """An I-bar from the base beside the tooth to the prescribed undercut.

    Args:
        ground: surfaces.
        tooth: the clasped tooth.
        clasp: side, undercut and root dimensions.
        gap: the end of the tooth at which the base lies.
        start: (3,) point of the lattice's buccal rail where the approach arm begins, grid frame.
    """
    chart = ground.charts[tooth]
    angle, tip_z, reached = bar_tip(ground, chart, clasp, gap)
    tip = chart.points(np.array([angle]), np.array([tip_z]))[0]
    low = _below_margin(ground, chart, angle, tip)
    knee = _route(ground, start, low)
    upright = np.linspace(low, tip, 24)[1:]
    line = resampled(np.vstack([knee, upright]), STEP)
    line = smoothed(line, 1.2)
    line = _settle(ground, line, tip)
    lengths = arc_lengths(line)
    share = lengths / lengths[-1]
    half, height = bar_section(clasp, share)
    shape = laid_sweep(ground.laid, line, half, height, fillet=0.4)
    last = np.flatnonzero(lengths[-1] - lengths <= 2.6)
    zone = laid_sweep(ground.scan, line[last], half[last] + 0.5, height[last] + 0.6, fillet=0.0)
    zone = within_undercut(ground, zone, reached)
    component = Component(
        f"clasp.{tooth}.{clasp.side}",
        "retentive arm",
        ground.back(line),
        2 * half,
        height,
        tooth,
        {
            "undercut_mm": reached,
            "prescribed_undercut_mm": clasp.undercut_mm,
            "length_mm": float(lengths[-1]),
            "approach": 1.0,
        },
    )
    plan = ArmPlan(np.array([angle]), np.array([tip_z]), reached)
    return Piece(component, shape, 0.4, zone, shallow_tip(ground, component, plan, clasp))


def bar_section(clasp: Clasp, share: Floats) -> tuple[Floats, Floats]:
    """(N,) half widths and thicknesses of a bar at shares of its length [mm]."""
    taper = 1.0 - (1.0 - limit("clasp.taper").value) * np.clip(share, 0.0, 1.0)
    end = min(limit("clasp.ibar_tip_width").value, clasp.width_mm) / 2
    half = clasp.width_mm / 2 + (end - clasp.width_mm / 2) * np.clip(share, 0.0, 1.0)
    return half, np.maximum(clasp.thickness_mm * taper, LEAST_TIP)


def bar_tip(
    ground: Ground, chart: CrownChart, clasp: Clasp, gap: End
) -> tuple[float, float, float]:
    """Angle, height and reading of the tip: mid-side or a little away from the base.

    The approach arm comes up over the margin, so that only the end of the bar keeps off it.
    """
    away = 1.0 if gap == "distal" else -1.0  # towards mesial where the base is distal
    sign = 1.0 if clasp.side == "buccal" else -1.0
    angles = np.array([sign * np.radians(90.0 - away * offset) for offset in BAR_OFFSETS_DEG])
    columns = read_columns(ground, chart, angles)
    found = []
    for n in range(len(angles)):
        z, reading, _ = tip_in(columns, n, clasp.undercut_mm, BAR_END)
        shortfall = max(clasp.undercut_mm - reading, 0.0)
        found.append((round(shortfall, 3) if shortfall > 0.005 else 0.0, n, z, reading))
    _, n, z, reading = min(found)
    return float(angles[n]), z, reading


def _below_margin(ground: Ground, chart: CrownChart, angle: float, tip: Floats) -> Floats:
    """The point straight below the tip where the approach arm turns upwards."""
    away = np.cos(angle) * chart.mesial + np.sin(angle) * chart.buccal
    margin = float(chart.look_up(chart.margin, np.array([angle]))[0])
    drop = limit("clasp.approach_margin").value + 0.9
    profile = ground.laid.profile(tip - 1.0 * away, away, 12.0)
    below = profile[profile[:, 2] <= margin]
    if len(below) < 3:
        return np.asarray(tip + 1.0 * away - np.array([0, 0, drop]))
    s = arc_lengths(below)
    return np.array([np.interp(drop, s, below[:, a]) for a in range(3)])


def _route(ground: Ground, start: Floats, low: Floats) -> Floats:
    """From the base along the tissue: down and forward in one sweep, then level to the turn."""
    t = np.linspace(0.0, 1.0, 60)[:, None]
    knee = start + 0.45 * (low - start)
    knee[2] = min(start[2], low[2])
    sweep = (1 - t) ** 2 * start + 2 * t * (1 - t) * knee + t**2 * low
    laid = resampled(ground.laid.settle(sweep), STEP)
    laid = ground.laid.settle(smoothed(laid, 2.5))
    return np.vstack([start, laid[1:-1], low])


def _settle(ground: Ground, line: Floats, tip: Floats) -> Floats:
    """Lay the arm on the relieved tissue, its last part on the bare tooth."""
    remaining = arc_lengths(line)[-1] - arc_lengths(line)
    on_tissue = ground.laid.settle(line)
    on_tooth = ground.scan.settle(line)
    share = np.clip((2.4 - remaining) / 1.6, 0.0, 1.0)[:, None]
    share = share * share * (3 - 2 * share)
    mixed = (1 - share) * on_tissue + share * on_tooth
    mixed[-1] = tip
    return resampled(mixed, STEP)
