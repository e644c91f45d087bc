"""Pictures, their depth buffer beside rays of Embree; packing beside plain deflate."""

from __future__ import annotations

import zlib
from typing import Any

import numpy as np
import pytest
import trimesh
from embreex.mesh_construction import TriangleMesh
from embreex.rtcore_scene import EmbreeScene

from claspwright.geometry import Mesh
from claspwright.report import Item, Scene, Stage, render, view
from claspwright.report.hits import first_hits
from claspwright.report.packing import packed


def bumpy(subdivisions: int) -> Mesh:
    ball = trimesh.creation.icosphere(subdivisions=subdivisions)
    unit = np.asarray(ball.vertices)
    height = 20 + 0.5 * np.sin(9 * unit[:, :1]) * np.cos(7 * unit[:, 1:2])
    return Mesh(unit * height, np.asarray(ball.faces))


SIZES = [5, 6, 7]  # 20k, 82k, 328k triangles


@pytest.mark.parametrize("subdivisions", SIZES)
def test_picture(benchmark: Any, subdivisions: int) -> None:
    stage = Stage(Scene((Item(bumpy(subdivisions)),)))
    benchmark(render, stage, view("occlusal"), (820, 500))


@pytest.mark.parametrize("subdivisions", SIZES)
def test_first_hits(benchmark: Any, subdivisions: int) -> None:
    meshes = (bumpy(subdivisions),)
    across = np.linspace(-22, 22, 1000)
    hits = benchmark(first_hits, meshes, np.eye(3), across, across[::-1])
    assert (hits.item >= 0).mean() > 0.5


@pytest.mark.parametrize("subdivisions", SIZES)
def test_rays_of_embree(benchmark: Any, subdivisions: int) -> None:
    scene = EmbreeScene()
    held = TriangleMesh(scene, bumpy(subdivisions).corners.astype(np.float32))
    assert held is not None
    across = np.linspace(-22, 22, 1000)
    x, y = np.meshgrid(across, across[::-1])
    eyes = np.column_stack([x.ravel(), y.ravel(), np.full(x.size, 30.0)]).astype(np.float32)
    way = np.tile(np.array([0.0, 0.0, -1.0], dtype=np.float32), (len(eyes), 1))
    benchmark(scene.run, eyes, way, output=1)


@pytest.mark.parametrize("subdivisions", SIZES)
def test_packing(benchmark: Any, subdivisions: int) -> None:
    mesh = bumpy(subdivisions)
    made = benchmark.pedantic(packed, (mesh,), rounds=2)
    plain = len(zlib.compress(mesh.vertices.astype("<f4").tobytes() + mesh.faces.tobytes(), 9))
    assert len(made.text) * 3 / 4 < plain  # bytes, deflated both
