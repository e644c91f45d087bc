"""The opposing teeth as heights over the plan."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from claspwright.arch import DentalArch
from claspwright.base import Floats
from claspwright.geometry import IDENTITY, Grid, HeightField, Mesh, Rigid, height_field

GAP = 0.1  # mm that metal keeps from the opposing teeth
OPEN = 50.0


@dataclass(frozen=True, slots=True, eq=False)
class Roof:
    """Height up to which metal may rise over each plan point, grid frame."""

    seen: HeightField  # of the opposing arch, upside down

    def at(self, points: Floats) -> Floats:
        """(N,) height over (N, 2) or (N, 3) plan points; `OPEN` where no tooth opposes [mm]."""
        flipped = np.column_stack([points[:, 0], -points[:, 1], np.zeros(len(points))])
        lowest = -self.seen.at(flipped)
        return np.where(np.isfinite(lowest), lowest - GAP, OPEN)


def roof_over(arch: DentalArch, grid: Grid) -> Roof | None:
    """The roof that the opposing arch makes over a grid; None without an opposing arch."""
    if arch.opposing is None:
        return None
    return _roof(arch.opposing, grid.frame, grid.spacing)


@lru_cache(maxsize=2)
def _roof(opposing: Mesh, frame: Rigid, spacing: float) -> Roof:
    """The roof; every component asks for the same one again."""
    turned = opposing.moved(frame)
    flip = Rigid(np.diag([1.0, -1.0, -1.0]), np.zeros(3))
    flipped = Mesh(flip.apply(turned.vertices), turned.faces)
    return Roof(height_field(flipped, IDENTITY, spacing))
