"""Relief: where rigid metal keeps its distance from the tissue, as a field of thicknesses."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np
from scipy.ndimage import distance_transform_edt
from shapely import get_parts
from shapely.geometry import LineString, MultiPoint, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from claspwright.arch import DentalArch
from claspwright.base import Bools, Floats, Singles
from claspwright.framework.canvas import box_round, plan_distance_in
from claspwright.framework.fair_border import largest
from claspwright.framework.lattice import BasePlan
from claspwright.framework.terrain import Terrain
from claspwright.geometry import Field, PointBlocks, from_chunks, point_at
from claspwright.limits import limit
from claspwright.survey import Relief

LIP = 1.2  # mm: a narrower border beyond the edge of relief is a lip
CRUMB = 0.3  # mm2: smaller ones are corners of what goes on
PAST = 0.6  # mm that relief goes on past such a border
FOOT = 1.2  # mm from the edge of relief to a crown beside it
OFF_CROWNS = (0.35, 1.1)  # mm from the crowns between which relief runs out
BLOCK = 0.7  # mm, a side of the cubes in which points are looked up
BEYOND = 1.3  # mm that the relief goes on past the end bars of a lattice


def ramp(distance: Floats | Singles, start: float, end: float) -> Floats:
    """0 where distance <= start, 1 where >= end, smooth between (either order)."""
    t = np.clip((np.asarray(distance, np.float64) - start) / (end - start), 0.0, 1.0)
    return np.asarray(t * t * (3 - 2 * t))


def _level(points: Floats) -> Floats:
    """(N, 3) points in plan."""
    return np.column_stack([points[:, :2], np.zeros(len(points))])


@dataclass(frozen=True, slots=True, eq=False)
class _Sheet:
    """Wax of one part of the relief on a box of nodes."""

    slices: tuple[slice, slice, slice]
    wanted: Floats  # thickness at the nodes of the box, run out beside crowns [mm]
    name: str


class ReliefMap:
    """A relief field being put together on the survey's grid."""

    def __init__(self, arch: DentalArch, blocked: Terrain) -> None:
        self.blocked = blocked
        self.values = np.zeros(blocked.grid.shape, np.float32)
        self.part = np.zeros(blocked.grid.shape, np.int8)
        self.names: list[str] = []
        centroids = blocked.grid.frame.apply(arch.scan.surface.middles)
        crowns = arch.crown_of_face != 0
        self._crowns = PointBlocks(centroids[crowns], BLOCK) if crowns.any() else None
        self._beside_crowns = self._columns_near(centroids[crowns], OFF_CROWNS[1])

    def _columns_near(self, points: Floats, reach: float) -> Bools:
        """(nx, ny) the columns of the grid that come within `reach` of some points in plan [mm]."""
        grid = self.blocked.grid
        apart = np.ones(grid.shape[:2], bool)
        at = np.rint((points - grid.origin)[:, :2] / grid.spacing).astype(np.int64)
        apart[tuple(np.clip(at, 0, np.array(apart.shape) - 1).T)] = False
        if apart.all():
            return ~apart
        away: Floats = distance_transform_edt(apart, sampling=grid.spacing)
        return np.asarray(away <= reach + grid.spacing)

    def _sheet(
        self, slices: tuple[slice, slice, slice], wanted: Floats, low: Floats, name: str
    ) -> _Sheet:
        """What is wanted on a box of nodes, less what lies beside crowns; `wanted` is changed."""
        if self._crowns is not None:
            near = self._beside_crowns[slices[:2]][:, :, None] & (wanted > 0)
            near &= np.abs(self.blocked.field.values[slices]) < 2.5
            nodes = low + self.blocked.grid.spacing * np.argwhere(near)
            gap, _ = self._crowns.nearest(nodes, OFF_CROWNS[1])
            wanted[near] *= ramp(np.minimum(gap, OFF_CROWNS[1]), *OFF_CROWNS)
        return _Sheet(slices, wanted, name)

    def lay(self, sheet: _Sheet) -> None:
        """Add one part's wax; where two parts lie the thicker one counts."""
        if sheet.name not in self.names:
            self.names.append(sheet.name)
        here = self.values[sheet.slices]
        self.part[sheet.slices][sheet.wanted > here] = self.names.index(sheet.name) + 1
        self.values[sheet.slices] = np.maximum(here, sheet.wanted.astype(np.float32))

    def along(self, line: Floats, radius: float, depth: float, name: str = "band") -> _Sheet:
        """A band of a radius round a surface line, of a depth; one point makes a patch."""
        grid = self.blocked.grid
        reach = radius + 0.5
        box = box_round(grid, line, reach)
        spots = np.argwhere(np.ones(box.shape[:2], np.bool_))
        columns = box.low[:2] + grid.spacing * spots
        beside, _ = PointBlocks(_level(line), reach / 2).nearest(_level(columns), reach)
        mask = np.isfinite(beside).reshape(box.shape[:2])[:, :, None]  # near it in plan
        mask = mask & (np.abs(self.blocked.field.values[box.slices]) < min(reach + 0.3, 2.5))
        nodes = box.low + grid.spacing * np.argwhere(mask)
        gap, _ = PointBlocks(line, reach / 2).nearest(nodes, reach)
        wanted = np.zeros(box.shape)
        wanted[mask] = depth * ramp(np.minimum(gap, reach), radius + 0.4, radius - 0.4)
        return self._sheet(box.slices, wanted, box.low, name)

    def under_base(self, plan: BasePlan, outline: Polygon) -> _Sheet:
        """The wax on the tissue under a lattice, with a hole for its tissue stop.

        The wax ends in a wall along the path, the internal finish line. What is taken off the
        ground's field is what a union with a slab of wax would take, so that the field stays a
        distance there and metal keeps its thickness round the edge.
        """
        grid = self.blocked.grid
        ring = np.asarray(outline.exterior.coords, np.float64)[:-1]
        z = plan.crest[:, 2]
        corners = np.vstack(
            [np.column_stack([ring, np.full(len(ring), h)]) for h in (z.min() - 9.0, z.max() + 2.5)]
        )
        box = box_round(grid, corners, 1.0)
        edge = plan_distance_in(grid, box, [ring])
        if plan.stop_at is not None:
            edge = np.maximum(edge, -self._stop_distance(plan, box.low, box.shape))
        off = self.blocked.field.values[box.slices]
        wanted = np.clip(off - edge[:, :, None], 0.0, plan.base.relief_mm).astype(np.float64)
        name = "base." + "-".join(map(str, plan.base.teeth))
        return self._sheet(box.slices, wanted, box.low, name)

    def _stop_distance(self, plan: BasePlan, low: Floats, shape: tuple[int, int, int]) -> Floats:
        assert plan.stop_at is not None
        spot = point_at(plan.crest, plan.stop_at)
        n = plan.station(plan.stop_at)
        across = plan.buccal[n]
        step = self.blocked.grid.spacing
        x, y = (low[a] + step * np.arange(shape[a]) for a in range(2))
        dx, dy = x[:, None] - spot[0], y[None, :] - spot[1]
        u, v = dx * across[0] + dy * across[1], -dx * across[1] + dy * across[0]
        return np.asarray(np.maximum(np.abs(u), np.abs(v)) - limit("stop.size").value / 2)

    def field(self) -> Field:
        """The relief as a field of thicknesses [mm]."""
        return Field(self.blocked.grid, self.values)

    def named(self) -> Relief:
        """The relief with the names of its parts."""
        return Relief(self.field(), self.part, tuple(self.names))


