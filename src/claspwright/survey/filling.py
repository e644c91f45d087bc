"""Fields of blockout beyond the parallel one: tapered walls, arbitrary fill, bead lines."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import distance_transform_edt
from scipy.spatial import KDTree

from claspwright.base import Floats, Singles
from claspwright.geometry import Field, Grid, in_chunks, resampled
from claspwright.survey import _sweep_kernels as kernels
from claspwright.survey.wax import Course, Patch

TAPER_REACH_MM = (1.5, 2.5)  # beside a crown where walls are tapered, and where they no longer are
CLOSING_MM = 2.0  # radius of the ball that does not enter what is filled
Box = tuple[slice, slice, slice]


def tapered(scan: Field, taper_deg: float) -> Field:
    """The solid swept towards the tissue, growing by the taper as it goes down."""
    drop = scan.grid.spacing * float(np.tan(np.radians(taper_deg)))
    out = np.empty(scan.grid.shape, np.float32)
    in_chunks(lambda a, b: kernels.sweep_tapered(scan.values, drop, a, b, out), len(out), 16)
    return Field(scan.grid, out)


def tapered_at_crowns(scan: Field, block: Field, taper_deg: float, crowns: Floats) -> Field:
    """Parallel blockout with tapered walls about the crowns alone.

    Tissue keeps parallel walls, so that the outer border of the model does not flare.

    Args:
        scan: signed distance to the master solid, +z along the path.
        block: the parallel sweep of it.
        taper_deg: of the walls.
        crowns: (N, 3) points on the crowns, close to each other, arch frame [mm].
    """
    if not len(crowns):
        return block
    grid = block.grid
    columns = np.rint(grid.to_nodes(crowns)[:, :2]).astype(np.int64)
    off = np.ones(grid.shape[:2], np.bool_)
    off[columns[:, 0], columns[:, 1]] = False
    away = grid.spacing * distance_transform_edt(off)
    weight = np.clip((TAPER_REACH_MM[1] - away) / (TAPER_REACH_MM[1] - TAPER_REACH_MM[0]), 0.0, 1.0)
    share = weight.astype(np.float32)[:, :, None]
    values = tapered(scan, taper_deg).values
    return Field(grid, block.values + share * (values - block.values))


def filled(block: Field, patches: tuple[Patch, ...]) -> Field:
    """Hollows within each patch filled until a ball of 2 mm does not enter them.

    Convex surfaces stay bare: the fill keeps a step of the grid below the ball's way.
    """
    values = np.array(block.values)
    for patch in patches:
        box, fill = fill_values(block, patch)
        values[box] = np.minimum(values[box], fill)
    return Field(block.grid, values)


def fill_values(block: Field, patch: Patch) -> tuple[Box, Singles]:
    """What fills the hollows within one patch: its box and field."""
    grid = block.grid
    centre = grid.frame.apply(np.array(patch.at))
    box = box_about(grid, centre[None], patch.radius_mm)
    wide = box_about(grid, centre[None], patch.radius_mm + 2.0 * CLOSING_MM)
    here = block.values[wide]
    closed = CLOSING_MM - grid.spacing * distance_transform_edt(here < CLOSING_MM)
    inner = tuple(
        slice(b.start - w.start, b.stop - w.start) for b, w in zip(box, wide, strict=True)
    )
    x, y, _ = local_axes(grid, box)
    away = np.hypot(x[:, None] - centre[0], y[None, :] - centre[1]) - patch.radius_mm
    fill = np.maximum(closed[inner] + grid.spacing, away[:, :, None])
    fill = np.minimum.accumulate(fill[:, :, ::-1], axis=2)[:, :, ::-1]
    return box, fill.astype(np.float32)


def grooved(field: Field, beads: tuple[Course, ...], ground: Field | None = None) -> Field:
    """A round groove cut into a field along each line on its surface, or on that of `ground`."""
    ground = field if ground is None else ground
    values = np.array(field.values)
    grid = field.grid
    for bead in beads:
        radius = groove_radius(bead)
        line = grid.frame.apply(resampled(bead.line, 0.5 * grid.spacing))
        # the line lies on the surface; the groove's axis over it, so that it cuts depth_mm deep
        axis = line + (radius - bead.depth_mm) * slopes(ground, grid, line)
        box = box_about(grid, axis, radius + 2 * grid.spacing)
        nodes = np.stack(np.meshgrid(*local_axes(grid, box), indexing="ij"), axis=-1)
        gap = np.asarray(
            KDTree(axis).query(nodes.reshape(-1, 3), distance_upper_bound=radius + 1.0)[0]
        )
        cut = radius - np.minimum(gap, radius + 1.0).reshape(nodes.shape[:3])
        values[box] = np.maximum(values[box], cut.astype(np.float32))
    return Field(grid, values)


def groove_radius(bead: Course) -> float:
    """Of a round groove that is width_mm wide at the surface and depth_mm deep [mm]."""
    half = 0.5 * bead.width_mm
    return (half * half + bead.depth_mm**2) / (2.0 * bead.depth_mm)


def slopes(field: Field, grid: Grid, line: Floats) -> Floats:
    """(N, 3) outward directions at points of the grid's frame."""
    world = grid.frame.inverse().apply(line)
    out = grid.frame.turn(field.gradient(world, 2.0 * grid.spacing))
    return np.asarray(out / np.maximum(np.linalg.norm(out, axis=1, keepdims=True), 1e-9))


def box_about(grid: Grid, points: Floats, reach: float) -> Box:
    """Slices of the nodes within reach of (N, 3) points of the grid's frame."""
    low = np.floor((points.min(axis=0) - reach - grid.origin) / grid.spacing).astype(int)
    high = np.ceil((points.max(axis=0) + reach - grid.origin) / grid.spacing).astype(int) + 1
    a, b, c = (
        slice(min(max(int(x), 0), n - 1), max(min(int(y), n), 1))
        for x, y, n in zip(low, high, grid.shape, strict=True)
    )
    return a, b, c


def local_axes(grid: Grid, box: Box) -> tuple[Floats, Floats, Floats]:
    """Coordinates of the nodes of a box along each axis [mm]."""
    x, y, z = (axis[part] for axis, part in zip(grid.axes(), box, strict=True))
    return x, y, z


def ledge_values(block: Field, course: Course) -> tuple[Box, Singles]:
    """A shelf on the blocked-out wall whose top follows a line: its box and field.

    It stands out by width_mm, reaches depth_mm down from the line, and ends with it.
    """
    grid = block.grid
    line = grid.frame.apply(resampled(course.line, grid.spacing))
    box = box_about(grid, line, course.width_mm + course.depth_mm + 1.0)
    x, y, z = local_axes(grid, box)
    plan = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1)
    away, nearest = KDTree(line[:, :2]).query(plan.reshape(-1, 2))
    top = line[nearest, 2].reshape(plan.shape[:2])[:, :, None]
    beside = np.asarray(away).reshape(plan.shape[:2])[:, :, None] - course.width_mm
    z = z[None, None, :]
    out = np.maximum(block.values[box] - course.width_mm, z - top)
    out = np.maximum(np.maximum(out, top - course.depth_mm - z), beside)
    return box, out.astype(np.float32)
