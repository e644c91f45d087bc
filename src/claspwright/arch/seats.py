"""Rest seats: where the dentist has prepared one, or where one is to be asked for."""

from __future__ import annotations

import numpy as np

from claspwright.arch.cingulum import cingulum_seat
from claspwright.arch.crowntop import SPACING, CrownTop, crown_top
from claspwright.arch.incisal import incisal_notch, occlusal_table
from claspwright.arch.model import DentalArch, RestSeat, SeatPlace, Tooth
from claspwright.arch.notation import kind_of
from claspwright.arch.slots import Channel, TopGrid, find_channel, top_grid
from claspwright.base import Floats, InputError

TURNS_DEG = (-24.0, -12.0, 0.0, 12.0, 24.0)  # a channel may run askew to the arch
BASE_MM = 2.7  # of the rounded triangle that is asked for (check-values C01: 2.5 at least)
LENGTH_SHARE = 0.4  # of the mesiodistal width (check-values C04: 1/3 to 1/2)
SHOULDER_MM = 1.7  # from the middle of a seat to the ridge beside it
SAME_MM = 1.5  # two seats nearer than this are one, seen from both sides
LEAST_WIDTH_MM = 1.2  # what is narrower is a fissure
LEAST_DEPTH_MM = 0.3  # what is shallower is no seat
RAYS = 36  # points of an outline


def find_rest_seat(arch: DentalArch, tooth: int, where: SeatPlace) -> RestSeat:
    """Find a prepared rest seat, or the place for one.

    An occlusal seat is recognised by its two steep walls and its open end, a cingulum seat by
    its level floor with a wall behind it. Where none is found, the place is the saddle of the
    marginal ridge, or the cingulum, and `prepared` is False. What was found stays with the arch.

    Args:
        arch: the arch with its teeth.
        tooth: ISO 3950 code of a present tooth.
        where: the side of the tooth, its cingulum, a side of its incisal edge, or all of its
            occlusal surface.

    Raises:
        InputError: the tooth does not stand on the arch, or has no such place.
    """
    if tooth not in arch.teeth:
        raise InputError(f"tooth {tooth} does not stand on this arch", remedy="Check the code.")
    if (tooth, where) not in arch.found_seats:
        arch.found_seats[tooth, where] = _found(arch, tooth, where)
    return arch.found_seats[tooth, where]


def _found(arch: DentalArch, tooth: int, where: SeatPlace) -> RestSeat:
    found = arch.teeth[tooth]
    if where == "cingulum":
        if kind_of(tooth) not in ("incisor", "canine"):
            raise InputError(
                f"tooth {tooth} has no cingulum", remedy="Ask for a mesial or distal rest."
            )
        ledge = cingulum_seat(crown_top(arch, tooth, found.lingual))
        return RestSeat(
            tooth, where, ledge.point, found.buccal, ledge.prepared, ledge.depth_mm,
            ledge.width_mm, ledge.outline,
        )  # fmt: skip
    if where == "occlusal" or where.endswith("incisal"):
        return _on_top(arch, found, where)
    out = found.mesial if where == "mesial" else found.distal
    here, lip = _seat_towards(arch, found, out, where)
    if here is not None:
        there, other_lip = _seat_towards(arch, found, -out, where)
        one = there is not None and np.linalg.norm(here.point - there.point) < SAME_MM
        if not (one and other_lip < lip):
            return here
    return _place(crown_top(arch, tooth, out), where)


def _on_top(arch: DentalArch, tooth: Tooth, where: SeatPlace) -> RestSeat:
    """A notch of the incisal edge, or the whole occlusal surface."""
    front = kind_of(tooth.code) in ("incisor", "canine")
    if front != where.endswith("incisal"):
        lacks = "occlusal surface" if front else "incisal edge"
        raise InputError(
            f"tooth {tooth.code} has no {lacks}",
            remedy="Ask for a cingulum or incisal rest." if front else "Ask for an occlusal rest.",
        )
    if where == "occlusal":
        place = occlusal_table(crown_top(arch, tooth.code, tooth.mesial))
        into = tooth.lingual
    else:
        out = tooth.mesial if where.startswith("mesial") else tooth.distal
        place = incisal_notch(crown_top(arch, tooth.code, out))
        into = tooth.buccal
    return RestSeat(
        tooth.code, where, place.point, into, place.prepared, place.depth_mm, place.width_mm,
        place.outline,
    )  # fmt: skip


