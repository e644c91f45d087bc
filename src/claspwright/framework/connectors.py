"""The major connector of a design: where it runs, and how other components reach it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from shapely import contains_xy
from shapely.geometry import Point, Polygon
from shapely.ops import nearest_points

from claspwright.arch import ARCH_ORDER
from claspwright.base import Floats
from claspwright.framework.apron import lay_apron, tooth_rows
from claspwright.framework.bar import BarLine, bar_line, crown_bar_line, lay_bar, turned
from claspwright.framework.bar_ends import end_turn
from claspwright.framework.design import Design, jaw_of_form
from claspwright.framework.ground import Ground, Piece
from claspwright.framework.lattice import BasePlan
from claspwright.framework.minor import route_to
from claspwright.framework.palate import lay_strap, strap_outline
from claspwright.framework.routes import beamed_rests, is_labial, rest_start, splint_feet
from claspwright.framework.stations import SPACING, Stations, lay_stations, lingual_margin
from claspwright.geometry import point_at

PAD = int(1.0 / SPACING)  # stations that a bar is laid on past the last thing it joins


@dataclass(frozen=True, slots=True, eq=False)
class Connector:
    """The major connector as laid out: a bar's line or a strap's outline; grid frame, mm."""

    stations: Stations
    bar: BarLine | None = None
    outline: Polygon | None = None
    aprons: tuple[tuple[int, ...], ...] = ()  # rows of teeth that a lingual plate covers

    def cut(self, profile: Floats) -> Floats:
        """The part of a surface profile that runs up to the connector and into it."""
        if self.bar is not None:
            return route_to(profile, self.bar.line)
        assert self.outline is not None
        inner = self.outline.buffer(-1.2)
        hit = np.flatnonzero(contains_xy(inner, profile[:, 0], profile[:, 1]))
        return profile[: int(hit[0]) + 1] if hit.size else profile[: max(len(profile) // 2, 2)]

    def direction_from(self, point: Floats) -> Floats:
        """(3,) horizontal direction from a point to the nearest part of the connector."""
        if self.bar is not None:
            away = self.bar.line - point
            target = self.bar.line[int(np.argmin(np.hypot(away[:, 0], away[:, 1])))]
        else:
            assert self.outline is not None
            near = nearest_points(self.outline.buffer(-2.0), Point(point[:2]))[0]
            target = np.array([near.x, near.y, point[2]])
        return np.asarray((target - point) * np.array([1.0, 1.0, 0.0]))

    def reached_by(self, profile: Floats) -> bool:
        """Whether a surface profile passes the connector at all."""
        if self.bar is not None:
            gap = np.linalg.norm(profile[:, None] - self.bar.line[None], axis=2).min()
            return bool(gap < 2.5)
        assert self.outline is not None
        return bool(contains_xy(self.outline.buffer(-0.8), profile[:, 0], profile[:, 1]).any())


def plan_connector(ground: Ground, design: Design, bases: list[BasePlan]) -> Connector:
    """Lay out the major connector between everything that it must join."""
    stations = lay_stations(ground, labial=is_labial(design))
    anchors = [
        rest_start(ground, r, rest) for r in design.retainers for rest in beamed_rests(r)
    ] or [ground.here(ground.tooth(r.tooth).centre) for r in design.retainers]
    anchors += [foot for _, foot in splint_feet(ground, design)]
    if jaw_of_form(design.connector.form) == "mandible":
        return _with_bar(ground, stations, design, anchors, bases)
    edges = [border for border in (palatal_border(ground, p) for p in bases) if len(border) > 1]
    joined = {retainer.tooth for retainer in design.retainers}
    outline = strap_outline(ground, stations, design.connector, anchors, edges, joined)
    return Connector(stations, outline=outline)


def _with_bar(
    ground: Ground,
    stations: Stations,
    design: Design,
    anchors: list[Floats],
    bases: list[BasePlan],
) -> Connector:
    """A bar from the first to the last of what it joins, its ends turned into them."""
    reached = [stations.nearest(a) for a in anchors]
    for plan in bases:
        reached += [
            stations.nearest(plan.crest[0 if n == 0 else -1])
            for n in (0, 1)
            if plan.span.ends[n] is not None
        ]
    ends = max(min(reached) - PAD, 0), min(max(reached) + PAD, len(stations.plan) - 1)
    wanted = design.connector
    if wanted.form == "cingulum bar":
        bar = crown_bar_line(ground, stations, _between(ground, stations, ends))
    else:
        below = wanted.margin_distance_mm + wanted.height_mm / 2
        margins = [ground.here(t.margin) for t in ground.arch.teeth.values()]
        bar = bar_line(ground.blocked, stations, wanted, ends, margins, below)
    plain = Connector(stations, bar)
    for last in (False, True):
        turn = end_turn(ground, stations, design, bases, plain.cut, bar.line, last)
        if turn is not None:
            bar = turned(ground.blocked, bar, turn, last)
    groups: tuple[tuple[int, ...], ...] = ()
    if wanted.form == "lingual plate":
        groups = tuple(tooth_rows(ground.arch, _between(ground, stations, ends)))
    return Connector(stations, bar, aprons=groups)


def _between(ground: Ground, stations: Stations, ends: tuple[int, int]) -> tuple[int, ...]:
    """The teeth that stand between two stations, in the order of the arch."""
    return tuple(
        code
        for code in ARCH_ORDER[ground.arch.scan.jaw]
        if code in ground.arch.teeth
        and ends[0] <= stations.nearest(lingual_margin(ground, ground.tooth(code))) <= ends[1]
    )


def palatal_border(ground: Ground, plan: BasePlan, past_mm: float = 0.0) -> Floats:
    """(N, 3) line on the palate side of a base, where its relief ends, or some way past that."""
    points = []
    for n in range(len(plan.crest)):
        profile = ground.blocked.profile(plan.crest[n], -plan.buccal[n], 14.0)
        if len(profile) > 3:
            points.append(point_at(profile, float(plan.lingual_rail[n]) + 2.2 + past_mm))
    return np.array(points)


def lay_connector(ground: Ground, connector: Connector, design: Design) -> list[Piece]:
    """Build the major connector."""
    if connector.bar is not None:
        bar = lay_bar(ground, connector.bar, design.connector)
        middle = ground.here(bar.component.line)
        aprons = [
            lay_apron(
                ground,
                connector.stations,
                teeth,
                middle,
                f"major_connector.apron.{teeth[0]}-{teeth[-1]}",
            )
            for teeth in connector.aprons
        ]
        return [bar, *aprons]
    assert connector.outline is not None
    return [lay_strap(ground, connector.outline, design.connector)]
