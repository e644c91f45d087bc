"""Cingulum rest seats: a level floor on the lingual side of a front tooth, a wall behind it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.arch.crowntop import CrownTop
from claspwright.base import Floats

STEP = 0.1  # mm
LANES = np.arange(-1.8, 1.81, 0.3)  # mm across
LEVEL = 0.45  # slope up to which a floor counts as level
FLOOR_MM = 0.6  # least depth of the floor, from its lip to the wall (check-values C09: about 2)
WALL = 1.3  # slope of the wall behind the floor
HEIGHT_SHARE = 0.4  # of the lingual height at which a seat is asked for


@dataclass(frozen=True, slots=True, eq=False)
class CingulumSeat:
    """What was found; arch frame."""

    point: Floats  # (3,) mm
    prepared: bool
    depth_mm: float  # height of the wall behind the floor
    width_mm: float
    outline: Floats  # (M, 3) mm


def cingulum_seat(top: CrownTop) -> CingulumSeat:
    """Find the seat on the side that `out` points to: the lingual one."""
    runs = {float(v): run for v in LANES if (run := _level_run(top, float(v))) is not None}
    runs = _side_by_side(runs)
    if len(runs) >= 4:
        return _prepared(top, runs)
    return _place(top)


def _profile(top: CrownTop, v: float) -> tuple[Floats, Floats]:
    u = np.arange(-4.0, 7.0, STEP)
    z = top.z(u, np.full(len(u), v))
    good = np.isfinite(z)
    return u[good], z[good]


def _level_run(top: CrownTop, v: float) -> tuple[float, float, float] | None:
    """Inner and outer end of a level floor in one lane, and the wall's height behind it."""
    u, z = _profile(top, v)
    if len(u) < 20:
        return None
    base = min(float(top.tooth.margin[:, 2].mean()), float(z[-1]))
    slope = np.gradient(z, u)  # u runs outwards, so a rise towards the tooth is negative
    share = (z - base) / max(float(z.max()) - base, 1e-6)
    peak = int(np.argmax(z))
    level = (np.abs(slope) < LEVEL) & (share < 0.8) & (share > 0.05)
    level[: peak + 1] = False
    start, best = None, None
    for k in range(len(u) + 1):
        if k < len(u) and level[k]:
            start = k if start is None else start
            continue
        if start is not None and u[k - 1] - u[start] >= FLOOR_MM:
            behind = slice(max(start - 6, 0), start + 1)
            if -slope[behind].min() > WALL:
                rise = float(z[max(start - 8, 0) : start + 1].max() - z[start:k].min())
                best = (float(u[start]), float(u[k - 1]), rise)
        start = None
    return best


def _side_by_side(
    runs: dict[float, tuple[float, float, float]],
) -> dict[float, tuple[float, float, float]]:
    """The longest row of neighbouring lanes that have a floor."""
    best: list[float] = []
    row: list[float] = []
    for v in LANES:
        row = [*row, float(v)] if float(v) in runs else []
        best = row if len(row) > len(best) else best
    return {v: runs[v] for v in best}


def _prepared(top: CrownTop, runs: dict[float, tuple[float, float, float]]) -> CingulumSeat:
    v = np.array(list(runs))
    inner = np.array([run[0] for run in runs.values()])
    outer = np.array([run[1] for run in runs.values()])
    middle = int(np.argmin(np.abs(v - v.mean())))
    u = np.linspace(inner[middle] + 0.1, outer[middle] - 0.1, 9)
    floor = top.points(u, np.full(9, v[middle]))
    outline = np.concatenate([top.points(outer, v), top.points(inner[::-1], v[::-1])])
    return CingulumSeat(
        floor[int(np.argmin(floor[:, 2]))],
        True,
        float(np.median([run[2] for run in runs.values()])),
        float(v[-1] - v[0]),
        outline,
    )


def _place(top: CrownTop) -> CingulumSeat:
    u, z = _profile(top, 0.0)
    base = float(z[-1])
    aim = base + HEIGHT_SHARE * (float(z.max()) - base)
    peak = int(np.argmax(z))
    k = peak + int(np.argmin(np.abs(z[peak:] - aim)))
    angle = np.linspace(0.0, 2 * np.pi, 24, endpoint=False)
    ring_u = u[k] + 0.7 * np.cos(angle)
    ring_v = 1.35 * np.sin(angle)
    outline = top.points(ring_u, ring_v)
    outline = outline[np.isfinite(outline).all(axis=1)]
    point = top.points(u[k : k + 1], np.zeros(1))[0]
    return CingulumSeat(point, False, 0.0, 2.7, outline)
