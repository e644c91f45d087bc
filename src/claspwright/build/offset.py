"""Contours moved inwards by the width of the beam."""

from __future__ import annotations

from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from claspwright.base import Floats, Progress, silent
from claspwright.build import _slice_kernels as kernels
from claspwright.build._nest_kernels import firsts, holders
from claspwright.build.slices import Slices, in_order

ARC_STEPS = 4  # segments in a quarter circle where a corner is rounded
SIMPLIFY_MM = 0.001


def layer_polygons(slices: Slices) -> tuple[Any, NDArray[np.int64]]:
    """(P,) shapely polygons with their holes, and the layer of each."""
    made, layer, _ = _polygons(slices)
    return made, layer


def _polygons(slices: Slices) -> tuple[Any, NDArray[np.int64], NDArray[np.int64]]:
    """The polygons, the layer of each, and the first one that it repeats layer upon layer."""
    areas = slices.areas()
    layer = slices.layer_of_contour()
    outer = np.flatnonzero(areas > 0)
    owner = np.full(slices.contours, -1, np.int64)
    holders(slices.points, slices.contour_start, slices.layer_start, areas, owner)
    holes = np.flatnonzero((areas < 0) & (owner >= 0))
    rings = shapely.linearrings(
        slices.points, indices=np.repeat(np.arange(slices.contours), np.diff(slices.contour_start))
    )
    place = np.full(slices.contours, -1, np.int64)
    place[outer] = np.arange(len(outer))
    every = np.concatenate([outer, holes])
    whose = np.concatenate([place[outer], place[owner[holes]]])
    order = np.argsort(whose, kind="stable")  # each outer ring first, then its holes
    made = shapely.polygons(rings[every[order]], indices=whose[order])
    alone = areas > 0
    alone[owner[holes]] = False
    first = np.empty(slices.contours, np.int64)
    firsts(slices.points, slices.contour_start, slices.layer_start, alone, first)
    return made, layer[outer], place[first[outer]]


def moved_in(slices: Slices, distance_mm: float, *, progress: Progress = silent) -> Slices:
    """Contours at a distance inside the metal; what is thinner than twice that vanishes.

    Points nearer than a micrometre to the line that is left are dropped first.
    """
    if distance_mm == 0.0 or not slices.contours:
        return slices
    polygons, layer, first = _polygons(slices)
    progress(0.3, "beam offset")
    own, which = np.unique(first, return_inverse=True)  # pins are the same over many layers
    parts = shapely.buffer(polygons[own], -distance_mm, quad_segs=ARC_STEPS)[which]
    progress(0.8, "beam offset")
    found = from_polygons(parts, layer, slices)
    progress(1.0, "beam offset")
    return found


def from_polygons(parts: Any, layer: NDArray[np.int64], like: Slices) -> Slices:
    """Polygons, each with its layer, as contours in the layers of another value."""
    single, which = shapely.get_parts(parts, return_index=True)
    full = ~shapely.is_empty(single) & (shapely.get_dimensions(single) == 2)
    single, which = single[full], which[full]
    rings, of_polygon = shapely.get_rings(single, return_index=True)
    points, of_ring = shapely.get_coordinates(rings, return_index=True)
    if not len(rings):
        return Slices(like.bottom_mm, like.layer_mm, np.zeros((0, 2)), np.zeros(1, np.int64),
                      np.zeros(like.layers + 1, np.int64))  # fmt: skip
    starts = np.concatenate([[0], np.cumsum(np.bincount(of_ring, minlength=len(rings)))])
    first = np.concatenate([[True], of_polygon[1:] != of_polygon[:-1]])  # the outer ring
    return _gathered(points, starts, first, layer[which[of_polygon]], like)


def _gathered(
    points: Floats, starts: NDArray[Any], outer: NDArray[Any], layer: NDArray[Any], like: Slices
) -> Slices:
    """Rings that repeat their first point, turned to the sense of the contour they are."""
    sizes = np.diff(starts) - 1
    keep = np.ones(len(points), bool)
    keep[starts[1:] - 1] = False
    points = points[keep]
    start = np.concatenate([[0], np.cumsum(sizes)]).astype(np.int64)
    areas = np.empty(len(sizes))
    kernels.signed_areas(points, start, areas)
    turn = (areas > 0) != outer
    index = np.arange(len(points))
    whose = np.repeat(np.arange(len(sizes)), sizes)
    back = start[whose] + start[whose + 1] - 1 - index
    points = points[np.where(turn[whose], back, index)]
    found = in_order(points, start, layer, like.layers, SIMPLIFY_MM)
    return Slices(like.bottom_mm, like.layer_mm, *found)