def _seat_towards(
    arch: DentalArch, tooth: Tooth, out: Floats, where: SeatPlace
) -> tuple[RestSeat | None, float]:
    """The prepared seat that opens to a side, and how far the way out rises [mm]."""
    top, channel = _best_channel(arch, tooth, out)
    if channel is None or not channel.prepared:
        return None, np.inf
    seat = _prepared(top, channel, where)
    if seat is None or seat.width_mm < LEAST_WIDTH_MM or seat.depth_mm < LEAST_DEPTH_MM:
        return None, np.inf
    return seat, channel.lip


def _best_channel(arch: DentalArch, tooth: Tooth, out: Floats) -> tuple[CrownTop, Channel | None]:
    best: tuple[CrownTop, Channel | None] = (crown_top(arch, tooth.code, out), None)
    for turn in TURNS_DEG:
        top = crown_top(arch, tooth.code, _turned(out, turn))
        channel = find_channel(top)
        if channel is None:
            continue
        known = best[1]
        if known is None or (channel.prepared, channel.wall) > (known.prepared, known.wall):
            best = (top, channel)
    return best


def _turned(direction: Floats, angle_deg: float) -> Floats:
    c, s = np.cos(np.radians(angle_deg)), np.sin(np.radians(angle_deg))
    x, y, _ = direction
    return np.array([c * x - s * y, s * x + c * y, 0.0])


def _prepared(top: CrownTop, channel: Channel, where: SeatPlace) -> RestSeat | None:
    """The seat in a channel; None where its floor lies beside the crown."""
    grid = top_grid(top)
    middle = _middle(grid, channel)
    lanes = np.abs(grid.v - middle) < 0.4
    inside = (grid.u > channel.rim_u - 2.4) & (grid.u < channel.rim_u - 0.5)
    crown = grid.z > grid.z.max() - 6.0
    floor = np.where(lanes[:, None] & inside[None, :] & crown, grid.z, np.inf)
    if not np.isfinite(floor).any():
        return None
    j, k = np.unravel_index(int(np.argmin(floor)), floor.shape)
    u, v, low = float(grid.u[k]), float(grid.v[j]), float(floor[j, k])
    left, right, walls = _cross(grid, channel.rim_u - 0.6, middle)
    at_rim = float(np.interp(channel.rim_u - 0.6, grid.u, grid.z[_lane(grid, middle)]))
    beside = _depth(grid, channel.rim_u - 0.3, middle)
    if beside < LEAST_DEPTH_MM:  # a flank of the crown falls off there
        beside = _depth(grid, channel.rim_u - 0.8, middle)
    depth = min(beside, walls - at_rim)
    outline = _outline(top, grid, u, v, low, 0.5 * max(walls - at_rim, 0.6))
    point = top.points(np.array([u]), np.array([v]))[0]
    if not np.isfinite(point).all() or len(outline) < 8:
        return None
    return RestSeat(
        top.tooth.code, where, point, -top.out, True,
        depth, right - left, outline,
    )  # fmt: skip


def _depth(grid: TopGrid, u: float, v: float) -> float:
    """How far the floor lies below the lower shoulder, at the outer end of the channel [mm]."""
    k = int(np.argmin(np.abs(grid.u - u)))
    across = np.interp([v - SHOULDER_MM, v, v + SHOULDER_MM], grid.v, grid.z[:, k])
    return float(max(min(across[0], across[2]) - across[1], 0.0))


def _lane(grid: TopGrid, v: float) -> int:
    return int(round((v - grid.v[0]) / SPACING))


def _middle(grid: TopGrid, channel: Channel) -> float:
    """The lane midway between the channel's walls."""
    middle = channel.v
    for _ in range(3):
        left, right, _ = _cross(grid, channel.rim_u - 1.0, middle)
        middle = float(np.clip(0.5 * (left + right), -4.5, 4.5))
    return middle


