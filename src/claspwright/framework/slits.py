"""Slits between teeth that no metal runs down into: a blade there would be thin and hold food."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import distance_transform_edt, grey_closing

from claspwright.base import Floats, Singles
from claspwright.framework.canvas import Shape, steadied
from claspwright.framework.terrain import Terrain

SLIT = 1.0  # mm: what is narrower is bridged
INTO = 0.05  # mm below the bridge that metal of a rest reaches
SOUND = 0.2  # mm into a slit that other metal reaches, so that inner corners stay filled
EVEN = 0.15  # mm over which a bridge is evened


def bridged(tops: Floats | Singles, step: float) -> Floats:
    """(nx, ny) heights with slits narrower than SLIT bridged at the height of their borders.

    Source:
        Grey-value closing: Serra, Image Analysis and Mathematical Morphology (1982).
    """
    size = 2 * round(SLIT / 2 / step) + 1
    return np.asarray(grey_closing(tops, size=(size, size), mode="nearest"), np.float64)


def closed(off: Singles, radius: float, step: float, even: float) -> Singles:
    """Distance to a solid whose hollows are filled as a ball of `radius` rolls over it [mm].

    Args:
        off: distance to the solid, positive outside [mm].
        radius: of the ball [mm].
        step: between nodes [mm].
        even: length over which the result is evened [mm].

    Source:
        Closing by a ball: Serra, Image Analysis and Mathematical Morphology (1982).
    """
    inside = off < radius
    if inside.all() or not inside.any():
        return steadied(off, even / step)
    away, nearest = distance_transform_edt(inside, sampling=step, return_indices=True)
    over = off[tuple(nearest)] - radius  # the nearest free node lies a little past the ball's way
    filled = np.where(inside, radius - (away - over), off)
    return steadied(np.minimum(filled, off).astype(np.float32), even / step)


def without_blades(ground: Terrain, shape: Shape) -> Shape:
    """A shape without what hangs down into the slits of the ground under it."""
    off = ground.field.values[shape.box.slices]
    over = closed(off, SLIT / 2, ground.grid.spacing, EVEN)
    return Shape(shape.box, np.maximum(shape.values, -over - np.float32(SOUND)))
