"""Proximal plates on the guiding planes: even layers on crown and tissue, rounded at their borders.

A plate stands on the blocked-out model; where relief ends beside it, the field of the relieved
one is no distance, so its thickness is measured from the surface itself.
"""

from __future__ import annotations

import numpy as np
from scipy.ndimage import gaussian_filter1d

from claspwright.arch import RestSeat
from claspwright.base import Floats, Singles
from claspwright.framework.arm_plans import plate_half_width
from claspwright.framework.canvas import Shape, box_round, shell, smooth_cut
from claspwright.framework.chart import CrownChart
from claspwright.framework.design import End
from claspwright.framework.ground import Ground, Piece
from claspwright.framework.model import Component
from claspwright.framework.rests import END
from claspwright.limits import limit

FLAP = 0.7  # mm under a plate's top up to which a crown may rise beneath it
FLARE = 3.4  # mm below its top over which a plate widens to carry its rest
BULGE = 0.35  # mm by which it thickens there
FLARE_MOST = 2.0  # mm by which it may
BACK = 1.5  # mm behind the middle of a proximal surface to which its plate may wrap
FOOT = 2.6  # mm from the crown to which it runs out over the tissue
FOOT_NARROW = 1.2  # mm by which it narrows to each side on the tissue: no square lower corners
FOOT_ROUND_FROM = 0.9  # mm over the gingival margin where that begins
FOOT_ROUND_OVER = 2.2  # mm of height over which it does
CORNER = 0.6  # mm radius of its upper corners
FOOT_CORNER = 1.4  # mm radius of the corners of its foot, seen along the path
EDGE = 0.4  # mm radius of its borders
EVEN = 0.4  # mm over which its polished side is evened


def _seats(ground: Ground, tooth: int, end: End) -> list[RestSeat]:
    """Seats of the rests at one end of a tooth."""
    return [s for (code, form), s in ground.seats.items() if code == tooth and form.startswith(end)]


def _rest_ends(
    ground: Ground, tooth: int, end: End, face: Floats, across: Floats
) -> list[tuple[float, float]]:
    """Where the rests at one end lie across a plate, and how wide they end there [mm]."""
    return [
        (
            float((ground.here(seat.point) - face) @ across),
            END * min(seat.width_mm, limit("rest.seat_width").value),
        )
        for seat in _seats(ground, tooth, end)
    ]


def _plate_top(ground: Ground, tooth: int, end: End, chart: CrownChart, angles: Floats) -> float:
    """Height to which a plate rises: into the rest it carries, else a guiding plane's height."""
    low = float(np.median(chart.look_up(chart.margin, angles)))
    top = float(np.median(chart.look_up(chart.top, angles))) + 0.1
    seats = _seats(ground, tooth, end)
    if seats:
        return float(np.clip(ground.here(seats[0].point)[2] + 0.9, low + 1.5, top + 1.0))
    if (tooth, "onlay") in ground.seats:  # the plate carries it
        return top + 0.6
    return min(top, low + limit("guide.height_tooth_borne").value + 1.0)


def _under_rest(
    ground: Ground, tooth: int, end: End, face: Floats, across: Floats, half: float
) -> tuple[float, float]:
    """By how much a plate widens at its top, to each side, so that its rest stands on it [mm]."""
    ends = _rest_ends(ground, tooth, end, face, across)
    reach = [(-at + 0.5 * wide - half, at + 0.5 * wide - half) for at, wide in ends]
    low, high = np.clip(reach[0] if reach else (0.0, 0.0), 0.0, FLARE_MOST)
    return float(low), float(high)


def _bulge(
    ground: Ground, tooth: int, end: End, face: Floats, across: Floats, aside: Floats
) -> Floats:
    """(nx, ny) by which a plate thickens at its top under its rest, at places across it [mm]."""
    out = np.zeros(aside.shape)
    for at, wide in _rest_ends(ground, tooth, end, face, across):
        out = BULGE * np.clip(1.0 - ((aside - at) / wide) ** 2, 0.0, 1.0)
    return out


