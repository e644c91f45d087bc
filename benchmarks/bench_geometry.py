"""Distances, rays, contours and booleans at three sizes, beside their reference libraries."""

from __future__ import annotations

from typing import Any

import igl
import manifold3d
import numpy as np
import pytest
import skimage.measure
from embreex import rtcore_scene
from embreex.mesh_construction import TriangleMesh
from scipy.ndimage import map_coordinates
from scipy.spatial import cKDTree

from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Field,
    Grid,
    Mesh,
    PointBlocks,
    SurfacePaths,
    ball,
    check_solid,
    contour,
    difference,
    distance_field,
    height_field,
    is_covered,
    linear_values,
    signed_distance,
)

UP = np.array([0.0, 0.0, 1.0])
EDGES = (0.6, 0.3, 0.15)  # mm, on a lump of 20 mm


def lump(edge: float) -> Mesh:
    """A wavy ball of 10 mm radius."""
    sphere = ball(10.0, edge)
    x, y, z = sphere.vertices.T
    swell = 1.0 + 0.05 * np.sin(x) * np.sin(1.3 * y) + 0.04 * np.cos(1.7 * z)
    return Mesh(sphere.vertices * swell[:, None], sphere.faces)


@pytest.fixture(scope="module", params=EDGES, ids=lambda edge: f"edge {edge} mm")
def mesh(request: Any) -> Mesh:
    return lump(request.param)


@pytest.fixture(scope="module")
def tree(mesh: Mesh) -> DistanceTree:
    return DistanceTree(mesh)


@pytest.fixture(scope="module")
def field(tree: DistanceTree) -> Field:
    return distance_field(tree, Grid.around(tree.mesh.vertices, IDENTITY, 0.2, 1.0), 1.0)


@pytest.fixture(scope="module")
def near(mesh: Mesh) -> Any:
    """20,000 points in rows within 2.5 mm of the surface."""
    rng = np.random.default_rng(1)
    picked = mesh.vertices[np.sort(rng.integers(0, len(mesh.vertices), 20_000))]
    return picked * (1.0 + rng.uniform(-0.2, 0.2, (20_000, 1)))


def test_build_tree(benchmark: Any, mesh: Mesh) -> None:
    benchmark.pedantic(DistanceTree, args=(mesh,), rounds=3, warmup_rounds=1)


def test_signed_distance(benchmark: Any, tree: DistanceTree, near: Any) -> None:
    benchmark.pedantic(signed_distance, args=(tree, near), rounds=3, warmup_rounds=1)


def test_signed_distance_libigl(benchmark: Any, mesh: Mesh, near: Any) -> None:
    faces = mesh.faces.astype(np.int64)
    kind = igl.SIGNED_DISTANCE_TYPE_PSEUDONORMAL
    benchmark.pedantic(
        lambda: igl.signed_distance(near, mesh.vertices, faces, sign_type=kind), rounds=3
    )


def test_distance_field(benchmark: Any, tree: DistanceTree) -> None:
    grid = Grid.around(tree.mesh.vertices, IDENTITY, 0.15, 2.0)
    benchmark.extra_info["nodes"] = int(np.prod(grid.shape))
    benchmark.pedantic(distance_field, args=(tree, grid, 2.0), rounds=3, warmup_rounds=1)


def test_rays(benchmark: Any, tree: DistanceTree, near: Any) -> None:
    benchmark.pedantic(is_covered, args=(tree, near, UP), rounds=3, warmup_rounds=1)


def test_rays_embreex(benchmark: Any, mesh: Mesh, near: Any) -> None:
    scene = rtcore_scene.EmbreeScene()
    TriangleMesh(scene, mesh.vertices.astype(np.float32), mesh.faces)
    start = near.astype(np.float32)
    way = np.tile(UP.astype(np.float32), (len(start), 1))
    benchmark.pedantic(lambda: scene.run(start, way, query="OCCLUDED"), rounds=3, warmup_rounds=1)


def test_height_field(benchmark: Any, mesh: Mesh) -> None:
    benchmark.pedantic(height_field, args=(mesh, IDENTITY, 0.1), rounds=3, warmup_rounds=1)


def test_contour(benchmark: Any, field: Field) -> None:
    benchmark.pedantic(contour, args=(field,), rounds=3, warmup_rounds=1)


def test_contour_skimage(benchmark: Any, field: Field) -> None:
    values = np.array(field.values)
    benchmark.pedantic(
        lambda: skimage.measure.marching_cubes(values, 0.0, allow_degenerate=False), rounds=3
    )


def test_values_between_nodes(benchmark: Any, field: Field, near: Any) -> None:
    benchmark(linear_values, field.values, field.grid.to_nodes(near))


def test_values_between_nodes_scipy(benchmark: Any, field: Field, near: Any) -> None:
    nodes = field.grid.to_nodes(near).T
    benchmark(map_coordinates, field.values, nodes, order=1, mode="nearest")


def test_nearest_of_points(benchmark: Any, mesh: Mesh, near: Any) -> None:
    benchmark(lambda: PointBlocks(mesh.vertices, 0.7).nearest(near))


def test_nearest_of_points_scipy(benchmark: Any, mesh: Mesh, near: Any) -> None:
    benchmark(lambda: cKDTree(mesh.vertices).query(near, workers=2))


def test_difference(benchmark: Any, mesh: Mesh) -> None:
    other = Mesh(mesh.vertices + [6.0, 2.0, 1.0], mesh.faces)
    found = benchmark.pedantic(difference, args=(mesh, other), rounds=3)
    assert check_solid(found).status == str(manifold3d.Error.NoError.name)


def test_geodesic(benchmark: Any, mesh: Mesh) -> None:
    paths = SurfacePaths(mesh)
    low, high = mesh.vertices[:, 0].argmin(), mesh.vertices[:, 1].argmax()
    benchmark.pedantic(paths.between, args=(mesh.vertices[low], mesh.vertices[high]), rounds=3)
