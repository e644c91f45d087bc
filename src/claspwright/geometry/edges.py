"""Half-edges of triangles: their undirected edges, and which lie opposite each other."""

from __future__ import annotations

import numpy as np

from claspwright.base import Ints
from claspwright.geometry._edge_kernels import gather_edges, pair_edges
from claspwright.geometry.mesh import Mesh


def gathered_edges(faces: Ints) -> tuple[Ints, Ints, Ints]:
    """Edges of (F, 3) faces in the order of their lower, then their higher vertex.

    Half-edge 3 f + k runs from corner k of face f to its next corner.

    Returns:
        (3F,) edge of each half-edge; (E,) half-edges of each edge; (E, 2) vertices, lower first.
    """
    flat = np.array(faces, dtype=np.int32)
    halves = flat.size
    of_half, count = np.empty(halves, dtype=np.int32), np.zeros(halves, dtype=np.int32)
    ends = np.empty((halves, 2), dtype=np.int32)
    found = gather_edges(flat, int(flat.max(initial=-1)) + 1, of_half, count, ends)
    return of_half, count[:found], ends[:found]


def opposite_edges(mesh: Mesh) -> tuple[Ints, int]:
    """(3F,) the opposite of each half-edge or -1, and how many have none.

    Where more than two faces meet in an edge they are paired as they come.
    """
    across = np.empty(3 * len(mesh.faces), np.int32)
    unpaired = pair_edges(mesh.faces, len(mesh.vertices), across)
    return across, int(unpaired)
