"""Places where a surface passes through itself."""

from __future__ import annotations

import numpy as np

from claspwright.arch._crossing_kernels import bin_faces, crossing_pairs, mark_cells
from claspwright.base import InputError, Ints
from claspwright.geometry import Mesh, in_chunks

CELLS_A_FACE = 4  # more cells than that are mostly empty
CHUNKS = 16  # of cells, looked at side by side


def find_crossings(mesh: Mesh, cell_mm: float, *, quiet: int = 0) -> Ints:
    """(N, 2) pairs of faces that pass through one another, each once, in order.

    Faces that share a vertex count only where an edge opposite to it is crossed; faces that lie
    in one plane do not count.

    Args:
        mesh: any triangle mesh.
        cell_mm: least side of the cells that faces are sorted into; about two edges [mm].
        quiet: pairs of two faces below this number are passed over.
    """
    if not len(mesh.faces):
        return np.empty((0, 2), dtype=np.int32)
    if not cell_mm > 0:
        raise InputError(f"cell must be positive, got {cell_mm} mm")
    vertices, faces = np.array(mesh.vertices), np.array(mesh.faces)
    a, b, c = (vertices[faces[:, k]] for k in range(3))
    low, high = np.minimum(np.minimum(a, b), c), np.maximum(np.maximum(a, b), c)
    origin = low.min(axis=0)
    span = np.maximum(high.max(axis=0) - origin, cell_mm)
    cell_mm = max(cell_mm, float(np.cbrt(span.prod() / (CELLS_A_FACE * len(faces)))))
    i_low = np.floor((low - origin) / cell_mm).astype(np.int32)
    i_high = np.floor((high - origin) / cell_mm).astype(np.int32)
    shape = i_high.max(axis=0).astype(np.int64) + 1
    marked = np.zeros(int(shape.prod()), dtype=np.bool_)
    mark_cells(i_low, i_high, shape, quiet, marked)
    start = np.zeros(len(marked) + 1, dtype=np.int64)
    bin_faces(i_low, i_high, shape, marked, start, np.empty(0, dtype=np.int32))
    start = np.cumsum(start)
    members = np.empty(int(start[-1]), dtype=np.int32)
    bin_faces(i_low, i_high, shape, marked, start, members)
    boxes = np.concatenate([low, high], axis=1)
    parts: list[Ints] = []

    def look(first: int, last: int) -> None:
        room = 1024
        while True:
            pairs = np.empty((room, 2), dtype=np.int32)
            found = crossing_pairs(
                vertices, faces, boxes, i_low, shape, start, members, pairs, quiet, first, last
            )
            if found <= room:
                parts.append(pairs[:found])
                return
            room = int(found)

    in_chunks(look, len(marked), max(1, -(-len(marked) // CHUNKS)))
    return np.unique(np.concatenate(parts), axis=0).astype(np.int32)
