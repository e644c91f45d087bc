"""Crevices of the scan that are finer than the grid."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import Bools, Floats
from claspwright.geometry import IDENTITY, Field, Grid, Mesh, box, check_solid
from claspwright.survey.crevices import (
    AROUND_MM,
    BESIDE_MM,
    DEEP_MM,
    FLUSH_MM,
    MISSED_MM,
    crevice_fills,
    missed_fills,
)

STEP = 0.15


def plane() -> Field:
    """Solid below z = 0."""
    grid = Grid(IDENTITY, np.array([-3.0, -3.0, -1.5]), STEP, (41, 41, 21))
    z = grid.origin[2] + STEP * np.arange(21)
    return Field(grid, np.broadcast_to(z, grid.shape).astype(np.float32).copy())


def dented(*dents: tuple[float, float, float]) -> Mesh:
    """A sheet on z = 0 and single triangles below it."""
    flat = [[-2.0, -2.0, 0.0], [2.0, -2.0, 0.0], [0.0, 2.0, 0.0]]
    deep = [[x + a, y + b, z] for x, y, z in dents for a, b in ((0, 0), (0.05, 0), (0, 0.05))]
    vertices = np.array([*flat, *deep])
    return Mesh(vertices, np.arange(len(vertices)).reshape(-1, 3))


def found(sheet: Mesh, *, relieved: Field | None = None, hidden: bool = True) -> list[Mesh]:
    """Fills where every vertex lies under an overhang, or none does."""
    under = np.full(len(sheet.vertices), hidden)
    return crevice_fills(sheet, under, plane(), relieved or plane())


def test_what_is_seen_along_the_path_is_left_alone() -> None:
    assert found(dented((0.0, 0.0, -0.1)), hidden=False) == []
    assert len(found(dented((0.0, 0.0, -0.1)))) == 1


def test_what_the_grid_resolves_is_left_alone() -> None:
    assert found(dented()) == []
    assert found(dented((0.0, 0.0, -0.5 * DEEP_MM))) == []


def test_each_crevice_is_filled_up_to_just_below_the_field() -> None:
    places = ((-1.5, -1.5, -0.1), (1.5, 1.5, -0.2))
    fills = found(dented(*places))
    assert len(fills) == 2
    for fill, place in zip(fills, places, strict=True):
        check_solid(fill)
        assert fill.vertices[:, 2].max() == pytest.approx(-DEEP_MM, abs=0.005)
        away = np.linalg.norm(fill.vertices - place, axis=1)
        assert away.max() < AROUND_MM + 3 * STEP


def test_the_fill_follows_the_relief() -> None:
    relieved = Field(plane().grid, plane().values - np.float32(0.3))
    (fill,) = found(dented((0.0, 0.0, -0.1)), relieved=relieved)
    assert fill.vertices[:, 2].max() == pytest.approx(0.3 - DEEP_MM, abs=0.005)


def lump(left: float, top: float = 0.0) -> tuple[Mesh, Field]:
    """A block up to x = left and z = top, and its field."""
    x = plane().grid.origin[0] + STEP * np.arange(plane().grid.shape[0])
    values = np.maximum(plane().values - np.float32(top), (x - left)[:, None, None])
    block = box(np.array([-2.5, -2.5, -1.0]), np.array([left, 2.5, top]))
    return block, Field(plane().grid, values.astype(np.float32))


def everywhere(points: Floats) -> Bools:
    return np.ones(len(points), bool)


def nowhere(points: Floats) -> Bools:
    return np.zeros(len(points), bool)


def missed(depth: float, *, left: float, hidden: bool = True) -> list[Mesh]:
    """Fills over a shallow dent at the origin, where a lump covers what lies left of x = left."""
    sheet = dented((0.0, 0.0, -depth))
    floor = np.zeros(plane().grid.shape[:2])
    names = np.full(len(sheet.vertices), hidden)
    return missed_fills(sheet, names, everywhere, lump(left), plane(), floor)


def test_a_place_that_no_lump_covers_is_filled_up_to_the_field() -> None:
    (fill,) = missed(2.0 * MISSED_MM, left=-1.0)
    check_solid(fill)
    assert fill.vertices[:, 2].max() == pytest.approx(-FLUSH_MM, abs=0.002)
    assert np.linalg.norm(fill.vertices, axis=1).max() < BESIDE_MM + 3 * STEP


@pytest.mark.parametrize(
    ("depth", "left", "hidden"),
    [(2.0 * MISSED_MM, 1.0, True), (0.5 * MISSED_MM, -1.0, True), (2.0 * MISSED_MM, -1.0, False)],
)
def test_what_a_lump_covers_is_shallow_or_is_seen_is_left_alone(
    depth: float, left: float, hidden: bool
) -> None:
    assert missed(depth, left=left, hidden=hidden) == []


def test_between_vertices_only_what_lies_under_an_overhang_is_filled() -> None:
    sheet = Mesh(np.array([[0.0, 0, 0], [0.1, 0, -0.1], [0, 0.1, -0.1]]), np.array([[0, 1, 2]]))
    hidden = np.array([True, False, False])  # and the field has no wax over that vertex
    floor = np.zeros(plane().grid.shape[:2])
    assert missed_fills(sheet, hidden, nowhere, lump(-1.0), plane(), floor) == []
    assert len(missed_fills(sheet, hidden, everywhere, lump(-1.0), plane(), floor)) == 1


def test_what_lies_deep_within_the_field_of_the_lumps_is_covered() -> None:
    sheet = dented((0.0, 0.0, -0.1))
    names = np.ones(len(sheet.vertices), bool)
    floor = np.zeros(plane().grid.shape[:2])
    _, field = lump(1.0, top=0.3)
    elsewhere, _ = lump(-1.0)
    assert missed_fills(sheet, names, everywhere, (elsewhere, field), plane(), floor) == []
