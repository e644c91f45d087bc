"""Bead lines of maxillary connectors: where the model is scribed along their borders."""

from __future__ import annotations

import numpy as np
from shapely import points as plan_points
from shapely import union_all
from shapely.geometry import LineString, Polygon

from claspwright.base import Bools, Floats
from claspwright.framework.connectors import Connector
from claspwright.framework.ground import Ground
from claspwright.framework.lattice import BasePlan
from claspwright.framework.palate import tooth_zone
from claspwright.geometry import Field, resampled
from claspwright.limits import limit
from claspwright.survey import Course

WITHIN_MM = 0.3  # of the border that stays beside the bead, own choice
STEP_MM = 0.5
LEAST_MM = 4.0  # shorter beads are left out
BESIDE_BASE_MM = 3.0  # a bead ends this far from the border of a base
STEEPEST = 0.5  # least part of the normal along the path: a bead seals on the palate, not on walls


def bead_lines(
    ground: Ground, connector: Connector, bases: list[BasePlan], relief: Field
) -> tuple[Course, ...]:
    """The bead along the border of a palatal connector, arch frame; none in the mandible.

    It keeps off the bases, off relieved tissue, off steep walls and off the gingival margins.

    Source:
        check-values B28.
    """
    if ground.arch.scan.jaw != "maxilla" or connector.outline is None:
        return ()
    width, depth = limit("strap.bead_width").value, limit("strap.bead_depth").value
    inner = connector.outline.buffer(-(0.5 * width + WITHIN_MM))
    shapes = [inner] if isinstance(inner, Polygon) else list(inner.geoms)
    found: list[Course] = []
    for shape in shapes:
        for ring in (shape.exterior, *shape.interiors):
            plan = resampled(np.asarray(ring.coords, np.float64), STEP_MM)
            line = np.column_stack([plan, ground.blocked.height(plan)])
            for part in _runs(_allowed(ground, line, bases, relief)):
                piece = ground.blocked.settle(line[part])
                if STEP_MM * (len(piece) - 1) >= LEAST_MM:
                    name = f"connector.{len(found) + 1}"
                    found.append(Course(name, ground.back(piece), width, depth))
    return tuple(found)


def _allowed(ground: Ground, line: Floats, bases: list[BasePlan], relief: Field) -> Bools:
    known = np.isfinite(line[:, 2])
    at = np.where(known[:, None], line, 0.0)
    free = relief.at(ground.back(at)) < 0.02
    level = ground.blocked.normal(at, 0.6)[:, 2] > STEEPEST
    keep_off = [tooth_zone(ground, limit("strap.margin").value - 0.5)]
    keep_off += [LineString(base.crest[:, :2]).buffer(BESIDE_BASE_MM) for base in bases]
    inside = union_all(keep_off).contains(plan_points(at[:, :2]))
    return np.asarray(known & free & level & ~inside)


def _runs(flags: Bools) -> list[slice]:
    """Runs of a closed ring of points; the ring is opened where it begins."""
    change = np.flatnonzero(np.diff(np.concatenate([[False], flags, [False]]).astype(np.int8)))
    return [slice(int(a), int(b)) for a, b in change.reshape(-1, 2)]
