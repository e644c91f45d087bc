"""A small upright plate with the case's number, tied to the supports of its part."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from claspwright.base import Floats, InputError
from claspwright.build.struts import strut
from claspwright.geometry import DistanceTree, Mesh, box, signed_distance, union

DOT_MM = 0.35
MARGIN_MM = 0.5
FOOT_MM = 1.2  # below the signs, where the ties to the supports end
THICK_MM = 1.0
RAISED_MM = 0.35
CLEAR_MM = 0.5
MOST_SIGNS = 14
TIE_MM = 0.45  # radius of the bars to the supports

# Rows of five dots, from above, as five-bit numbers: a plain dot matrix.
_ROWS = {
    "0": "0E1113151911 0E", "1": "040C04040404 0E", "2": "0E1101020408 1F",
    "3": "1F0204020111 0E", "4": "02060A121F02 02", "5": "1F101E010111 0E",
    "6": "0608101E1111 0E", "7": "1F0102040808 08", "8": "0E11110E1111 0E",
    "9": "0E11110F0102 0C", "A": "0E1111111F11 11", "B": "1E11111E1111 1E",
    "C": "0E1110101011 0E", "D": "1C1211111112 1C", "E": "1F10101E1010 1F",
    "F": "1F10101E1010 10", "G": "0E1110171111 0F", "H": "1111111F1111 11",
    "I": "0E0404040404 0E", "J": "070202020212 0C", "K": "111214181412 11",
    "L": "101010101010 1F", "M": "111B15151111 11", "N": "111119151311 11",
    "O": "0E1111111111 0E", "P": "1E11111E1010 10", "Q": "0E1111111512 0D",
    "R": "1E11111E1412 11", "S": "0F10100E0101 1E", "T": "1F0404040404 04",
    "U": "111111111111 0E", "V": "11111111110A 04", "W": "111111151515 0A",
    "X": "11110A040A11 11", "Y": "1111110A0404 04", "Z": "1F0102040810 1F",
    "-": "0000001F0000 00", ".": "000000000004 04", " ": "000000000000 00",
}  # fmt: skip


def signs(text: str) -> str:
    """The text as it will be raised: capitals, figures, hyphen and point; others a hyphen."""
    if not text.strip():
        raise InputError("a label needs at least one sign")
    return "".join(c if c in _ROWS else "-" for c in text.upper())[:MOST_SIGNS]


def dots(text: str) -> Floats:
    """(7, N) ones where a dot is raised; rows from above, one empty column between signs."""
    columns = []
    for sign in signs(text):
        row = bytes.fromhex(_ROWS[sign].replace(" ", ""))
        grid = np.array([[(r >> (4 - c)) & 1 for c in range(5)] for r in row], dtype=np.float64)
        columns += [grid, np.zeros((7, 1))]
    return np.concatenate(columns[:-1], axis=1)


def tag(text: str) -> Mesh:
    """The upright plate with raised signs, its foot on z = 0, middle at x = 0, signs to -y."""
    grid = dots(text)
    wide = grid.shape[1] * DOT_MM + 2 * MARGIN_MM
    tall = 7 * DOT_MM + MARGIN_MM + FOOT_MM
    pieces = [box(np.array([-0.5 * wide, 0.0, 0.0]), np.array([0.5 * wide, THICK_MM, tall]))]
    left = -0.5 * wide + MARGIN_MM
    for row in range(7):
        top = tall - MARGIN_MM - row * DOT_MM
        for first, last in _runs(grid[row]):
            low = np.array([left + first * DOT_MM, -RAISED_MM, top - 1.02 * DOT_MM])
            high = np.array([left + last * DOT_MM, 0.2, top + 0.02 * DOT_MM])
            pieces.append(box(low, high))
    return union(*pieces)


def _runs(row: Floats) -> list[tuple[int, int]]:
    """First and end of each run of raised dots."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0.0], row, [0.0]])))
    return list(zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True))


