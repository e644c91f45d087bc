"""Where level rays leave the inside of a field."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats
from claspwright.geometry import _sample_kernels as kernels
from claspwright.geometry.grid import Field
from claspwright.geometry.threads import in_chunks

LEVELS_A_CHUNK = 16


def first_exits(field: Field, rays: Floats, heights: Floats, radii: Floats) -> Floats:
    """Where level rays first go from inside a field to outside.

    Args:
        field: negative inside.
        rays: (A, R, 2) places of the rays in plan at each radius, grid frame [mm].
        heights: (Z,) of the rays, grid frame [mm].
        radii: (R,) evenly spaced, two at least [mm].

    Returns:
        (A, Z) radius, linear between two places; NaN where a ray does not leave [mm].
    """
    grid = field.grid
    spots = (rays - grid.origin[:2]) / grid.spacing
    levels = (heights - grid.origin[2]) / grid.spacing
    out = np.full((len(rays), len(heights)), np.nan)

    def work(first: int, last: int) -> None:
        kernels.first_exits(field.values, spots, levels, radii, first, last, out)

    in_chunks(work, len(heights), LEVELS_A_CHUNK)
    return out
