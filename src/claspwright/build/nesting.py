"""Parts on platforms: outlines turned about the vertical and packed, then checked exactly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import affinity
from shapely.geometry import Point, Polygon

from claspwright.base import Bools, Floats, InfeasibleError, Progress, silent
from claspwright.build import _nesting_kernels as kernels
from claspwright.build.machine import Machine, Platform
from claspwright.geometry import HeldSolid, Rigid, beside

PIXEL_MM = 0.5
TURNS = 72
OUTLINE_MM = 0.05  # the outline is drawn this much wider than what it goes round
FULL = 0.85  # no packing covers more than this of the room that is left
MOVES = 600_000
REFUSED = 0.9  # a part is tried after another found no place if it is this much smaller
BLADE_DEG = 5.0  # a long side keeps this far from lying along the recoater's blade
LONG = 1.6  # sides whose ratio is above this count as long


@dataclass(frozen=True, slots=True, eq=False)
class Outline:
    """What a part with its supports covers on the platform, about its own origin."""

    name: str
    shape: Any  # shapely polygon or polygons
    height_mm: float
    due: str = ""  # ISO date; empty: none


@dataclass(frozen=True, slots=True)
class Placement:
    """Where a part stands: turned about the vertical, then moved."""

    part: int  # index into the outlines
    turn_deg: float
    x_mm: float
    y_mm: float

    def motion(self) -> Rigid:
        """The motion from the part's own place to its place on the platform."""
        angle = np.radians(self.turn_deg)
        c, s = float(np.cos(angle)), float(np.sin(angle))
        turn = np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])
        return Rigid(turn, np.array([self.x_mm, self.y_mm, 0.0]))

    def placed(self, outline: Outline) -> Any:
        """The outline where it stands; Any: a shapely geometry."""
        turned = affinity.rotate(outline.shape, self.turn_deg, origin=(0.0, 0.0))
        return affinity.translate(turned, self.x_mm, self.y_mm)


@dataclass(frozen=True, slots=True)
class PlatformCheck:
    """Exact distances on one platform."""

    least_distance_mm: float  # between two parts; inf for a single one
    least_edge_mm: float  # from a part to the edge of the platform
    least_keep_out_mm: float  # to a place where nothing may stand; inf without one


def outline_of(name: str, solid: HeldSolid, height_mm: float, due: str = "") -> Outline:
    """What a solid covers, seen from above, drawn a little too wide."""
    areas = [Polygon(rings[0], rings[1:]) for rings in solid.covered()]
    wide = shapely.buffer(shapely.union_all(areas), OUTLINE_MM, quad_segs=4)
    return Outline(name, shapely.simplify(wide, 0.1 * OUTLINE_MM), height_mm, due)


def nest(
    outlines: Sequence[Outline],
    machine: Machine,
    gap_mm: float,
    *,
    seed: int = 1,
    moves: int = MOVES,
    progress: Progress = silent,
) -> tuple[tuple[Placement, ...], ...]:
    """Fill platform after platform, the parts that are due first on the first.

    A platform takes the parts in the order of their due dates, then of their names; one that
    does not fit is left for the next platform, and smaller ones behind it are tried. Packing is
    by simulated annealing on pixels: that no way was found to add a part does not prove that
    there is none. The same input and seed give the same platforms.

    Raises:
        InfeasibleError: a part does not fit the empty platform.
    """
    order = sorted(
        range(len(outlines)), key=lambda n: (outlines[n].due or "9999", outlines[n].name, n)
    )
    room = _Room.of(machine.platform, gap_mm)
    words = room.blocked.shape[1]
    shapes = [_Pixels.of(one, machine, gap_mm, words) for one in outlines]
    platforms: list[tuple[Placement, ...]] = []
    waiting = order
    while waiting:
        taken: list[int] = []
        place = np.zeros((0, 3), np.int64)
        left: list[int] = []
        refused = np.inf  # pixels of the smallest part that found no place
        for n in waiting:
            done = sum(len(one) for one in platforms) + len(taken)
            progress(0.99 * done / len(order), "nesting")
            used = sum(shapes[t].least for t in [*taken, n])
            tried = None
            if used <= FULL * room.free and shapes[n].least < REFUSED * refused:
                tried = _add([shapes[t] for t in [*taken, n]], place, room, seed, moves)
            if tried is None:
                left.append(n)
                refused = min(refused, float(shapes[n].least))
                continue
            taken.append(n)
            place = tried
        if not taken:
            raise InfeasibleError(
                f"{outlines[waiting[0]].name} does not fit platform {machine.name}",
                remedy="Choose another orientation or a larger machine.",
            )
        platforms.append(
            tuple(
                shapes[n].placement(n, place[i], (room.wide, room.tall))
                for i, n in enumerate(taken)
            )
        )
        waiting = left
    progress(1.0, "nesting")
    return tuple(platforms)


