"""The quick reading: a lower bound of the gauge, equal to it on rounded crowns."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.arch import DentalArch
from claspwright.base import InputError
from claspwright.geometry import DistanceTree, Field, ball, box, union, vertex_normals
from claspwright.survey import cast_shadow, quick_field, quick_undercuts, read_gauge

UP = np.array([0.0, 0.0, 1.0])
TILTED = np.array([0.1, 0.05, 1.0]) / np.linalg.norm([0.1, 0.05, 1.0])


@pytest.fixture(scope="module")
def field(balls: DentalArch) -> Field:
    return quick_field(DistanceTree(balls.scan.solid), balls.scan.surface.vertices)


@pytest.mark.parametrize("path", [UP, TILTED], ids=["upright", "tilted"])
def test_it_agrees_with_the_gauge_on_rounded_crowns(
    balls: DentalArch, field: Field, path: np.ndarray
) -> None:
    surface = balls.scan.surface
    crown = np.unique(surface.faces[balls.crown_of_face > 0])
    points, normals = surface.vertices[crown], vertex_normals(surface)[crown]
    exact = read_gauge(cast_shadow(balls.scan.solid, path), points, normals).undercut_mm
    quick = quick_undercuts(field, points, path, normals=normals)[:, 0]
    amiss = quick - exact
    assert exact.max() > 0.7
    assert np.percentile(np.abs(amiss), 95) < 0.03  # trilinear in steps of 0.2 mm on R = 4 mm
    assert amiss.max() < 0.06


def test_many_paths_at_once_are_those_one_by_one(balls: DentalArch, field: Field) -> None:
    points = balls.scan.surface.vertices[:200]
    both = quick_undercuts(field, points, np.stack([UP, TILTED]))
    for n, path in enumerate((UP, TILTED)):
        assert both[:, n] == pytest.approx(quick_undercuts(field, points, path)[:, 0], abs=0)


def test_it_reads_short_under_a_ledge_and_never_over() -> None:
    """A shelf 2 mm out and 1 mm thick: the gauge reads 2 mm at the wall, this half the shelf."""
    wall = box(np.array([-6.0, -6, -6]), np.array([0.0, 6, 3]))
    solid = union(wall, box(np.array([-6.0, -6, 2]), np.array([2.0, 6, 3])))
    at, out = np.array([[0.0, 0.0, 0.5]]), np.array([[1.0, 0.0, 0.0]])
    exact = read_gauge(cast_shadow(solid, UP), at, out).undercut_mm[0]
    quick = quick_undercuts(quick_field(DistanceTree(solid), solid.vertices), at, UP, normals=out)
    assert exact == pytest.approx(2.0, abs=0.003)
    assert 0.35 < quick[0, 0] < 0.55


def test_a_path_into_the_mouth_is_refused() -> None:
    solid = ball(2.0, 0.5)
    field = quick_field(DistanceTree(solid), solid.vertices)
    with pytest.raises(InputError, match="out of the mouth"):
        quick_undercuts(field, solid.vertices, -UP)
