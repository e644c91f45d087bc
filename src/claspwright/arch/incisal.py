"""Places for rests that need no spoon: the notch of an incisal edge, a whole occlusal surface."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from shapely.geometry import MultiPoint

from claspwright.arch.crowntop import CrownTop
from claspwright.base import Floats

STEP = 0.1  # mm
WIDE_MM = 2.5  # along the edge (check-values C09, C10: about 2.5 mm)
FROM_ANGLE_MM = 2.0  # middle of the notch from the incisal angle (from memory: 1.5 to 2 mm)
ANGLE_DROP_MM = 2.0  # the edge ends where it has fallen by as much
LEAST_NOTCH_MM = 0.5  # what is shallower is no notch
TABLE_MM = 2.2  # below the highest cusp down to which the occlusal surface is counted


@dataclass(frozen=True, slots=True, eq=False)
class TopPlace:
    """What was found on top of a crown; arch frame."""

    point: Floats  # (3,) mm
    prepared: bool
    depth_mm: float
    width_mm: float
    outline: Floats  # (M, 3) mm


def incisal_notch(top: CrownTop) -> TopPlace:
    """The notch in the incisal edge on the side that `out` points to, or the place for one.

    A notch is a dip of the edge with both of its shoulders; its depth is that under the lower one.
    """
    u = np.arange(-6.0, 6.0 + STEP / 2, STEP)
    v = np.arange(-4.0, 4.0 + STEP / 2, STEP)
    z = top.z(u[:, None], v[None, :])
    filled = np.where(np.isfinite(z), z, -np.inf)
    edge = filled.max(axis=1)
    across = v[filled.argmax(axis=1)]
    last = int(np.flatnonzero(edge > edge.max() - ANGLE_DROP_MM)[-1])
    reach = np.flatnonzero((u < u[last] - 0.4) & (u > u[last] - 4.0) & np.isfinite(edge))
    inner = np.maximum.accumulate(edge[: last + 1])
    outer = np.maximum.accumulate(edge[last::-1])[::-1]
    dip = np.minimum(inner, outer) - np.where(np.isfinite(edge), edge, 0.0)[: last + 1]
    deepest = int(reach[np.argmax(dip[reach])]) if reach.size else last
    prepared = bool(reach.size) and dip[deepest] >= LEAST_NOTCH_MM
    at = deepest if prepared else int(np.argmin(np.abs(u - (u[last] - FROM_ANGLE_MM))))
    wide = float(STEP * (dip[reach] > 0.5 * dip[deepest]).sum()) if prepared else WIDE_MM
    turn = np.linspace(0.0, 2 * np.pi, 24, endpoint=False)
    ring = top.points(u[at] + WIDE_MM / 2 * np.cos(turn), across[at] + 0.8 * np.sin(turn))
    point = top.points(u[at : at + 1], across[at : at + 1])[0]
    depth = float(dip[deepest]) if prepared else 0.0
    return TopPlace(point, prepared, depth, wide, ring[np.isfinite(ring).all(axis=1)])


def occlusal_table(top: CrownTop) -> TopPlace:
    """The occlusal surface of a crown: all of it that lies near its cusps' height."""
    u = np.arange(-7.0, 7.0 + STEP / 2, STEP)
    z = top.z(u[:, None], u[None, :])
    high = np.isfinite(z) & (z > np.nanmax(z) - TABLE_MM)
    at_u, at_v = np.nonzero(high)
    spots = np.column_stack([u[at_u], u[at_v]])
    middle = spots.mean(axis=0)
    turn = np.linspace(0.0, 2 * np.pi, 48, endpoint=False)
    aim = np.column_stack([np.cos(turn), np.sin(turn)])
    away = spots - middle
    reach = []
    for way in aim:
        along = away @ way
        beside = np.abs(away @ np.array([-way[1], way[0]])) < 0.25
        reach.append(float(along[beside & (along > 0)].max(initial=0.3)))
    ring = middle + np.array(reach)[:, None] * aim
    ring = np.array(MultiPoint(ring).convex_hull.segmentize(0.4).exterior.coords)[:-1]
    outline = top.points(ring[:, 0], ring[:, 1])
    point = top.points(middle[:1], middle[1:])[0]
    width = float(np.ptp(spots[:, 1]))
    return TopPlace(point, True, 0.0, width, outline[np.isfinite(outline).all(axis=1)])
