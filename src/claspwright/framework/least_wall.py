"""No wall over the ground thinner than the least: thin borders are laid up to it, blunt-edged.

A border that runs out over a steep slope, or a ridge that is lower than the relief beside it,
would leave a feather edge. Where metal lies on the ground, at least a layer of the least
thickness stands on it.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from claspwright.base import Bools, Floats
from claspwright.framework.canvas import Canvas, nearest_of, smooth_cut, smooth_union
from claspwright.framework.ground import Piece
from claspwright.framework.terrain import Terrain, sampled
from claspwright.geometry import in_chunks
from claspwright.limits import limit

SPARE = 0.08  # mm over the least thickness, for what the cut and the mesh take off
BACK = 0.12  # mm inside the border of the metal at which the layer ends
EDGE = 0.2  # mm radius of its edge and of its joint with what is there
OFF = 0.05  # mm by which a foot may miss the surface, or the nearest place on it
PLANES = 8  # of nodes at once
ROUNDS = 4  # in which the foot of a point on the ground is found
KEEP_OFF = 0.6  # mm round a part that stays as it was laid
# an arm's section is its spring, a rest runs out level with the enamel, acrylic covers a lattice
AS_LAID = ("retentive arm", "reciprocal arm", "approach arm", "rest")
COVERED = ("lattice", "tissue stop")


def lay_least_wall(ground: Terrain, canvas: Canvas, pieces: Iterable[Piece]) -> None:
    """Lay thin metal on the ground up to its least thickness, on the canvas itself.

    Args:
        ground: what the tissue side will be cut by.
        canvas: the joined pieces.
        pieces: those that were joined; arms, rests and lattices among them stay as they were laid.
    """
    least = limit("metal.thickness").value + SPARE
    off = ground.field.values
    step = ground.grid.spacing
    band = ~_stays(canvas, pieces)

    def choose(first: int, last: int) -> None:
        ground_here, metal = off[first:last], canvas.values[first:last]
        band[first:last] &= (ground_here > -2 * step) & (ground_here < least + 2 * step)
        band[first:last] &= np.abs(metal) < least + 2 * step

    in_chunks(choose, len(band), PLANES)
    nodes = np.argwhere(band)
    if not len(nodes):
        return
    at = tuple(nodes.T)
    spots = ground.grid.origin + step * nodes
    feet = _feet(ground, spots)
    # where relief runs out the field is steeper than a distance: measure to the foot
    height = np.sign(off[at]) * np.linalg.norm(spots - feet, axis=1)
    inside = sampled(canvas.grid, canvas.values, feet) + BACK
    layer = smooth_cut((height - least).astype(np.float32), inside.astype(np.float32), EDGE)
    canvas.values[at] = smooth_union(canvas.values[at], layer, EDGE)


def _feet(ground: Terrain, spots: Floats) -> Floats:
    """(N, 3) places on the surface nearest to points beside it.

    Along the field they are exact, but over wax and beside its edge that way leads astray: it
    ends off the surface, or far from the nearest place. There the nearest crossing of the grid
    stands for the foot.
    """
    feet = ground.settle(spots, rounds=ROUNDS)
    near = ground.nearest(spots)
    gap, least = (np.linalg.norm(spots - ends, axis=1) for ends in (feet, near))
    astray = (np.abs(ground.distance(feet)) > OFF) | (gap > least + OFF)
    feet[astray] = near[astray]
    return feet


def _stays(canvas: Canvas, pieces: Iterable[Piece]) -> Bools:
    """(nx, ny, nz) True for the nodes in or beside what stays as it was laid.

    Beside a lattice other metal ends too, and must not be thin: there the nearer part decides.
    """
    near = np.zeros(canvas.values.shape, np.bool_)
    laid = list(pieces)
    others = [p.shape for p in laid if p.component.kind not in (*AS_LAID, *COVERED)]
    for piece in laid:
        here, values = piece.shape.box.slices, piece.shape.values
        if piece.component.kind in AS_LAID:
            near[here] |= values < KEEP_OFF
        elif piece.component.kind in COVERED:
            near[here] |= (values < KEEP_OFF) & (values < nearest_of(others, piece.shape))
    return near
