from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import Cancelled, GeometryError, InputError
from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Field,
    Grid,
    Mesh,
    Rigid,
    ball,
    box,
    closest_points,
    distance_field,
    inside,
    merged,
    mesh_edges,
    rotation_between,
    signed_distance,
)

TURN = rotation_between(np.array([0, 0, 1.0]), np.array([0.6, 0, 0.8]))
TURNED = Rigid(TURN, np.array([1.0, 2, 3]))


def to_box(points: np.ndarray, half: float) -> np.ndarray:
    """Signed distance to a cube about the origin, closed form."""
    off = np.abs(points) - half
    return np.linalg.norm(np.maximum(off, 0), axis=1) + np.minimum(off.max(axis=1), 0)


def test_cube_at_faces_edges_and_corners() -> None:
    tree = DistanceTree(box(np.full(3, -1.0), np.full(3, 1.0)))
    points = np.random.default_rng(1).uniform(-2, 2, (4000, 3))
    points[:27] = np.stack(np.meshgrid(*[[-1.5, 0.0, 1.5]] * 3), axis=-1).reshape(-1, 3)
    found = closest_points(tree, points)
    assert found.distance == pytest.approx(to_box(points, 1.0), abs=1e-12)
    assert np.linalg.norm(points - found.points, axis=1) == pytest.approx(np.abs(found.distance))
    assert found.weights.sum(axis=1) == pytest.approx(np.ones(len(points)))
    assert (inside(tree, points) == (to_box(points, 1.0) < 0)).all()


def test_beyond_the_limit_nothing_is_found() -> None:
    tree = DistanceTree(ball(1.0, 0.3))
    points = np.array([[0.0, 0, 1.2], [0.0, 0, 3.0]])
    found = closest_points(tree, points, limit=0.5)
    assert found.faces[1] == -1
    assert found.distance[1] == 0.5
    assert found.points[1] == pytest.approx(points[1])
    assert found.faces[0] >= 0


def test_faces_without_area_do_no_harm() -> None:
    cube = box(np.full(3, -1.0), np.full(3, 1.0))
    flat = Mesh(cube.vertices, np.concatenate([cube.faces, [[0, 1, 1], [2, 2, 2]]]))
    points = np.random.default_rng(2).uniform(-2, 2, (500, 3))
    away = np.abs(to_box(points, 1.0)) > 1e-9
    found = np.abs(signed_distance(DistanceTree(flat), points))
    assert found[away] == pytest.approx(np.abs(to_box(points, 1.0))[away])


def test_what_cannot_be_asked() -> None:
    with pytest.raises(GeometryError, match="without faces"):
        DistanceTree(Mesh(np.zeros((3, 3)), np.zeros((0, 3), np.int32)))
    tree = DistanceTree(ball(1.0, 0.5))
    with pytest.raises(InputError, match="finite"):
        signed_distance(tree, np.array([[np.nan, 0, 0]]))
    grid = Grid.around(tree.mesh.vertices, IDENTITY, 0.2, 1.0)
    with pytest.raises(InputError, match="thinner"):
        distance_field(tree, grid, 0.5)


def test_field_is_exact_near_the_surface_and_clamped_with_the_right_sign() -> None:
    solid = box(np.full(3, -4.0), np.full(3, 4.0)).moved(TURNED)
    grid = Grid.around(solid.vertices, IDENTITY, 0.2, 3.0)
    field = distance_field(DistanceTree(solid), grid, 1.5)
    nodes = np.stack(np.meshgrid(*grid.axes(), indexing="ij"), axis=-1).reshape(-1, 3)
    true = to_box(TURNED.inverse().apply(nodes), 4.0).reshape(grid.shape)
    near = np.abs(true) < 0.35
    assert np.abs(field.values - true)[near].max() < 1e-5
    assert np.abs(field.values - np.clip(true, -1.5, 1.5)).max() < 0.2
    assert ((field.values < 0) == (true < 0))[np.abs(true) > 1e-6].all()
    assert np.abs(field.values).max() == pytest.approx(1.5)


def test_a_fold_inside_the_solid_does_not_turn_the_sign_around_it() -> None:
    outer = ball(4.0, 0.4)
    inner = ball(1.0, 0.3)  # same way round as the outer one: its inside is inside twice
    solid = merged(outer, inner)
    grid = Grid.around(outer.vertices, IDENTITY, 0.2, 1.5)
    field = distance_field(DistanceTree(solid), grid, 1.2)
    distance = np.linalg.norm(np.stack(np.meshgrid(*grid.axes(), indexing="ij")), axis=0)
    deep = (distance > 1.5) & (distance < 3.8)
    assert (field.values[deep] < 0).mean() > 0.99


def test_progress_never_falls_and_can_cancel() -> None:
    solid = ball(3.0, 0.3)
    grid = Grid.around(solid.vertices, IDENTITY, 0.2, 1.0)
    seen: list[float] = []
    distance_field(DistanceTree(solid), grid, 1.0, progress=lambda f, _: seen.append(f))
    assert seen == sorted(seen)
    assert seen[-1] == 1.0

    def stop(fraction: float, phase: str) -> None:
        raise Cancelled("stopped")

    with pytest.raises(Cancelled):
        distance_field(DistanceTree(solid), grid, 1.0, progress=stop)


def test_edges_of_a_cube() -> None:
    cube = box(np.zeros(3), np.ones(3))
    pairs, of_face = mesh_edges(cube)
    assert len(pairs) == 3 * len(cube.faces) // 2
    assert (pairs[:, 0] < pairs[:, 1]).all()
    ends = np.sort(np.stack([cube.faces, np.roll(cube.faces, -1, axis=1)], axis=2), axis=2)
    assert (pairs[of_face] == ends).all()


def test_field_answers_in_world_points() -> None:
    solid = ball(2.0, 0.15)
    grid = Grid.around(solid.vertices, TURNED, 0.15, 1.0)
    field: Field = distance_field(DistanceTree(solid), grid, 0.9)
    points = np.random.default_rng(3).normal(size=(200, 3))
    points *= 2.2 / np.linalg.norm(points, axis=1, keepdims=True)
    assert np.abs(field.at(points) - 0.2).max() < 0.01
    assert np.abs(field.gradient(points) - points / 2.2).max() < 0.05


def test_edges_are_those_of_sorted_pairs() -> None:
    """Held against NumPy's `unique`, on faces that share vertices at random."""
    draw = np.random.default_rng(5)
    faces = np.array([draw.choice(60, 3, replace=False) for _ in range(400)], np.int32)
    pairs, of_face = mesh_edges(Mesh(draw.normal(size=(60, 3)), faces))
    ends = np.sort(np.stack([faces, np.roll(faces, -1, axis=1)], axis=2), axis=2).reshape(-1, 2)
    expected, index = np.unique(ends, axis=0, return_inverse=True)
    assert np.array_equal(pairs, expected)
    assert np.array_equal(of_face.reshape(-1), index.reshape(-1))