def base_outline(blocked: Terrain, plan: BasePlan) -> Polygon:
    """Plan outline of the relieved ridge under one base, 1.5 mm beyond the rails."""
    sides: dict[float, list[Floats]] = {1.0: [], -1.0: []}
    for sign, widths in ((1.0, plan.buccal_rail), (-1.0, plan.lingual_rail)):
        for n in range(0, len(plan.crest), 2):
            profile = blocked.profile(plan.crest[n], sign * plan.buccal[n], 9.0)
            if len(profile) > 3:
                sides[sign].append(
                    point_at(profile, float(widths[n]) + 1.5)[:2] + 0.9 * sign * plan.buccal[n][:2]
                )
    if not all(sides.values()):
        along: Polygon = LineString(plan.crest[:, :2]).buffer(1.5)
        return along
    ahead = np.diff(plan.crest[[0, -1], :2], axis=0)[0]
    ahead /= max(float(np.hypot(*ahead)), 1e-9)
    for row in sides.values():  # the edge of the relief lies clear of the end bars
        row.insert(0, row[0] - BEYOND * ahead)
        row.append(row[-1] + BEYOND * ahead)
    ring = np.vstack([sides[1.0], sides[-1.0][::-1]])
    shape = unary_union([Polygon(ring).buffer(0)]).buffer(1.0).buffer(-1.0)
    return shape if isinstance(shape, Polygon) else max(shape.geoms, key=lambda g: g.area)


