from __future__ import annotations

import numpy as np
import pytest

from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Field,
    Grid,
    Rigid,
    ball,
    box,
    check_solid,
    contour,
    distance_field,
    is_watertight,
    rotation_between,
    signed_distance,
    union,
    volume,
)

TURNED = Rigid(rotation_between(np.array([0, 0, 1.0]), np.array([0.6, 0, 0.8])), np.zeros(3))


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_noise_gives_a_closed_mesh_with_two_faces_at_each_edge(seed: int) -> None:
    """Every one of the 256 cells and all doubtful faces occur here."""
    grid = Grid(IDENTITY, np.zeros(3), 1.0, (14, 15, 16))
    values = np.random.default_rng(seed).normal(size=grid.shape).astype(np.float32)
    mesh = contour(Field(grid, values))
    assert is_watertight(mesh)
    assert volume(mesh) > 0
    assert check_solid(union(mesh)).status == "NoError"


def test_sphere_lies_on_the_field() -> None:
    solid = ball(3.0, 0.1)
    tree = DistanceTree(solid)
    field = distance_field(tree, Grid.around(solid.vertices, TURNED, 0.15, 1.0), 0.8)
    mesh = contour(field, 0.2)
    assert check_solid(mesh).sound
    assert np.abs(signed_distance(tree, mesh.vertices) - 0.2).max() < 0.003
    assert volume(mesh) == pytest.approx(4 / 3 * np.pi * 3.2**3, rel=0.002)


def test_edges_of_a_turned_cube_stay_sharp() -> None:
    cube = box(np.full(3, -1.5), np.full(3, 1.5))
    tree = DistanceTree(cube)
    field = distance_field(tree, Grid.around(cube.vertices, TURNED, 0.1, 1.0), 0.8)
    mesh = contour(field)
    assert volume(mesh) == pytest.approx(27.0, rel=0.003)
    off = np.abs(signed_distance(tree, mesh.vertices))
    assert np.quantile(off, 0.95) < 0.004
    edge = np.array([[1.5, 1.5, z] for z in np.linspace(-1.3, 1.3, 27)])
    gap = np.abs(signed_distance(DistanceTree(mesh), edge))
    assert np.quantile(gap, 0.95) < 0.01  # a tenth of the spacing


def test_the_border_of_the_grid_closes_what_it_cuts() -> None:
    solid = ball(3.0, 0.2)
    grid = Grid(IDENTITY, np.array([0.0, -4, -4]), 0.2, (21, 41, 41))
    mesh = contour(distance_field(DistanceTree(solid), grid, 1.0))
    assert check_solid(mesh).sound
    assert mesh.vertices[:, 0].min() == pytest.approx(-0.1, abs=1e-9)
    assert volume(mesh) == pytest.approx(2 / 3 * np.pi * 27 + 0.1 * np.pi * 9, rel=0.01)


def test_nothing_below_the_level_gives_an_empty_mesh() -> None:
    grid = Grid(IDENTITY, np.zeros(3), 1.0, (4, 4, 4))
    assert not len(contour(Field(grid, np.ones(grid.shape, np.float32))).faces)
