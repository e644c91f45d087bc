"""The way of an arm from the seat of its rest to where it lies on the crown."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import gaussian_filter1d, median_filter

from claspwright.base import Floats
from claspwright.framework.chart import CrownChart
from claspwright.framework.ground import Ground
from claspwright.framework.valley import lowest_beside
from claspwright.geometry import resampled, smoothed

STEP = 0.15  # mm between stations
JUMP = 4 * STEP  # mm between neighbours: the way has leapt over a crest
EVEN = 0.6  # mm over which the way is evened


def root_way(ground: Ground, chart: CrownChart, root: Floats, first: Floats) -> Floats:
    """(N, 3) stations from the root up to, and without, the first point of the arm, grid frame.

    The straight way is taken to the surface nearby. Where that leaps over a crest, which the
    metal could not follow, it goes over the surface, aside into the valley between the teeth.

    Args:
        ground: the blocked-out model among others.
        chart: of the crown.
        root: (M, 3) where the way begins [mm].
        first: (3,) where the arm begins [mm].
    """
    straight = resampled(np.vstack([root, first[None]]), STEP)
    near = ground.laid.settle(smoothed(straight, EVEN))
    if _longest_step(near) <= JUMP:
        return np.asarray(near[:-1])
    over = _in_valley(ground, straight, chart.mesial)
    if over is None:
        return np.asarray(near[:-1])
    laid = ground.laid.settle(smoothed(over, STEP))
    return np.asarray((laid if _longest_step(laid) <= JUMP else over)[:-1])


def _longest_step(line: Floats) -> float:
    return float(np.linalg.norm(np.diff(line, axis=0), axis=1).max(initial=0.0))


def _in_valley(ground: Ground, line: Floats, aside: Floats) -> Floats | None:
    """The line over the top of the surface, drawn aside to lower ground between its ends."""
    away = np.arange(len(line)) * STEP
    reach = np.minimum(away, away[::-1])  # the ends stay where they are
    drawn = median_filter(lowest_beside(ground.laid, line, aside, reach), size=5)
    drawn = gaussian_filter1d(drawn, EVEN / STEP, mode="nearest")
    drawn = np.clip(drawn, -reach, reach)
    plan = line[:, :2] + drawn[:, None] * aside[:2]
    z = ground.laid.height(plan)
    if not np.isfinite(z).all():
        return None
    z[0], z[-1] = line[0, 2], line[-1, 2]
    return resampled(np.column_stack([plan, z]), STEP)