def _cross(grid: TopGrid, u: float, v: float) -> tuple[float, float, float]:
    """Lanes of the walls at half their height, and the height of the lower one beside them."""
    k = int(np.argmin(np.abs(grid.u - u)))
    j = _lane(grid, v)
    reach = int(1.9 / SPACING)
    floor = grid.z[j, k]
    tops = [float(grid.z[j - reach : j, k].max()), float(grid.z[j + 1 : j + reach, k].max())]
    height = min(tops)
    half = floor + 0.5 * (height - floor)
    below = grid.z[:, k] < half
    a = b = j
    while a > 0 and below[a - 1] and j - a < reach:
        a -= 1
    while b < len(below) - 1 and below[b + 1] and b - j < reach:
        b += 1
    return float(grid.v[a]), float(grid.v[b]), height


def _outline(top: CrownTop, grid: TopGrid, u: float, v: float, floor: float, rise: float) -> Floats:
    """(RAYS, 3) border of the seat: where its walls are half up, or the crown's rim falls off."""
    angles = np.linspace(0.0, 2 * np.pi, RAYS, endpoint=False)
    radius = np.arange(0.2, 2.8, SPACING)
    ru = u + radius[None, :] * np.cos(angles)[:, None]
    rv = v + radius[None, :] * np.sin(angles)[:, None]
    z = top.z(ru, rv)
    over = ~np.isfinite(z) | (z > floor + rise) | (z < floor - 0.35)
    stop = np.where(over.any(axis=1), over.argmax(axis=1), len(radius) - 1)
    reach = radius[np.maximum(stop - 1, 0)]
    smooth = (np.roll(reach, 1) + 2 * reach + np.roll(reach, -1)) / 4
    smooth = np.minimum(smooth, reach)
    return _finite(top.points(u + smooth * np.cos(angles), v + smooth * np.sin(angles)))


def _finite(points: Floats) -> Floats:
    """The points that lie over the crown."""
    return np.asarray(points[np.isfinite(points).all(axis=1)])


def _place(top: CrownTop, where: SeatPlace) -> RestSeat:
    """The saddle of the marginal ridge, with the outline of the seat to be asked for."""
    grid = top_grid(top)
    tooth = top.tooth
    start = 0.12 * tooth.mesiodistal_mm
    best: tuple[float, float, float] | None = None
    for v in np.arange(-0.22, 0.221, 0.02) * tooth.buccolingual_mm:
        j = _lane(grid, v)
        rim = grid.rim(j, start)
        if rim is None or grid.z[j, rim] < grid.z.max() - 5.0:
            continue
        height = float(grid.z[j, max(rim - 8, 0) : rim + 1].max()) + 0.08 * abs(v)
        if best is None or height < best[0]:
            best = (height, float(grid.u[rim]), float(v))
    _, rim_u, v = best if best is not None else (0.0, 0.4 * tooth.mesiodistal_mm, 0.0)
    long = float(np.clip(LENGTH_SHARE * tooth.mesiodistal_mm, 2.5, 3.5))
    plan = _rounded_triangle(rim_u, v, long)
    outline = _finite(top.points(plan[:, 0], plan[:, 1]))
    point = top.points(np.array([rim_u - 0.45 * long]), np.array([v]))[0]
    if not np.isfinite(point).all():
        point = tooth.centre * np.array([1.0, 1.0, 0.0]) + np.array([0.0, 0.0, grid.z.max()])
    return RestSeat(tooth.code, where, point, -top.out, False, 0.0, BASE_MM, outline)


def _rounded_triangle(rim_u: float, v: float, long: float) -> Floats:
    """(RAYS, 2) outline with its base on the rim and its rounded apex inside the tooth."""
    along = np.linspace(0.0, 1.0, RAYS // 2)
    half = 0.5 * BASE_MM * np.sqrt(1.0 - along**2) * (1.0 - 0.42 * along)
    right = np.column_stack([rim_u - long * along, v + half])
    left = np.column_stack([rim_u - long * along[::-1], v - half[::-1]])
    return np.concatenate([right, left])
