"""The canvas: one dense field on which components are joined with fillets."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from scipy.ndimage import gaussian_filter

from claspwright.base import Floats, GeometryError, Singles
from claspwright.framework import _sweep_kernels as kernels
from claspwright.geometry import Field, Grid, in_chunks

FAR = np.float32(9.0)
LEAST_SHARE = 0.75  # of its thickness that a layer keeps where the ground is stepped
PLANES = 24  # of nodes that one thread sweeps in a row
TABLE_STEP = 0.05  # mm between the entries of a section's table


def smooth_union(a: Singles, b: Singles, radius: float) -> Singles:
    """Union of two fields with a circular fillet of the given radius [mm].

    Where either field exceeds the radius it is the plain minimum.
    """
    if radius <= 0:
        return np.minimum(a, b)
    u, v = np.maximum(radius - a, 0), np.maximum(radius - b, 0)
    blended = np.maximum(np.float32(radius), np.minimum(a, b)) - np.sqrt(u * u + v * v)
    return np.asarray(blended, dtype=np.float32)


def smooth_cut(a: Singles, b: Singles, radius: float) -> Singles:
    """Intersection of two fields with an edge rounded to the given radius [mm]."""
    return -smooth_union(-a, -b, radius)


def steadied(values: Singles, sigma: float) -> Singles:
    """A field after a Gaussian of `sigma` nodes: an even polished side over a stepped ground."""
    return np.asarray(gaussian_filter(values, sigma, mode="nearest"), np.float32)


def shell(off: Singles, thickness: float, sigma: float) -> Singles:
    """A layer on a surface: evenly polished, and nowhere thinner than LEAST_SHARE of itself.

    Args:
        off: distance to the surface, positive outside [mm].
        thickness: of the layer [mm].
        sigma: nodes over which its polished side is evened.

    Returns:
        Field that is negative inside the layer and below the surface.
    """
    even = steadied(off, sigma) - np.float32(thickness)
    return np.asarray(np.minimum(even, off - np.float32(LEAST_SHARE * thickness)), np.float32)


@dataclass(frozen=True, slots=True)
class Box:
    """A box of grid nodes: slices and the coordinates of its first node."""

    slices: tuple[slice, slice, slice]
    low: Floats  # (3,) grid frame, mm

    @property
    def shape(self) -> tuple[int, int, int]:
        """Nodes a side."""
        a, b, c = (s.stop - s.start for s in self.slices)
        return a, b, c


def box_round(grid: Grid, points: Floats, reach: float) -> Box:
    """The box of nodes within `reach` of (N, 3) points in the grid frame."""
    low = np.floor((points.min(axis=0) - reach - grid.origin) / grid.spacing).astype(int)
    high = np.ceil((points.max(axis=0) + reach - grid.origin) / grid.spacing).astype(int) + 1
    low, high = np.maximum(low, 0), np.minimum(high, grid.shape)
    if np.any(high - low < 2):
        raise GeometryError(
            "a component lies outside the surveyed volume",
            place=f"grid frame {points.mean(axis=0).round(1).tolist()} mm",
            remedy="Check that the scan covers the region, or leave the component out",
        )
    slices = tuple(slice(int(a), int(b)) for a, b in zip(low, high, strict=True))
    return Box((slices[0], slices[1], slices[2]), grid.origin + low * grid.spacing)


@dataclass(frozen=True, slots=True, eq=False)
class Shape:
    """The field of one component on a box of the grid; positive beyond the box."""

    box: Box
    values: Singles


def joined(grid: Grid, a: Shape, b: Shape, radius: float) -> Shape:
    """Two shapes as one, with a fillet of the given radius [mm]."""
    slices = [
        slice(min(p.start, q.start), max(p.stop, q.stop))
        for p, q in zip(a.box.slices, b.box.slices, strict=True)
    ]
    low = grid.origin + grid.spacing * np.array([part.start for part in slices])
    box = Box((slices[0], slices[1], slices[2]), low)
    fields = []
    for shape in (a, b):
        whole = np.full(box.shape, FAR, np.float32)
        at = [p.start - q.start for p, q in zip(shape.box.slices, slices, strict=True)]
        size = shape.values.shape
        whole[tuple(slice(i, i + n) for i, n in zip(at, size, strict=True))] = shape.values
        fields.append(whole)
    return Shape(box, smooth_union(fields[0], fields[1], radius))


def nearest_of(shapes: Iterable[Shape], at: Shape) -> Singles:
    """The least of other fields on the box of a shape, far where none reaches."""
    out = np.full(at.values.shape, FAR, np.float32)
    for shape in shapes:
        pairs = list(zip(shape.box.slices, at.box.slices, strict=True))
        common = [(max(a.start, b.start), min(a.stop, b.stop)) for a, b in pairs]
        if any(low >= high for low, high in common):
            continue
        theirs, mine = (
            tuple(slice(low - pair[n].start, high - pair[n].start)
                  for (low, high), pair in zip(common, pairs, strict=True))
            for n in (0, 1)
        )  # fmt: skip
        np.minimum(out[mine], shape.values[theirs], out=out[mine])
    return out


class Canvas:
    """A growing union of shapes on one grid."""

    def __init__(self, grid: Grid) -> None:
        self.grid = grid
        self.values = np.full(grid.shape, FAR, np.float32)

    def add(self, shape: Shape, fillet: float = 0.0) -> None:
        """Join a shape to what is there, with a fillet of the given radius [mm]."""
        i, j, k = (part.start for part in shape.box.slices)
        kernels.join(self.values, shape.values, i, j, k, fillet)

    def keep_below(self, heights: Floats, radius: float = 0.0) -> None:
        """Remove what rises over (nx, ny) heights in the grid frame [mm]; edges are rounded."""
        z = self.grid.origin[2] + self.grid.spacing * np.arange(self.grid.shape[2])
        some = np.isfinite(heights) & (heights < z[-1] + radius)
        near = self.values[some] < 3 * radius + 0.3  # metal and its skin
        top = np.where(near.any(axis=1), z[len(z) - 1 - near[:, ::-1].argmax(axis=1)], -np.inf)
        reached = np.zeros(heights.shape, bool)
        reached[some] = top > heights[some] - 2 * radius
        over = (z[None, :] - heights[reached][:, None]).astype(np.float32)
        self.values[reached] = smooth_cut(self.values[reached], over, radius)

    def field(self) -> Field:
        """The union as a field."""
        return Field(self.grid, self.values)


def oval_sweep(
    grid: Grid, line: Floats, normal: Floats, half_width: Floats, height: Floats, fillet: float
) -> Shape:
    """An oval swept along (N, 3) `line` in the grid frame, standing on (N, 3) `normal`.

    Args:
        grid: the canvas's grid.
        line: centreline on the surface [mm].
        normal: unit outward normals of the surface along the line.
        half_width: (N,) half width across the surface [mm].
        height: (N,) height off the surface [mm].
        fillet: radius of the joint it will be added with [mm]; sets how far the field is kept.
    """
    reach = float(max(half_width.max(), height.max())) + fillet + 3 * grid.spacing
    return _swept(grid, line, normal, half_width, height, reach, Section.none())


@dataclass(frozen=True, slots=True, eq=False)
class Section:
    """Signed distances to a cross-section over (across, off the surface); negative inside."""

    table: Singles  # (U, W)
    low: Floats  # (2,) coordinates of its first entry [mm]

    @staticmethod
    def none() -> Section:
        """No table: an oval."""
        return Section(np.zeros((1, 1), np.float32), np.zeros(2))

    @staticmethod
    def of(ring: Floats, room: float = 1.6) -> Section:
        """The table of a closed (N, 2) outline with some room round it [mm]."""
        low = ring.min(axis=0) - room
        us, ws = (np.arange(low[axis], ring[:, axis].max() + room, TABLE_STEP) for axis in range(2))
        ends = np.array([0.0, float(len(ring))])
        found = kernels.polygon_distance(us, ws, np.ascontiguousarray(ring), ends, 9.0)
        return Section(np.asarray(found, np.float32), low)


def section_sweep(
    grid: Grid,
    line: Floats,
    normal: Floats,
    section: Section,
    across: Floats | float = 1.0,
    off: Floats | float = 1.0,
) -> Shape:
    """A section swept along (N, 3) `line`, stretched by `across` and `off` at each station.

    "Across" is tangent x normal, so that it keeps its side all along the line; the ends are
    square.
    """
    scale = [np.broadcast_to(np.asarray(v, np.float64), len(line)) for v in (across, off)]
    size = np.array(section.table.shape) * TABLE_STEP
    far = np.maximum(np.abs(section.low), np.abs(section.low + size)) - 0.6
    reach = float(np.hypot(far[0] * scale[0].max(), far[1] * scale[1].max()))
    return _swept(grid, line, normal, scale[0], scale[1], reach, section)


def _swept(
    grid: Grid,
    line: Floats,
    normal: Floats,
    across: Floats,
    off: Floats,
    reach: float,
    section: Section,
) -> Shape:
    box = box_round(grid, line, reach)
    out = np.full(box.shape, FAR, np.float32)
    line, normal, across, off = (
        np.ascontiguousarray(rows, np.float64) for rows in (line, normal, across, off)
    )

    def sweep(begin: int, end: int) -> None:
        kernels.sweep(
            out, box.low, grid.spacing, line, normal, across, off, section.table,
            section.low, TABLE_STEP, reach, begin, end,
        )  # fmt: skip

    in_chunks(sweep, box.shape[0], PLANES)
    return Shape(box, out)


def plan_distance(grid: Grid, rings: list[Floats], limit: float = 30.0) -> Singles:
    """(nx, ny) signed plan distance from the grid's columns to closed rings, even-odd [mm]."""
    nx, ny, nz = grid.shape
    whole = Box((slice(0, nx), slice(0, ny), slice(0, nz)), grid.origin)
    return plan_distance_in(grid, whole, rings, limit)


def plan_distance_in(grid: Grid, box: Box, rings: list[Floats], limit: float = 30.0) -> Singles:
    """The same on the columns of one box."""
    x, y = (box.low[a] + grid.spacing * np.arange(box.shape[a]) for a in range(2))
    starts = np.concatenate([[0], np.cumsum([len(r) for r in rings])]).astype(np.float64)
    return np.asarray(
        kernels.polygon_distance(x, y, np.concatenate(rings).astype(np.float64), starts, limit),
        dtype=np.float32,
    )