def labelled(
    part: Mesh, supports: Mesh, feet: Floats, text: str, tree: DistanceTree | None = None
) -> Mesh:
    """Supports with a tag tied to two of their pins, clear of the part.

    Args:
        part: the part as it stands.
        supports: its supports; empty where it has none, then nothing is added.
        feet: (N, 2) places of the pins on the plate.
        text: what the tag says.
        tree: of the part, where it is at hand.

    The tag stands where it is nearest to a pin, inside the outline of the part if it can.
    """
    if not len(feet) or not len(supports.faces):
        return supports
    plate = tag(text)
    size = plate.bounds[1] - plate.bounds[0]
    spots, turns = _spots(part, feet)
    samples = _samples(plate)
    tree = DistanceTree(part) if tree is None else tree
    near = cKDTree(feet)
    order = _by_preference(spots, turns, part, near, float(size[0]))
    for n in order.tolist():
        placed = _turned(samples, spots[n], turns[n])
        gap, _ = near.query(placed[:, :2])
        if np.min(gap) < 0.6 + CLEAR_MM:
            continue
        if signed_distance(tree, placed).min() < CLEAR_MM + 0.6:
            continue
        body = Mesh(_turned(plate.vertices, spots[n], turns[n]), plate.faces)
        return union(supports, body, *_ties(float(size[0]), spots[n], turns[n], feet))
    return supports


def _spots(part: Mesh, feet: Floats) -> tuple[Floats, Floats]:
    """Places and turns that are tried."""
    low, high = feet.min(axis=0) - 5.0, feet.max(axis=0) + 5.0
    x, y = np.meshgrid(np.arange(low[0], high[0], 1.5), np.arange(low[1], high[1], 1.5))
    turns = np.radians(np.arange(0.0, 360.0, 30.0))
    count = x.size
    spots = np.column_stack([x.ravel(), y.ravel()])
    return np.repeat(spots, len(turns), axis=0), np.tile(turns, count)


def _by_preference(
    spots: Floats, turns: Floats, part: Mesh, near: cKDTree, wide: float
) -> NDArray[Any]:
    """Order of the places: ends near a pin, within the part's box, signs away from the pins."""
    along = np.column_stack([np.cos(turns), np.sin(turns)]) * 0.5 * wide
    first, _ = near.query(spots + along)
    second, _ = near.query(spots - along)
    low, high = part.bounds[:, :2]
    ends = np.stack([spots + along, spots - along])
    outside = (np.maximum(low - ends, 0) + np.maximum(ends - high, 0)).sum(axis=(0, 2))
    _, nearest = near.query(spots)
    front = np.column_stack([np.sin(turns), -np.cos(turns)])
    hidden = ((near.data[nearest] - spots) * front).sum(axis=1) > 0.0
    return np.argsort(first + second + 4.0 * outside + 15.0 * hidden, kind="stable")


def _samples(plate: Mesh) -> Floats:
    """Points on and in the plate, close enough to find what stands in its way."""
    low, high = plate.bounds
    axes = [
        np.linspace(low[i], high[i], max(int((high[i] - low[i]) / 0.8), 1) + 1) for i in (0, 1, 2)
    ]
    grid = np.meshgrid(*axes)
    return np.column_stack([g.ravel() for g in grid])


def _turned(points: Floats, spot: Floats, angle: float) -> Floats:
    c, s = np.cos(angle), np.sin(angle)
    turn = np.array([[c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]])
    return np.asarray(points @ turn + np.array([*spot, 0.0]))


def _ties(wide: float, spot: Floats, angle: float, feet: Floats) -> list[Mesh]:
    """Two low bars from the ends of the tag, half its thickness behind the signs, to pins."""
    along = np.array([np.cos(angle), np.sin(angle)])
    middle = spot + 0.5 * THICK_MM * np.array([-along[1], along[0]])
    bars = []
    for sign in (1.0, -1.0):
        end = middle + sign * (0.5 * wide - 0.8) * along
        foot = feet[np.argmin(np.linalg.norm(feet - end, axis=1))]
        bar = strut(np.array([*end, 0.5]), np.array([*foot, 0.5]), TIE_MM, TIE_MM)
        bars.append(Mesh(np.maximum(bar.vertices, [-np.inf, -np.inf, 0.0]), bar.faces))
    return bars
