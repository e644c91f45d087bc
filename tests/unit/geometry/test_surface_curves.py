from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import GeometryError, InputError
from claspwright.geometry import (
    Mesh,
    SurfacePaths,
    ball,
    boundary_loops,
    connected_vertices,
    edge_distance,
    edge_graph,
    geodesic_distance,
    length,
    level_lines,
    merged,
    mesh_edges,
    smoothed_values,
    vertex_normals,
)

SPHERE = ball(4.0, 0.25)
NORTH = int(np.argmax(SPHERE.vertices[:, 2]))
ARC = 4.0 * np.arccos(np.clip(SPHERE.vertices[:, 2] / 4.0, -1, 1))


@pytest.mark.reference("great circle, closed form")
def test_shortest_paths_are_great_circles() -> None:
    paths = SurfacePaths(SPHERE)
    start, end = np.array([4.0, 0, 0]), np.array([0.0, 4, 0])
    line = paths.between(start, end)
    assert length(line) == pytest.approx(2 * np.pi, rel=2e-3)
    assert line[[0, -1]] == pytest.approx(np.stack([start, end]))
    assert np.abs(line[:, 2]).max() < 0.1
    over = paths.through(np.array([[4.0, 0, 0], [0, 0, 4.0], [-4.0, 0, 0]]))
    assert length(over) == pytest.approx(4 * np.pi, rel=3e-3)


def test_paths_between_pieces_are_refused() -> None:
    two = merged(SPHERE, Mesh(SPHERE.vertices + 20.0, SPHERE.faces))
    with pytest.raises(GeometryError, match="separate pieces"):
        SurfacePaths(two).between(np.zeros(3), np.full(3, 20.0))
    assert set(connected_vertices(two)) == {0, 1}


def test_distances_on_the_surface() -> None:
    assert np.abs(geodesic_distance(SPHERE, [NORTH]) - ARC).max() < 0.15
    along = edge_distance(SPHERE, [NORTH])
    assert (along >= ARC - 0.02).all()
    assert (along <= 1.45 * ARC + 1e-9).all()
    near = edge_distance(SPHERE, [NORTH], limit=2.0)
    assert np.isinf(near[ARC > 2.1]).all()
    with pytest.raises(InputError, match="source"):
        geodesic_distance(SPHERE, [])


def test_level_lines_run_with_the_higher_side_on_the_left() -> None:
    (line,) = level_lines(SPHERE, SPHERE.vertices[:, 2], 1.0)
    assert length(line) == pytest.approx(2 * np.pi * np.sqrt(15.0), rel=1e-3)
    assert line[0] == pytest.approx(line[-1])
    assert np.cross(line[0], line[1])[2] > 0
    right = SPHERE.corners[:, :, 0].min(axis=1) > 0
    (arc,) = level_lines(SPHERE, SPHERE.vertices[:, 2], 1.0, right)
    assert length(arc) == pytest.approx(np.pi * np.sqrt(15.0), rel=0.06)
    assert level_lines(SPHERE, SPHERE.vertices[:, 2], 9.0) == ()


def test_borders_keep_the_surface_on_their_left() -> None:
    z = SPHERE.corners[:, :, 2]
    band = Mesh(SPHERE.vertices, SPHERE.faces[(z.min(axis=1) > -2.0) & (z.max(axis=1) < 3.0)])
    lower, upper = boundary_loops(band)
    around = [np.cross(band.vertices[lp[0]], band.vertices[lp[1]])[2] for lp in (lower, upper)]
    assert band.vertices[lower][:, 2].max() < 0
    assert around[0] > 0 > around[1]
    assert len(set(lower)) == len(lower)
    assert boundary_loops(SPHERE) == ()


def test_graph_and_smoothing() -> None:
    graph = edge_graph(SPHERE)
    assert graph.nnz == 2 * len(mesh_edges(SPHERE)[0])
    noise = np.random.default_rng(1).normal(0, 0.05, SPHERE.vertices.shape)
    rough = Mesh(SPHERE.vertices + noise, SPHERE.faces)
    normals = smoothed_values(rough, vertex_normals(rough), 6)
    normals /= np.linalg.norm(normals, axis=1, keepdims=True)
    true = SPHERE.vertices / 4.0
    before = np.arccos(np.clip((vertex_normals(rough) * true).sum(axis=1), -1, 1)).mean()
    assert np.arccos(np.clip((normals * true).sum(axis=1), -1, 1)).mean() < 0.5 * before
    assert smoothed_values(SPHERE, np.ones(len(SPHERE.vertices)), 5) == pytest.approx(1.0)
