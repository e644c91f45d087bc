"""Sections of an arm, cut from the solid that will be made."""

from __future__ import annotations

import numpy as np
from shapely import polygonize
from shapely.geometry import LineString, Point, Polygon

from claspwright.base import Bools, Floats, Ints
from claspwright.geometry import Mesh

REACH = 4.0  # mm from the arm's line within which the solid is looked at
SNAP = 1e-4  # mm to which the points of a section are rounded
WIDEST = 1.6  # times the laid width or thickness: a section that is larger belongs to a joint


def cut_sections(solid: Mesh, line: Floats, off: Floats, depth: Floats) -> list[Polygon | None]:
    """Sections of a solid square to a line.

    Args:
        solid: watertight, arch frame.
        line: (S, 3) on the tooth, under the metal [mm].
        off: (S, 3) unit directions off the tooth, square to the line.
        depth: (S,) how far off the line the middle of the metal is sought [mm].

    Returns:
        A polygon in (u, w) for each station, u across the arm and w off the tooth from the
        line [mm]; None where the solid shows none.
    """
    along = np.gradient(line, axis=0)
    along /= np.linalg.norm(along, axis=1, keepdims=True)
    across = np.cross(off, along)
    corners = solid.corners
    low, high = corners.min(axis=1), corners.max(axis=1)
    box = np.all((high > line.min(axis=0) - REACH) & (low < line.max(axis=0) + REACH), axis=1)
    near = np.flatnonzero(box)
    points, faces = solid.vertices, solid.faces[near]
    found: list[Polygon | None] = []
    for s in range(len(line)):
        flat = _crossing(points, faces, line[s], np.stack([across[s], off[s], along[s]]))
        found.append(_piece(flat, float(depth[s])))
    return found


def _crossing(points: Floats, faces: Ints, at: Floats, frame: Floats) -> Floats:
    """(N, 2, 2) segments in (u, w) where faces near a point cross its plane [mm]."""
    near = faces[np.linalg.norm(points[faces[:, 0]] - at, axis=1) < REACH]
    local = (points[near] - at) @ frame.T  # (N, 3, 3) u, w, along
    above = local[:, :, 2] > 0
    mixed = above.any(axis=1) & ~above.all(axis=1)
    local, above = local[mixed], above[mixed]
    alone = np.where(above.sum(axis=1) == 1, above.argmax(axis=1), (~above).argmax(axis=1))
    rows = np.arange(len(local))
    tip = local[rows, alone]
    ends = []
    for turn in (1, 2):
        other = local[rows, (alone + turn) % 3]
        # from the upper to the lower point, so that both faces of an edge agree to the bit
        up = np.where((tip[:, 2] > other[:, 2])[:, None], tip, other)
        down = np.where((tip[:, 2] > other[:, 2])[:, None], other, tip)
        share = up[:, 2] / (up[:, 2] - down[:, 2])
        ends.append(up[:, :2] + share[:, None] * (down[:, :2] - up[:, :2]))
    return np.round(np.stack(ends, axis=1) / SNAP) * SNAP


def _piece(segments: Floats, depth: float) -> Polygon | None:
    """The piece of a section that lies over the line; None where there is none."""
    segments = segments[np.any(segments[:, 0] != segments[:, 1], axis=1)]
    if len(segments) < 3:
        return None
    rings = polygonize([LineString(pair) for pair in segments]).geoms
    seed, best = Point(0.0, depth), None
    for ring in rings:
        if isinstance(ring, Polygon) and ring.buffer(0.05).contains(seed):
            best = ring if best is None or ring.area > best.area else best
    return best


def own_sections(sections: list[Polygon | None], width: Floats, thickness: Floats) -> Bools:
    """(S,) True where a section is the arm's own: beyond its joint, merged with nothing else.

    Args:
        sections: of stations from the clamp to the tip.
        width: (S,) with which the arm was laid [mm].
        thickness: (S,) the same.
    """
    own = np.zeros(len(sections), dtype=np.bool_)
    for s, section in enumerate(sections):
        if section is not None:
            u0, w0, u1, w1 = section.bounds
            own[s] = u1 - u0 <= WIDEST * width[s] and w1 - w0 <= WIDEST * thickness[s]
    begun = np.flatnonzero(own[:-1] & own[1:])
    own[: begun[0] if begun.size else len(own)] = False
    return own
