"""T-bars, modified T-bars and Y-bars: the fingers in which an approach arm ends.

A T ends in a crosspiece below the survey line, with a finger to both sides; a modified T lacks
the finger away from the base; a Y divides lower, and its fingers rise.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats
from claspwright.framework.approach import settled_at_tip, upright_arm
from claspwright.framework.arm_plans import (
    LEAST_TIP,
    ArmPlan,
    arm_start,
    read_columns,
    tip_in,
)
from claspwright.framework.arms import shallow_tip
from claspwright.framework.canvas import Shape, joined
from claspwright.framework.chart import CrownChart
from claspwright.framework.design import Clasp, End, Retainer
from claspwright.framework.ground import Ground, Piece, laid_sweep, within_undercut
from claspwright.framework.model import Component
from claspwright.geometry import arc_lengths, resampled, smoothed
from claspwright.limits import limit

STEP = 0.15
FEET_DEG = (0.0, 12.0, -12.0, 24.0, -24.0)  # of the foot from mid-side, away from the base
FINGER = 2.6  # mm from the foot to the tip of a finger, along the tooth, at most
FINGER_SHARE = 0.3  # of the width of a narrow tooth
SAG = 0.15  # mm that the middle of a T's crosspiece lies below its tips
FORK = 1.4  # mm that a Y divides below its tips
FORK_LOW = 0.3  # mm of the fork, at most, that lie below the margin, where the arm crosses it
FOOT_CLEAR = 1.0  # mm from the crosspiece's lower edge to the margin
STEM = 0.72  # share of the approach arm's width that is left at the foot
FINGER_WIDTH = (1.4, 0.9)  # mm at the foot and at the tip
ZONE = 1.8  # mm of the stem below the foot that is cut by the bare tooth


@dataclass(frozen=True, slots=True, eq=False)
class FingerPlan:
    """Foot and finger tips on the chart; the finger towards the base comes first."""

    foot: tuple[float, float]  # angle [rad], height [mm]
    tips: tuple[tuple[float, float, float], ...]  # angle, height, what the gauge reads there

    @property
    def reached_mm(self) -> float:
        """Undercut at the finger that holds."""
        return self.tips[0][2]


def finger_plan(ground: Ground, retainer: Retainer, clasp: Clasp, gap: End) -> FingerPlan:
    """Where the foot stands and the fingers end: each tip where the gauge reads the undercut.

    The foot nearest to the middle of the face whose fingers read it; a finger away from the
    base may read less, where the tooth offers no more there.
    """
    chart, tooth = ground.charts[retainer.tooth], ground.tooth(retainer.tooth)
    sign = 1.0 if clasp.side == "buccal" else -1.0
    towards_gap = 1.0 if gap == "distal" else -1.0  # towards larger angles from mesial
    middle = chart.look_up(chart.margin, np.array([sign * np.pi / 2])) + 2.0
    radius = float(np.linalg.norm(
        (chart.points(np.array([sign * np.pi / 2]), middle)[0] - chart.centre)[:2]
    ))  # fmt: skip
    reach = min(FINGER, FINGER_SHARE * tooth.mesiodistal_mm)
    spread = float(np.degrees(reach / max(radius, 2.0)))
    ways = (1.0,) if clasp.form == "modified T-bar" else (1.0, -1.0)
    other: End = "distal" if gap == "mesial" else "mesial"
    stop = arm_start(chart, tooth, other, clasp.side, retainer.proximal_plates).stop_deg
    furthest = 90.0 - stop - spread  # of the foot from mid-side towards the base
    offsets = [max(offset, -furthest) if stop else offset for offset in FEET_DEG]
    feet = [90.0 - towards_gap * offset for offset in offsets]
    angles = np.array([
        sign * np.radians(foot + towards_gap * way * spread) for foot in feet for way in ways
    ])  # fmt: skip
    columns = read_columns(ground, chart, angles)
    found = []
    for n, foot in enumerate(feet):
        tips, short = [], 0.0
        for k in range(len(ways)):
            at = n * len(ways) + k
            z, reads, clear = tip_in(columns, at, clasp.undercut_mm, FINGER_WIDTH[1] / 2)
            tips.append((float(angles[at]), z, reads))
            lacks = max(clasp.undercut_mm - reads - 0.005, 0.0)
            short += (10.0 if k == 0 else 1.0) * round(lacks, 3) + (0.0 if clear else 0.02)
        steep = abs(tips[0][1] - tips[-1][1])
        found.append((round(short, 3) + 0.02 * max(steep - 1.0, 0.0), n, foot, tuple(tips)))
    _, _, foot, ends = min(found)
    return FingerPlan(_foot(chart, clasp, sign * np.radians(foot), ends), ends)


def _foot(
    chart: CrownChart, clasp: Clasp, angle: float, tips: tuple[tuple[float, float, float], ...]
) -> tuple[float, float]:
    heights = [z for _, z, _ in tips]
    margin = float(chart.look_up(chart.margin, np.array([angle]))[0]) + FINGER_WIDTH[0] / 2
    if clasp.form == "Y-bar":  # the arm crosses the margin there in any case
        return angle, max(min(heights) - FORK, margin - FORK_LOW)
    return angle, max(float(np.mean(heights)) - SAG, margin + FOOT_CLEAR)


def fingered_bar(
    ground: Ground, retainer: Retainer, clasp: Clasp, gap: End, start: Floats
) -> list[Piece]:
    """An approach arm that ends in fingers; arguments as of `bar_clasp`."""
    tooth, chart = retainer.tooth, ground.charts[retainer.tooth]
    plan = finger_plan(ground, retainer, clasp, gap)
    foot = chart.points(np.array([plan.foot[0]]), np.array([plan.foot[1]]))
    foot = ground.scan.settle(foot)[0]
    stem = settled_at_tip(ground, upright_arm(ground, chart, plan.foot[0], foot, start), foot)
    fingers = [_finger(ground, chart, plan, foot, n) for n in range(len(plan.tips))]
    lengths = arc_lengths(stem)
    whole = float(lengths[-1] + arc_lengths(fingers[0])[-1])
    half, thick = _stem_section(clasp, lengths / whole, float(lengths[-1]) / whole)
    shape = laid_sweep(ground.laid, stem, half, thick, fillet=0.4)
    near = np.flatnonzero(lengths[-1] - lengths <= ZONE)
    zone = laid_sweep(ground.scan, stem[near], half[near] + 0.5, thick[near] + 0.6, fillet=0.0)
    whole_share = float(lengths[-1]) / whole
    across, off = _finger_section(clasp, fingers[0], whole_share)
    first = laid_sweep(ground.scan, fingers[0], across, off, fillet=0.4)
    shape = joined(ground.grid, shape, first, 0.3)
    zone = joined(ground.grid, zone, _around(ground, fingers[0], across, off), 0.0)
    line = np.vstack([stem, fingers[0][1:]])
    component = Component(
        f"clasp.{tooth}.{clasp.side}",
        "retentive arm",
        ground.back(line),
        2 * np.concatenate([half, across[1:]]),
        np.concatenate([thick, off[1:]]),
        tooth,
        {
            "undercut_mm": plan.reached_mm,
            "prescribed_undercut_mm": clasp.undercut_mm,
            "length_mm": whole,
            "approach": 1.0,
            "foot_mm": float(lengths[-1]),
        },
    )
    arm = ArmPlan(np.array([plan.tips[0][0]]), np.array([plan.tips[0][1]]), plan.reached_mm)
    doubts = shallow_tip(ground, component, arm, clasp)
    tip = within_undercut(ground, zone, plan.reached_mm)
    pieces = [Piece(component, shape, 0.4, tip, doubts)]
    for n in range(1, len(fingers)):
        pieces.append(_second(ground, retainer, clasp, fingers[n], plan.tips[n][2], whole_share))
    return pieces


def _second(
    ground: Ground, retainer: Retainer, clasp: Clasp, line: Floats, reads: float, at_foot: float
) -> Piece:
    """The finger away from the base: it springs with the arm and is no clasp of its own."""
    across, off = _finger_section(clasp, line, at_foot)
    component = Component(
        f"clasp.{retainer.tooth}.{clasp.side}.finger",
        "approach arm",
        ground.back(line),
        2 * across,
        off,
        retainer.tooth,
        {"undercut_mm": reads, "length_mm": float(arc_lengths(line)[-1]), "finger": 1.0},
    )
    shape = laid_sweep(ground.scan, line, across, off, fillet=0.4)
    zone = _around(ground, line, across, off)
    return Piece(component, shape, 0.3, within_undercut(ground, zone, max(reads, 0.05)))


def _around(ground: Ground, line: Floats, across: Floats, off: Floats) -> Shape:
    """Where the bare tooth cuts round a finger."""
    return laid_sweep(ground.scan, line, across + 0.45, off + 0.5, fillet=0.0)


def _finger(
    ground: Ground, chart: CrownChart, plan: FingerPlan, foot: Floats, which: int
) -> Floats:
    """(N, 3) from the foot to the tip of one finger, on the bare tooth."""
    angle, height, _ = plan.tips[which]
    t = np.linspace(0.0, 1.0, 30)
    rise = t if plan.foot[1] < height - 0.6 else t * t * (3.0 - 2.0 * t)
    points = chart.points(
        plan.foot[0] + t * (angle - plan.foot[0]),
        plan.foot[1] + rise * (height - plan.foot[1]),
    )
    line = ground.scan.settle(smoothed(resampled(points, STEP), 0.3))
    line[0] = foot
    return resampled(line, STEP)


def _stem_section(clasp: Clasp, share: Floats, at_foot: float) -> tuple[Floats, Floats]:
    """(N,) half widths and thicknesses of the approach arm, at shares of the whole length."""
    width = clasp.width_mm * (1.0 - (1.0 - STEM) * share / at_foot)
    return width / 2, _thick(clasp, share)


def _finger_section(clasp: Clasp, line: Floats, at_foot: float) -> tuple[Floats, Floats]:
    share = arc_lengths(line) / arc_lengths(line)[-1]
    width = FINGER_WIDTH[0] + (FINGER_WIDTH[1] - FINGER_WIDTH[0]) * share
    return width / 2, _thick(clasp, at_foot + share * (1.0 - at_foot))


def _thick(clasp: Clasp, share: Floats) -> Floats:
    taper = 1.0 - (1.0 - limit("clasp.taper").value) * np.clip(share, 0.0, 1.0)
    return np.maximum(clasp.thickness_mm * taper, LEAST_TIP)
