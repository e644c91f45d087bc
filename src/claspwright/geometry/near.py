"""Points that lie near each other."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import binary_dilation
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from claspwright.base import Bools, Floats
from claspwright.geometry import _block_kernels as kernels
from claspwright.geometry.mesh import Mesh


def near_groups(points: Floats, reach: float) -> NDArray[np.int32]:
    """(N,) number of the group of each of (N, 3) points, from 0.

    Two points are of one group where a way leads from one to the other over points in steps of at
    most `reach` [mm].
    """
    count = len(points)
    pairs = cKDTree(points).query_pairs(reach, output_type="ndarray")
    links = coo_array((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(count, count))
    return np.asarray(connected_components(links, directed=False)[1], np.int32)


def faces_near(mesh: Mesh, points: Floats, reach: float) -> Bools:
    """(F,) True for every face that comes within `reach` of one of (N, 3) points [mm].

    Counted in cells as large as the reach, so some faces a little further off are among them, and
    so is every face with a side longer than the reach.
    """
    low = points.min(axis=0) - 3.0 * reach
    cells = np.floor((points - low) / reach).astype(np.int64)
    taken = np.zeros(cells.max(axis=0) + 4, bool)
    taken[tuple(cells.T)] = True
    taken = binary_dilation(taken, np.ones((3, 3, 3), bool), iterations=2)
    near = np.empty(len(mesh.faces), np.bool_)
    kernels.faces_in_cells(mesh.vertices, mesh.faces, taken, low, reach, near)
    return near
