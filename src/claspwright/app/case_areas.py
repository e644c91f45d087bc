"""The areas of a case's framework that an inspection asks for: rests, and tips that spring."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np
from shapely import contains_xy
from shapely.geometry import MultiPoint

from claspwright.app.areas_file import looked_text
from claspwright.app.to_scan import point_of
from claspwright.base import Bools, Floats
from claspwright.framework import Component
from claspwright.geometry import Rigid
from claspwright.inspection import Area, Region

RETENTIVE = 1.0 / 3.0  # the part of an arm that lies in the undercut, check-values C17
GROUPS = {
    "rest": "rests", "major connector": "major connector", "minor connector": "minor connectors",
    "proximal plate": "minor connectors", "lattice": "lattice", "finish line": "lattice",
    "tissue stop": "lattice",
}  # fmt: skip
FILL = (1.0, 0.7, 0.4, 0.1)  # of the way from the middle of a rest to its outline
MOST_POINTS = 300  # of one component
AROUND_MM = 0.6  # how far an area of an arm reaches beyond half its width


def regions_of(components: Iterable[Component], to_scan: Rigid) -> Iterator[Region]:
    """The surface round each component, under the group that it is summed up with.

    A rest is known by its outline: its region is filled, and a minor connector that runs into it
    ends there.
    """
    parts = tuple(components)
    outlines = [_points(part) for part in parts if part.kind == "rest"]
    outlines = [line for line in outlines if len(line) > 3]
    for component in parts:
        line = _points(component)
        if not len(line):
            continue
        reach = np.broadcast_to(np.asarray(component.width_mm) / 2.0, len(line))
        if component.kind == "rest":
            middle = line.mean(axis=0)
            line = np.concatenate([middle + share * (line - middle) for share in FILL])
            reach = np.tile(reach, len(FILL))
        elif component.kind == "minor connector":
            free = np.ones(len(line), bool)
            for outline in outlines:
                free &= ~_within(outline, line)
            if free.any():
                line, reach = line[free], reach[free]
        step = max(1, len(line) // MOST_POINTS)
        points = to_scan.apply(line[::step])
        yield Region(component.id, group_of(component.kind), points, reach[::step])


def _points(component: Component) -> Floats:
    return np.asarray(component.line).reshape(-1, 3)


def _within(outline: Floats, points: Floats) -> Bools:
    """(N,) points inside an outline, seen along z of the arch frame."""
    x, y = points[:, 0], points[:, 1]
    return np.asarray(contains_xy(MultiPoint(outline[:, :2]).convex_hull, x, y))


def group_of(kind: str) -> str:
    """What a kind of component is summed up under in an inspection."""
    if kind in GROUPS:
        return GROUPS[kind]
    return "arms" if kind.endswith(("arm", "clasp")) else f"{kind}s"


def areas_of(components: Iterable[Component], to_scan: Rigid) -> Iterator[Area]:
    """One area a rest; balls along the terminal third of each retentive arm."""
    for component in components:
        line = np.asarray(component.line)
        if component.kind == "rest":
            middle = line.mean(axis=0)
            reach = float(np.linalg.norm(line - middle, axis=1).max())
            yield _area(component.id, middle, max(reach, 0.8), to_scan)
        elif component.kind == "retentive arm":
            first = int(len(line) * (1.0 - RETENTIVE))
            radius = float(np.max(component.width_mm)) / 2.0 + AROUND_MM
            step = max(1, len(line[first:]) // 6)
            for n, at in enumerate(line[first:][::step]):
                yield _area(f"{component.id}.{n + 1}", at, radius, to_scan, springs=True)


def _area(name: str, at: Floats, radius: float, to_scan: Rigid, *, springs: bool = False) -> Area:
    return Area(name, point_of(to_scan.apply(at)), round(radius, 3), springs=springs)


def areas_text(
    areas: Iterable[Area], path: tuple[float, float, float], regions: Iterable[Region] = ()
) -> str:
    """The areas and regions as the TOML file that `fit` and `seat` read."""
    return looked_text(areas, tuple(regions), path)
