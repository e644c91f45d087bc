"""Openings too narrow to be cleaned, closed as a drop of wax would close them.

Where a rail runs close beside a connector, a narrow opening stays between them: food lodges there,
powder sinters in it, and no brush reaches through.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import distance_transform_edt, label
from scipy.spatial import cKDTree

from claspwright.base import Bools
from claspwright.framework.canvas import Canvas, smooth_cut, smooth_union
from claspwright.framework.terrain import Terrain
from claspwright.limits import limit

NARROW = 1.0  # mm: what is narrower keeps food [common practice, no source]
ON_SLOPES = 1.3  # mm that it may be wide on the ground, which is longer than it looks from above
THROUGH = 0.05  # mm: metal that is thinner counts as open
ABOUT = 4.0  # mm round an opening, seen along the path, within which it ends on the ground too
UPRIGHT = 3.0  # mm over and under it
OVER = 0.45  # mm that a web reaches into what stands round it
BLEND = 0.3  # mm radius of its edge and of its joint with that
BELOW = 1.5  # mm under and over the ground in the opening to which it reaches on a steep wall
FAR = 1e3  # mm
SPARE = 0.25  # mm over the least thickness of metal


def close_pinholes(ground: Terrain, canvas: Canvas) -> int:
    """Close openings narrower than NARROW by a web on the ground.

    They are narrow both along the path and on the ground: the window between an arm and what
    stands under it on the wall of a tooth is narrow along the path alone, and stays.

    Args:
        ground: what the tissue side will be cut by.
        canvas: the joined pieces on the same grid; changed.

    Returns:
        How many were closed.
    """
    step = ground.grid.spacing
    named, candidates = _narrow_in_plan(_open_columns(ground, canvas), step)
    found = [_narrow_on_ground(ground, canvas, named, number) for number in candidates]
    closed = [columns for columns in found if columns is not None]
    if not closed:
        return 0
    filled = np.logical_or.reduce(closed)
    away, at = distance_transform_edt(~filled, sampling=step, return_indices=True)
    i, j = np.nonzero(away < OVER + BLEND)
    off = ground.field.values[i, j]
    plan = (away[i, j] - OVER).astype(np.float32)[:, None]
    thick = np.float32(limit("metal.thickness").value + SPARE)
    z = ground.grid.origin[2] + step * np.arange(off.shape[1])
    tops = np.nan_to_num(ground.tops[i, j], nan=FAR)[:, None]  # beyond the scan lies no web
    foot = ground.tops[at[0][i, j], at[1][i, j]][:, None]  # of the opening, where it is nearest
    beyond = np.maximum(np.maximum(tops, foot) - BELOW - z, z - foot - BELOW)  # on a wall beside
    web = np.maximum(off - thick, beyond.astype(np.float32))
    web = smooth_cut(web, np.broadcast_to(plan, off.shape), BLEND)
    canvas.values[i, j] = smooth_union(canvas.values[i, j], web, BLEND)
    return len(closed)


def _open_columns(ground: Terrain, canvas: Canvas) -> Bools:
    """(nx, ny) columns of nodes with no metal over the ground worth the name."""
    out = np.empty(canvas.values.shape[:2], np.bool_)
    for n, (metal, off) in enumerate(zip(canvas.values, ground.field.values, strict=True)):
        out[n] = np.maximum(metal, -off).min(axis=1) > -THROUGH
    return out


def _narrow_in_plan(open_: Bools, step: float) -> tuple[NDArray[Any], list[int]]:
    """(nx, ny) numbers of the openings, and which are enclosed and narrow."""
    named, count = label(open_)
    border = np.unique(np.concatenate([named[0], named[-1], named[:, 0], named[:, -1]]))
    enclosed = np.setdiff1d(np.arange(1, count + 1), border)
    if not len(enclosed):
        return named, []
    inside = distance_transform_edt(np.isin(named, enclosed), sampling=step)
    widest = np.zeros(count + 1)
    np.maximum.at(widest, named, inside)
    return named, [n for n in enclosed.tolist() if 2.0 * widest[n] - step < NARROW]


def _narrow_on_ground(
    ground: Terrain, canvas: Canvas, named: NDArray[Any], number: int
) -> Bools | None:
    """(nx, ny) columns of an opening that ends near by on the ground and is narrow there too.

    Those are included where metal hangs over it. None where it does not end, or is wide.
    """
    step = ground.grid.spacing
    spare = int(np.ceil(ABOUT / step))
    places = np.argwhere(named == number)
    low, high = np.maximum(places.min(axis=0) - spare, 0), places.max(axis=0) + spare + 1
    rows, columns = (slice(int(a), int(b)) for a, b in zip(low, high, strict=True))
    hole = named[rows, columns] == number
    tops = ground.tops[rows, columns][hole]
    if not np.isfinite(tops).all():
        return None
    z0 = ground.grid.origin[2]
    first = max(int((tops.min() - UPRIGHT - z0) / step), 0)
    last = int((tops.max() + UPRIGHT - z0) / step) + 1
    off = ground.field.values[rows, columns, first:last]
    surface = (off >= 0.0) & (off < 1.2 * step)
    bare = surface & (canvas.values[rows, columns, first:last] > -THROUGH)
    parts, _ = label(bare, np.ones((3, 3, 3), np.int8))
    mine = np.isin(parts, np.setdiff1d(parts[hole], [0]))
    ends = [mine.take(n, axis=axis).any() for axis in range(3) for n in (0, -1)]
    covered = np.argwhere(surface & ~bare)
    if any(ends) or not mine.any() or not len(covered):
        return None
    away, _ = cKDTree(covered * step).query(np.argwhere(mine) * step)
    if 2.0 * np.max(away) - step >= ON_SLOPES:
        return None
    filled: Bools = named == number
    filled[rows, columns] |= mine.any(axis=2)
    return filled
