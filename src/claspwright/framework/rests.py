"""Rests that fill their seats."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.ndimage import gaussian_filter, gaussian_filter1d, maximum_filter1d
from shapely.geometry import MultiPoint, Polygon
from shapely.geometry.polygon import orient
from shapely.ops import unary_union

from claspwright.arch import RestSeat
from claspwright.base import Finding, Floats, Singles
from claspwright.framework.canvas import (
    FAR,
    Shape,
    box_round,
    plan_distance_in,
    smooth_cut,
)
from claspwright.framework.ground import Ground, Piece
from claspwright.framework.model import Component
from claspwright.framework.roof import OPEN, roof_over
from claspwright.framework.slits import INTO, bridged
from claspwright.limits import limit

OVER = 0.8  # mm that a rest runs out past its seat, so that its edge is not rounded off there
RIDGE_RISE = 1.3  # mm that metal may rise above the filled floor to stay thick over the ridge
BARE_RISE = 0.35  # mm, inside the ridge of a tooth without a seat: it does not climb the cusps
BARE_SHARE = 85.0  # per cent of such a ridge that is taken for its height: fissures, no cusps
WEDGE = 0.4  # mm of metal below which a rest ends on rising ground: no feather edges
BRIDGE = 0.6  # mm of metal below which it ends past the border of its seat, over an embrasure
END = 0.7  # share of the seat's half width that the rounded outer end of a rest has
CORNER = 0.7  # mm radius of the corners of its outline
LANE = 0.75  # mm to each side of a seat's middle in which the ridge is looked for
CORE_MM = 0.5  # inside the outline of a rest, where its thickness counts
RIDGE_MM = 1.4  # from the border of the tooth inwards that its marginal ridge takes
LANE_STEP = 0.1  # mm along the seat
SOFT = 0.6  # mm over which the top of a rest rises to the ridge
EDGE = 0.55  # mm radius of its upper edge
BARE_EDGE = 0.8  # mm, on a tooth without a seat, over whose enamel it stands
SPARE = 0.12  # mm over its least thickness, for what evening and meshing take off
DOWN = 0.3  # mm below the floor to which metal past the border of the seat may run down


@dataclass(frozen=True, slots=True, eq=False)
class Metal:
    """Heights of a rest over its ground, column by column; grid frame, mm."""

    low: Floats  # (3,) first column
    step: float
    plan: Singles  # (nx, ny) distance to the outline, negative inside
    top: Singles  # (nx, ny) upper side
    tops: Singles  # (nx, ny) ground below
    lane: Floats  # (nx, ny) distance from the middle of the seat, across it
    inside: Floats  # (nx, ny) distance from the border of the tooth into the seat

    def top_at(self, spot: Floats) -> Floats:
        """(3,) the upper side over a plan point."""
        i, j = np.round((np.asarray(spot)[:2] - self.low[:2]) / self.step).astype(int)
        return np.array([spot[0], spot[1], self.top[i, j]])


def lay_rest(
    ground: Ground, tooth: int, where: str, seat: RestSeat, more: Floats | None = None
) -> tuple[Piece, Metal]:
    """A rest: the seat's outline filled to its own thickness, a little over the border.

    Args:
        ground: surfaces to lay it on.
        tooth: the tooth with the seat.
        where: such as "mesial occlusal".
        seat: the seat as found, or the place where one is asked for.
        more: (N, 2) plan outline that the rest covers besides its seat, grid frame [mm].
    """
    floor = ground.here(seat.point)
    into = ground.aim(seat.direction)
    rim = ground.here(seat.outline)
    outline = _outline(rim, floor, into)
    thickness = limit("rest.thickness").value
    if not seat.prepared:
        thickness = max(1.2, thickness - 0.3)
    bare = not seat.prepared
    border = float(((rim - floor) @ into).min())
    if more is not None:
        whole = unary_union([Polygon(outline), Polygon(more)]).buffer(0.4).buffer(-0.4)
        outline = np.asarray(orient(whole).exterior.coords, np.float64)[:-1]
        bare = False
    shape, metal = _filled(ground, outline, floor, into, border, thickness, bare)
    component = Component(
        f"rest.{tooth}.{where.replace(' ', '-')}",
        "rest",
        ground.back(np.column_stack([outline, np.full(len(outline), floor[2])])),
        np.array([seat.width_mm]),
        np.array([thickness]),
        tooth,
        {"seat_depth_mm": seat.depth_mm, "prepared": float(seat.prepared)} | _room(ground, metal),
    )
    found = () if seat.prepared else (ask_for_seat(seat, component),)
    return Piece(component, shape, 0.5, None, found), metal


def _room(ground: Ground, metal: Metal) -> dict[str, float]:
    """What the opposing teeth leave over the marginal ridge, as a figure of the rest [mm]."""
    ridge = (metal.plan < -CORE_MM) & (metal.lane < LANE) & (metal.tops > -50.0)
    ridge &= (metal.inside > 0.0) & (metal.inside < RIDGE_MM)
    spots = metal.low[:2] + metal.step * np.argwhere(ridge)
    return room_over(ground, spots, metal.tops[ridge].astype(np.float64))


def room_over(ground: Ground, spots: Floats, tops: Floats) -> dict[str, float]:
    """The least room under the opposing teeth over plan points, as a figure of a rest.

    Args:
        ground: with the opposing arch, if there is one.
        spots: (N, 2) plan points, grid frame [mm].
        tops: (N,) height of the tooth there [mm].

    Returns:
        `room_mm`, with the gap that metal keeps taken off; empty where nothing opposes.
    """
    roof = roof_over(ground.arch, ground.grid)
    if roof is None or not len(spots):
        return {}
    over = roof.at(spots)
    room = (over - tops)[over < OPEN]
    return {"room_mm": float(room.min())} if room.size else {}


def _outline(rim: Floats, floor: Floats, into: Floats) -> Floats:
    """(N, 2) plan outline: the seat's hull drawn out past the tooth's border."""
    across = np.array([-into[1], into[0], 0.0])
    spread = (rim - floor) @ across
    reach = float(((rim - floor) @ into).min())
    half = float(np.clip(np.percentile(np.abs(spread), 90), 1.0, 2.0))
    turn = np.linspace(-np.pi / 2, np.pi / 2, 13)
    end = (floor + reach * into)[:2] - OVER * np.cos(turn)[:, None] * into[:2]
    end = end + END * half * np.sin(turn)[:, None] * across[:2]
    hull = MultiPoint([*map(tuple, rim[:, :2]), *map(tuple, end)]).convex_hull
    if not isinstance(hull, Polygon) or hull.area < 1.5:
        hull = MultiPoint([tuple(floor[:2])]).buffer(1.25)
    rounded = orient(hull.buffer(-CORNER).buffer(CORNER + 0.1))
    if rounded.is_empty:
        rounded = orient(hull.buffer(0.2))
    return np.asarray(rounded.exterior.coords, np.float64)[:-1]


def _filled(
    ground: Ground,
    outline: Floats,
    floor: Floats,
    into: Floats,
    border: float,
    thickness: float,
    bare_tooth: bool,
) -> tuple[Shape, Metal]:
    """Metal over the outline up to one smooth top that runs along the seat."""
    grid = ground.grid
    corners = np.column_stack([outline, np.full(len(outline), floor[2])])
    around = np.vstack([corners - [0, 0, 1.5], corners + [0, 0, thickness + 2.0]])
    box = box_round(grid, around, 1.0)
    bare = plan_distance_in(grid, box, [outline])
    x, y, z = (box.low[a] + grid.spacing * np.arange(box.shape[a]) for a in range(3))
    along = (x[:, None] - floor[0]) * into[0] + (y[None, :] - floor[1]) * into[1]
    lane = np.abs((x[:, None] - floor[0]) * -into[1] + (y[None, :] - floor[1]) * into[0])
    top = _top(ground, floor, into, thickness, bare_tooth, along).astype(np.float32)
    off = ground.laid.field.values[box.slices]
    tops = np.nan_to_num(ground.laid.tops[box.slices[:2]], nan=-9.0)
    metal = Metal(box.low, grid.spacing, bare, top, tops, lane, along - border)
    tops = gaussian_filter(tops, 0.2 / grid.spacing)
    # no metal runs down into the embrasure past the border of the seat, nor into its slits
    low = np.full(box.shape[:2], floor[2] - DOWN)
    low = np.where(along < border, np.maximum(low, bridged(tops, grid.spacing) - INTO), low)
    low = low.astype(np.float32)
    plan = np.maximum(bare, tops - (top - np.float32(WEDGE)))
    plan = np.maximum(plan, np.where(along < border, low - (top - np.float32(BRIDGE)), -FAR))
    under = low[:, :, None] - z.astype(np.float32)[None, None, :]
    sides = np.maximum(np.maximum(plan[:, :, None], under), -off - np.float32(1.0))
    roof = z.astype(np.float32)[None, None, :] - top[:, :, None]
    return Shape(
        box, smooth_cut(np.asarray(sides), np.asarray(roof), BARE_EDGE if bare_tooth else EDGE)
    ), metal


def _top(
    ground: Ground, floor: Floats, into: Floats, thickness: float, bare: bool, along: Floats
) -> Floats:
    """Height of a rest's upper side at distances along its seat: even across it.

    The filled floor, and over the marginal ridge its least thickness, as one soft curve; on a
    tooth without a seat the cusps beside it do not count, nor does what rises inside the ridge.
    """
    across = np.array([-into[1], into[0]])
    u = np.arange(along.min() - LANE_STEP, along.max() + LANE_STEP, LANE_STEP)
    v = np.linspace(-LANE, LANE, 9)
    spots = floor[:2] + u[:, None, None] * into[:2] + v[None, :, None] * across
    tops = ground.laid.height(spots.reshape(-1, 2)).reshape(len(u), len(v))
    share = BARE_SHARE if bare else 100.0
    ridge = np.percentile(np.nan_to_num(tops, nan=-99.0), share, axis=1)
    least = (limit("rest.thickness").stop_below or 1.0) + SPARE
    filled = floor[2] + thickness
    rise = np.where(u > 0.0, BARE_RISE, RIDGE_RISE) if bare else RIDGE_RISE
    height = np.clip(ridge + least, filled, filled + rise)
    wide = maximum_filter1d(height, 2 * round(SOFT / LANE_STEP) + 1, mode="nearest")
    soft = gaussian_filter1d(wide, SOFT / LANE_STEP, mode="nearest")
    return np.asarray(np.interp(along, u, soft))


def ask_for_seat(seat: RestSeat, component: Component) -> Finding:
    """The request for a seat that the scan does not show."""
    x, y, z = seat.point
    key = "rest.incisal_depth" if seat.where.endswith("incisal") else "rest.seat_depth"
    return Finding(
        rule="rest.seat_missing",
        severity="look",
        text=(
            f"Tooth {component.tooth} has no prepared seat for {component.id}. Ask the dentist "
            "to prepare one and to rescan; the rest is laid on the tooth as it is."
        ),
        source=limit(key).cited,
        measured=round(seat.depth_mm, 2),
        limit=limit(key).value,
        unit="mm",
        at_mm=(float(x), float(y), float(z)),
        component=component.id,
    )
