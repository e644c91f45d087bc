"""The part of a scan about its border, and putting it back."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.arch.shore import lid_faces, narrowed, restored
from claspwright.arch.topology import border_loops, edges_of
from claspwright.geometry import Mesh, kept_faces


def sheet(n: int = 41) -> Mesh:
    """A gently curved square sheet of 1 mm cells."""
    x, y = np.meshgrid(np.arange(n, dtype=float), np.arange(n, dtype=float), indexing="ij")
    points = np.stack([x, y, 0.01 * x * y + 0.02 * x**2], axis=2).reshape(-1, 3)
    i, j = np.meshgrid(np.arange(n - 1), np.arange(n - 1), indexing="ij")
    a = (i * n + j).reshape(-1)
    faces = np.concatenate(
        [np.stack([a, a + n, a + n + 1], axis=1), np.stack([a, a + n + 1, a + 1], axis=1)]
    )
    return Mesh(points, faces.astype(np.int32))


def test_a_shore_has_the_border_of_the_whole_and_is_smaller() -> None:
    whole = sheet()
    shore = narrowed(whole, 5.0)
    assert len(shore.mesh.faces) < 0.6 * len(whole.faces)
    assert edges_of(shore.mesh.faces).count.max() == 2
    loops = border_loops(shore.mesh.faces)
    assert len(loops) == 1
    own = {tuple(p) for p in whole.vertices[border_loops(whole.faces)[0]].tolist()}
    assert {tuple(p) for p in shore.mesh.vertices[loops[0]].tolist()} == own


def test_what_was_not_changed_comes_back_in_its_order() -> None:
    whole = sheet()
    shore = narrowed(whole, 5.0)
    back = restored(shore, shore.mesh)
    assert np.array_equal(back.vertices, whole.vertices)
    assert np.array_equal(back.faces, whole.faces)


def test_faces_given_up_on_the_shore_are_gone_from_the_whole() -> None:
    whole = sheet()
    shore = narrowed(whole, 5.0)
    gone = (shore.mesh.corners[:, :, 0].min(axis=1) < 2.0) & ~lid_faces(shore, shore.mesh)
    back = restored(shore, kept_faces(shore.mesh, ~gone))
    same = kept_faces(whole, whole.corners[:, :, 0].min(axis=1) >= 2.0)
    assert np.array_equal(back.vertices, same.vertices)
    assert np.array_equal(back.faces, same.faces)


@pytest.mark.parametrize("depth_mm", [25.0, np.inf])
def test_a_scan_without_an_inner_part_is_its_own_shore(depth_mm: float) -> None:
    whole = sheet()
    shore = narrowed(whole, depth_mm)
    assert shore.mesh is whole
    assert restored(shore, whole) is whole
