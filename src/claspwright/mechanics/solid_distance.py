"""Signed distance to a solid where the cells need it: exact near the surface, coarse elsewhere."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats, Progress, silent
from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Grid,
    Mesh,
    distance_field,
    signed_distance,
)
from claspwright.mechanics.cells import Cells, Distance, cut_cells

NEAR = 1.3  # steps of a cell from the surface within which the distance is exact


def mesh_distance(solid: Mesh, step: float, *, progress: Progress = silent) -> Distance:
    """Distance to a closed mesh, for cells of a given edge [mm]."""
    tree = DistanceTree(solid)
    pad = 3 * step
    box = np.stack([solid.bounds[0] - pad, solid.bounds[1] + pad])
    grid = Grid.around(box, IDENTITY, 1.5 * step, 0.0)
    coarse = distance_field(tree, grid, 6.5 * step, exact=0.1, middle=0.4, progress=progress)

    def distance(points: Floats) -> Floats:
        found = coarse.at(points)
        near = np.abs(found) < NEAR * step
        if near.any():
            found[near] = signed_distance(tree, points[near])
        return found

    return distance


def solid_cells(solid: Mesh, step: float, *, progress: Progress = silent) -> Cells:
    """A watertight solid cut into cells of a given edge [mm]."""
    low = np.floor((solid.bounds[0] - step) / step) * step
    high = solid.bounds[1] + step
    return cut_cells(mesh_distance(solid, step), low, high, step, progress=progress)
