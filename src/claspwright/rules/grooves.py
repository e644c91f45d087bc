"""Rule on the grooves of a framework: walls that face each other must not meet as built."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Bools, Finding, Floats
from claspwright.geometry import near_groups
from claspwright.limits import limit
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged
from claspwright.rules.thickness import facing_walls

NARROW_AREA = 0.3  # mm2 of walls beside each other that may stand nearer before it counts
BESIDE = 1.0  # mm between places of one groove


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
    narrow = _grooves(walls.points, gap < least, few)
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


def _grooves(points: Floats, narrow: Bools, few: int) -> NDArray[np.intp]:
    """Which samples belong to a groove: more than a few narrow ones beside each other.

    A single one is a step of the surface in a sharp inner corner.
    """
    at = np.flatnonzero(narrow)
    if len(at) <= few:
        return at[:0]
    groove = near_groups(points[at], BESIDE)
    return at[np.bincount(groove)[groove] > few]
