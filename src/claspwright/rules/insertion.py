"""The way in and out: the finished solid drawn along the path over the scan."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Bools, Finding, Floats
from claspwright.framework import Component
from claspwright.geometry import closest_points, distance_to_line, linear_values
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged

SUSPECT = 0.02  # mm of depth in the field from which a place is asked of the scan itself
ASKED = 3000  # places asked at most, the deepest ones
ARM_REACH = 0.5  # mm beyond its own section within which metal belongs to an arm


@dataclass(frozen=True, slots=True, eq=False)
class Sweep:
    """Vertices of the solid that meet the scan on the way out."""

    vertices: NDArray[np.signedinteger]  # (N,) of the framework's solid
    depth: Floats  # (N,) deepest reading inside the scan on the way [mm]


def way_out(context: Finished) -> Sweep:
    """Draw every vertex of the solid out along the path and read how deep it meets the scan.

    The survey's field names the suspects column by column; the scan itself is asked about them.
    """
    field = context.survey.scan_field
    points = context.framework.solid.vertices
    nodes = field.grid.to_nodes(points)
    reversed_up = field.values[:, :, ::-1]
    least = np.minimum.accumulate(reversed_up, axis=2)[:, :, ::-1]
    seen = linear_values(least, nodes)
    suspects = np.flatnonzero(seen < -SUSPECT)
    suspects = suspects[np.argsort(seen[suspects], kind="stable")[:ASKED]]
    if not len(suspects):
        return Sweep(suspects, np.zeros(0))
    at_rest = closest_points(context.scan_tree, points[suspects]).distance
    suspects = suspects[at_rest > -SUSPECT]  # what lies inside at rest is told by other rules
    if not len(suspects):
        return Sweep(suspects, np.zeros(0))
    columns = nodes[suspects]
    steps = np.arange(0.0, field.values.shape[2])
    deepest = np.full(len(suspects), np.inf)
    at = np.zeros(len(suspects))
    for step in steps[: int(12.0 / field.grid.spacing)]:
        value = linear_values(field.values, columns + np.array([0.0, 0.0, step]))
        better = value < deepest
        deepest[better], at[better] = value[better], step
    places = points[suspects] + (at * field.grid.spacing)[:, None] * context.path
    depth = -closest_points(context.scan_tree, places).distance
    return Sweep(suspects, np.maximum(depth, 0.0))


def of_an_arm(arms: tuple[Component, ...], points: Floats) -> Bools:
    """Which points belong to a flexible arm: they may spring over the height of contour."""
    mine = np.zeros(len(points), bool)
    for arm in arms:
        gap, _ = distance_to_line(arm.line, points)
        mine |= gap < max(float(np.max(arm.width_mm)), float(np.max(arm.thickness_mm))) + ARM_REACH
    return mine


def insertion(context: Finished) -> tuple[Finding, ...]:
    """Only retentive arms meet the scan on the way in and out."""
    swept = way_out(context)
    points = context.framework.solid.vertices[swept.vertices]
    arms = context.parts("retentive arm", "approach arm")
    rigid = ~of_an_arm(arms, points)
    depth = np.where(rigid, swept.depth, 0.0)
    worst = int(np.argmax(depth)) if len(depth) else -1
    deepest = float(depth[worst]) if len(depth) else 0.0
    spring = float(swept.depth[~rigid].max()) if (~rigid).any() else 0.0
    text = (
        f"Drawn along the path, rigid metal meets the scan by {deepest:.2f} mm at most; "
        f"retentive arms spring over {spring:.2f} mm"
    )
    remedy = "It would not seat there: block the place out, or move the part."
    return (
        judged("insertion.sweep", "insertion.collision", deepest, text, remedy=remedy,
               at=points[worst] if deepest > 0 else None, component=_owner(context, points, worst)),
    )  # fmt: skip


def _owner(context: Finished, points: Floats, worst: int) -> str:
    parts = context.framework.components
    if worst < 0 or not parts:
        return "framework"
    at = points[worst]
    return min(parts, key=lambda c: float(np.linalg.norm(c.line - at, axis=1).min())).id
