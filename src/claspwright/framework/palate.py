"""Palatal straps: plan outline on the palate and the plate that follows it."""

from __future__ import annotations

from collections.abc import Collection, Iterable

import numpy as np
from scipy.ndimage import map_coordinates
from shapely.affinity import scale, translate
from shapely.geometry import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from claspwright.base import Floats, InfeasibleError, Singles
from claspwright.framework.canvas import (
    Box,
    Shape,
    box_round,
    plan_distance_in,
    shell,
    smooth_cut,
)
from claspwright.framework.design import MajorConnector
from claspwright.framework.fair_border import fair, largest
from claspwright.framework.ground import Ground, Piece
from claspwright.framework.model import Component
from claspwright.framework.scanned import off_walls, scanned_plan
from claspwright.framework.stations import Stations
from claspwright.limits import limit

FULL_BEHIND = 6.0  # mm that a full plate goes on behind its rearmost anchor
LEAST_OPENING = 9.0  # mm from the anterior to the posterior strap
BESIDE = 6.0  # mm of metal beside the opening between two straps
LEAST_HOLE = 45.0  # mm2: a smaller opening is left closed
OFF_MARGINS = (6.1, 4.5, 3.1, 0.0)  # mm off the margins of other teeth: as far as bases allow
BORDER_MM = 1.0  # beyond thickness and outline, within which the border is laid squarely
EVEN_MM = 0.5  # over which the polished side is evened


def palate_outline(ground: Ground, stations: Stations) -> BaseGeometry:
    """The palate within the lingual margins and the ridges' tongue sides, in plan."""
    palate: BaseGeometry = Polygon(stations.plan).buffer(0)
    return palate


def tooth_zone(ground: Ground, distance: float, teeth: Iterable[int] | None = None) -> BaseGeometry:
    """What lies nearer than a distance to the gingival margins of teeth, in plan.

    All present teeth where none are named.
    """
    codes = ground.arch.teeth if teeth is None else teeth
    rims = [Polygon(ground.here(ground.tooth(code).margin)[:, :2]).buffer(0) for code in codes]
    zone: BaseGeometry = unary_union(rims).buffer(distance) if rims else Polygon()
    return zone


def strap_outline(
    ground: Ground,
    stations: Stations,
    wanted: MajorConnector,
    anchors: list[Floats],
    edges: list[Floats],
    joined: Collection[int] = (),
) -> Polygon:
    """Outline of the major connector in plan, holes included; its borders are smooth.

    Args:
        ground: surfaces.
        stations: stations along the arch.
        wanted: form and width.
        anchors: (3,) points that it must reach: rests' minor connectors and base ends.
        edges: palatal borders of the bases, (N, 3) each.
        joined: teeth that it is joined to; it keeps off the margins of all others.
    """
    palate = palate_outline(ground, stations)
    seen = off_walls(ground, scanned_plan(ground))
    clear = palate.difference(tooth_zone(ground, limit("strap.margin").value)).intersection(seen)
    y = np.array([p[1] for p in anchors] + [p[1] for e in edges for p in (e[0], e[-1])])
    lines = [LineString(e[:, :2]) for e in edges if len(e) > 1]
    borders = unary_union([line.buffer(3.2) for line in lines])
    front, rear = float(y.max()), float(y.min())
    body = clear.intersection(box(-60, *_reach(wanted, clear, front, rear)))
    shape = unary_union([body, borders.intersection(palate.buffer(1.0))])
    shape = shape.buffer(1.5).buffer(-3.0).buffer(1.5)
    others = [code for code in ground.arch.teeth if code not in joined]
    out = Polygon()
    for distance in OFF_MARGINS:
        room = seen.difference(tooth_zone(ground, distance, others))
        out = fair(largest(shape.intersection(room)), room)
        if all(line.intersection(out).length > 0.5 * line.length for line in lines):
            break
    out = opened(wanted, out, body, room)
    if out.is_empty or out.area < 100.0:
        raise InfeasibleError(
            f"no room for a {wanted.form} between the gingival margins",
            place="major_connector",
            remedy="Choose another major connector or check the tooth marks",
        )
    return out


def _reach(
    wanted: MajorConnector, clear: BaseGeometry, front: float, rear: float
) -> tuple[float, float, float]:
    """Least y, greatest x, greatest y of a connector between its foremost and rearmost anchor."""
    half = wanted.width_mm / 2
    back, fore = clear.bounds[1], clear.bounds[3]
    if wanted.form == "palatal strap":
        middle = 0.5 * (front + rear)
        span = max(half, min(0.5 * (front - rear), 9.0))
        return middle - span, 60.0, middle + span
    if wanted.form == "full palatal plate":
        return max(back, rear - FULL_BEHIND), 60.0, min(fore, front + half)
    if wanted.form == "U-shaped palatal connector":
        return max(back, rear - half), 60.0, fore
    low, high = rear - 3.5, min(front + half, fore)
    if high - low < 2 * wanted.width_mm + LEAST_OPENING:
        low = max(high - 2 * wanted.width_mm - LEAST_OPENING, back)  # the rear strap goes back
    if high - low < 2 * wanted.width_mm + LEAST_OPENING:
        high = min(low + 2 * wanted.width_mm + LEAST_OPENING, fore)
    return low, 60.0, high


