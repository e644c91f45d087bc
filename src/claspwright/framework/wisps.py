"""Wisps: metal thinner than any print that the cut by the model leaves, taken away.

Where the border of a piece only grazes a tooth, a skin stays on it; where the model is deeper
than the grid sees, in a pit of the scan or along the foot of relief, a sharp strip hangs into it.
Neither prints, and either comes loose in the mouth.
"""

from __future__ import annotations

import numpy as np

from claspwright.base import Bools, Floats, Singles
from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Field,
    Grid,
    HeldSolid,
    Mesh,
    ThinEnd,
    closest_points,
    compacted,
    contour,
    face_areas,
    faces_near,
    kept_faces,
    thin_ends,
)

THIN = 0.12  # mm: metal thinner than this
CARRIED = 0.15  # mm: is no wisp where metal as thick as this
NEAR = 0.25  # mm: lies as near as this
LEAST_AREA = 0.005  # mm2 of surface that a wisp has
ABOUT = 0.1  # mm round a wisp that is taken away; less than NEAR, so no thicker metal is met
FILLED = 0.35  # mm round a wisp where the metal ends at the blocked-out field
FLUSH = 0.005  # mm inside the field, so that nothing is taken where both agree
STEP = 0.04  # mm of the grid on which the cutter is drawn
REACH = FILLED + 4 * STEP  # mm from a wisp beyond which no distance is asked
ROUNDS = 2  # of looking: the first cut may leave a stub
AGAIN = 1.6  # mm round a place that is kept to look there, or to look again


def wisps(tree: DistanceTree, looked_at: Bools | None = None) -> tuple[ThinEnd, ...]:
    """The wisps of a solid, the longest first; `looked_at`: (F,) faces that are asked about.

    A sliver of a face between large ones reads thin though thick metal lies round it: what has
    no area worth the name is none.
    """
    area = face_areas(tree.mesh)
    found = thin_ends(tree, THIN, CARRIED, NEAR, looked_at)
    return tuple(end for end in found if float(area[end.faces].sum()) >= LEAST_AREA)


def without_wisps(
    solid: Mesh,
    ground: Grid,
    cutter: Singles,
    looked_at: tuple[Floats, Floats] | None = None,
    held: HeldSolid | None = None,
) -> Mesh:
    """A cut solid without its wisps; cut off at the field where that is nearer.

    Args:
        solid: the framework, cut exactly, arch frame.
        ground: the grid of the cutting field.
        cutter: distance to what cuts at its nodes: the blocked-out model, at the tips the tooth.
        looked_at: lower and upper corner of a box outside which nothing is asked, grid frame [mm].
        held: the same solid held ready, where it is.
    """
    field = Field(ground, cutter)
    whole, asked = solid, np.ones(len(solid.faces), np.bool_)
    if looked_at is not None:
        # a piece of the surface about what is asked is enough
        middles = ground.frame.apply(solid.middles)
        low, high = looked_at
        near = np.all((middles > low - AGAIN) & (middles < high + AGAIN), axis=1)
        solid, middles = kept_faces(solid, near), middles[near]
        asked = np.all((middles > low) & (middles < high), axis=1)
    for _ in range(ROUNDS):
        found = wisps(DistanceTree(solid), asked) if asked.any() else ()
        if not found:
            break
        spots = np.concatenate([solid.corners[end.faces].reshape(-1, 3) for end in found])
        taken = [HeldSolid.of(_cutter(solid, end, field), "wisp") for end in found]
        body = HeldSolid.of(whole, "framework") if held is None else held
        held = body.without(HeldSolid.union(taken))
        whole = held.mesh()
        solid = kept_faces(whole, faces_near(whole, spots, AGAIN))
        asked = faces_near(solid, spots, AGAIN / 4)
    return whole


def _cutter(solid: Mesh, end: ThinEnd, field: Field) -> Mesh:
    """What is taken away for one wisp, a closed body."""
    wisp = compacted(solid.vertices, solid.faces[end.faces])
    grid = Grid.around(wisp.vertices, IDENTITY, STEP, FILLED + 2 * STEP)
    nodes = np.stack(np.meshgrid(*(np.arange(n) for n in grid.shape), indexing="ij"), axis=-1)
    spots = grid.to_world(nodes.reshape(-1, 3).astype(np.float64))
    away = np.abs(closest_points(DistanceTree(wisp), spots, REACH).distance)
    near = away < REACH
    below = np.where(near, away - FILLED, FILLED)
    below[near] = np.maximum(field.at(spots[near]) + FLUSH, below[near])
    values = np.minimum(below, away - ABOUT).reshape(grid.shape).astype(np.float32)
    return contour(Field(grid, values))
