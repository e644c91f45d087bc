"""The rests of one retainer by their form: in a seat, over an embrasure, an edge, a whole crown."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from scipy.ndimage import grey_closing
from shapely.geometry import MultiPoint, Point, Polygon
from shapely.geometry.polygon import orient

from claspwright.arch import DentalArch, RestSeat, find_rest_seat
from claspwright.base import Finding, Floats, InfeasibleError, InputError
from claspwright.framework.arm_ways import SEAT_OF
from claspwright.framework.canvas import (
    Shape,
    box_round,
    oval_sweep,
    plan_distance_in,
    smooth_cut,
    steadied,
)
from claspwright.framework.cingulum_rest import cingulum_rest
from claspwright.framework.design import End, RestForm, Retainer
from claspwright.framework.ground import Ground, Piece, laid_sweep
from claspwright.framework.model import Component
from claspwright.framework.rests import LANE, SPARE, Metal, ask_for_seat, lay_rest
from claspwright.framework.roles import end_facing, neighbour_at
from claspwright.framework.roof import OPEN, roof_over
from claspwright.geometry import arc_lengths, resampled, smoothed
from claspwright.limits import limit

STEP = 0.15  # mm along an incisal rest
DOWN_TONGUE_MM = 2.2  # that an incisal rest runs down the tongue side, where its connector takes it
DOWN_LIP_MM = 0.9  # that it runs over onto the labial face
LIP_SHARE = 0.5  # of its thickness that is left at its labial end
MOST_ONLAY_MM = 2.2  # over the crown that an onlay may rise to meet the opposing teeth
EVEN_MM = 0.5  # over which the top of an onlay is evened
SPAN_MM = 3.2  # of seats and grooves that it fills
RIM_MM = 0.3  # that an onlay keeps inside the border of its occlusal surface
CORE_MM = 0.6  # inside the outline of a rest, where its thickness is told
THIN_SHARE = 5.0  # per cent of a rest that may be thinner: fissures and edges
BRIDGE_MM = 1.3  # half width of the metal that joins the two halves of an embrasure rest


def facing(arch: DentalArch, tooth: int, end: End) -> tuple[int, End] | None:
    """The tooth that stands beside another one on a side, and its side that faces it."""
    other = neighbour_at(tooth, end)
    if other is None or other not in arch.teeth:
        return None
    return other, end_facing(other, tooth)


def seats_for(arch: DentalArch, retainers: Iterable[Retainer]) -> dict[tuple[int, str], RestSeat]:
    """The seat of every rest, on both teeth where one lies over an embrasure.

    Raises:
        InfeasibleError: a tooth cannot take the rest that is asked of it.
    """
    found: dict[tuple[int, str], RestSeat] = {}
    for retainer in retainers:
        for rest in retainer.rests:
            found[retainer.tooth, rest] = _seat(arch, retainer.tooth, rest)
            if not rest.endswith("embrasure"):
                continue
            end: End = "mesial" if rest.startswith("mesial") else "distal"
            beside = facing(arch, retainer.tooth, end)
            if beside is None:
                raise InfeasibleError(
                    f"an embrasure rest is planned {end} of tooth {retainer.tooth}, where no tooth "
                    "stands beside it",
                    place=f"retainer.{retainer.tooth}",
                    remedy=f'Ask for a "{end} occlusal" rest there',
                )
            other: RestForm = "mesial embrasure" if beside[1] == "mesial" else "distal embrasure"
            found[beside[0], other] = _seat(arch, beside[0], other)
    return found


def _seat(arch: DentalArch, tooth: int, rest: RestForm) -> RestSeat:
    try:
        return find_rest_seat(arch, tooth, SEAT_OF[rest])
    except InputError as error:
        raise InfeasibleError(error.what, place=f"retainer.{tooth}", remedy=error.remedy) from error


def lay_rests(ground: Ground, retainer: Retainer, rest: RestForm) -> list[Piece]:
    """All metal of one rest: one piece, or two and their joint over an embrasure."""
    tooth, seat = retainer.tooth, ground.seats[retainer.tooth, rest]
    if rest == "onlay":
        return [onlay_rest(ground, tooth, seat)]
    if rest == "cingulum":
        return [cingulum_rest(ground, tooth, seat)]
    if rest.endswith("incisal"):
        return [incisal_rest(ground, tooth, rest, seat)]
    if rest.endswith("embrasure"):
        return _embrasure_rest(ground, tooth, rest)
    if rest.endswith("extended occlusal"):
        piece, metal = lay_rest(ground, tooth, rest, seat, _extended(ground, tooth, seat))
        return [_told(ground, piece, metal)]
    return [lay_rest(ground, tooth, rest, seat)[0]]


def _extended(ground: Ground, tooth: int, seat: RestSeat) -> Floats:
    """(N, 2) plan outline that adds the groove of the crown to its seat.

    Source:
        More than half the mesiodistal and about a third of the buccolingual width
        (limits: rest.extended_share, rest.extended_width_share).
    """
    crown = ground.tooth(tooth)
    into = ground.aim(seat.direction)
    across = np.array([-into[1], into[0], 0.0])
    floor = ground.here(seat.point)
    rim = ground.here(seat.outline)
    border = float(((rim - floor) @ into).min())
    end = border + limit("rest.extended_share").value * crown.mesiodistal_mm
    half = max(0.5 * limit("rest.extended_width_share").value * crown.buccolingual_mm, 1.25)
    # the far end lies in the middle of the crown, whatever way the seat opens
    middle = ground.here(crown.centre)
    aside = float((middle - floor) @ across) * 0.5
    far = floor + (end - half) * into + aside * across
    ring = MultiPoint(
        [
            *(tuple((floor + s * half * across)[:2]) for s in (-1.0, 1.0)),
            *Point(*far[:2]).buffer(half).exterior.coords,
        ]
    ).convex_hull
    assert isinstance(ring, Polygon)
    return np.asarray(orient(ring).exterior.coords, np.float64)[:-1]


def _embrasure_rest(ground: Ground, tooth: int, rest: RestForm) -> list[Piece]:
    """Two seats side by side under one piece of metal, so that the teeth are not wedged apart.

    Source:
        Interproximal occlusal rests: McCracken's, chapter on rests [memory].
    """
    end: End = "mesial" if rest.startswith("mesial") else "distal"
    beside = facing(ground.arch, tooth, end)
    assert beside is not None  # the seats were found
    pieces = []
    spots = []
    for code, side in ((tooth, end), beside):
        seat = ground.seats[code, f"{side} embrasure"]
        piece, metal = lay_rest(ground, code, f"{side} embrasure", seat)
        pieces.append(_told(ground, piece, metal))
        spots.append(metal.top_at(ground.here(seat.point)[:2]))
    pieces.append(_bridge(ground, tooth, rest, np.array(spots)))
    return pieces


def _bridge(ground: Ground, tooth: int, rest: RestForm, ends: Floats) -> Piece:
    """The joint of an embrasure rest: from top to top, down to the marginal ridges."""
    thickness = limit("rest.thickness").value
    line = resampled(ends, STEP)
    tops = np.nan_to_num(ground.laid.height(line[:, :2]), nan=-99.0)
    ridge = float(np.percentile(tops[tops > -50.0], 90)) if (tops > -50.0).any() else line[0, 2]
    level = max(float(line[:, 2].mean()), ridge + (limit("rest.thickness").stop_below or 1.0))
    line[:, 2] = level - thickness
    up = np.tile([0.0, 0.0, 1.0], (len(line), 1))
    half = np.full(len(line), BRIDGE_MM)
    shape = oval_sweep(ground.grid, line, up, half, np.full(len(line), thickness), 0.5)
    component = Component(
        f"minor.{tooth}.{rest.replace(' ', '-')}",
        "minor connector",
        ground.back(line),
        np.array([2 * BRIDGE_MM]),
        np.array([thickness]),
        tooth,
        {"length_mm": float(arc_lengths(line)[-1])},
    )
    return Piece(component, shape, 0.5)


def incisal_rest(ground: Ground, tooth: int, rest: RestForm, seat: RestSeat) -> Piece:
    """A rest over an incisal edge: up the tongue side, through the notch, a little way over.

    Source:
        About 2.5 mm wide (limits: rest.incisal_width).
    """
    spot = ground.here(seat.point)
    out = ground.aim(ground.tooth(tooth).buccal)
    tongue = ground.laid.profile(spot, -out, 5.0)
    lip = ground.laid.profile(spot, out, 4.0)
    tongue = tongue[arc_lengths(tongue) <= DOWN_TONGUE_MM] if len(tongue) else tongue
    lip = lip[arc_lengths(lip) <= DOWN_LIP_MM + 0.4] if len(lip) else lip
    line = resampled(np.vstack([tongue[::-1], lip[1:]]), STEP)
    line = ground.laid.settle(smoothed(line, 0.5))
    along = arc_lengths(line)
    over = np.clip((along - along[-1] + DOWN_LIP_MM) / DOWN_LIP_MM, 0.0, 1.0)
    rule = limit("rest.thickness")
    whole = rule.value if seat.prepared else (rule.stop_below or rule.value) + SPARE
    thickness = whole * (1.0 - (1.0 - LIP_SHARE) * over)
    half = 0.5 * limit("rest.incisal_width").value * (1.0 - 0.25 * over)
    shape = laid_sweep(ground.laid, line, half, thickness, fillet=0.5, steady_mm=1.0)
    component = Component(
        f"rest.{tooth}.{rest.replace(' ', '-')}",
        "rest",
        ground.back(line),
        2 * half,
        thickness,
        tooth,
        {"seat_depth_mm": seat.depth_mm, "prepared": float(seat.prepared)},
    )
    found = () if seat.prepared else (ask_for_seat(seat, component),)
    return Piece(component, shape, 0.5, None, found)


def onlay_rest(ground: Ground, tooth: int, seat: RestSeat) -> Piece:
    """Metal over a whole occlusal surface, up to the opposing teeth where they are near.

    Source:
        Onlay rests restore the occlusal plane of a tooth that has dropped or tipped: McCracken's,
        chapter on rests [memory].
    """
    grid = ground.grid
    rim = ground.here(seat.outline)
    outline = np.asarray(
        orient(Polygon(rim[:, :2]).buffer(0.4).buffer(-0.4 - RIM_MM)).exterior.coords, np.float64
    )[:-1]
    around = np.vstack([rim - [0, 0, 2.0], rim + [0, 0, MOST_ONLAY_MM + 3.0]])
    box = box_round(grid, around, 1.0)
    plan = plan_distance_in(grid, box, [outline])
    bare = np.nan_to_num(ground.laid.tops[box.slices[:2]], nan=-99.0)
    size = 2 * round(SPAN_MM / 2 / grid.spacing) + 1
    tops = grey_closing(bare, size=(size, size), mode="nearest")  # seats and grooves are filled
    roof = _roof_in(ground, box.low, box.shape)
    thickness = limit("rest.onlay_thickness").value
    level = np.where(
        roof < OPEN - 1.0, np.clip(roof, tops + thickness, tops + MOST_ONLAY_MM), tops + thickness
    ).astype(np.float32)
    inside = plan < 0.8
    known = np.where(inside, level, 0.0).astype(np.float32)
    share = steadied(inside.astype(np.float32), EVEN_MM / grid.spacing)
    even = steadied(known, EVEN_MM / grid.spacing) / np.maximum(share, 1e-3)
    raised = np.maximum(even, tops + np.float32(0.9 * thickness))
    top = np.where(inside, raised, even).astype(np.float32)
    z = box.low[2] + grid.spacing * np.arange(box.shape[2])
    heights = z.astype(np.float32)[None, None, :]
    off = ground.laid.field.values[box.slices]
    low = np.float32(np.percentile(rim[:, 2], 5) - 0.8)
    sides = np.maximum(np.maximum(plan[:, :, None], low - heights), -off - np.float32(1.0))
    values = smooth_cut(sides, heights - top.astype(np.float32)[:, :, None], 0.5)
    component = Component(
        f"rest.{tooth}.onlay",
        "rest",
        ground.back(np.column_stack([outline, np.full(len(outline), rim[:, 2].mean())])),
        np.array([seat.width_mm]),
        np.array([thickness]),
        tooth,
        {},
    )
    piece = Piece(component, Shape(box, np.asarray(values, np.float32)), 0.5)
    metal = Metal(box.low, grid.spacing, plan, top, bare, *np.zeros((2, *top.shape)))
    return _told(ground, piece, metal)


def _roof_in(ground: Ground, low: Floats, shape: tuple[int, int, int]) -> Floats:
    """(nx, ny) height that metal keeps below over the columns of a box [mm]."""
    roof = roof_over(ground.arch, ground.grid)
    if roof is None:
        return np.full(shape[:2], OPEN)
    x, y = (low[a] + ground.grid.spacing * np.arange(shape[a]) for a in range(2))
    plan = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
    return np.asarray(roof.at(plan).reshape(shape[:2]))


def _told(ground: Ground, piece: Piece, metal: Metal) -> Piece:
    """The piece with a stop where its metal, under the opposing teeth, is too thin somewhere."""
    roof = _roof_in(ground, metal.low, (*metal.top.shape, 1))
    thick = np.minimum(metal.top, roof) - metal.tops
    core = (metal.plan < -CORE_MM) & (metal.lane < LANE) & (metal.tops > -50.0)
    if not core.any():
        return piece
    least = float(np.percentile(thick[core], THIN_SHARE))
    allowed = limit("rest.thickness").stop_below or 1.0
    figures = {**piece.component.figures, "least_mm": least}
    component = Component(
        piece.component.id, piece.component.kind, piece.component.line, piece.component.width_mm,
        piece.component.thickness_mm, piece.component.tooth, figures,
    )  # fmt: skip
    found = piece.findings
    if least < allowed - 0.005:
        i, j = np.argwhere(core)[int(np.argmin(thick[core]))]
        spot = metal.low + ground.grid.spacing * np.array([i, j, 0.0])
        spot[2] = metal.tops[i, j]
        x, y, z = ground.back(spot)
        near = roof[i, j] < metal.top[i, j]
        why = "the opposing teeth leave no more room" if near else "the crown rises under it"
        found = (
            *found,
            Finding(
                rule="rest.room",
                severity="stop",
                text=f"{component.id} has {least:.2f} mm of metal where {why}. Ask the dentist for "
                "more reduction there, or choose another rest.",
                source=limit("rest.thickness").cited,
                measured=round(least, 2),
                limit=allowed,
                unit="mm",
                at_mm=(float(x), float(y), float(z)),
                component=component.id,
            ),
        )
    return Piece(component, piece.shape, piece.fillet, piece.tip, found)
