"""Marks and lines that carry a path of placement to the stone, and the path back from them."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np
from scipy.spatial import KDTree

from claspwright.arch import DentalArch, patient_right
from claspwright.base import Bools, Floats, InputError, Ints, frozen_floats
from claspwright.survey.model import PathOfPlacement
from claspwright.survey.shadow import Shadow
from claspwright.survey.zones import covered_vertices, near_border

LEVELS = 25  # heights that are tried for the plane of the marks
MOST_AT_A_LEVEL = 36
FROM_BORDER_MM = 2.0
FROM_CROWN_MM = 1.5  # of marks on tissue
LEAST_SPREAD_MM = 5.0  # marks nearer to a line than this carry no path
LINE_MM = 10.0  # length of a base line


@dataclass(frozen=True, slots=True, eq=False)
class Tripod:
    """Three marks in one plane across the path, and three lines along it; arch frame."""

    marks: Floats  # (3, 3) on the surface, counter-clockwise seen from out of the mouth [mm]
    below_top_mm: float  # from the highest point of the model down to the plane, along the path
    spread_mm: float  # least distance of a mark from the line through the other two
    on_tissue: bool  # False: no three fit beside what is covered, so they lie on crowns
    base_lines: Floats  # (3, 2, 3) lower and upper end, on the outer side of the model [mm]


def path_from_tripod(marks: Floats, out_of_mouth: Floats | None = None) -> Floats:
    """(3,) unit vector of the path across which three marks lie.

    Args:
        marks: (3, 3) points [mm]; counter-clockwise seen from out of the mouth, unless
            `out_of_mouth` tells the sides apart.
        out_of_mouth: (3,) any direction within 90 degrees of the path.

    Raises:
        InputError: the marks lie on a line, or nearer to one than 1 mm.

    Source:
        check-values B15: the normal of the plane is the path.
    """
    marks = np.asarray(marks, dtype=np.float64)
    if marks.shape != (3, 3) or not np.isfinite(marks).all():
        raise InputError(f"a tripod needs three points in space, got shape {marks.shape}")
    normal = np.cross(marks[1] - marks[0], marks[2] - marks[0])
    size = float(np.linalg.norm(normal))
    if size < 1.0 * max(_sides(marks).max(), 1e-9):
        raise InputError(
            "the three marks lie on a line, or within 1 mm of one",
            remedy="Set them wide apart: one in front, two behind.",
        )
    if out_of_mouth is not None and normal @ np.asarray(out_of_mouth, dtype=np.float64) < 0:
        normal = -normal
    return np.asarray(normal / size)


def path_from_lines(lines: Floats) -> Floats:
    """(3,) unit vector of the path along (N, 2, 3) base lines, each from below upwards.

    Raises:
        InputError: a line has no length, or they do not run the same way.
    """
    lines = np.asarray(lines, dtype=np.float64).reshape(-1, 2, 3)
    along = lines[:, 1] - lines[:, 0]
    size = np.linalg.norm(along, axis=1, keepdims=True)
    if not len(lines) or not (size > 1e-6).all():
        raise InputError("base lines need two ends that are apart")
    total = (along / size).sum(axis=0)
    length = float(np.linalg.norm(total))
    if length < 0.9 * len(lines):
        raise InputError("the base lines do not run the same way", remedy="Scribe them anew.")
    return np.asarray(total / length)


def tripod(arch: DentalArch, path: PathOfPlacement, shadow: Shadow) -> Tripod | None:
    """The widest three marks beside what the framework covers; None where none are wide enough.

    The marks lie where a surveyor's point, lowered along the path, can touch: on tissue outside
    of connector and bases, or else on crowns. The base lines lie where an upright along the
    path touches the outer side of the model: at the patient's right, in front, at the left.

    Args:
        arch: the arch.
        path: of placement.
        shadow: of the arch's closed solid along that path.

    Source:
        check-values B14.
    """
    surface = arch.scan.surface
    tissue = np.zeros(len(surface.vertices), np.bool_)
    tissue[np.unique(surface.faces[arch.tissue])] = True
    free = tissue.copy()
    free[covered_vertices(arch)] = False
    crowns = surface.vertices[~tissue]
    if len(crowns):
        near = KDTree(crowns).query(surface.vertices, distance_upper_bound=FROM_CROWN_MM)[0]
        free &= near > FROM_CROWN_MM
    away = ~near_border(arch, FROM_BORDER_MM)
    for on_tissue, where in ((True, free & away), (False, ~tissue & away)):
        marks = _widest(arch, where, path.direction, shadow)
        if marks is None:
            continue
        top = float((surface.vertices @ path.direction).max())
        return Tripod(
            marks=frozen_floats(marks, (3, 3), "marks"),
            below_top_mm=top - float(marks[0] @ path.direction),
            spread_mm=_spread(marks),
            on_tissue=on_tissue,
            base_lines=frozen_floats(_base_lines(arch, path.direction), (3, 2, 3), "base lines"),
        )
    return None


def _widest(arch: DentalArch, where: Bools, direction: Floats, shadow: Shadow) -> Floats | None:
    surface = arch.scan.surface
    edges = _edges_within(surface.faces, where)
    if not len(edges):
        return None
    height = surface.vertices @ direction
    low, high = np.quantile(height[where], [0.05, 0.95])
    best, spread = None, LEAST_SPREAD_MM
    for level in np.linspace(low, high, LEVELS):
        points = _crossings(surface.vertices, height, edges, level)
        points = points[~shadow.hides(points + 0.01 * direction)] if len(points) else points
        marks = _best_three(_thinned(points, direction), direction)
        if marks is not None and _spread(marks) > spread + 1e-6:
            best, spread = marks, _spread(marks)
    return None if best is None else _from_the_right(best, arch, direction)


def _edges_within(faces: Ints, where: Bools) -> Ints:
    pairs = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    pairs = np.sort(pairs[where[pairs].all(axis=1)], axis=1)
    return np.asarray(np.unique(pairs, axis=0), np.int32)


def _crossings(vertices: Floats, height: Floats, edges: Ints, level: float) -> Floats:
    a, b = height[edges[:, 0]] - level, height[edges[:, 1]] - level
    cut = a * b < 0
    t = (a[cut] / (a[cut] - b[cut]))[:, None]
    one, two = vertices[edges[cut, 0]], vertices[edges[cut, 1]]
    return np.asarray(one + t * (two - one))


def _thinned(points: Floats, direction: Floats) -> Floats:
    """The outermost points in even sectors round the middle."""
    if len(points) <= MOST_AT_A_LEVEL:
        return points
    flat = points - points.mean(axis=0)
    across = np.cross(direction, [1.0, 0.0, 0.0])
    across /= np.linalg.norm(across)
    x, y = flat @ np.cross(across, direction), flat @ across
    sector = ((np.arctan2(y, x) + np.pi) / (2 * np.pi) * MOST_AT_A_LEVEL).astype(int)
    order = np.lexsort((-np.hypot(x, y), sector))
    first = np.unique(sector[order], return_index=True)[1]
    return np.asarray(points[order[first]])


def _best_three(points: Floats, direction: Floats) -> Floats | None:
    if len(points) < 3:
        return None
    rows = np.array(list(combinations(range(len(points)), 3)))
    corners = points[rows]
    area = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]) @ direction
    sides = np.linalg.norm(corners - np.roll(corners, -1, axis=1), axis=2).max(axis=1)
    n = int(np.argmax(np.round(np.abs(area) / sides, 6)))
    three = corners[n]
    return np.asarray(three if area[n] > 0 else three[::-1])


def _from_the_right(marks: Floats, arch: DentalArch, direction: Floats) -> Floats:
    """The same turn, beginning with the mark that is furthest to the patient's right."""
    first = int(np.argmax(marks @ patient_right(arch.scan.jaw)))
    return np.roll(marks, -first, axis=0)


def _sides(marks: Floats) -> Floats:
    return np.asarray(np.linalg.norm(marks - np.roll(marks, -1, axis=0), axis=1))


def _spread(marks: Floats) -> float:
    double_area = np.linalg.norm(np.cross(marks[1] - marks[0], marks[2] - marks[0]))
    return float(double_area / max(float(_sides(marks).max()), 1e-9))


def _base_lines(arch: DentalArch, direction: Floats) -> Floats:
    """(3, 2, 3) where uprights touch the outer side of the model, right, front and left."""
    vertices = arch.scan.surface.vertices
    right, front = patient_right(arch.scan.jaw), np.array([0.0, 1.0, 0.0])
    lines = []
    for side in (right, front, -right):
        out = side - (side @ direction) * direction
        upper = vertices[int(np.argmax(vertices @ out))]
        lines.append((upper - LINE_MM * direction, upper))
    return np.array(lines)
