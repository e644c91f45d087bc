"""Bar clasps: an approach arm from the base that crosses the margin at a right angle.

An I-bar ends there; a T-bar, a modified T-bar and a Y-bar end in fingers (`bar_fingers.py`).
"""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats
from claspwright.framework.approach import settled_at_tip, upright_arm
from claspwright.framework.arm_plans import LEAST_TIP, ArmPlan, read_columns, tip_in
from claspwright.framework.arms import shallow_tip
from claspwright.framework.bar_fingers import fingered_bar
from claspwright.framework.chart import CrownChart
from claspwright.framework.design import Clasp, End, Retainer
from claspwright.framework.ground import Ground, Piece, laid_sweep, within_undercut
from claspwright.framework.model import Component
from claspwright.geometry import arc_lengths
from claspwright.limits import limit

BAR_OFFSETS_DEG = (12.0, 0.0, 24.0, -12.0, 36.0, 48.0, -24.0)  # from mid-side
BAR_END = 0.3  # mm below the end of the bar that still lies on the tooth


def bar_clasp(
    ground: Ground, retainer: Retainer, clasp: Clasp, gap: End, start: Floats
) -> list[Piece]:
    """A bar from the base beside the tooth to the prescribed undercut.

    Args:
        ground: surfaces.
        retainer: the clasped tooth and its plates.
        clasp: form, side, undercut and root dimensions.
        gap: the end of the tooth at which the base lies.
        start: (3,) point of the lattice's buccal rail where the approach arm begins, grid frame.
    """
    if clasp.form != "I-bar":
        return fingered_bar(ground, retainer, clasp, gap, start)
    tooth = retainer.tooth
    chart = ground.charts[tooth]
    angle, tip_z, reached = bar_tip(ground, chart, clasp, gap)
    tip = chart.points(np.array([angle]), np.array([tip_z]))[0]
    line = upright_arm(ground, chart, angle, tip, start)
    line = settled_at_tip(ground, line, tip)
    lengths = arc_lengths(line)
    half, height = bar_section(clasp, lengths / lengths[-1])
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
    return [Piece(component, shape, 0.4, zone, shallow_tip(ground, component, plan, clasp))]


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
