"""Contours moved inwards by the width of the beam."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from claspwright.base import Bools, Floats, Progress, silent
from claspwright.build import _slice_kernels as kernels
from claspwright.build._nest_kernels import firsts, holders
from claspwright.build.slices import Slices, in_order, kept_contours

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
    owner = _owners(slices, areas)
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
    first = np.empty(slices.contours, np.int64)
    alone = _alone(areas, owner)
    firsts(slices.points, slices.contour_start, slices.layer_start, alone, first)
    return made, layer[outer], place[first[outer]]


def _owners(slices: Slices, areas: Floats) -> NDArray[np.int64]:
    """(C,) the contour that each hole lies in; -1 for outer ones."""
    owner = np.full(slices.contours, -1, np.int64)
    holders(slices.points, slices.contour_start, slices.layer_start, areas, owner)
    return owner


def _alone(areas: Floats, owner: NDArray[np.int64]) -> Bools:
    """(C,) outer contours without holes."""
    alone = areas > 0
    alone[owner[owner >= 0]] = False
    return alone


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
    areas = slices.areas()
    depths = np.cumsum(steps_mm)
    points = np.empty((len(depths), *slices.points.shape))
    plain = _alone(areas, _owners(slices, areas))  # sections of pins, most of them
    kernels.inset_convex(slices.points, slices.contour_start, depths, plain, points)
    sizes = np.diff(slices.contour_start)
    kept = np.repeat(plain, sizes)
    whole, layer = sizes[plain], slices.layer_of_contour()[plain]
    progress(0.1, "beam offset")
    others = _polygon_steps(kept_contours(slices, ~plain), steps_mm)
    found = []
    last = slices
    for n, (step, (rings, starts, layers)) in enumerate(zip(steps_mm, others, strict=True)):
        if step != 0.0:
            every = np.concatenate([points[n][kept], rings])
            begins = np.concatenate([[0], np.cumsum(np.concatenate([whole, np.diff(starts)]))])
            on = np.concatenate([layer, layers])
            ordered = in_order(every, begins, on, slices.layers, SIMPLIFY_MM)
            last = Slices(slices.bottom_mm, slices.layer_mm, *ordered)
        found.append(last)
        progress(0.2 + 0.8 * (n + 1) / len(steps_mm), "beam offset")
    return tuple(found)


def _polygon_steps(
    slices: Slices, steps_mm: Sequence[float]
) -> Iterator[tuple[Floats, NDArray[np.int64], NDArray[np.int64]]]:
    """The rings of any contours after each step: points, their begins, the layer of each."""
    if not slices.contours:
        yield from [(np.zeros((0, 2)), np.zeros(1, np.int64), np.zeros(0, np.int64))] * len(
            steps_mm
        )
        return
    polygons, layer, first = _polygons(slices)
    own, which = np.unique(first, return_inverse=True)  # many are the same over many layers
    parts = polygons[own]
    for step in steps_mm:
        if step != 0.0:
            parts = shapely.buffer(parts, -step, quad_segs=ARC_STEPS)
        yield _rings(parts[which], layer)


def _rings(
    parts: Any, layer: NDArray[np.int64]
) -> tuple[Floats, NDArray[np.int64], NDArray[np.int64]]:
    """The rings of areas, each with its layer: outer ones forwards, holes backwards."""
    points, whose = shapely.get_coordinates(parts, return_index=True)
    starts = np.empty(len(points) // 4 + 1, np.int64)
    rings = kernels.closed_rings(points, whose, starts)
    starts = starts[: rings + 1]
    owner = whose[starts[:-1]]
    sizes = np.diff(starts) - 1
    keep = np.ones(len(points), bool)
    keep[starts[1:] - 1] = False
    points = points[keep]
    start = np.concatenate([[0], np.cumsum(sizes)]).astype(np.int64)
    areas = np.empty(rings)
    kernels.signed_areas(points, start, areas)
    first = np.ones(rings, bool)
    first[1:] = owner[1:] != owner[:-1]  # each area begins outside
    outside = areas[first][np.cumsum(first) - 1] > 0
    # outer rings of an area run one way, its holes the other: here the outer ones run forwards
    kernels.turn_rings(points, start, outside)
    return points, start, layer[owner]
