"""Metal bases: a plate on the ridge with beads or posts that the acrylic or a tooth grips."""

from __future__ import annotations

import numpy as np
from scipy.spatial import cKDTree
from shapely import contains_xy
from shapely.affinity import translate
from shapely.geometry import Polygon
from shapely.ops import unary_union

from claspwright.base import Floats
from claspwright.framework.canvas import (
    FAR,
    Box,
    Shape,
    box_round,
    oval_sweep,
    plan_distance_in,
    shell,
    smooth_cut,
)
from claspwright.framework.ground import Ground, Piece
from claspwright.framework.lattice import BasePlan, rail
from claspwright.framework.model import Component
from claspwright.framework.relief import base_outline
from claspwright.framework.roof import OPEN, roof_over
from claspwright.geometry import arc_lengths, point_at, resampled
from claspwright.limits import limit

EVEN_MM = 0.6  # over which the polished side is evened
WALL = 1.1  # mm by which the outline goes on beyond a wall
BELOW_RAIL = 1.0  # mm below the lower rail of a lattice to which the plate goes down a wall
BEAD = 0.45  # mm radius of a retentive bead
BEAD_STEP = 1.9  # mm between beads
BEAD_SINK = 0.2  # mm of a bead that lies in the plate: it is undercut above
BORDER = 1.1  # mm of the plate that stays bare along its border
POST_ROOT, POST_TIP = 1.1, 0.9  # mm half width
POST_HIGHEST = 4.0  # mm over the plate
POST_LEAST = 1.5  # mm: a shorter post holds no tooth
TOOTH_OVER = 2.0  # mm that a tooth needs between a post and the opposing teeth
NAIL_STEM, NAIL_HEAD, NAIL_HEIGHT = 0.5, 0.85, 1.3  # mm half widths, height over the strut


def lay_metal_base(ground: Ground, plan: BasePlan) -> list[Piece]:
    """The plate of a metal base with its beads or posts."""
    outline = _widened(base_outline(ground.laid, plan), plan)
    pieces = [_plate(ground, plan, outline)]
    if plan.base.retention == "metal base with posts":
        return pieces + _posts(ground, plan)
    return pieces + _beads(ground, plan, outline)


def _widened(outline: Polygon, plan: BasePlan) -> Polygon:
    """An outline drawn out sideways, so that a steep wall's plate keeps its whole thickness."""
    aside = plan.buccal.mean(axis=0)
    moved = [translate(outline, *(sign * WALL * aside[:2])) for sign in (-1.0, 1.0)]
    shape = unary_union([outline, *moved])
    return shape if isinstance(shape, Polygon) else max(shape.geoms, key=lambda g: g.area)


def _plate(ground: Ground, plan: BasePlan, outline: Polygon) -> Piece:
    ring = np.asarray(outline.exterior.coords, np.float64)[:-1]
    box = _box_over(ground, plan, ring)
    flat = plan_distance_in(ground.grid, box, [ring])
    off = ground.laid.field.values[box.slices]
    thickness = max(plan.base.thickness_mm, limit("metal_base.thickness").look_below or 0.0)
    body = shell(off, thickness, EVEN_MM / ground.grid.spacing)
    rails = [rail(ground, plan, side) for side in ("buccal", "lingual")]
    floor = min(float(line[:, 2].min()) for line in rails) - BELOW_RAIL
    z = box.low[2] + ground.grid.spacing * np.arange(box.shape[2])
    wall = np.maximum(flat[:, :, None], (floor - z).astype(np.float32)[None, None, :])
    values = np.maximum(smooth_cut(wall, body, 0.35), -off - np.float32(0.8))
    tops = ground.laid.height(ring)
    line = np.column_stack([ring, np.where(np.isnan(tops), np.nanmedian(tops), tops)])
    component = Component(
        f"{plan.id}.plate",
        "lattice",
        ground.back(line),
        np.array([float(outline.area / max(arc_lengths(plan.crest)[-1], 1e-9))]),
        np.array([thickness]),
        None,
        {"area_mm2": float(outline.area)},
    )
    return Piece(component, Shape(box, np.asarray(values, np.float32)), 0.6)


def _box_over(ground: Ground, plan: BasePlan, ring: Floats) -> Box:
    z = plan.crest[:, 2]
    corners = [np.column_stack([ring, np.full(len(ring), h)]) for h in (z.min() - 7, z.max() + 3)]
    return box_round(ground.grid, np.vstack(corners), 0.6)


