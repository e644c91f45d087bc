"""The opposing teeth as a roof over the framework."""

from __future__ import annotations

import numpy as np

from claspwright.base import Singles
from claspwright.framework.ground import Ground
from claspwright.geometry import IDENTITY, Mesh, Rigid, height_field

GAP = 0.1  # mm that metal keeps from the opposing teeth
OPEN = 50.0


def closing_roof(ground: Ground) -> Singles:
    """Field that is negative below the opposing arch, on the grid [mm].

    The lowest opposing surface over each column of the grid, less a gap. Columns without an
    opposing surface are open.
    """
    opposing = ground.arch.opposing
    assert opposing is not None
    grid = ground.grid
    turned = opposing.moved(grid.frame)
    flip = Rigid(np.diag([1.0, -1.0, -1.0]), np.zeros(3))
    seen = height_field(Mesh(flip.apply(turned.vertices), turned.faces), IDENTITY, grid.spacing)
    x, y, z = grid.axes()
    plan = np.stack(np.meshgrid(x, -y, [0.0], indexing="ij"), axis=-1).reshape(-1, 3)
    tops = -seen.at(plan).reshape(len(x), len(y))
    roof = np.where(np.isfinite(tops), tops - GAP, OPEN)
    return np.asarray(z[None, None, :] - roof[:, :, None], np.float32)
