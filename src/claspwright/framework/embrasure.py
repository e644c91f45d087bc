"""The embrasure clasp: two arms on either face from one body across an embrasure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.ndimage import gaussian_filter1d

from claspwright.base import Floats
from claspwright.framework.arm_plans import REST_START_DEG, sweep_angles
from claspwright.framework.canvas import oval_sweep
from claspwright.framework.design import Retainer, Side
from claspwright.framework.ground import Ground, Piece
from claspwright.framework.model import Component
from claspwright.framework.roles import arm_origin, end_facing, neighbour_at
from claspwright.geometry import arc_lengths, smoothed
from claspwright.limits import limit

STEP = 0.15  # mm between stations
LANE = (-0.6, -0.3, 0.0, 0.3, 0.6)  # mm to both sides of the contact in which the ridges are read
SHORT = 0.6  # mm short of where the arms come free that the body ends
FALL = 1.0  # mm that its ends lie below the saddle between the marginal ridges, at most
NARROW = 0.8  # share of its width that it keeps at its ends


@dataclass(frozen=True, slots=True, eq=False)
class Saddle:
    """The way of the body across the embrasure; grid frame, mm."""

    line: Floats  # (N, 3) from the lingual opening to the buccal one
    normal: Floats  # (N, 3)

    def half(self, side: Side) -> Floats:
        """(M, 3) from the middle to the opening on one side."""
        middle = len(self.line) // 2
        return self.line[middle:] if side == "buccal" else self.line[middle::-1]


def partner_of(retainer: Retainer, retainers: Sequence[Retainer]) -> Retainer | None:
    """The retainer that shares an embrasure clasp's body: on the tooth where its arms begin."""
    if retainer.clasp is None or retainer.clasp.form != "embrasure":
        return None
    code = neighbour_at(retainer.tooth, arm_origin(retainer))
    for other in retainers:
        if other.tooth != code or other.clasp is None or other.clasp.form != "embrasure":
            continue
        if neighbour_at(other.tooth, arm_origin(other)) == retainer.tooth:
            return other
    return None


def saddle_of(ground: Ground, retainer: Retainer) -> Saddle:
    """Over the two marginal ridges, from the lingual opening of the embrasure to the buccal one."""
    end = arm_origin(retainer)
    code = neighbour_at(retainer.tooth, end)
    assert code is not None
    one, two = ground.tooth(retainer.tooth), ground.tooth(code)
    pairs = ((one, two), (two, one))
    ahead = ground.here(two.centre) - ground.here(one.centre)
    ahead = ahead * np.array([1.0, 1.0, 0.0]) / float(np.hypot(*ahead[:2]))
    share = one.mesiodistal_mm / (one.mesiodistal_mm + two.mesiodistal_mm)
    contact = ground.here(one.centre) + share * (ground.here(two.centre) - ground.here(one.centre))
    across = np.array([-ahead[1], ahead[0], 0.0])
    across *= np.sign(across @ ground.aim(one.buccal))
    # the middle of the contact lies where the crowns come nearest: seat to seat
    seats = [
        ground.here(seat.point)
        for (tooth, rest), seat in ground.seats.items()
        if (tooth == one.code and rest.startswith(end))
        or (tooth == two.code and rest.startswith(end_facing(two.code, one.code)))
    ]
    if seats:
        contact = contact + ((np.mean(seats, axis=0) - contact) @ across) * across
    sides: tuple[Side, Side] = ("lingual", "buccal")
    low, high = (
        np.mean([_corner(ground, a.code, b.code, contact, across, side) for a, b in pairs])
        for side in sides
    )
    t = np.arange(low + SHORT, high - SHORT + 1e-9, STEP)
    spots = contact[:2] + t[:, None, None] * across[:2] + np.array(LANE)[:, None] * ahead[:2]
    tops = ground.laid.height(spots.reshape(-1, 2)).reshape(len(t), len(LANE))
    valley = np.nan_to_num(tops, nan=-99.0).mean(axis=1)
    middle = float(np.nan_to_num(tops, nan=-99.0)[np.abs(t) < 0.8].max(axis=1).mean())
    z = np.clip(valley, middle - FALL, middle)  # it does not climb the cusps beside it
    z = gaussian_filter1d(z, 0.5 / STEP, mode="nearest")
    line = np.column_stack([contact[:2] + t[:, None] * across[:2], z])
    line = smoothed(line, 0.8)
    along = np.gradient(line, axis=0)
    along /= np.linalg.norm(along, axis=1, keepdims=True)
    up = np.array([0.0, 0.0, 1.0])
    normal = up - (along @ up)[:, None] * along
    return Saddle(line, normal / np.linalg.norm(normal, axis=1, keepdims=True))


def _corner(
    ground: Ground, code: int, beside: int, contact: Floats, across: Floats, side: Side
) -> float:
    """How far from the contact, along `across`, an arm comes free of the embrasure [mm]."""
    chart = ground.charts[code]
    end = end_facing(code, beside)
    angle = np.array([sweep_angles(end, side, REST_START_DEG, 90.0)[0]])
    spot = chart.points(angle, chart.look_up(chart.contour, angle))[0]
    return float((spot - contact) @ across)


def shared_body(ground: Ground, retainer: Retainer, partner: Retainer) -> Piece:
    """The body between the arms of two teeth, thick enough across both marginal ridges."""
    saddle = saddle_of(ground, retainer)
    s = arc_lengths(saddle.line)
    out = np.abs(2.0 * s / s[-1] - 1.0)
    half = limit("minor.width").value / 2 * (1.0 - (1.0 - NARROW) * out)
    thick = limit("minor.thickness").value * (1.0 - (1.0 - NARROW) * out)
    shape = oval_sweep(ground.grid, saddle.line, saddle.normal, half, thick, 0.5)
    teeth = "-".join(str(code) for code in sorted((retainer.tooth, partner.tooth)))
    component = Component(
        f"embrasure.{teeth}",
        "minor connector",
        ground.back(saddle.line),
        np.array([limit("minor.width").value]),
        np.array([limit("minor.thickness").value]),
        retainer.tooth,
        {"length_mm": float(s[-1])},
    )
    return Piece(component, shape, 0.5)
