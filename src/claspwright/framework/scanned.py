"""What the scan covers in plan."""

from __future__ import annotations

import numpy as np
import shapely
from scipy.ndimage import gaussian_filter1d, minimum_filter1d
from shapely.geometry import Polygon, box
from shapely.geometry.base import BaseGeometry

from claspwright.base import Floats
from claspwright.framework.fair_border import largest
from claspwright.framework.ground import Ground
from claspwright.framework.terrain import Terrain
from claspwright.geometry import arc_lengths, boundary_loops

STEEP = 2.0  # rise over run of a wall
NEAR_BORDER = 4.0  # mm from the border of the scan within which walls are kept off
COARSE = 4  # columns between those looked at
ROUND = 2.5  # mm within which a ragged border is evened


def scanned_plan(ground: Ground, inside_mm: float = 1.5) -> BaseGeometry:
    """What the scan covers in plan, a distance inside its border."""
    surface = ground.arch.scan.surface
    loops = boundary_loops(surface)
    if not loops:
        everywhere: BaseGeometry = box(-99, -99, 99, 99)
        return everywhere
    points = ground.here(surface.vertices)[:, :2]
    rim = max((Polygon(points[loop]).buffer(0) for loop in loops), key=lambda shape: shape.area)
    inner: BaseGeometry = rim.buffer(-(inside_mm + ROUND)).buffer(ROUND)
    return inner


def off_walls(ground: Ground, seen: BaseGeometry) -> BaseGeometry:
    """The part of what is seen whose border does not run along a steep wall.

    Seen along the path a wall has hardly any width: a border laid along one would be ragged.
    """
    heights, step = ground.blocked.tops[::COARSE, ::COARSE], COARSE * ground.grid.spacing
    slope = np.hypot(*np.gradient(heights, step))
    steep = np.argwhere(slope > STEEP)
    if not len(steep):
        return seen
    spots = ground.grid.origin[:2] + step * steep
    near = shapely.distance(seen.boundary, shapely.points(spots)) < NEAR_BORDER
    walls = shapely.union_all(shapely.points(spots[near])).buffer(step)
    return Polygon(largest(seen.difference(walls).buffer(-0.5).buffer(0.5)).exterior)


def room_beside(
    terrain: Terrain, seen: BaseGeometry, crest: Floats, aside: Floats, even_mm: float, step: float
) -> Floats:
    """(N,) length over the surface from each crest point to where the scan ends on one side [mm].

    The least within `even_mm` along the crest, evened, so that a ragged border leaves no waves.

    Args:
        terrain: surface that the lengths are taken over.
        seen: what the scan covers in plan.
        crest: (N, 3) evenly stepped points [mm].
        aside: (N, 3) horizontal unit vectors to that side.
        even_mm: along the crest [mm].
        step: between the crest's points [mm].
    """
    shapely.prepare(seen)
    reach = np.zeros(len(crest))
    for n, point in enumerate(crest):
        profile = terrain.profile(point, aside[n], 9.0)
        if len(profile) < 2:
            continue
        inside = shapely.contains_xy(seen, profile[:, 0], profile[:, 1])
        last = len(profile) - 1 if inside.all() else int(np.argmin(inside)) - 1
        reach[n] = arc_lengths(profile)[last] if last >= 0 else 0.0
    narrow = minimum_filter1d(reach, max(2 * round(even_mm / step) + 1, 3), mode="nearest")
    even = gaussian_filter1d(narrow, even_mm / (2 * step), mode="nearest")
    return np.asarray(np.minimum(even, reach))
