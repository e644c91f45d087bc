"""An independent check of supports: does any metal begin over loose powder?

It knows nothing of contacts and pins: it compares the contours of each layer with those of the
layer below, part and supports together.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from claspwright.base import Bools, Point
from claspwright.build import _island_kernels as kernels
from claspwright.build.offset import SIMPLIFY_MM, layer_polygons
from claspwright.build.slices import Slices, kept_contours, simplified_slices

LayerAreas = tuple[Any, NDArray[np.int64]]  # polygons of shapely, and their layers
Contours = tuple[NDArray[Any], ...]  # of one body, as the kernel takes them
LEAST_MM2 = 0.002  # a melt pool is wider than this


@dataclass(frozen=True, slots=True)
class Island:
    """An area of a layer that touches nothing in the layer below; plate frame."""

    layer: int
    area_mm2: float
    at_mm: Point  # a point inside it, at the underside of the layer


@dataclass(frozen=True, slots=True)
class Overhang:
    """The widest step over loose powder."""

    layer: int
    reach_mm: float  # distance from the metal of the layer below
    area_mm2: float  # farther than was allowed
    at_mm: Point


def find_islands(part: Slices, supports: Slices) -> tuple[Island, ...]:
    """Areas of part or supports that touch neither of both in the layer below.

    The first layer lies on the plate. Both must lie in the same layers. Contours with a corner
    over metal of the layer below touch it, and those round a corner of that; about the others
    their whole areas are asked.
    """
    own, carrying = _contours(part), _contours(supports)
    doubtful = [_doubtful(own, carrying), _doubtful(carrying, own)]
    if not any(chosen.any() for chosen in doubtful):
        return ()
    layers = np.zeros(part.layers, bool)
    for slices, chosen in zip((part, supports), doubtful, strict=True):
        layers[slices.layer_of_contour()[chosen]] = True
    needed = layers | np.append(layers[1:], False)  # and the layers below them
    polygons, layer = _all(
        *(
            layer_areas(kept_contours(slices, needed[slices.layer_of_contour()]))
            for slices in (part, supports)
        )
    )
    found = []
    for k, here, below in _by_layer(polygons, layer, part.layers):
        if k == 0 or not layers[k]:
            continue
        touching = np.zeros(len(here), bool)
        if len(below):
            which = shapely.STRtree(below).query(here, predicate="intersects")[0]
            touching[which] = True
        for polygon in here[~touching]:
            area = float(shapely.area(polygon))
            if area >= LEAST_MM2:
                found.append(Island(k, area, _inside(polygon, part, k)))
    return tuple(found)


def _doubtful(body: Contours, other: Contours) -> Bools:
    """(C,) outer contours of a body that may have no metal below them."""
    held = np.empty(len(body[-1]), np.bool_)
    kernels.surely_held(body, other, held)
    return ~held


def _contours(body: Slices) -> Contours:
    """The contours of a body as the kernel takes them: points, begins, boxes, areas."""
    boxes = np.empty((body.contours, 4))
    kernels.box_contours(body.points, body.contour_start, boxes)
    return body.points, body.contour_start, body.layer_start, boxes, body.areas()


def find_overhangs(part: Slices, supports: Slices, reach_mm: float) -> tuple[Overhang, ...]:
    """Areas of a layer farther than a reach from all metal of the layer below, largest first."""
    polygons, layer = _all(layer_areas(part), layer_areas(supports))
    found = []
    for k, here, below in _by_layer(polygons, layer, part.layers):
        if k == 0 or not len(here):
            continue
        whole = shapely.union_all(here)
        held = shapely.union_all(shapely.buffer(below, reach_mm, quad_segs=4))
        bare = shapely.difference(whole, held)
        area = float(shapely.area(bare))
        if area > LEAST_MM2:
            found.append(Overhang(k, reach_mm, area, _inside(bare, part, k)))
    return tuple(sorted(found, key=lambda one: -one.area_mm2))


def layer_areas(slices: Slices) -> LayerAreas:
    """Valid polygons of all layers, and the layer of each."""
    polygons, layer = layer_polygons(simplified_slices(slices, SIMPLIFY_MM))
    folded = ~shapely.is_valid(polygons)
    polygons[folded] = shapely.buffer(polygons[folded], 0.0)
    return polygons, layer


def _all(part: LayerAreas, supports: LayerAreas) -> LayerAreas:
    polygons = np.concatenate([part[0], supports[0]])
    layer = np.concatenate([part[1], supports[1]])
    order = np.argsort(layer, kind="stable")
    return polygons[order], layer[order]


def _by_layer(polygons: Any, layer: Any, layers: int) -> Any:
    """Layer, its polygons and those of the layer below."""
    ends = np.searchsorted(layer, np.arange(layers + 1))
    for k in range(layers):
        here = polygons[ends[k] : ends[k + 1]]
        yield k, here, polygons[ends[k - 1] : ends[k]] if k else here[:0]


def _inside(polygon: Any, like: Slices, layer: int) -> Point:
    spot = shapely.point_on_surface(polygon)
    height = like.bottom_mm + layer * like.layer_mm
    return float(spot.x), float(spot.y), float(height)
