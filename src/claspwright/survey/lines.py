"""Survey lines, by tooth."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from claspwright.arch import DentalArch
from claspwright.base import Bools, Floats
from claspwright.geometry import (
    DistanceTree,
    Field,
    Mesh,
    closest_points,
    length,
    level_lines,
    smoothed,
    smoothed_values,
    vertex_normals,
)

NORMAL_REACH_MM = 0.25  # of the smoothing of the normals, so that noise makes no loops
LINE_REACH_MM = 0.2  # of the smoothing along a survey line
LEAST_SURVEY_LINE_MM = 1.5
HIDDEN_BY_MM = 0.03  # a height of contour deeper than this is not touched by the upright
HIDDEN_BY_EDGE = 0.06  # the same in edges, on coarse scans: at 1 mm twice the chord error on 4 mm


def survey_lines(
    arch: DentalArch, direction: Floats, block: Field, tree: DistanceTree
) -> Mapping[int, tuple[Floats, ...]]:
    """(N, 3) survey lines of each tooth, the longest first; arch frame [mm].

    The line of greatest prominence: where the smoothed normal is across the path and the
    upright of the surveyor can touch. Pieces under 1.5 mm are left out, the others made smooth
    along themselves and laid back onto the solid.

    Source:
        check-values B02.
    """
    surface = arch.scan.surface
    slope = _slope(surface, direction, arch.scan.edge_mm)
    deepest = max(HIDDEN_BY_MM, HIDDEN_BY_EDGE * arch.scan.edge_mm)
    found: dict[int, tuple[Floats, ...]] = {}
    for code in arch.teeth:
        raw = level_lines(surface, slope, 0.0, arch.crown_of_face == code)
        pieces = [piece for line in raw for piece in _touched(line, block, deepest)]
        kept = longest(pieces, LEAST_SURVEY_LINE_MM)
        found[code] = tuple(_smooth_on(tree, line, arch.scan.edge_mm) for line in kept)
    return found


def _slope(surface: Mesh, direction: Floats, edge_mm: float) -> Floats:
    """(V,) part of the smoothed normal along the path."""
    rounds = int(np.clip(round((2.0 * NORMAL_REACH_MM / edge_mm) ** 2), 1, 60))
    normals = smoothed_values(surface, vertex_normals(surface), rounds)
    size = np.maximum(np.linalg.norm(normals, axis=1), 1e-12)
    return np.asarray((normals @ direction) / size)


def _touched(line: Floats, block: Field, deepest: float) -> list[Floats]:
    """The stretches of a line that the upright can touch, no deeper hidden than `deepest` mm."""
    free = block.at(line) > -deepest
    if free.all():
        return [line]
    if np.array_equal(line[0], line[-1]):  # start a closed line where it is hidden
        turn = int(np.argmin(free[:-1]))
        line = np.concatenate([line[turn:-1], line[: turn + 1]])
        free = np.concatenate([free[turn:-1], free[: turn + 1]])
    return [line[a:b] for a, b in _runs(free) if b - a > 1]


def _smooth_on(tree: DistanceTree, line: Floats, edge_mm: float) -> Floats:
    closed = np.array_equal(line[0], line[-1])
    reach = max(LINE_REACH_MM, edge_mm)
    return closest_points(tree, smoothed(line, reach, closed=closed)).points


def _runs(flags: Bools) -> list[tuple[int, int]]:
    change = np.flatnonzero(np.diff(np.concatenate([[False], flags, [False]]).astype(np.int8)))
    return [(int(a), int(b)) for a, b in change.reshape(-1, 2)]


def longest(lines: list[Floats], least_mm: float) -> tuple[Floats, ...]:
    """Lines of at least a length, the longest first."""
    kept = [line for line in lines if length(line) >= least_mm]
    return tuple(sorted(kept, key=length, reverse=True))
