"""The acrylic of a denture base: a flange on the tissue, a collar round every tooth."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from scipy.ndimage import gaussian_filter
from scipy.spatial import cKDTree
from shapely.geometry import MultiPoint, Polygon

from claspwright.arch import DentalArch, Span
from claspwright.base import Floats, Singles
from claspwright.framework.base_outline import span_of_base
from claspwright.framework.canvas import box_round, plan_distance_in, smooth_union
from claspwright.framework.design import DentureBase
from claspwright.framework.model import Framework
from claspwright.framework.terrain import Terrain
from claspwright.geometry import (
    Field,
    Grid,
    Mesh,
    contour,
    difference,
    point_at,
    without_crumbs,
)

FLANGE_MM = 2.0  # thickness of acrylic over the tissue (common practice, no source)
COLLAR_MM = 1.0  # of acrylic round a tooth
COLLAR_SHARE = 0.3  # of a tooth's height that acrylic covers
FINISH_MM = 2.2  # from the inner rail of a lattice to its finish line
FLANGE_DOWN_MM = 3.0  # farther down on the tongue side of a lower free end
SOFT_MM = 1.0  # fillet of the acrylic
CRUMB_MM3 = 2.0  # of acrylic that hangs on nothing


def acrylic_of(
    arch: DentalArch,
    ground: Terrain,
    framework: Framework,
    base: DentureBase,
    span: Span,
    teeth: Sequence[Mesh],
) -> Mesh | None:
    """The acrylic of one base: a flange on the tissue and a collar round every tooth.

    Args:
        arch: the arch.
        ground: what the acrylic lies on.
        framework: its metal is taken from the acrylic.
        base: how far it reaches, where that is asked for.
        span: the gap that the base fills.
        teeth: blocks of the artificial teeth, arch frame.

    Returns:
        A solid in the arch frame; None where nothing is left of it.
    """
    span = span_of_base(span, base)
    inner = _inner_widths(arch, span, base)
    outline = _outline(ground, span, inner)
    if outline.is_empty:
        return None
    grid = ground.grid
    ring = np.asarray(outline.exterior.coords)[:-1]
    crest = grid.frame.apply(span.crest)
    tops = [grid.frame.apply(tooth.vertices) for tooth in teeth]
    low = float(crest[:, 2].min()) - 12.0
    high = max(float(t[:, 2].max()) for t in tops)
    around = np.vstack([np.column_stack([ring, np.full(len(ring), h)]) for h in (low, high)])
    box = box_round(grid, around, 1.5)
    here = tuple(slice(s.start, s.stop, 2) for s in box.slices)
    off = ground.field.values[here]
    step = 2 * grid.spacing
    small = Grid(grid.frame, box.low, step, off.shape)
    plan = plan_distance_in(grid, box, [ring])[::2, ::2]
    z = (box.low[2] + step * np.arange(off.shape[2])).astype(np.float32)
    low_at, high_at = _flange_heights(ground, span, inner, crest, box.low, step, plan.shape)
    flange = np.maximum.reduce(
        [off - np.float32(FLANGE_MM), np.broadcast_to(plan[:, :, None], off.shape),
         z - high_at[:, :, None], low_at[:, :, None] - z]
    )  # fmt: skip
    body: Singles = np.asarray(flange, np.float32)
    for corners in tops:
        hull = MultiPoint(corners[:, :2]).convex_hull
        flat = plan_distance_in(grid, box, [np.asarray(hull.exterior.coords)[:-1]])[::2, ::2]
        neck = float(corners[:, 2].min())
        cover = neck + COLLAR_SHARE * float(np.ptp(corners[:, 2]))
        collar = np.maximum((flat - np.float32(COLLAR_MM))[:, :, None], z - np.float32(cover))
        body = smooth_union(body, np.asarray(collar, np.float32), SOFT_MM)
    body = np.maximum(body, (plan - np.float32(0.5))[:, :, None])
    body = np.maximum(body, -off)
    if not (body < 0).any():
        return None
    solid = contour(Field(small, np.asarray(body, np.float32)))
    left = difference(solid, *teeth, framework.solid)
    if not len(left.faces):
        return None
    return without_crumbs(left, CRUMB_MM3)[0]


def _inner_widths(arch: DentalArch, span: Span, base: DentureBase) -> Floats:
    """(K,) from the crest to where acrylic ends towards tongue or palate: past the inner rail.

    Beside a lower free end it goes on down the tongue side.
    """
    wide = np.asarray(span.lingual_width_mm)
    if base.lingual_reach_mm is not None:
        return wide
    more = FLANGE_DOWN_MM if arch.scan.jaw == "mandible" and None in span.ends else 0.0
    return np.minimum(wide, np.clip(wide - 1.5, 2.2, 4.6) + FINISH_MM + more)


def _outline(ground: Terrain, span: Span, inner: Floats) -> Polygon:
    """Plan outline of the acrylic of a span, grid frame: to the limits of a base on both sides."""
    frame = ground.grid.frame
    crest = frame.apply(span.crest)
    out = frame.turn(span.buccal)
    sides: tuple[list[Floats], list[Floats]] = ([], [])
    for side, sign, widths in ((sides[0], 1.0, span.buccal_width_mm), (sides[1], -1.0, inner)):
        for n in range(0, len(crest), 2):
            profile = ground.profile(crest[n], sign * out[n], float(widths[n]) + 3.0)
            if len(profile) > 3:
                side.append(point_at(profile, float(widths[n]))[:2])
    if not all(len(side) > 1 for side in sides):
        round_crest: Polygon = MultiPoint(crest[:, :2]).convex_hull.buffer(2.0)
        return round_crest
    ring = Polygon(np.vstack([sides[0], sides[1][::-1]])).buffer(0)
    even = ring.buffer(1.0).buffer(-1.5).buffer(0.5)
    return even if isinstance(even, Polygon) else max(even.geoms, key=lambda g: g.area)


def _flange_heights(
    ground: Terrain,
    span: Span,
    inner: Floats,
    crest: Floats,
    low: Floats,
    step: float,
    shape: tuple[int, ...],
) -> tuple[Singles, Singles]:
    """(nx, ny) heights between which acrylic lies on the tissue: from the limits to the crest."""
    out = ground.grid.frame.turn(span.buccal)
    ends = []
    for sign, widths in ((1.0, span.buccal_width_mm), (-1.0, inner)):
        reach = np.full(len(crest), np.nan)
        for n in range(0, len(crest), 2):
            profile = ground.profile(crest[n], sign * out[n], float(widths[n]) + 3.0)
            if len(profile) > 3:
                reach[n] = point_at(profile, float(widths[n]))[2]
        known = np.flatnonzero(np.isfinite(reach))
        filled = crest[:, 2] - 5.0
        if known.size:
            filled = np.interp(np.arange(len(crest)), known, reach[known])
        ends.append(filled)
    x, y = (low[a] + step * np.arange(shape[a]) for a in range(2))
    columns = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
    _, near = cKDTree(crest[:, :2]).query(columns)
    outwards = ((columns - crest[near, :2]) * out[near, :2]).sum(axis=1) > 0
    lowest = np.where(outwards, ends[0][near], ends[1][near]).reshape(shape)
    lowest = gaussian_filter(lowest, SOFT_MM / step, mode="nearest")
    highest = crest[near, 2] + FLANGE_MM
    return lowest.astype(np.float32), highest.reshape(shape).astype(np.float32)