def carried_past(outline: Polygon, metal: Polygon) -> Polygon:
    """A relief's outline carried on past the border of a connector that ends just beyond it.

    A lip of metal that hangs over the edge of the wax, narrower than LIP, would be too thin.
    """
    beyond = metal.difference(outline)
    lips = beyond.difference(beyond.buffer(-LIP / 2).buffer(LIP / 2 + 0.05))
    near = [part for part in get_parts(lips.intersection(outline.buffer(LIP))) if part.area > CRUMB]
    if not near:
        return outline
    return largest(unary_union([outline, *(part.buffer(PAST) for part in near)]))


def clear_of_crowns(outline: Polygon, crowns: Sequence[BaseGeometry]) -> Polygon:
    """A relief's outline drawn back from the crowns beside it, so that a foot has room there.

    Metal in a narrower slot between wax and crown would be a fin.
    """
    if not crowns:
        return outline
    rest = outline.difference(unary_union(crowns).buffer(FOOT))
    found = largest(rest.buffer(-0.5).buffer(0.5))
    return outline if found.is_empty else found


def _crown_plan(arch: DentalArch, blocked: Terrain, tooth: int) -> BaseGeometry:
    """What a crown covers seen along the path."""
    surface = arch.scan.surface
    corners = np.unique(surface.faces[arch.teeth[tooth].faces])
    points = blocked.grid.frame.apply(surface.vertices[corners])[:, :2]
    hull: BaseGeometry = MultiPoint(points).convex_hull
    return hull


def relief_for(
    arch: DentalArch,
    blocked: Terrain,
    plans: Sequence[BasePlan],
    bars: Sequence[tuple[Floats, float, float]],
    margins: Sequence[tuple[int, Floats]],
    marked: Sequence[tuple[str, Floats, float, float]] = (),
    metal: Polygon | None = None,
) -> Relief:
    """The whole relief: bases, connector bands, gingival crossings and what was marked by hand.

    Args:
        arch: the arch, whose crowns are never relieved.
        blocked: the blocked-out surface.
        plans: one a base.
        bars: (line, radius, depth) of bands under bars; grid frame, mm.
        margins: (tooth, line) of gingival margins that minor connectors cross.
        marked: (name, (1, 3) point, radius, depth) of patches such as tori; grid frame, mm.
        metal: outline of a palatal connector in plan.
    """
    relief = ReliefMap(arch, blocked)
    parts: list[Callable[[], _Sheet]] = []
    for plan in (plan for plan in plans if not plan.base.metal):
        beside = [_crown_plan(arch, blocked, end) for end in plan.span.ends if end is not None]
        outline = clear_of_crowns(base_outline(blocked, plan), beside)
        outline = outline if metal is None else carried_past(outline, metal)
        parts.append(partial(relief.under_base, plan, outline))
    bands = [(*bar, "connector") for bar in bars]
    crossing = limit("minor.relief").value
    bands += [(margin, 1.0, crossing, f"crossing.{tooth}") for tooth, margin in margins]
    bands += [(at, radius, depth, name) for name, at, radius, depth in marked]
    parts += [partial(relief.along, *band) for band in bands]
    for sheet in from_chunks(lambda first, _: parts[first](), len(parts), 1):
        relief.lay(sheet)
    return relief.named()
