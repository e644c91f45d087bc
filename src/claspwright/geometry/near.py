"""Points that lie near each other."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from claspwright.base import Floats


def near_groups(points: Floats, reach: float) -> NDArray[np.int32]:
    """(N,) number of the group of each of (N, 3) points, from 0.

    Two points are of one group where a way leads from one to the other over points in steps of at
    most `reach` [mm].
    """
    count = len(points)
    pairs = cKDTree(points).query_pairs(reach, output_type="ndarray")
    links = coo_array((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(count, count))
    return np.asarray(connected_components(links, directed=False)[1], np.int32)