def _beads(ground: Ground, plan: BasePlan, outline: Polygon) -> list[Piece]:
    """Beads in rows over the plate, each undercut where it leaves it."""
    inner = outline.buffer(-BORDER)
    low_x, low_y, high_x, high_y = inner.bounds
    rows = np.arange(low_y, high_y, BEAD_STEP * np.sqrt(3) / 2)
    spots = np.array(
        [
            (x, y)
            for n, y in enumerate(rows)
            for x in np.arange(low_x + 0.5 * BEAD_STEP * (n % 2), high_x, BEAD_STEP)
        ]
    ).reshape(-1, 2)
    spots = spots[contains_xy(inner, spots[:, 0], spots[:, 1])] if len(spots) else spots
    tops = ground.laid.height(spots) if len(spots) else np.zeros(0)
    centres = np.column_stack([spots, tops])[~np.isnan(tops)]
    if not len(centres):
        return []
    thickness = max(plan.base.thickness_mm, limit("metal_base.thickness").look_below or 0.0)
    centres = ground.laid.settle(centres, thickness + BEAD - BEAD_SINK)
    box = box_round(ground.grid, centres, 2 * BEAD + 0.3)
    x, y, z = (box.low[a] + ground.grid.spacing * np.arange(box.shape[a]) for a in range(3))
    off = ground.laid.field.values[box.slices]
    near = np.abs(off - thickness) < 3 * BEAD
    nodes = np.argwhere(near)
    points = np.column_stack([axis[nodes[:, n]] for n, axis in enumerate((x, y, z))])
    gap, _ = cKDTree(centres).query(points, distance_upper_bound=3.0)
    values = np.full(box.shape, FAR, np.float32)
    values[near] = np.minimum(gap, 3.0) - BEAD
    component = Component(
        f"{plan.id}.beads",
        "lattice",
        ground.back(centres),
        np.array([2 * BEAD]),
        np.array([2 * BEAD]),
        None,
        {"count": float(len(centres))},
    )
    return [Piece(component, Shape(box, values), 0.0)]


def _posts(ground: Ground, plan: BasePlan) -> list[Piece]:
    """One post for each artificial tooth, as high as the opposing teeth leave room."""
    count = max(len(plan.base.teeth), 1)
    length = float(arc_lengths(plan.crest)[-1])
    roof = roof_over(ground.arch, ground.grid)
    pieces = []
    for n, tooth in enumerate(plan.base.teeth):
        foot = ground.laid.settle(point_at(plan.crest, (n + 0.5) / count * length)[None])[0]
        limit_z = OPEN if roof is None else float(roof.at(foot[None])[0]) - TOOTH_OVER
        height = min(POST_HIGHEST, limit_z - foot[2]) - POST_TIP
        if height < POST_LEAST:
            continue
        line = resampled(np.array([foot, foot + [0.0, 0.0, height]]), 0.15)
        across = np.tile(plan.buccal[plan.station((n + 0.5) / count * length)], (len(line), 1))
        half = np.linspace(POST_ROOT, POST_TIP, len(line))
        shape = oval_sweep(ground.grid, line, across, half, half, 0.5)
        component = Component(
            f"{plan.id}.post.{tooth}",
            "lattice",
            ground.back(line),
            2 * half,
            2 * half,
            None,
            {"height_mm": height + POST_TIP},
        )
        pieces.append(Piece(component, shape, 0.5))
    return pieces


def nail_heads(ground: Ground, plan: BasePlan, lines: list[Floats]) -> list[Piece]:
    """A nail-head in the middle of each cross-bar: a stem with a wider head over the strut."""
    pieces = []
    for n, line in enumerate(lines):
        foot = ground.laid.settle(line[len(line) // 2][None], plan.base.thickness_mm)[0]
        out = ground.laid.normal(foot[None], 0.6)[0]
        rise = resampled(np.array([foot - 0.2 * out, foot + NAIL_HEIGHT * out]), 0.1)
        share = np.linspace(0.0, 1.0, len(rise))
        half = np.where(share > 0.7, NAIL_HEAD, NAIL_STEM)
        across = np.tile(plan.buccal[len(plan.buccal) // 2], (len(rise), 1))
        shape = oval_sweep(ground.grid, rise, across, half, half, 0.2)
        top = foot + (NAIL_HEIGHT + 0.25) * out
        flat = _above(ground, shape.box, top, out)
        shape = Shape(shape.box, np.maximum(shape.values, flat))
        component = Component(
            f"{plan.id}.nail.{n + 1}",
            "lattice",
            ground.back(rise),
            2 * half,
            2 * half,
            None,
            {"height_mm": NAIL_HEIGHT},
        )
        pieces.append(Piece(component, shape, 0.2))
    return pieces


def _above(ground: Ground, box: Box, top: Floats, out: Floats) -> Floats:
    """Distance over a plane on a box of nodes."""
    x, y, z = (box.low[a] + ground.grid.spacing * np.arange(box.shape[a]) for a in range(3))
    height = (
        (x - top[0])[:, None, None] * out[0]
        + (y - top[1])[None, :, None] * out[1]
        + (z - top[2])[None, None, :] * out[2]
    )
    return np.asarray(height, np.float32)
