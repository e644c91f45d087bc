"""Looking for the spoon that a bur leaves: a channel with two steep walls, open to the side.

Natural grooves and fossae are valleys with gentle slopes (below 1 on the crowns examined);
a prepared seat is a channel about 2.5 mm wide whose walls stand steeper than that.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.arch.crowntop import SPACING, CrownTop
from claspwright.base import Floats

STATIONS = (0.6, 0.9, 1.2, 1.5, 1.8)  # mm inside the rim where the channel is looked at
HALF = 2.0  # mm to both sides in which its walls are looked for
WALL = 1.05  # slope that both walls of a prepared seat have at least
ONE_WALL = 2.2  # slope of a single wall beside a flat floor, where the other side is cut away
WALL_RISE = 0.5  # mm that each wall stands over the floor
RIM_DROP = 0.6  # mm that the crown falls over 0.4 mm behind its rim


@dataclass(frozen=True, slots=True)
class Channel:
    """The best channel of one side of a crown; (u, v) as in CrownTop [mm]."""

    v: float
    rim_u: float
    wall: float  # slope of the gentler wall, the median of the stations
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
    """The steepest-walled channel that opens to the side of `out`; None without any rim."""
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
        wall, prepared = _walls(grid, j, rim)
        if best is None or (prepared, wall) > (best.prepared, best.wall):
            best = Channel(float(v), float(grid.u[rim]), wall, prepared)
    return best


def _walls(grid: TopGrid, j: int, rim: int) -> tuple[float, bool]:
    """Slope of the gentler wall along a lane, and whether a bur has been there."""
    half = int(HALF / SPACING)
    gentle, steep, flat = [], [], []
    for inside in STATIONS:
        k = rim - int(round(inside / SPACING))
        if k < 0 or j < half or j + half >= len(grid.v):
            continue
        across = grid.z[j - half : j + half + 1, k]
        slope = (across[3:] - across[:-3]) / (3 * SPACING)  # at node + 1.5
        floor = across[half - 3 : half + 4].mean()
        left = -slope[: half - 2].min() if across[:half].max() > floor + WALL_RISE else 0.0
        right = slope[half:].max() if across[half:].max() > floor + WALL_RISE else 0.0
        gentle.append(min(left, right))
        steep.append(max(left, right))
        flat.append(float(np.ptp(across[half - 5 : half + 6])))
    if len(gentle) < 3:
        return 0.0, False
    wall = float(np.median(gentle))
    beside_flat = wall > 0.7 and np.median(steep) > ONE_WALL and np.median(flat) < 0.25
    return wall, bool(wall > WALL or beside_flat)
