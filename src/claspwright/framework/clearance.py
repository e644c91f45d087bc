"""The opposing teeth as a field over the framework."""

from __future__ import annotations

import numpy as np

from claspwright.base import Singles
from claspwright.framework.ground import Ground
from claspwright.framework.roof import GAP, roof_over

__all__ = ["GAP", "closing_roof"]


def closing_roof(ground: Ground) -> Singles:
    """Field that is negative below the opposing arch, on the grid [mm].

    The lowest opposing surface over each column of the grid, less a gap. Columns without an
    opposing surface are open.
    """
    roof = roof_over(ground.arch, ground.grid)
    assert roof is not None
    x, y, z = ground.grid.axes()
    plan = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
    tops = roof.at(plan).reshape(len(x), len(y))
    return np.asarray(z[None, None, :] - tops[:, :, None], np.float32)
