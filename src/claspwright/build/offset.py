"""Contours moved inwards by the width of the beam."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from claspwright.base import Progress, silent
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
    return moved_in_by_steps(slices, (distance_mm,), progress=progress)[0]


def moved_in_by_steps(
    slices: Slices, steps_mm: Sequence[float], *, progress: Progress = silent
) -> tuple[Slices, ...]:
    """Contours inside the metal, one step after the other further in; a step may be 0."""
    if not slices.contours:
        return (slices,) * len(steps_mm)
    polygons, layer, first = _polygons(slices)
    progress(0.3, "beam offset")
    own, which = np.unique(first, return_inverse=True)  # pins are the same over many layers
    parts, found = polygons[own], []
    last = slices
    for n, step in enumerate(steps_mm):
        if step != 0.0:
            parts = shapely.buffer(parts, -step, quad_segs=ARC_STEPS)
            last = _as_slices(parts[which], layer, slices)
        found.append(last)
        progress(0.3 + 0.7 * (n + 1) / len(steps_mm), "beam offset")
    return tuple(found)


def _as_slices(parts: Any, layer: NDArray[np.int64], like: Slices) -> Slices:
    """Areas, each with its layer, as contours in the layers of another value."""
    points, whose = shapely.get_coordinates(parts, return_index=True)
    starts = np.empty(len(points) // 4 + 1, np.int64)
    rings = kernels.closed_rings(points, whose, starts)
    starts = starts[: rings + 1]
    if not rings:
        return Slices(like.bottom_mm, like.layer_mm, np.zeros((0, 2)), np.zeros(1, np.int64),
                      np.zeros(like.layers + 1, np.int64))  # fmt: skip
    owner = whose[starts[:-1]]
    sizes = np.diff(starts) - 1
    keep = np.ones(len(points), bool)
    keep[starts[1:] - 1] = False
    points = points[keep]
    start = np.concatenate([[0], np.cumsum(sizes)]).astype(np.int64)
    areas = np.empty(rings)
    kernels.signed_areas(points, start, areas)
    first = np.concatenate([[True], owner[1:] != owner[:-1]])  # each area begins outside
    outside = areas[np.flatnonzero(first)][np.cumsum(first) - 1] > 0
    # outer rings of an area run one way, its holes the other: here the outer ones run forwards
    kernels.turn_rings(points, start, outside)
    found = in_order(points, start, layer[owner], like.layers, SIMPLIFY_MM)
    return Slices(like.bottom_mm, like.layer_mm, *found)
