"""Closing an open scan: what is in the way of a wall is cut away smoothly."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.arch.close import MOST_LOST, closed
from claspwright.arch.topology import border_edges
from claspwright.arch.trim import cut_along_zero, distance_over
from claspwright.base import Ints
from claspwright.geometry import Mesh, check_solid, face_areas

EDGE = 0.4  # mm


def sheet(x: int, y: int) -> tuple[Mesh, Ints]:
    """A flat sheet of x times y squares of EDGE, and the (x + 1, y + 1) numbers of its vertices."""
    number = np.arange((x + 1) * (y + 1), dtype=np.int32).reshape(x + 1, y + 1)
    i, j = np.meshgrid(np.arange(x + 1), np.arange(y + 1), indexing="ij")
    vertices = EDGE * np.stack([i.ravel(), j.ravel(), np.zeros(i.size)], axis=1)
    a, b = number[:-1, :-1].ravel(), number[1:, :-1].ravel()
    c, d = number[1:, 1:].ravel(), number[:-1, 1:].ravel()
    faces = np.concatenate([np.stack([a, b, c], axis=1), np.stack([a, c, d], axis=1)])
    return Mesh(vertices.astype(np.float64), faces.astype(np.int32)), number


def undercut_ridge(seed: int, *, length: float = 24.0) -> Mesh:
    """A ridge with undercut sides, as behind the last tooth, its two ends cut off ragged."""
    rng = np.random.default_rng(seed)
    flat, number = sheet(round(44 / EDGE), round(length / EDGE))
    t, along = flat.vertices[:, 0] - 22.0, flat.vertices[:, 1]
    on_top, down = np.minimum(np.abs(t), 6.0), np.maximum(np.abs(t) - 6.0, 0.0)
    x = np.sign(t) * (on_top + 1.5 * np.sin(down / 13.0 * 2 * np.pi))
    z = -down - 0.05 * on_top**2
    rows = np.linspace(0.0, 2 * np.pi, len(number))
    counts = (3, 9, 22, 41)
    waves = [
        sum(rng.uniform(0.0, 0.6) * np.sin(n * rows + rng.uniform(0.0, 6.0)) for n in counts)
        for _ in range(2)
    ]
    low, high = (np.repeat(w, number.shape[1]) for w in (3.0 + waves[0], length - 3.0 + waves[1]))
    inner = (along > low) & (along < high)
    faces = flat.faces[inner[flat.faces].all(axis=1)]
    used, names = np.unique(faces, return_inverse=True)
    moved = np.stack([x, along + 0.25 * np.sin(z), z], axis=1)
    return Mesh(moved[used], names.reshape(-1, 3).astype(np.int32))


@pytest.mark.parametrize("radius", [0.7, 1.0, 2.5])
def test_a_place_at_the_border_is_cut_away_along_an_arc(radius: float) -> None:
    mesh, number = sheet(40, 40)
    spot = int(number[20, 0])
    less = cut_along_zero(mesh, distance_over(mesh, np.array([spot], dtype=np.int32), radius))
    lost = float(face_areas(mesh).sum() - face_areas(less).sum())
    assert lost == pytest.approx(np.pi * radius**2 / 2, rel=0.25, abs=0.02)
    border = np.unique(np.concatenate(border_edges(less.faces)))
    points = less.vertices[border]
    gap = np.linalg.norm(points - mesh.vertices[spot], axis=1)
    new = (points[:, 1] > 1e-9) & (gap < radius + EDGE)
    assert new.sum() >= 3
    assert np.abs(gap[new] - radius).max() < 0.3 * EDGE  # whole faces would leave steps of an edge


@pytest.mark.parametrize("seed", [2, 3])
def test_an_undercut_ridge_with_ragged_ends_is_closed(seed: int) -> None:
    mesh = undercut_ridge(seed)
    found = closed(mesh, EDGE)
    assert check_solid(found.solid).sound
    assert check_solid(found.solid).bodies == 1
    assert found.crossings == 0
    assert 0.0 < found.trimmed_mm2 <= MOST_LOST * float(face_areas(mesh).sum())
