"""Rule on the grooves of a framework: walls that face each other must not meet as built."""

from __future__ import annotations

import numpy as np

from claspwright.base import Finding
from claspwright.limits import limit
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged
from claspwright.rules.thickness import facing_walls

NARROW_AREA = 0.15  # mm2 of walls that may stand nearer before it counts


def groove_width(context: Finished) -> tuple[Finding, ...]:
    """Gap between walls that face each other, less what is built on both for finishing."""
    rule = "groove.width"
    growth = context.growth_mm
    if growth is None:
        growth = np.zeros(len(context.framework.solid.faces))
    least = limit(rule).look_below or 0.0
    walls = facing_walls(context.solid_tree, least + 2.0 * float(growth.max(initial=0.0)))
    gap = walls.width - growth[walls.faces].sum(axis=1)
    order = np.argsort(gap, kind="stable")
    at = int(NARROW_AREA / walls.area)  # so many samples may stand nearer
    remedy = "Widen the groove or fill it: powder stays in it and nothing polishes it."
    if at >= len(order) or gap[order[at]] >= least:
        text = f"No walls face each other across less than {least:.2f} mm as built"
        return (judged(rule, rule, least, text, remedy=remedy, component="framework"),)
    worst = int(order[at])
    on = 1000.0 * float(growth[walls.faces[worst]].sum())
    text = f"Walls that face each other keep {gap[worst]:.2f} mm as built"
    if gap[worst] <= 0.0:
        text = f"Walls that face each other meet as built, by {-gap[worst]:.2f} mm"
    text += f" ({on:.0f} um are built on for finishing)"
    return (
        judged(rule, rule, float(gap[worst]), text, remedy=remedy, at=walls.points[worst],
               component="framework"),
    )  # fmt: skip
