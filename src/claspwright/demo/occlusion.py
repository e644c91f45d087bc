"""Set the other jaw in bite relation: close until the cusps meet, then wear the contacts in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from scipy.ndimage import map_coordinates
from scipy.spatial.transform import Rotation

from claspwright.base import Floats, Ints
from claspwright.demo.fields import smooth_max
from claspwright.demo.placement import PlacedTooth
from claspwright.demo.solid import FAR, Box, JawSolid, nodes_of, tooth_union
from claspwright.geometry import Field, Rigid

FLIP = np.diag([-1.0, 1.0, -1.0])  # the other jaw's arch frame seen in this one
WEAR_MM = 0.30  # how far contacts are worn in when the jaws close
_SCALE = np.array([0.4, 0.4, 0.6, 0.6, 0.8])  # search steps: x, y [mm], turns about x, y, z [deg]


@dataclass(frozen=True, slots=True, eq=False)
class _Meeting:
    """What the search looks at: this jaw's teeth and points on the other's occlusal faces."""

    field: Field
    points: Floats  # (N, 3) other jaw's own arch frame
    owner: Ints  # (N,) tooth of each point
    start: Floats  # (2,) x, y where the first molars meet


def _occlusal_points(solid: JawSolid, codes: Mapping[int, PlacedTooth]) -> tuple[Floats, Ints]:
    """Points on the biting part of the crowns, about 0.3 mm apart."""
    points, owner = [], []
    stride = max(1, round(0.3 / solid.grid.spacing))
    z = solid.grid.axes()[2]
    for code, box in solid.boxes.items():
        values = box.values[::stride, ::stride]
        inside = values < 0
        top = values.shape[2] - 1 - np.argmax(inside[:, :, ::-1], axis=2)
        hit = inside.any(axis=2) & (top < values.shape[2] - 1)
        i, j = np.nonzero(hit)
        k = top[i, j]
        low, high = values[i, j, k], values[i, j, k + 1]
        height = z[box.slices[2]][k] + solid.grid.spacing * low / (low - high)
        x = solid.grid.axes()[0][box.slices[0]][::stride][i]
        y = solid.grid.axes()[1][box.slices[1]][::stride][j]
        keep = height > height.max() - 4.5
        points.append(np.stack([x, y, height], axis=1)[keep])
        owner.append(np.full(int(keep.sum()), code))
    return np.concatenate(points), np.concatenate(owner).astype(np.int32)


def _motion(move: Floats, lift: float) -> Rigid:
    turn = Rotation.from_euler("xyz", move[2:], degrees=True).as_matrix()
    return Rigid(turn @ FLIP, np.array([move[0], move[1], lift]))


def _gaps(meeting: _Meeting, rotated: Floats, lift: float) -> Floats:
    nodes = (rotated + np.array([0.0, 0.0, lift]) - meeting.field.grid.origin).T
    nodes = nodes / meeting.field.grid.spacing
    found = map_coordinates(meeting.field.values, nodes, order=1, cval=float(FAR))
    return np.asarray(found, dtype=np.float64)


def _closed(meeting: _Meeting, move: Floats) -> tuple[float, Floats]:
    """Lift at which the jaws meet with a few points `WEAR_MM` deep, and the gaps there."""
    rotated = _motion(move, 0.0).apply(meeting.points)
    low, high = -4.0, 8.0
    for _ in range(13):
        middle = 0.5 * (low + high)
        deepest = np.partition(_gaps(meeting, rotated, middle), 5)[5]
        low, high = (middle, high) if deepest < -WEAR_MM else (low, middle)
    return high, _gaps(meeting, rotated, high)


def _score(meeting: _Meeting, move: Floats) -> float:
    """How well the jaws interdigitate: contact area, spread over many teeth of both sides."""
    _, gaps = _closed(meeting, move)
    touch = np.exp(-((np.maximum(gaps, 0.0) / 0.35) ** 2)) * (gaps > -WEAR_MM - 0.3)
    per_tooth = np.bincount(meeting.owner, weights=touch)
    codes = np.arange(len(per_tooth))
    side = np.where(codes // 10 % 2 == 1, 1, 0)
    roots = np.sqrt(per_tooth)
    left, right = roots[side == 0].sum(), roots[side == 1].sum()
    away = (move[:2] - meeting.start) / np.array([1.5, 2.0])
    return float(
        left + right + 2.0 * min(left, right) - 2.0 * (away @ away) - 0.5 * (move[2:] @ move[2:])
    )


def _first_molars(placed: Mapping[int, PlacedTooth], ahead: float) -> Floats:
    """(2,) mean x, y of a point on both first molars, `ahead` half widths towards mesial."""
    found = [
        t.to_arch(np.array([[ahead * t.size.mesiodistal / 2, 0.0, t.size.length]]))[0, :2]
        for c, t in placed.items()
        if c % 10 == 6
    ]
    return np.asarray(np.mean(found, axis=0), dtype=np.float64)


def bite_motion(
    master: JawSolid,
    opposing: JawSolid,
    master_all: Mapping[int, PlacedTooth],
    opposing_all: Mapping[int, PlacedTooth],
) -> Rigid:
    """From the opposing jaw's arch frame to the master's, in maximal intercuspation.

    The upper first molar's mesiobuccal cusp starts over the buccal groove of the lower one;
    from there x, y and three turns are searched, each time closing until the teeth meet.

    Args:
        master: this jaw, crowns unprepared.
        opposing: the other jaw.
        master_all: all teeth of this jaw, the missing ones too.
        opposing_all: all teeth of the other jaw.
    """
    points, owner = _occlusal_points(opposing, opposing.placed)
    field = Field(master.grid, tooth_union(master.grid, master.boxes))
    upper, lower = 0.50, 0.08
    own = _first_molars(master_all, upper if master.jaw == "maxilla" else lower)
    other = _first_molars(opposing_all, lower if master.jaw == "maxilla" else upper)
    start = own - other * np.array([-1.0, 1.0])
    meeting = _Meeting(field, points, owner, start)
    best = np.array([start[0], start[1], 0.0, 0.0, 0.0])
    score = _score(meeting, best)
    steps = _SCALE.copy()
    for _ in range(4):
        for axis in range(5):
            for sign in (1.0, -1.0):
                moved = True
                while moved:
                    trial = best.copy()
                    trial[axis] += sign * steps[axis]
                    value = _score(meeting, trial)
                    moved = value > score
                    if moved:
                        best, score = trial, value
        steps = steps * 0.5
    lift, _ = _closed(meeting, best)
    return _motion(best, lift)


def worn(
    opposing: JawSolid, master: JawSolid, motion: Rigid, clear_mm: float = 0.01
) -> dict[int, Box]:
    """The opposing crowns with facets where they would enter the master's crowns.

    Args:
        opposing: the other jaw.
        master: this jaw, crowns unprepared.
        motion: from the opposing arch frame to the master's.
        clear_mm: gap left at the contacts.
    """
    whole = tooth_union(master.grid, master.boxes)
    out: dict[int, Box] = {}
    for code, box in opposing.boxes.items():
        x, y, z = np.broadcast_arrays(*nodes_of(opposing.grid, box.slices))
        near = np.flatnonzero((np.abs(box.values) < 1.0).ravel())
        at = np.stack([c.ravel()[near] for c in (x, y, z)], axis=1).astype(np.float64)
        nodes = master.grid.to_nodes(motion.apply(at)).T
        gap = map_coordinates(whole, nodes, order=1, cval=float(FAR))
        values = box.values.copy().ravel()
        values[near] = smooth_max(values[near], (clear_mm - gap).astype(np.float32), 0.08)
        out[code] = Box(box.slices, values.reshape(box.values.shape))
    return out