def opened(
    wanted: MajorConnector, whole: Polygon, body: BaseGeometry, room: BaseGeometry
) -> Polygon:
    """A whole connector with the opening of its form, cut into its body.

    Args:
        wanted: form and width.
        whole: the outline before it is opened.
        body: the part of it between its foremost and rearmost border, off the margins.
        room: what it must stay in.
    """
    if wanted.form in ("palatal strap", "full palatal plate"):
        return whole
    middle = largest(body.intersection(whole).buffer(-2.5).buffer(2.5))
    # beside the opening the connector may be narrower than the straps
    wide = scale(middle, wanted.width_mm / BESIDE, 1.0, origin=(0.0, 0.0))
    hole = largest(
        scale(wide.buffer(-wanted.width_mm), BESIDE / wanted.width_mm, 1.0, origin=(0, 0))
    )
    if wanted.form == "U-shaped palatal connector":
        drawn = [translate(hole, 0.0, -float(step)) for step in np.arange(0.0, 60.0, 1.5)]
        return fair(largest(whole.difference(unary_union(drawn).buffer(1.0).buffer(-1.0))), room)
    hole = hole if hole.is_empty else fair(hole, hole)
    return whole if hole.area <= LEAST_HOLE else largest(whole.difference(hole))


def rings_of(outline: Polygon) -> list[Floats]:
    """Outer ring and holes as (N, 2) arrays without the closing point."""
    return [np.asarray(r.coords, np.float64)[:-1] for r in (outline.exterior, *outline.interiors)]


def lay_strap(ground: Ground, outline: Polygon, wanted: MajorConnector) -> Piece:
    """Build the plate of a strap: even thickness over the relieved palate, rounded borders."""
    grid = ground.grid
    rings = rings_of(outline)
    plan = rings[0]
    tops = ground.laid.height(plan)
    tops = np.where(np.isnan(tops), np.nanmedian(tops), tops)
    low, high = float(np.nanmin(tops)) - 3.0, _highest(ground, outline) + wanted.thickness_mm + 1.0
    corners = np.vstack([np.column_stack([plan, np.full(len(plan), h)]) for h in (low, high)])
    bounds = box_round(grid, corners, 1.5)
    flat = plan_distance_in(grid, bounds, rings)
    off = ground.laid.field.values[bounds.slices]
    body = shell(off, wanted.thickness_mm, EVEN_MM / grid.spacing)
    values = smooth_cut(_squarely(ground, bounds, flat, off, wanted.thickness_mm), body, 0.5)
    values = np.maximum(values, -off - np.float32(0.8))
    ring = np.column_stack([plan, tops])
    component = Component(
        "major_connector",
        "major connector",
        ground.back(ring),
        np.array([wanted.width_mm]),
        np.array([wanted.thickness_mm]),
        None,
        {"area_mm2": float(outline.area)},
    )
    return Piece(component, Shape(bounds, values), 0.6)


def _squarely(
    ground: Ground, bounds: Box, flat: Singles, off: Singles, thickness: float
) -> Singles:
    """Distance to the outline, read at the foot of each node on the ground.

    So the border meets the ground squarely: on a steep slope a plumb one would leave a feather
    edge, and beside a crown a blade that stands free.
    """
    values = np.repeat(flat[:, :, None], bounds.shape[2], axis=2).astype(np.float32)
    over = (off > 0.0) & (off < thickness + BORDER_MM)
    nodes = np.nonzero(over & (np.abs(values) < 2 * BORDER_MM))
    step = ground.grid.spacing
    feet = ground.laid.settle(bounds.low + step * np.stack(nodes, axis=1), rounds=4)
    at = ((feet - bounds.low) / step)[:, :2].T
    values[nodes] = map_coordinates(flat, at, order=1, mode="nearest")
    return values


def _highest(ground: Ground, outline: Polygon) -> float:
    x0, y0, x1, y1 = outline.bounds
    xs, ys = np.meshgrid(np.arange(x0, x1, 1.0), np.arange(y0, y1, 1.0))
    tops = ground.laid.height(np.column_stack([xs.ravel(), ys.ravel()]))
    return float(np.nanmax(tops))
