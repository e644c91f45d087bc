"""Where the ground beside a line is lowest: a way that keeps to the valley between two crowns."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats
from claspwright.framework.terrain import Terrain

ASIDE = 1.8  # mm to each side in which it is sought
STIFF = 0.1  # mm of height, for one millimetre aside, that it has to be lower by


def lowest_beside(
    ground: Terrain, line: Floats, aside: Floats, reach: Floats | float = ASIDE
) -> Floats:
    """(N,) how far aside of each point of a line the ground is lowest [mm].

    Args:
        ground: the surface.
        line: (N, 2) or (N, 3) the line, grid frame [mm].
        aside: (2,) or (3,) horizontal direction that counts as positive.
        reach: (N,) or one number, how far a point may be drawn aside [mm].
    """
    offsets = np.linspace(-ASIDE, ASIDE, 2 * round(ASIDE / 0.1) + 1)
    spots = line[:, None, :2] + offsets[None, :, None] * aside[:2]
    heights = ground.height(spots.reshape(-1, 2)).reshape(spots.shape[:2])
    cost = np.nan_to_num(heights, nan=np.inf) + STIFF * offsets**2
    allowed = np.abs(offsets) <= np.reshape(reach, (-1, 1))
    return np.asarray(offsets[np.argmin(np.where(allowed, cost, np.inf), axis=1)])
