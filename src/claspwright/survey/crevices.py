"""Crevices between crowns that are finer than the grid: found on the scan itself, and filled."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import distance_transform_edt, label

from claspwright.base import Bools
from claspwright.geometry import Field, Grid, Mesh, contour

DEEP_MM = 0.03  # below the zero of the field a point of the scan lies in a crevice
AROUND_MM = 0.6  # about such points what the field calls solid is filled


def crevice_fills(surface: Mesh, hidden: Bools, scan: Field, blocked: Field) -> list[Mesh]:
    """Fillings of crevices that the grid does not see, and that a draught would close.

    Where crowns meet, the scan may run a crevice narrower than the grid under an overhang: the
    field holds it for solid, so nothing is blocked out there, and metal would follow the scan
    into it.

    Args:
        surface: the scanned surface, world frame [mm].
        hidden: (V,) True for its vertices that lie under an overhang along the path.
        scan: distance to the master solid.
        blocked: the same, blocked out and relieved, on the same grid.

    Returns:
        Closed lumps, each within `AROUND_MM` of a crevice, 0.03 mm inside the blocked-out field.
    """
    nodes = scan.grid.to_nodes(surface.vertices)
    deep = np.rint(nodes[(scan.at(surface.vertices) < -DEEP_MM) & hidden]).astype(np.int64)
    deep = deep[np.all((deep >= 0) & (deep < np.array(scan.grid.shape)), axis=1)]
    if not len(deep):
        return []
    step = scan.grid.spacing
    pad = int(np.ceil(AROUND_MM / step)) + 2
    low = np.maximum(deep.min(axis=0) - pad, 0)
    high = np.minimum(deep.max(axis=0) + pad + 1, scan.grid.shape)
    return [_fill(part, blocked, step, pad) for part in _groups(deep, low, high, pad)]


def _groups(
    deep: NDArray[np.int64], low: NDArray[np.int64], high: NDArray[np.int64], pad: int
) -> list[NDArray[np.int64]]:
    """Points of the crevices, grouped by cells of a coarse grid that touch each other."""
    size = 2 * pad
    cells = (deep - low) // size
    coarse = np.zeros((high - low) // size + 1, bool)
    coarse[tuple(cells.T)] = True
    named, _ = label(coarse, np.ones((3, 3, 3), int))
    owner = named[tuple(cells.T)]
    return [deep[owner == n] for n in np.unique(owner)]


def _fill(deep: NDArray[np.int64], blocked: Field, step: float, pad: int) -> Mesh:
    """What the field calls solid about some nodes."""
    shape = np.array(blocked.grid.shape)
    low, high = np.maximum(deep.min(axis=0) - pad, 0), np.minimum(deep.max(axis=0) + pad + 1, shape)
    away = np.ones(high - low, bool)
    away[tuple((deep - low).T)] = False
    near = step * distance_transform_edt(away) - AROUND_MM
    box = tuple(slice(int(a), int(b)) for a, b in zip(low, high, strict=True))
    values = np.maximum(blocked.values[box] + np.float32(DEEP_MM), near.astype(np.float32))
    grid = blocked.grid
    origin = grid.origin + step * low
    part = Grid(grid.frame, origin, step, (values.shape[0], values.shape[1], values.shape[2]))
    return contour(Field(part, values))
