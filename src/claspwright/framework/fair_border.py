"""Fair borders: a plan outline evened to a smooth curve that stays within its room."""

from __future__ import annotations

import numpy as np
import shapely
from scipy.ndimage import gaussian_filter1d, maximum_filter1d
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from claspwright.base import Floats
from claspwright.geometry import resampled

STEP = 0.4  # mm between the points of a border
EVEN_MM = 1.5  # over which the border is evened in each round
ROUNDS = 10
SPREAD_MM = 2.5  # over which a border that is pushed back gives way
LEAST_HOLE = 10.0  # mm2: smaller holes are closed
LAST = 0.5  # mm radius to which what is left of corners is rounded


def fair(outline: Polygon, room: BaseGeometry) -> Polygon:
    """An outline with smooth borders, holes included.

    Waves shorter than about a centimetre go; where the evened border would leave its room it
    gives way over a few millimetres, so that it passes by in a smooth bay.

    Args:
        outline: in plan [mm].
        room: what the outline must stay in.

    Returns:
        The largest part of the evened outline; empty where nothing is left.
    """
    outer = Polygon(_evened(_points(outline.exterior.coords), room)).buffer(0)
    holes = [
        Polygon(_evened(_points(ring.coords), outline.buffer(99.0))).buffer(0)
        for ring in outline.interiors
        if Polygon(ring).area > LEAST_HOLE
    ]
    whole = outer.intersection(room).difference(shapely.union_all(holes))
    return largest(whole.buffer(-LAST).buffer(LAST).intersection(room))


def largest(shape: BaseGeometry) -> Polygon:
    """The largest polygon of a plan shape; an empty one where there is none."""
    parts = [part for part in shapely.get_parts(shape) if isinstance(part, Polygon)]
    return max(parts, key=lambda part: part.area, default=Polygon())


def _points(coords: object) -> Floats:
    return np.asarray(coords, np.float64)[:, :2]


def _evened(ring: Floats, room: BaseGeometry) -> Floats:
    """(N, 2) closed ring, evened round after round and pushed back into its room."""
    shapely.prepare(room)
    points = resampled(ring, STEP)
    for _ in range(ROUNDS):
        points = _pushed_back(_even(points[:-1]), room)
        points = resampled(np.vstack([points, points[:1]]), STEP)
    return points


def _even(ring: Floats) -> Floats:
    even = _around(ring, EVEN_MM)
    return 2.0 * even - _around(even, EVEN_MM)  # evening alone would draw it inwards


def _pushed_back(ring: Floats, room: BaseGeometry) -> Floats:
    """A ring moved inwards, evenly spread along it, by what it lies outside its room."""
    out = np.asarray(shapely.distance(room, shapely.points(ring)))
    if not out.any():
        return ring
    spread = maximum_filter1d(out, max(int(2 * SPREAD_MM / STEP), 1), mode="wrap")
    spread = np.asarray(gaussian_filter1d(spread, 0.5 * SPREAD_MM / STEP, mode="wrap"))
    ahead = np.roll(ring, -1, axis=0) - np.roll(ring, 1, axis=0)
    ahead /= np.linalg.norm(ahead, axis=1, keepdims=True) + 1e-12
    x, y = ring.T
    turn = np.sign(float(x @ np.roll(y, -1) - y @ np.roll(x, -1)))  # 1 where it runs leftwards
    inwards = turn * np.column_stack([-ahead[:, 1], ahead[:, 0]])
    return np.asarray(ring + spread[:, None] * inwards)


def _around(ring: Floats, reach: float) -> Floats:
    return np.asarray(gaussian_filter1d(ring, reach / STEP, axis=0, mode="wrap"))
