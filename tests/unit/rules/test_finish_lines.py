"""Walls of finish lines and the edge of the relief, on a slab with a step."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from claspwright.base import Finding
from claspwright.framework import Component
from claspwright.geometry import IDENTITY, Field, Grid, box, merged
from claspwright.rules import Finished
from claspwright.rules.finish_lines import finish_staggers, finish_walls

Make = Callable[..., Finished]
AWAY = 5.0  # mm from the crest, on the tongue's side, where the finish line runs
LONG = 3.0  # mm to both sides of its middle


def stepped(context: Finished, wall: float, edge: float) -> Finished:
    """One base with a finish line along y whose wall is `wall` high; relief ends `edge` from it."""
    base, span = context.based_spans[0]
    middle = span.crest.mean(axis=0)
    inward = -np.sign(middle[0])
    at = middle + [inward * AWAY, 0.0, 0.0]
    flat = box(at - [20.0, 20.0, 5.0], at + [20.0, 20.0, 0.0])
    arch = replace(context.arch, scan=replace(context.arch.scan, solid=flat))
    line = at + np.linspace(-LONG, LONG, 13)[:, None] * [0.0, 1.0, 0.0]
    name = "base." + "-".join(map(str, base.teeth)) + ".finish"
    part = Component(name, "finish line", line, np.array([1.0]), np.array([1.0]))

    def slab(from_x: float, to_x: float, top: float) -> tuple[np.ndarray, np.ndarray]:
        xs = sorted((at[0] + inward * from_x, at[0] + inward * to_x))
        low, high = at - [0.0, 2 * LONG, 0.2], at + [0.0, 2 * LONG, top]
        low[0], high[0] = xs
        return low, high

    solid = merged(box(*slab(-4.0, 0.0, 1.0)), box(*slab(0.0, 4.0, 1.0 + wall)))
    grid = Grid(IDENTITY, at - 8.0, 0.1, (161, 161, 161))
    x = grid.origin[0] + 0.1 * np.arange(161)
    wax = np.where((x - at[0]) * inward < edge, 0.8, 0.0)
    values = np.broadcast_to(-wax[:, None, None], grid.shape).astype(np.float32)
    blocked = replace(context.framework.blocked_out, field=Field(grid, values))
    framework = replace(
        context.framework, solid=solid, components=(part,), blocked_out=blocked,
        design=replace(context.design, bases=(base,)),
    )  # fmt: skip
    return replace(context, arch=arch, framework=framework)


@pytest.mark.parametrize(("wall", "severity"), [(1.0, "note"), (0.6, "note"), (0.3, "look")])
def test_a_wall_is_as_high_as_the_step(finished: Make, wall: float, severity: str) -> None:
    (found,) = finish_walls(stepped(finished(), wall, edge=-1.0))
    assert found.rule == "base.finish_wall" and found.severity == severity
    assert found.measured == pytest.approx(wall, abs=0.01)


@pytest.mark.parametrize(
    ("edge", "apart", "severity"), [(-1.0, 1.0, "note"), (0.8, 0.8, "note"), (-0.2, 0.2, "look")]
)
def test_the_edge_of_the_relief_lies_apart_from_the_wall(
    finished: Make, edge: float, apart: float, severity: str
) -> None:
    (found,) = finish_staggers(stepped(finished(), 1.0, edge))
    assert found.rule == "base.finish_stagger" and found.severity == severity
    assert found.measured == pytest.approx(apart, abs=0.11)  # the wall is found to 0.05 mm


def test_where_there_is_no_metal_or_no_wax_nothing_is_read(finished: Make) -> None:
    context = stepped(finished(), 1.0, -1.0)
    bare = replace(context.framework.blocked_out, field=context.survey.block_field)
    far = box(np.array([90.0, 90.0, 90.0]), np.array([95.0, 95.0, 95.0]))
    nothing = replace(context.framework, solid=far, blocked_out=bare)
    found: list[Finding] = []
    for rule in (finish_walls, finish_staggers):
        found += rule(replace(context, framework=nothing))
    assert found == []
