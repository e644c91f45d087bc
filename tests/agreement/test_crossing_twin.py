"""Crossing triangles: the fast search against all pairs in plain numpy."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest

from claspwright.arch.crossing import find_crossings
from claspwright.base import Floats
from claspwright.geometry import Mesh


def pierces(start: Floats, end: Floats, triangle: Floats) -> bool:
    """Whether a segment passes through the inside of a triangle, by signed volumes."""

    def side(a: Floats, b: Floats, c: Floats, d: Floats) -> float:
        return float(np.dot(np.cross(b - a, c - a), d - a))

    a, b, c = triangle
    if side(a, b, c, start) * side(a, b, c, end) >= 0:
        return False
    turns = [side(start, end, p, q) for p, q in ((a, b), (b, c), (c, a))]
    return min(turns) > 0 or max(turns) < 0


def all_pairs(mesh: Mesh) -> list[tuple[int, int]]:
    found = []
    for f, g in combinations(range(len(mesh.faces)), 2):
        for one, two in ((f, g), (g, f)):
            corners = mesh.vertices[mesh.faces[two]]
            for k in range(3):
                p, q = mesh.faces[one][k], mesh.faces[one][(k + 1) % 3]
                if {int(p), int(q)} & set(mesh.faces[two].tolist()):
                    continue
                if pierces(mesh.vertices[p], mesh.vertices[q], corners):
                    found.append((f, g))
    return sorted(set(found))


@pytest.mark.parametrize("seed", [1, 2, 3])
@pytest.mark.parametrize("cell", [0.3, 2.0])
def test_the_same_pairs_cross(seed: int, cell: float) -> None:
    rng = np.random.default_rng(seed)
    corners = rng.uniform(0, 4, (60, 1, 3)) + rng.normal(0, 0.6, (60, 3, 3))
    faces = np.arange(180, dtype=np.int32).reshape(-1, 3)
    faces[1::6, 0] = faces[::6, 0]  # some faces share a vertex
    mesh = Mesh(corners.reshape(-1, 3), faces)
    expected = all_pairs(mesh)
    assert expected
    assert [tuple(pair) for pair in find_crossings(mesh, cell).tolist()] == expected
