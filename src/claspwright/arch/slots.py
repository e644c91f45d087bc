"""Looking for the spoon that a bur leaves: a channel with two steep walls, open to the side.

Natural grooves and fossae are valleys with gentle slopes; a prepared seat is a channel about
2.5 mm wide whose walls stand steeper than those.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.arch.crowntop import SPACING, CrownTop
from claspwright.base import Floats

LENGTH_NODES = 13  # nodes of a lane over which both walls must stand, 1.2 mm
HALF = 2.0  # mm to both sides in which its walls are looked for
# The slope that both walls of a prepared seat have at least, and the mm that the way out may rise
# over its floor. Own measurement (docs/survey.md): natural crowns reach 1.34 where they are open
# and 1.48 over a lip of 0.7 mm, cut seats have 1.60 or more, and 1.89 over a lip of 0.7 mm.
WALL, OPEN = 1.45, 0.4
PIT_WALL, PIT_OPEN = 1.6, 1.0
WALL_RISE = 0.5  # mm that each wall stands over the floor
RIM_DROP = 0.6  # mm that the crown falls over 0.4 mm behind its rim


@dataclass(frozen=True, slots=True)
class Channel:
    """The best channel of one side of a crown; (u, v) as in CrownTop [mm]."""

    v: float
    rim_u: float  # outer end
    wall: float  # slope of the gentler wall, the median over the channel's length
    ridge_u: float  # where its way out is highest: the marginal ridge that was cut
    lip: float  # how far the way out rises over its floor [mm]
    prepared: bool


@dataclass(frozen=True, slots=True, eq=False)
class TopGrid:
    """Heights of a crown on nodes SPACING apart; what lies beside it is far below."""

    u: Floats  # (U,)
    v: Floats  # (V,)
    z: Floats  # (V, U)

    def rim(self, j: int, start: float) -> int | None:
        """Node of lane j behind which the crown falls off, from `start` [mm] outwards."""
        reach = int(round(0.4 / SPACING))
        first = int(np.searchsorted(self.u, start))
        fall = self.z[j, first + reach :] - self.z[j, first:-reach]
        steep = np.flatnonzero(fall < -RIM_DROP)
        return first + int(steep[0]) if len(steep) else None


def top_grid(top: CrownTop) -> TopGrid:
    """Sample the side of a crown that `out` points to."""
    u = np.arange(-1.0, 8.0, SPACING)
    v = np.arange(-6.5, 6.5 + SPACING / 2, SPACING)
    z = top.z(u[None, :], v[:, None])
    return TopGrid(u, v, np.where(np.isfinite(z), z, np.nanmax(z) - 8.0))


def find_channel(top: CrownTop) -> Channel | None:
    """The steepest-walled channel on the side of `out`; None where the crown has no rim."""
    grid = top_grid(top)
    tooth = top.tooth
    start = 0.12 * tooth.mesiodistal_mm
    ceiling = float(grid.z.max())
    best: Channel | None = None
    for v in np.arange(-0.30, 0.301, 0.02) * tooth.buccolingual_mm:
        j = int(round((v - grid.v[0]) / SPACING))
        if grid.z[j, int(np.searchsorted(grid.u, start))] < ceiling - 5.0:
            continue
        rim = grid.rim(j, start)
        if rim is None:
            continue
        channel = _along_lane(grid, j, int(np.searchsorted(grid.u, start)), rim)
        if channel is not None and (
            best is None or (channel.prepared, channel.wall) > (best.prepared, best.wall)
        ):
            best = channel
    return best


def _along_lane(grid: TopGrid, j: int, first: int, rim: int) -> Channel | None:
    """The best stretch of one lane, from the middle of the crown to its rim."""
    half = int(HALF / SPACING)
    if j < half or j + half >= len(grid.v) or rim - first < LENGTH_NODES:
        return None
    across = grid.z[j - half : j + half + 1, first : rim + 1]
    slope = (across[3:] - across[:-3]) / (3 * SPACING)  # at node + 1.5
    floor = across[half - 3 : half + 4].mean(axis=0)
    left = np.where(
        across[:half].max(axis=0) > floor + WALL_RISE, -slope[: half - 2].min(axis=0), 0
    )
    right = np.where(across[half:].max(axis=0) > floor + WALL_RISE, slope[half:].max(axis=0), 0)
    stretches = np.lib.stride_tricks.sliding_window_view(np.minimum(left, right), LENGTH_NODES)
    walls = np.median(stretches, axis=1)
    at = int(np.argmax(walls))
    end = at + LENGTH_NODES - 1
    lip = float(floor[end:].max() - floor[at : end + 1].mean())
    wall = float(walls[at])
    ridge = float(grid.u[first + end + int(np.argmax(floor[end:]))])
    prepared = wall > WALL and lip < (PIT_OPEN if wall > PIT_WALL else OPEN)
    outer = float(grid.u[first + end]) + 0.3
    return Channel(float(grid.v[j]), outer, wall, ridge, lip, prepared)
