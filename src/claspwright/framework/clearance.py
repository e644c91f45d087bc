"""The opposing teeth as a height over each column of the grid."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats
from claspwright.framework.ground import Ground
from claspwright.framework.roof import GAP, roof_over

__all__ = ["GAP", "closing_heights"]


def closing_heights(ground: Ground) -> Floats | None:
    """(nx, ny) height that metal keeps below over each column of the grid [mm].

    The lowest opposing surface over the column, less a gap. Columns without an opposing surface
    are open; without an opposing arch there is no such height.
    """
    roof = roof_over(ground.arch, ground.grid)
    if roof is None:
        return None
    x, y, _ = ground.grid.axes()
    plan = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
    return roof.at(plan).reshape(len(x), len(y))
