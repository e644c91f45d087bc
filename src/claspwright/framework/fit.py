"""Fit offsets: by how much the metal stands off its model where it is printed rough and finished.

The exact cut by the model comes first. Where an offset is asked for, and only there, a second body
takes the metal away: the same surface raised by the offset, bounded by the pieces it is asked for.
Where none is asked for, not one vertex moves.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from scipy.ndimage import gaussian_filter

from claspwright.base import Singles
from claspwright.framework.design import FitOffsets
from claspwright.framework.ground import Ground, Piece, cutting_values
from claspwright.framework.model import ComponentKind
from claspwright.geometry import Field, Mesh, contour, difference

OFFSET_OF: dict[ComponentKind, str] = {
    "rest": "rests_mm",
    "proximal plate": "guiding_planes_mm",
    "retentive arm": "arms_mm",
    "reciprocal arm": "arms_mm",
    "approach arm": "arms_mm",
}
ORDER = ("tissue_mm", "arms_mm", "guiding_planes_mm", "rests_mm")  # where two meet: the last one
NEAR_MM = 0.25  # round a piece within which its offset holds
RUN_OUT_MM = 0.25  # over which one offset runs out into the next
LEAST_MM = 0.002  # of offset, below which nothing is taken away
BAND_MM = 1.5  # of the surface, outside which nothing is looked at


def offset_field(ground: Ground, pieces: Sequence[Piece], fit: FitOffsets) -> Singles:
    """Offset over the grid where metal lies; 0 elsewhere [mm]."""
    grid = ground.grid
    out = np.zeros(grid.shape, np.float32)
    for key in ORDER:
        for piece in pieces:
            if OFFSET_OF.get(piece.component.kind, "tissue_mm") != key:
                continue
            here = piece.shape.box.slices
            mine = piece.shape.values < NEAR_MM
            out[here] = np.where(mine, np.float32(getattr(fit, key)), out[here])
    return np.asarray(gaussian_filter(out, RUN_OUT_MM / grid.spacing, truncate=2.0), np.float32)


def eased(solid: Mesh, ground: Ground, pieces: Sequence[Piece], fit: FitOffsets) -> Mesh:
    """A cut solid with its inner side moved off the model by the offsets of its regions.

    Args:
        solid: the framework, cut exactly.
        ground: the surfaces that it was cut by.
        pieces: its pieces, which say where each region lies.
        fit: the offsets; all zero gives the solid back as it is.
    """
    if not fit.any:
        return solid
    offset = offset_field(ground, pieces, fit)
    cutter = cutting_values(ground, pieces)
    slope = np.float32(RUN_OUT_MM / max(fit.most, 1e-6))
    body = np.maximum(cutter - offset, (np.float32(LEAST_MM) - offset) * slope)
    body = np.maximum(body, -cutter - np.float32(BAND_MM))
    for axis in range(3):  # nothing on the outermost nodes: the body is closed
        for end in (0, -1):
            face: list[slice | int] = [slice(None)] * 3
            face[axis] = end
            body[tuple(face)] = np.maximum(body[tuple(face)], np.float32(ground.grid.spacing))
    if not (body < 0).any():
        return solid
    return difference(solid, contour(Field(ground.grid, np.asarray(body, np.float32))))