def _slice_at(values: Singles, level: float) -> Singles:
    """(nx, ny) values between two layers of a box, at a fraction of a layer."""
    level = float(np.clip(level, 0.0, values.shape[2] - 1.001))
    k = int(level)
    share = np.float32(level - k)
    return np.asarray((1 - share) * values[:, :, k] + share * values[:, :, k + 1], np.float32)


def proximal_plate(ground: Ground, tooth: int, end: End, chart: CrownChart) -> Piece:
    """A plate on a proximal surface, from the marginal ridge down onto the ridge's tissue."""
    thickness = limit("plate.thickness").value
    facing = 0.0 if end == "mesial" else np.pi
    out = chart.mesial if end == "mesial" else -chart.mesial
    across = chart.buccal
    half = plate_half_width(ground.tooth(tooth))
    angles = facing + np.radians(np.arange(-20.0, 21.0, 5.0))
    low = float(np.median(chart.look_up(chart.margin, angles)))
    high = _plate_top(ground, tooth, end, chart, angles)
    middle = 0.5 * (high + low)
    radius = float(
        np.median(
            chart.look_up(
                gaussian_filter1d(np.nan_to_num(chart.radius, nan=4.0), 1.0, axis=0),
                angles,
                np.full(angles.size, middle),
            )
        )
    )
    face = chart.centre + radius * out
    grid = ground.grid
    more = _under_rest(ground, tooth, end, face, across, half)
    spots = [
        face + s * across * (half + max(more)) + e * out + [0, 0, h - face[2]]
        for s in (-1, 1)
        for e in (-BACK, 3.0)
        for h in (low - 4.5, high + 0.5)
    ]
    box = box_round(grid, np.array(spots), 0.6)
    x, y, z = (box.low[a] + grid.spacing * np.arange(box.shape[a]) for a in range(3))
    dx, dy = x[:, None] - face[0], y[None, :] - face[1]
    along = dx * out[0] + dy * out[1]
    # its sides run towards the tooth's axis, so that they meet the crown squarely
    spread = np.arctan2(half, radius)
    aside = dx * across[0] + dy * across[1]
    side = np.abs(aside) * np.cos(spread)
    side -= np.clip(along + radius, 0.0, radius) * np.sin(spread)
    blocked = ground.blocked.field.values[box.slices]
    level = (high - FLAP - box.low[2]) / grid.spacing
    flap = -_slice_at(blocked, level)  # it does not lie as a thin flap over the crown
    plan = np.maximum(-BACK - along, flap).astype(np.float32)
    upright = np.maximum(z - high, low - 4.0 - z).astype(np.float32)
    t = np.clip((z - (high - FLARE)) / (0.8 * FLARE), 0.0, 1.0)
    wide = np.where(aside > 0, more[1], more[0])[:, :, None] * (t * t * (3 - 2 * t))
    down = np.clip((low + FOOT_ROUND_FROM - z) / FOOT_ROUND_OVER, 0.0, 1.0)
    narrow = FOOT_NARROW * down * down * (3 - 2 * down)
    sides = side[:, :, None] - np.cos(spread) * (wide - narrow)
    foot = np.broadcast_to((along - FOOT)[:, :, None], box.shape).astype(np.float32)
    sides = smooth_cut(sides.astype(np.float32), foot, FOOT_CORNER)
    frame = smooth_cut(
        np.maximum(plan[:, :, None], sides),
        np.broadcast_to(upright, box.shape).astype(np.float32),
        CORNER,
    )
    off = ground.laid.field.values[box.slices]
    bulge = _bulge(ground, tooth, end, face, across, aside)[:, :, None] * (t * t * (3 - 2 * t))
    even = shell(
        ground.laid.off_surface(box) - bulge.astype(np.float32), thickness, EVEN / grid.spacing
    )
    values = smooth_cut(frame, even, EDGE)
    values = np.maximum(values, -off - np.float32(0.8))
    line = np.array([face + [0, 0, high - face[2]], face, face + [0, 0, low - face[2]]])
    component = Component(
        f"plate.{tooth}.{end}",
        "proximal plate",
        ground.back(line),
        np.array([2 * half]),
        np.array([thickness]),
        tooth,
        {"height_mm": high - low},
    )
    return Piece(component, Shape(box, values.astype(np.float32)), 0.5)
