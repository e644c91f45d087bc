"""Metal over each point of the plane across a direction."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats
from claspwright.geometry import HeightField, Mesh, height_field, looking_along

SPACING = 0.1  # mm


@dataclass(frozen=True, slots=True, eq=False)
class Columns:
    """Highest and lowest metal along a direction, over a plane grid."""

    top: HeightField
    bottom: HeightField  # of the mesh seen from below: heights along the opposite direction

    @staticmethod
    def of(mesh: Mesh, direction: Floats, spacing: float = SPACING) -> Columns:
        """Look at a mesh from both sides along a unit direction."""
        up = np.asarray(direction, dtype=np.float64)
        return Columns(
            height_field(mesh, looking_along(up), spacing),
            height_field(mesh, looking_along(-up), spacing),
        )

    def thickness(self, points: Floats) -> Floats:
        """(N,) distance between the outermost metal along the line through each point [mm].

        Not a number where the line misses the metal.
        """
        above, below = self.top.below(points), self.bottom.below(points)
        total = above + below
        return np.where(np.isfinite(total), total, np.nan)
