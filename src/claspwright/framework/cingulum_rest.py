"""The rest on a cingulum: a low rounded pad over the ledge, blended into its minor connector."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.arch import RestSeat
from claspwright.base import Floats, Singles
from claspwright.framework.canvas import Box, Shape, box_round, smooth_cut
from claspwright.framework.ground import Ground, Piece
from claspwright.framework.model import Component
from claspwright.framework.rests import ask_for_seat, room_over
from claspwright.framework.roof import OPEN, roof_over
from claspwright.framework.slits import closed
from claspwright.framework.terrain import sampled
from claspwright.geometry import Field, Grid
from claspwright.limits import limit

CLOSE = 1.6  # mm radius of the ball that rolls over the ledge: the contour as it was before it
EVEN = 0.3  # mm over which that contour is evened
THICK = 1.5  # mm along the path over the floor, where the opposing teeth leave it
COAT = (0.85, 1.25)  # mm of metal over the old contour, at least and at most
THINNER = 0.3  # share of it that is lost towards the border
BORDER = 0.2  # mm that the pad runs out past the ledge towards the edge of the tooth
SPREAD = 0.55  # mm that it runs out to both sides past the ledge, or past its usual length
WIDEST = (2.3, 0.36)  # half of it, at most: mm, and share of the tooth's mesiodistal width
UP = (1.2, 1.75)  # mm from its middle over the contour towards the edge of the tooth
DOWN = (1.2, 1.9)  # the same towards the gum
ROUND = 2.4  # exponent of its outline: an ellipse has 2
SHOULDER = 0.55  # mm radius of its upper edge
DEEP = 2.2  # mm below the contour that is filled at most
MIDDLE = 0.4  # mm round the middle in which the room under the opposing teeth is told
SUNK = 0.2  # mm by which the pad reaches into the ground before it is cut
SOUND = 0.34  # mm radius of the ball that finds room in pad and SUNK: no metal under 0.48 mm
SPARED = 0.15  # mm to which that ball need not reach: polished faces stay as they are
FILLET = 0.9  # mm of its joint with the minor connector


@dataclass(frozen=True, slots=True, eq=False)
class _Place:
    """Where the pad lies: the middle of its foot and its axes, grid frame."""

    middle: Floats  # (3,) on the old contour
    normal: Floats  # (3,)
    across: Floats  # (3,) along the tooth
    rise: Floats  # (3,) over the contour, away from the gum
    half: float  # mm along the tooth
    up: float
    down: float
    coat: float  # mm of metal over the contour


def cingulum_rest(ground: Ground, tooth: int, seat: RestSeat) -> Piece:
    """A pad that fills the ledge, spreads over its borders and ends blunt.

    Args:
        ground: surfaces to lay it on.
        tooth: the front tooth.
        seat: the ledge as found, or the place where one is asked for.

    Source:
        2.5 to 3 mm along the tooth, 2 mm deep, 1.5 mm thick (limits: rest.cingulum_length,
        rest.cingulum_width, rest.cingulum_depth).
    """
    floor, rim = ground.here(seat.point), ground.here(seat.outline)
    box = box_round(ground.grid, np.vstack([rim, floor[None]]), CLOSE + 2.6)
    old = closed(ground.laid.field.values[box.slices], CLOSE, ground.grid.spacing, EVEN)
    place = _place(ground, tooth, seat, floor, rim, old)
    spots = [box.low[a] + ground.grid.spacing * np.arange(box.shape[a]) for a in range(3)]
    dx, dy, dz = np.meshgrid(
        *(s - m for s, m in zip(spots, place.middle, strict=True)), indexing="ij", sparse=True
    )

    def reach(axis: Floats) -> Floats:
        return np.asarray(dx * axis[0] + dy * axis[1] + dz * axis[2])

    rise = reach(place.rise)
    along = np.abs(reach(place.across)) / place.half
    tall = np.where(rise > 0, rise / place.up, -rise / place.down)
    out = (along**ROUND + tall**ROUND) ** (1 / ROUND)
    side = (out - 1.0) * min(place.half, place.up)
    side = np.maximum(side, -reach(place.normal) - DEEP)
    coat = place.coat * (1.0 - THINNER * np.minimum(out, 1.2) ** 2)
    pad = smooth_cut(side.astype(np.float32), (old - coat).astype(np.float32), SHOULDER)
    off = ground.laid.field.values[box.slices]
    roof = _roof(ground, box)
    if roof is not None:
        low = spots[2][None, None, :] - roof[:, :, None]
        pad = smooth_cut(pad, low.astype(np.float32), 0.3)
    pad = sound(np.asarray(pad, np.float32), off, ground.grid.spacing)
    component = _record(ground, tooth, seat, place, floor)
    found = () if seat.prepared else (ask_for_seat(seat, component),)
    return Piece(component, Shape(box, np.asarray(pad, np.float32)), FILLET, None, found)


def sound(pad: Singles, off: Singles, step: float) -> Singles:
    """The pad without blades that hang down between its border and a flank of the tooth.

    Args:
        pad: distance to it, negative inside [mm].
        off: distance to the ground [mm].
        step: between nodes [mm].
    """
    metal = np.maximum(pad, -off - np.float32(SUNK))
    opened = -closed(-metal, SOUND, step, EVEN)
    return np.asarray(np.maximum(pad, opened - np.float32(SPARED)), np.float32)


def _place(
    ground: Ground, tooth: int, seat: RestSeat, floor: Floats, rim: Floats, old: Singles
) -> _Place:
    into = ground.aim(seat.direction)
    box = box_round(ground.grid, np.vstack([rim, floor[None]]), CLOSE + 2.6)
    step = ground.grid.spacing
    contour = _Level(Field(Grid(ground.grid.frame, box.low, step, box.shape), old))
    across = np.array([-into[1], into[0], 0.0])
    spread = (rim - floor) @ across
    start = rim.mean(axis=0) + (0.5 * (spread.max() + spread.min()) - spread.mean()) * across
    middle = contour.settle(start)
    normal = contour.normal(middle)
    normal -= (normal @ across) * across
    normal /= np.linalg.norm(normal)
    rise = np.cross(normal, across)
    rise *= np.sign(rise[2])
    climb = max(float(rise[2]), 0.5)
    length = limit("rest.cingulum_length").value
    widest = min(WIDEST[0], WIDEST[1] * ground.tooth(tooth).mesiodistal_mm)
    half = min(0.5 * max(float(np.ptp(spread)), length) + SPREAD, widest)
    wall = min(seat.depth_mm, limit("rest.cingulum_depth").value) if seat.prepared else 1.0
    # on a steep face what stands over the middle along the path reaches far up the crown
    up = float(np.clip(max(0.5 * wall, THICK * climb**2) / climb + BORDER, *UP))
    down = float(np.clip(0.5 * wall / climb + 0.6, *DOWN))
    filled = contour.over(floor)
    coat = float(np.clip((THICK - filled) * abs(float(normal[2])), *COAT))
    return _Place(middle, normal, across, rise, half, up, down, coat)


@dataclass(frozen=True, slots=True, eq=False)
class _Level:
    """The old contour, asked at points of the grid frame."""

    field: Field

    def at(self, points: Floats) -> Floats:
        return sampled(self.field.grid, self.field.values, points)

    def normal(self, point: Floats) -> Floats:
        """(3,) outward, averaged over a millimetre."""
        ahead = self.at(point + np.eye(3)) - self.at(point - np.eye(3))
        return np.asarray(ahead / (np.linalg.norm(ahead) + 1e-12))

    def settle(self, point: Floats) -> Floats:
        """(3,) the point of the contour beside a point."""
        for _ in range(6):
            point = point - self.at(point[None])[0] * self.normal(point)
        return np.asarray(point)

    def over(self, floor: Floats) -> float:
        """How far the contour lies over the floor of the ledge along the path [mm]."""
        rise = np.arange(0.0, 2.0, 0.05)
        column = self.at(floor + rise[:, None] * np.array([0.0, 0.0, 1.0]))
        free = np.flatnonzero(column > 0)
        return float(rise[free[0]]) if free.size else float(rise[-1])


def _roof(ground: Ground, box: Box) -> Floats | None:
    """(nx, ny) height that metal keeps below over the columns of a box; None if all is open."""
    roof = roof_over(ground.arch, ground.grid)
    if roof is None:
        return None
    x, y = (box.low[a] + ground.grid.spacing * np.arange(box.shape[a]) for a in range(2))
    plan = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
    heights = roof.at(plan).reshape(len(x), len(y))
    return None if float(heights.min()) >= OPEN else heights


def _record(ground: Ground, tooth: int, seat: RestSeat, place: _Place, floor: Floats) -> Component:
    turn = np.linspace(0.0, 2 * np.pi, 40, endpoint=False)
    tall = np.where(np.sin(turn) > 0, place.up, place.down) * np.sin(turn)
    ring = place.middle + (place.half * np.cos(turn))[:, None] * place.across
    ring = ring + tall[:, None] * place.rise
    middle = ring.mean(axis=0) + MIDDLE * (ring - ring.mean(axis=0)) / place.half
    tops = np.nan_to_num(ground.laid.height(middle[:, :2]), nan=-99.0)
    room = room_over(ground, middle[:, :2], tops)
    ring[:, 2] = floor[2]
    return Component(
        f"rest.{tooth}.cingulum",
        "rest",
        ground.back(ring),
        np.array([2 * place.half]),
        np.array([place.coat]),
        tooth,
        {"seat_depth_mm": seat.depth_mm, "prepared": float(seat.prepared)} | room,
    )
