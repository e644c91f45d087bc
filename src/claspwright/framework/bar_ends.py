"""What each end of a bar runs into: a minor connector, or the rail of a base that ends free."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from claspwright.base import Floats
from claspwright.framework.bar import Turn
from claspwright.framework.design import Design
from claspwright.framework.ground import Ground
from claspwright.framework.lattice import BasePlan, rail
from claspwright.framework.routes import (
    beamed_rests,
    connector_side,
    inward,
    is_labial,
    rest_profile,
    rest_start,
    splint_feet,
    splint_way,
)
from claspwright.framework.stations import Stations
from claspwright.geometry import arc_lengths, point_at
from claspwright.limits import limit

RISE = 4.0  # mm of a minor connector along which a bar turns up into it
RUN_OUT = 6.0  # mm of a rail along which a bar runs out

Cut = Callable[[Floats], Floats]  # a surface profile up to where it meets the bar


def end_turn(
    ground: Ground,
    stations: Stations,
    design: Design,
    bases: list[BasePlan],
    cut: Cut,
    bar: Floats,
    last: bool,
) -> Turn | None:
    """The turn of one end of a bar into the farthest thing that it joins.

    Args:
        ground: surfaces.
        stations: along the arch.
        design: retainers and sizes.
        bases: as planned.
        cut: ends a profile where it meets the bar.
        bar: (N, 3) the bar's middle.
        last: True for the patient's left end.
    """
    height, thickness = design.connector.height_mm, design.connector.thickness_mm
    found: list[tuple[int, Turn]] = []
    for retainer in design.retainers:
        for rest in beamed_rests(retainer):
            start = rest_start(ground, retainer, rest)
            towards = connector_side(ground, design, retainer.tooth)
            route = cut(rest_profile(ground, retainer, rest, towards))
            shares = (
                limit("minor.width").value / height,
                limit("minor.thickness").value / thickness,
            )
            found += _into_route(stations.nearest(start), route, bar, shares)
    for tooth, foot in splint_feet(ground, design):
        route = cut(splint_way(ground, design, tooth, foot))
        found += _into_route(stations.nearest(foot), route, bar, (2.6 / height, 1.5 / thickness))
    for plan in bases:
        for n in (0, 1):
            if plan.span.ends[n] is None:
                continue
            crest = plan.crest if n == 0 else plan.crest[::-1]
            at = stations.nearest(crest[0])
            if None in plan.span.ends:
                side = "buccal" if is_labial(design) else "lingual"
                found.append((at, _into_rail(ground, plan, n, bar, height, thickness, side)))
            else:
                length = float(arc_lengths(plan.crest)[-1])
                route = cut(inward(ground, plan, n * length, labial=is_labial(design)))
                found += _into_route(at, route, bar, (2.6 / height, 1.5 / thickness))
    if not found:
        return None
    pick = max if last else min
    return pick(found, key=lambda one: one[0])[1]


def _into_route(
    at: int, route: Floats, bar: Floats, shares: tuple[float, float]
) -> list[tuple[int, Turn]]:
    if len(route) < 6:
        return []
    along = arc_lengths(route)
    rise = min(RISE, 0.7 * float(along[-1]))
    point = point_at(route, along[-1] - rise)
    before = point_at(route, max(along[-1] - rise - 1.0, 0.0))
    towards = before - point
    towards = towards / max(float(np.linalg.norm(towards)), 1e-9)
    meets = route[-1]
    gap = np.linalg.norm(bar - meets, axis=1)
    near = int(gap.argmin())
    along_bar = arc_lengths(bar)
    inner = 1.0 if near < len(bar) / 2 else -1.0
    leaves = point_at(bar, float(along_bar[near]) + inner * rise)
    within = 0.6  # of the minor connector: it swallows the end of the bar
    turn = Turn(point, towards, leaves, min(within * shares[0], 1.0), min(shares[1], 1.0))
    return [(at, turn)]


def _into_rail(
    ground: Ground,
    plan: BasePlan,
    abutment: int,
    bar: Floats,
    height: float,
    thickness: float,
    side: str,
) -> Turn:
    """Past the finish line the bar runs out along the rail on its side."""
    line = rail(ground, plan, side)
    line = line if abutment == 0 else line[::-1]
    along = arc_lengths(line)
    at = min(RUN_OUT, 0.6 * float(along[-1]))
    point = point_at(line, at)
    towards = point_at(line, min(at + 1.0, float(along[-1]))) - point
    towards = towards / max(float(np.linalg.norm(towards)), 1e-9)
    near = bar[int(np.linalg.norm(bar - line[0], axis=1).argmin())]
    return Turn(
        point,
        towards,
        near,
        min(limit("lattice.strut_width").value / height, 1.0),
        min(plan.base.thickness_mm / thickness, 1.0),
    )
