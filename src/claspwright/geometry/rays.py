"""Parallel rays against a mesh, in double precision."""

from __future__ import annotations

import numpy as np

from claspwright.base import Bools, Floats
from claspwright.geometry import _ray_kernels as kernels
from claspwright.geometry.distance import POINTS_A_CHUNK, DistanceTree
from claspwright.geometry.threads import in_chunks


def ray_lengths(tree: DistanceTree, points: Floats, direction: Floats) -> Floats:
    """(N,) length from (N, 3) points along one unit direction to the mesh, inf if none [mm].

    Faces through the point itself do not count.
    """
    return _cast(tree, points, direction, any_hit=False)


def is_covered(tree: DistanceTree, points: Floats, direction: Floats) -> Bools:
    """(N,) True where the mesh lies somewhere along the direction from a point."""
    return np.isfinite(_cast(tree, points, direction, any_hit=True))


def _cast(tree: DistanceTree, points: Floats, direction: Floats, *, any_hit: bool) -> Floats:
    points = np.ascontiguousarray(np.atleast_2d(points), dtype=np.float64)
    direction = np.ascontiguousarray(direction, dtype=np.float64)
    out, hits = np.empty(len(points)), np.empty(len(points), np.int32)

    def work(first: int, last: int) -> None:
        here = slice(first, last)
        kernels.cast(points[here], direction, any_hit, tree.arrays, out[here], hits[here])

    in_chunks(work, len(points), POINTS_A_CHUNK)
    return out
