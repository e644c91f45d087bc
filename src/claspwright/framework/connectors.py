"""The major connector of a design: where it runs, and how other components reach it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from shapely import contains_xy
from shapely.geometry import Point, Polygon
from shapely.ops import nearest_points

from claspwright.base import Floats
from claspwright.framework.bar import BarLine, bar_line, lay_bar
from claspwright.framework.design import Design, RestForm, Retainer
from claspwright.framework.ground import Ground, Piece
from claspwright.framework.lattice import BasePlan
from claspwright.framework.minor import route_to
from claspwright.framework.palate import lay_strap, strap_outline
from claspwright.framework.stations import SPACING, Stations, lay_stations
from claspwright.geometry import arc_lengths, point_at


@dataclass(frozen=True, slots=True, eq=False)
class Connector:
    """The major connector as laid out: a bar's line or a strap's outline; grid frame, mm."""

    stations: Stations
    bar: BarLine | None = None
    outline: Polygon | None = None

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
    stations = lay_stations(ground)
    anchors = [
        rest_start(ground, r, rest) for r in design.retainers for rest in beamed_rests(r)
    ] or [ground.here(ground.tooth(r.tooth).centre) for r in design.retainers]
    if design.connector.form == "lingual bar":
        ends = _bar_ends(ground, stations, anchors, bases)
        return Connector(stations, bar_line(ground.blocked, stations, design.connector, ends))
    edges = [border for border in (palatal_border(ground, p) for p in bases) if len(border) > 1]
    return Connector(
        stations, outline=strap_outline(ground, stations, design.connector, anchors, edges)
    )


def _bar_ends(
    ground: Ground, stations: Stations, anchors: list[Floats], bases: list[BasePlan]
) -> tuple[int, int]:
    reached = [stations.nearest(a) for a in anchors]
    for plan in bases:
        length = arc_lengths(plan.crest)[-1]
        at = [0.0, length]
        if plan.span.ends[0] is None:
            at = [float(plan.bars[-2]) - 0.8, length]
        elif plan.span.ends[1] is None:
            at = [0.0, float(plan.bars[1]) + 0.8]
        reached += [stations.nearest(point_at(plan.crest, s)) for s in at]
    pad = int(1.0 / SPACING)
    return max(min(reached) - pad, 0), min(max(reached) + pad, len(stations.plan) - 1)


def palatal_border(ground: Ground, plan: BasePlan) -> Floats:
    """(N, 3) line on the palate side of a base, where metal and acrylic will meet."""
    points = []
    for n in range(len(plan.crest)):
        profile = ground.blocked.profile(plan.crest[n], -plan.buccal[n], 14.0)
        if len(profile) > 3:
            points.append(point_at(profile, float(plan.lingual_rail[n]) + 2.2))
    return np.array(points)


def lay_connector(ground: Ground, connector: Connector, design: Design) -> Piece:
    """Build the major connector."""
    if connector.bar is not None:
        return lay_bar(ground, connector.bar, design.connector)
    assert connector.outline is not None
    return lay_strap(ground, connector.outline, design.connector)


def beamed_rests(retainer: Retainer) -> tuple[RestForm, ...]:
    """Rests that need a minor connector of their own: those that no proximal plate carries."""
    return tuple(r for r in retainer.rests if r.split()[0] not in retainer.proximal_plates)


def rest_start(ground: Ground, retainer: Retainer, rest: RestForm) -> Floats:
    """(3,) where a rest's minor connector begins: in the embrasure, or at a cingulum's seat."""
    tooth = ground.tooth(retainer.tooth)
    seat = ground.here(ground.seats[retainer.tooth, rest].point)
    if rest == "cingulum":
        return seat
    aside = ground.aim(tooth.mesial) * (1.0 if rest.startswith("mesial") else -1.0)
    edge = ground.here(tooth.centre) + aside * tooth.mesiodistal_mm / 2
    return np.asarray(seat + aside * max(float((edge - seat) @ aside) - 0.3, 0.0))
