"""Gingival margins: the border of each crown region as a closed, smooth line on the scan."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import gaussian_filter1d

from claspwright.base import Bools, Floats, GeometryError
from claspwright.geometry import DistanceTree, Mesh, closest_points, resampled

STEP = 0.2  # mm between the points of a margin
REACH = 0.35  # mm, standard deviation of the smoothing along the margin


def gingival_margin(mesh: Mesh, region: Bools, tree: DistanceTree) -> Floats:
    """The border of a crown region.

    Between crowns that touch it runs through the embrasure, where the two regions meet.

    Args:
        mesh: the master surface.
        region: (F,) True on the faces of the crown.
        tree: distance tree of the same surface.

    Returns:
        (M, 3) closed polyline in steps of about STEP, counter-clockwise seen from +z; the
        first point is not repeated [mm].

    Raises:
        GeometryError: the region has no closed border.
    """
    loops = region_borders(mesh, region)
    if not loops:
        raise GeometryError("a crown region has no closed border", remedy="Move the tooth's mark.")
    lengths = [float(np.linalg.norm(p - np.roll(p, 1, axis=0), axis=1).sum()) for p in loops]
    loop = loops[int(np.argmax(lengths))]
    coarse = max(lengths) / len(loop)  # a coarse scan needs more smoothing
    even = resampled(np.concatenate([loop, loop[:1]]), STEP)[:-1]
    reach = max(REACH, 0.8 * coarse)
    smooth = gaussian_filter1d(even, reach / STEP, axis=0, mode="wrap")
    on_scan = closest_points(tree, smooth).points
    final = resampled(np.concatenate([on_scan, on_scan[:1]]), STEP)[:-1]
    x, y = final[:, 0], final[:, 1]
    turning = float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)))
    return final if turning > 0 else final[::-1].copy()


def region_borders(mesh: Mesh, region: Bools) -> list[Floats]:
    """Closed borders of a set of faces as (N, 3) vertex loops, not repeated at the end [mm]."""
    faces = mesh.faces[region]
    start = faces.reshape(-1).astype(np.int64)
    end = np.roll(faces, -1, axis=1).reshape(-1).astype(np.int64)
    top = len(mesh.vertices)
    alone = ~np.isin(start * top + end, end * top + start)
    follow: dict[int, list[int]] = {}
    for a, b in zip(start[alone].tolist(), end[alone].tolist(), strict=True):
        follow.setdefault(a, []).append(b)
    loops: list[Floats] = []
    while follow:
        way, place = [next(iter(follow))], {}
        place[way[0]] = 0
        while (here := _next(follow, way[-1])) is not None:
            if here in place:  # a loop is closed; walk on from where it began
                first = place[here]
                loops.append(mesh.vertices[way[first:]])
                for passed in way[first + 1 :]:
                    del place[passed]
                way = way[: first + 1]
            else:
                place[here] = len(way)
                way.append(here)
    return loops


def _next(follow: dict[int, list[int]], here: int) -> int | None:
    ways = follow.get(here)
    if not ways:
        return None
    out = ways.pop()
    if not ways:
        del follow[here]
    return out
