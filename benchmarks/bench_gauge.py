"""The gauge at three sizes, quickly and exactly, beside rays of embreex and libigl.

On a busy machine: --benchmark-timer=time.process_time, which counts the work of all threads.
"""

from __future__ import annotations

from typing import Any

import igl
import numpy as np
import pytest
from embreex import rtcore_scene
from embreex.mesh_construction import TriangleMesh

from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Grid,
    Mesh,
    ball,
    box,
    contour,
    distance_field,
    mesh_edges,
    union,
    vertex_normals,
)
from claspwright.survey import Shadow, cast_shadow, quick_field, quick_undercuts, read_gauge

UP = np.array([0.05, 0.0, 1.0]) / np.linalg.norm([0.05, 0.0, 1.0])


def row_of_crowns(edge: float) -> Mesh:
    """Ten balls of 4 mm on a slab, in a half circle, meshed evenly."""
    unit = ball(4.0, 0.5)
    turn = np.radians(20.0 + 15.5 * np.arange(10))
    places = np.column_stack([30.0 * np.cos(turn), 30.0 * np.sin(turn) - 12.0, 0 * turn])
    crowns = [Mesh(unit.vertices + place, unit.faces) for place in places]
    slab = box(np.array([-36.0, -14, -8]), np.array([36.0, 24, -2.5]))
    rough = union(slab, *crowns)
    grid = Grid.around(rough.vertices, IDENTITY, edge, 4 * edge)
    return contour(distance_field(DistanceTree(rough), grid, 6 * edge))


@pytest.fixture(scope="module", params=(0.6, 0.3, 0.22), ids=lambda edge: f"edge {edge} mm")
def arch(request: Any) -> Mesh:
    return row_of_crowns(request.param)


@pytest.fixture(scope="module")
def shadow(arch: Mesh) -> Shadow:
    return cast_shadow(arch, UP)


def start_of(arch: Mesh) -> Any:
    return arch.vertices + 0.002 * vertex_normals(arch)


def test_shadow_of_one_direction(benchmark: Any, arch: Mesh) -> None:
    edges = mesh_edges(arch)  # once a mesh
    benchmark.extra_info["faces"] = len(arch.faces)
    benchmark.pedantic(
        cast_shadow, args=(arch, UP), kwargs={"edges": edges}, rounds=3, warmup_rounds=1
    )


def test_quick_reading_of_one_direction(benchmark: Any, arch: Mesh, shadow: Shadow) -> None:
    """Undercut of every vertex along one path; the field is made once for all paths."""
    field = quick_field(DistanceTree(arch), arch.vertices)
    normals = vertex_normals(arch)
    crown = (arch.vertices[:, 2] > -2.4) & shadow.hides(start_of(arch))
    exact = read_gauge(shadow, arch.vertices[crown], normals[crown]).undercut_mm
    depth = benchmark.pedantic(
        quick_undercuts,
        args=(field, arch.vertices, UP),
        kwargs={"normals": normals},
        rounds=7,
        warmup_rounds=1,
    )
    amiss = depth[crown, 0] - exact
    benchmark.extra_info["points"] = len(arch.vertices)
    benchmark.extra_info["faces"] = len(arch.faces)
    benchmark.extra_info["off the exact one, 1, 50, 99 %"] = np.percentile(
        amiss, (1, 50, 99)
    ).tolist()


def test_quick_field(benchmark: Any, arch: Mesh) -> None:
    tree = DistanceTree(arch)
    benchmark.pedantic(quick_field, args=(tree, arch.vertices), rounds=2, warmup_rounds=1)


def test_hidden_vertices(benchmark: Any, arch: Mesh, shadow: Shadow) -> None:
    start = start_of(arch)
    benchmark.pedantic(shadow.hides, args=(start,), rounds=3, warmup_rounds=1)


def test_hidden_vertices_embreex(benchmark: Any, arch: Mesh) -> None:
    scene = rtcore_scene.EmbreeScene()
    TriangleMesh(scene, arch.vertices.astype(np.float32), arch.faces)
    start = start_of(arch).astype(np.float32)
    ways = np.tile(UP.astype(np.float32), (len(start), 1))
    benchmark.pedantic(lambda: scene.run(start, ways, query="OCCLUDED"), rounds=3, warmup_rounds=1)


def test_hidden_vertices_libigl(benchmark: Any, arch: Mesh) -> None:
    """A hundred of them: brute force there."""
    start = start_of(arch)[:100]
    ways = np.tile(UP, (len(start), 1))
    vertices, faces = np.array(arch.vertices), np.array(arch.faces, dtype=np.int64)

    def rays() -> None:
        for point, way in zip(start, ways, strict=True):
            igl.ray_mesh_intersect(point, way, vertices, faces)

    benchmark.pedantic(rays, rounds=1)


def test_exact_reading_of_the_crowns(benchmark: Any, arch: Mesh, shadow: Shadow) -> None:
    crown = arch.vertices[:, 2] > -2.4
    points, normals = arch.vertices[crown], vertex_normals(arch)[crown]
    hidden = shadow.hides(points + 0.002 * normals)
    benchmark.extra_info["points"] = int(hidden.sum())
    benchmark.pedantic(
        read_gauge, args=(shadow, points[hidden], normals[hidden]), rounds=3, warmup_rounds=1
    )
