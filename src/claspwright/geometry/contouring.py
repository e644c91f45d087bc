"""Surfaces of constant value in a field, by dual contouring."""

from __future__ import annotations

from functools import cache

import numpy as np

from claspwright.base import Ints, Progress, part, silent
from claspwright.geometry import _contouring_kernels as kernels
from claspwright.geometry.grid import Field
from claspwright.geometry.mesh import Mesh
from claspwright.geometry.threads import in_chunks

SLABS = 24  # that one thread draws in a row


def contour(field: Field, level: float = 0.0, *, progress: Progress = silent) -> Mesh:
    """The closed surface of the region where the field is below `level`, in the world frame.

    Dual contouring: in each cell that the surface passes, one vertex a sheet, where the
    tangent planes at the crossed edges meet best, so that edges of the solid stay sharp. The
    mesh is closed and every edge has two faces; beyond the border of the grid nothing counts
    as inside. Where the field is nowhere below the level the mesh is empty.

    Source:
        ju2002, Dual contouring of Hermite data; nielson2004, Dual marching cubes (sheets).
    """
    counts, sheets, fused, ends = _tables()
    values = field.values
    slabs = values.shape[0] + 1
    numbers = np.zeros((slabs, 2), np.int64)
    rows = np.zeros((slabs, values.shape[1] + 1), np.bool_)

    def count(first: int, last: int) -> None:
        for slab in range(first, last):
            numbers[slab] = kernels.count_cells(values, level, slab - 1, fused, counts, rows[slab])

    in_chunks(count, slabs, SLABS, progress=part(progress, 0.0, 0.3), phase="contouring")
    begins = np.cumsum(numbers, axis=0) - numbers
    vertices = np.empty((int(numbers[:, 0].sum()), 3))
    quads = np.empty((int(numbers[:, 1].sum()), 4), np.int32)
    plane = (2, values.shape[1] + 1, values.shape[2] + 1)

    def draw(first: int, last: int) -> None:
        cells, masks = np.full(plane, -1, np.int32), np.zeros(plane, np.uint8)
        for slab in range(max(first - 1, 0), last):  # the slab before is drawn with both bands
            cells[0], masks[0] = cells[1], masks[1]
            kernels.fill_slab(
                values, level, slab - 1, fused, counts, rows[slab], sheets, ends,
                int(begins[slab, 0]), vertices, cells[1], masks[1],
            )  # fmt: skip
            if slab >= first:
                kernels.quads_at_plane(
                    values, level, slab - 1, rows[slab], sheets, cells, masks,
                    int(begins[slab, 1]), quads,
                )  # fmt: skip

    in_chunks(draw, slabs, SLABS, progress=part(progress, 0.3, 0.9), phase="contouring")
    faces = np.empty((2 * len(quads), 3), np.int32)
    kernels.split_quads(values, level, vertices, quads, faces)
    progress(1.0, "contouring")
    return Mesh(field.grid.to_world(vertices), faces)


@cache
def _tables() -> tuple[Ints, Ints, Ints, Ints]:
    """Sheets of every mask of a cell.

    Returns:
        counts (256,) of sheets, sheets (256, 12) sheet of each crossed edge or -1, fused (256,)
        face (2 * axis + upper) whose four crossed edges lie on one sheet or -1, ends (12,) lower
        corner of each edge.
    """
    ends = np.empty(12, np.int32)
    for axis in range(3):
        others = [a for a in range(3) if a != axis]
        for position in range(4):
            ends[4 * axis + position] = sum(
                1 << others[bit] for bit in range(2) if position >> bit & 1
            )
    number = {frozenset((int(ends[e]), int(ends[e]) | 1 << e // 4)): e for e in range(12)}
    counts = np.zeros(256, np.int32)
    sheets = np.full((256, 12), -1, np.int32)
    fused = np.full(256, -1, np.int32)
    for mask in range(256):
        sheets[mask] = _sheets_of(mask, number)
        counts[mask] = sheets[mask].max() + 1
        for face in range(6):
            around = _edges_round(face, number)
            if all(sheets[mask][e] >= 0 for e in around) and len(set(sheets[mask][around])) == 1:
                fused[mask] = face
    for array in (counts, sheets, fused, ends):
        array.setflags(write=False)
    return counts, sheets, fused, ends


def _ring(face: int) -> list[int]:
    """The four corners of a face (2 * axis + upper) in order round it."""
    axis, upper = divmod(face, 2)
    u, w = (a for a in range(3) if a != axis)
    return [upper << axis | a << u | b << w for a, b in ((0, 0), (1, 0), (1, 1), (0, 1))]


def _edges_round(face: int, number: dict[frozenset[int], int]) -> list[int]:
    ring = _ring(face)
    return [number[frozenset((ring[n], ring[(n + 1) % 4]))] for n in range(4)]


def _sheets_of(mask: int, number: dict[frozenset[int], int]) -> Ints:
    """(12,) sheet of each edge; on a doubtful face each inside corner is cut off by itself."""
    parent = list(range(12))

    def root(e: int) -> int:
        while parent[e] != e:
            e = parent[e]
        return e

    for face in range(6):
        ring, around = _ring(face), _edges_round(face, number)
        crossed = [e for n, e in enumerate(around) if _differs(mask, ring[n], ring[(n + 1) % 4])]
        if len(crossed) == 2:
            parent[root(crossed[0])] = root(crossed[1])
        elif len(crossed) == 4:
            for n in range(4):
                if mask >> ring[n] & 1:
                    parent[root(around[n - 1])] = root(around[n])
    found: dict[int, int] = {}
    sheet = np.full(12, -1, np.int32)
    for pair, e in sorted(number.items(), key=lambda item: item[1]):
        if _differs(mask, *pair):
            sheet[e] = found.setdefault(root(e), len(found))
    return sheet


def _differs(mask: int, a: int, b: int) -> bool:
    return (mask >> a & 1) != (mask >> b & 1)
