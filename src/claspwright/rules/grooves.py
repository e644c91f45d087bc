"""Rule on the grooves of a framework: walls that face each other must not meet as built."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Bools, Finding, Floats
from claspwright.geometry import DistanceTree, closest_points, face_normals, near_groups
from claspwright.limits import limit
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged
from claspwright.rules.thickness import Gaps, facing_walls

NARROW_AREA = 0.3  # mm2 of walls beside each other that may stand nearer before it counts
BESIDE = 1.0  # mm between places of one groove
DEEP = 0.1  # mm: a notch shallower than this is polished out
WAYS = 8  # directions in which a groove goes on, half of them at least
WIDER = 1.6  # times as wide it may be there


def groove_width(context: Finished) -> tuple[Finding, ...]:
    """Gap between walls that face each other, less what is built on both for finishing."""
    rule = "groove.width"
    growth = context.growth_mm
    if growth is None:
        growth = np.zeros(len(context.framework.solid.faces))
    least = limit(rule).look_below or 0.0
    walls = facing_walls(context.solid_tree, least + 2.0 * float(growth.max(initial=0.0)))
    gap = walls.width - growth[walls.faces].sum(axis=1)
    few = int(NARROW_AREA / walls.area)  # so many samples may stand nearer
    near = np.flatnonzero(gap < least)
    deep = np.zeros(len(gap), bool)
    deep[near] = _goes_on(context.solid_tree, walls, near)
    narrow = _grooves(walls.points, deep, few)
    order = narrow[np.argsort(gap[narrow], kind="stable")]
    remedy = "Widen the groove or fill it: powder stays in it and nothing polishes it."
    if not len(order):
        text = f"No walls face each other across less than {least:.2f} mm as built"
        return (judged(rule, rule, least, text, remedy=remedy, component="framework"),)
    worst = int(order[few])
    on = 1000.0 * float(growth[walls.faces[worst]].sum())
    text = f"Walls that face each other keep {gap[worst]:.2f} mm as built"
    if gap[worst] <= 0.0:
        text = f"Walls that face each other meet as built, by {-gap[worst]:.2f} mm"
    text += f" ({on:.0f} um are built on for finishing)"
    return (
        judged(rule, rule, float(gap[worst]), text, remedy=remedy, at=walls.points[worst],
               component="framework"),
    )  # fmt: skip


def _goes_on(tree: DistanceTree, walls: Gaps, at: NDArray[np.intp]) -> Bools:
    """Which of some samples have as narrow a gap round about: no mere notch in a crease.

    Looked for DEEP mm away from the middle of the gap, in eight directions along the wall. A
    notch shallower than that goes on along its crease alone.
    """
    if not len(at):
        return np.zeros(0, bool)
    mesh = tree.mesh
    normal = face_normals(mesh)[walls.faces[at, 0]]
    width = walls.width[at, None]
    middle = walls.points[at] + 0.5 * width * normal
    first = np.cross(normal, np.eye(3)[np.abs(normal).argmin(axis=1)])
    first /= np.linalg.norm(first, axis=1, keepdims=True)
    second = np.cross(normal, first)
    count = np.zeros(len(at), int)
    for turn in np.arange(WAYS) * 2.0 * np.pi / WAYS:
        spots = middle + DEEP * (np.cos(turn) * first + np.sin(turn) * second)
        off = closest_points(tree, spots).distance
        count += (off > 0.0) & (off < WIDER * 0.5 * width[:, 0])
    return np.asarray(count >= WAYS // 2)


def _grooves(points: Floats, narrow: Bools, few: int) -> NDArray[np.intp]:
    """Which samples belong to a groove: more than a few narrow ones beside each other.

    A single one is a step of the surface in a sharp inner corner.
    """
    at = np.flatnonzero(narrow)
    if len(at) <= few:
        return at[:0]
    groove = near_groups(points[at], BESIDE)
    return at[np.bincount(groove)[groove] > few]