def check_platform(
    outlines: Sequence[Outline], placements: Sequence[Placement], platform: Platform
) -> PlatformCheck:
    """Exact distances between the outlines, to the edge and to the places kept free [mm]."""
    placed = [p.placed(outlines[p.part]) for p in placements]
    between = [a.distance(b) for i, a in enumerate(placed) for b in placed[:i]]
    points = np.concatenate([shapely.get_coordinates(one) for one in placed])
    if platform.shape == "round":
        edge = 0.5 * platform.width_mm - float(np.hypot(*points.T).max())
    else:
        half = 0.5 * np.array([platform.width_mm, platform.depth_mm])
        edge = float((half - np.abs(points)).min())
    kept = [
        one.distance(Point(k.x_mm, k.y_mm)) - k.radius_mm
        for one in placed
        for k in platform.keep_outs
    ]
    return PlatformCheck(min(between, default=np.inf), edge, min(kept, default=np.inf))


@dataclass(frozen=True, slots=True, eq=False)
class _Pixels:
    """One outline in every turn, widened by half the gap."""

    bits: NDArray[np.uint64]  # rows of words, turn after turn
    start: NDArray[np.int64]  # (TURNS + 1,)
    sizes: NDArray[np.int64]  # (TURNS, 2) columns and rows
    corners: Floats  # (TURNS, 2) of pixel 0, 0 in the part's own frame [mm]
    allowed: Bools
    least: int  # pixels of the first turn

    @staticmethod
    def of(outline: Outline, machine: Machine, gap_mm: float, words: int) -> _Pixels:
        """Pixels of all turns; a pixel counts where its middle may lie inside."""
        wide = shapely.buffer(outline.shape, 0.5 * gap_mm + 0.5 * PIXEL_MM, quad_segs=4)
        rings = shapely.get_rings(shapely.get_parts(shapely.simplify(wide, 0.02)))
        points, which = shapely.get_coordinates(rings, return_index=True)
        start = np.concatenate([[0], np.cumsum(np.bincount(which))]).astype(np.int64)
        found, ends, sizes, corners = [], [0], [], []
        for n in range(TURNS):
            angle = 2.0 * np.pi * n / TURNS
            c, s = np.cos(angle), np.sin(angle)
            turned = points @ np.array([[c, s], [-s, c]])
            low = turned.min(axis=0)
            size = ((turned.max(axis=0) - low) / PIXEL_MM).astype(np.int64) + 1
            out = np.zeros((int(size[1]), max(words, int(size[0]) // 64 + 1)), np.uint64)
            kernels.fill(turned - low, start, PIXEL_MM, out)
            found.append(out[:, :words])
            ends.append(ends[-1] + len(out))
            sizes.append(size)
            corners.append(low)
        return _Pixels(
            np.concatenate(found), np.array(ends), np.array(sizes), np.array(corners),
            _allowed(outline, machine), int(kernels.count_ones(found[0])),
        )  # fmt: skip

    def placement(self, part: int, place: NDArray[Any], shape: tuple[int, int]) -> Placement:
        """Where the part stands, from pixels back to millimetres."""
        turn, column, row = (int(v) for v in place)
        low = np.array([column, row]) * PIXEL_MM - 0.5 * PIXEL_MM * np.array(shape)
        x, y = low - self.corners[turn]
        return Placement(part, 360.0 * turn / TURNS, float(x), float(y))


def _allowed(outline: Outline, machine: Machine) -> Bools:
    """(TURNS,) turns in which no long side lies along the blade of the recoater."""
    box = shapely.get_coordinates(shapely.minimum_rotated_rectangle(outline.shape))
    sides = np.diff(box[:3], axis=0)
    length = np.linalg.norm(sides, axis=1)
    angles = 360.0 * np.arange(TURNS) / TURNS
    if length.max() < LONG * length.min():
        return np.ones(TURNS, bool)
    long = sides[int(np.argmax(length))]
    heading = np.degrees(np.arctan2(long[1], long[0])) + angles
    off = np.abs((heading - (machine.recoater_deg + 90.0) + 90.0) % 180.0 - 90.0)
    return np.asarray(off >= BLADE_DEG)


@dataclass(frozen=True, slots=True, eq=False)
class _Room:
    """Pixels on which no pixel of a widened outline may lie."""

    blocked: NDArray[np.uint64]  # (rows, words)
    wide: int
    tall: int
    free: int  # pixels that are left

    @staticmethod
    def of(platform: Platform, gap_mm: float) -> _Room:
        """The platform without its margin, widened by half the gap as the outlines are."""
        inner = np.array([platform.width_mm, platform.depth_mm]) + gap_mm
        inner -= 2 * platform.edge_margin_mm
        wide, tall = np.floor(inner / PIXEL_MM).astype(int).tolist()
        x, y = (PIXEL_MM * (np.arange(n) + 0.5 - 0.5 * n) for n in (wide, tall))
        gy, gx = np.meshgrid(y, x, indexing="ij")
        shut = np.zeros((tall, wide), bool)
        if platform.shape == "round":
            shut |= np.hypot(gx, gy) > 0.5 * inner[0]
        for one in platform.keep_outs:
            shut |= np.hypot(gx - one.x_mm, gy - one.y_mm) < one.radius_mm + 0.5 * gap_mm
        words = wide // 64 + 1
        padded = np.zeros((tall, 64 * words), np.uint8)
        padded[:, :wide] = shut
        blocked = np.packbits(padded, axis=1, bitorder="little").view("<u8").astype(np.uint64)
        return _Room(np.ascontiguousarray(blocked), wide, tall, int((~shut).sum()))


def _add(
    shapes: list[_Pixels], place: NDArray[Any], room: _Room, seed: int, moves: int
) -> NDArray[Any] | None:
    """Places for all parts, the last of them new; None where none were found."""
    sizes = np.concatenate([one.sizes for one in shapes])
    fits = (sizes <= [room.wide, room.tall]).all(axis=1).reshape(len(shapes), TURNS)
    allowed = np.stack([one.allowed for one in shapes]) & fits
    if not allowed.any(axis=1).all():
        return None
    bits = np.concatenate([one.bits for one in shapes])
    shift = np.cumsum([0] + [len(one.bits) for one in shapes])
    start = np.concatenate(
        [one.start[:-1] + s for one, s in zip(shapes, shift, strict=False)] + [shift[-1:]]
    )
    hot = max(40.0, 0.02 * max(one.least for one in shapes))
    needless = np.zeros(1, np.bool_)

    def attempt(number: int) -> NDArray[Any] | None:
        tried = np.concatenate([place, np.zeros((1, 3), np.int64)])
        left = kernels.anneal(
            bits, start, sizes, TURNS, allowed, room.blocked, room.wide, room.tall, tried,
            0 if number else len(place), moves, hot, seed + 1000 * len(shapes) + number,
            needless if number else np.zeros(1, np.bool_),
        )  # fmt: skip
        needless[0] |= left == 0
        return tried if left == 0 else None

    # all parts thrown anew is tried at the same time, and counts where keeping them fails
    kept, anew = beside(lambda: attempt(0), lambda: attempt(1))
    return anew if kept is None else kept
