"""A deviation is told by component, by group and by side of the framework."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import InputError
from claspwright.geometry import IDENTITY, DistanceTree, Mesh, box, face_normals
from claspwright.inspection import (
    Deviation,
    Region,
    deviation,
    figures_by_region,
    region_of_faces,
)


def plate() -> Mesh:
    """A bar of 40 x 4 x 2 mm in small faces."""
    part = box(np.array([-20.0, -2.0, -1.0]), np.array([20.0, 2.0, 1.0]))
    for _ in range(5):
        part = halved(part)
    return part


def halved(mesh: Mesh) -> Mesh:
    a, b, c = (mesh.corners[:, i] for i in range(3))
    ab, bc, ca = (a + b) / 2, (b + c) / 2, (c + a) / 2
    corners = np.concatenate([np.stack(t, axis=1) for t in
                              ((a, ab, ca), (ab, b, bc), (ca, bc, c), (ab, bc, ca))])  # fmt: skip
    points, index = np.unique(corners.reshape(-1, 3).round(9), axis=0, return_inverse=True)
    return Mesh(points, index.reshape(-1, 3).astype(np.int32))


def region(name: str, group: str, first: float, last: float) -> Region:
    x = np.linspace(first, last, 9)
    return Region(name, group, np.stack([x, 0 * x, 0 * x], axis=1), np.full(9, 2.0))


REGIONS = (
    region("rest.35", "rests", -20.0, -12.0),
    region("bar", "major connector", -8.0, 8.0),
    region("clasp.45", "arms", 12.0, 20.0),
)


def test_each_face_belongs_to_the_nearest_component() -> None:
    design = plate()
    owner = region_of_faces(design, REGIONS)
    x = design.corners.mean(axis=1)[:, 0]
    assert set(owner[x < -11.0]) == {0}
    assert set(owner[np.abs(x) < 7.0]) == {1}
    assert set(owner[x > 11.0]) == {2}


def test_a_rest_that_stands_high_shows_in_its_own_figures_only() -> None:
    design = plate()
    raised = design.vertices.copy()
    high = (raised[:, 0] < -11.0) & (raised[:, 2] > 0.99) & (np.abs(raised[:, 1]) < 1.9)
    raised[high & (raised[:, 0] > -19.9), 2] += 0.05
    found = deviation(Mesh(raised, design.faces), DistanceTree(design), IDENTITY)
    told = {
        one.name: one.figures
        for one in figures_by_region(found, design, REGIONS, np.array([0.0, 0.0, 1.0]))
    }
    assert list(told)[:3] == ["rests", "major connector", "arms"]
    rests, arms, tissue, polished = (
        told[name] for name in ("rests", "arms", "tissue side", "polished side")
    )
    assert rests is not None
    assert arms is not None
    assert tissue is not None
    assert polished is not None
    assert rests.highest_um == pytest.approx(50.0, abs=0.01)
    assert rests.bias_um > 5.0
    assert arms.rms_um == pytest.approx(0.0, abs=1e-6)
    assert tissue.bias_um == pytest.approx(0.0, abs=1e-6)
    assert polished.bias_um > 5.0
    assert told["rest.35"] == rests


def test_sides_are_those_of_the_design_and_need_a_path() -> None:
    design = plate()
    found = deviation(design, DistanceTree(design), IDENTITY)
    names = [one.name for one in figures_by_region(found, design, REGIONS)]
    assert "tissue side" not in names
    assert len(names) == 6
    assert figures_by_region(found, design, ()) == ()
    assert (face_normals(design)[found.faces][:, 2] < -0.5).any()
    with pytest.raises(InputError, match="needs points"):
        Region("empty", "rests", np.zeros((0, 3)), np.zeros(0))


def test_what_a_scan_does_not_show_has_no_figures() -> None:
    design = plate()
    right = design.faces[design.corners.mean(axis=1)[:, 0] > 9.0]
    used, index = np.unique(right, return_inverse=True)
    part = Mesh(design.vertices[used], index.reshape(-1, 3).astype(np.int32))
    found: Deviation = deviation(part, DistanceTree(design), IDENTITY)
    told = {one.name: one.figures for one in figures_by_region(found, design, REGIONS)}
    assert told["rests"] is None
    assert told["arms"] is not None
