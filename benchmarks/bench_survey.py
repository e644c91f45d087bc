"""The survey at three sizes, beside ray casting with embreex and libigl."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from embreex import rtcore_scene
from embreex.mesh_construction import TriangleMesh

from claspwright.arch import DentalArch, MasterScan, Span, Tooth
from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Grid,
    Mesh,
    ball,
    box,
    contour,
    distance_field,
    union,
)
from claspwright.survey import Survey, block_out, gauge, path_from_tilts, search_path, survey
from claspwright.survey.surveying import hidden_vertices

TEETH = {code: n for n, code in enumerate((45, 44, 43, 33, 34, 35))}


def centre_of(number: int) -> Any:
    turn = np.radians(20.0 + 28.0 * number)
    return np.array([22.0 * np.cos(turn), 22.0 * np.sin(turn) - 10.0, 0.0])


def row_of_balls(edge: float) -> DentalArch:
    """Six balls on a slab, in a half circle, meshed evenly."""
    unit = ball(4.0, 0.5)
    crowns = [Mesh(unit.vertices + centre_of(n), unit.faces) for n in TEETH.values()]
    slab = box(np.array([-29.0, -14, -10]), np.array([29.0, 20, -2.5]))
    rough = union(slab, *crowns)
    grid = Grid.around(rough.vertices, IDENTITY, edge, 4 * edge)
    solid = contour(distance_field(DistanceTree(rough), grid, 6 * edge))
    middle = solid.corners.mean(axis=1)
    crown = np.zeros(len(solid.faces), np.int32)
    teeth = {}
    for code, n in TEETH.items():
        centre = centre_of(n)
        on = (np.linalg.norm(middle - centre, axis=1) < 4.1) & (middle[:, 2] > -2.4)
        crown[on] = code
        out = centre / np.linalg.norm(centre)
        turn = np.linspace(0, 2 * np.pi, 36, endpoint=False)
        margin = centre + np.column_stack([3.1 * np.cos(turn), 3.1 * np.sin(turn), 0 * turn - 2.5])
        mesial = np.cross([0, 0, 1.0], out)
        teeth[code] = Tooth(code, centre, np.flatnonzero(on), margin, centre, mesial, out,
                            8.0, 8.0, 6.5)  # fmt: skip
    crest = np.stack([centre_of(0) + [0, -t, -2.5] for t in range(5, 12)])
    sideways = np.tile([1.0, 0, 0], (7, 1))
    span = Span((46, 47), (None, 45), crest[::-1], sideways, np.full(7, 5.0), np.full(7, 5.0))
    scan = MasterScan("mandible", solid, solid, IDENTITY, edge)
    return DentalArch(scan, teeth, (span,), crown)


@pytest.fixture(scope="module", params=(0.6, 0.3, 0.15), ids=lambda edge: f"edge {edge} mm")
def arch(request: Any) -> DentalArch:
    return row_of_balls(request.param)


@pytest.fixture(scope="module")
def seen(arch: DentalArch) -> Survey:
    return survey(arch, path_from_tilts("mandible", 3.0, 0.0))


def test_survey(benchmark: Any, arch: DentalArch) -> None:
    path = path_from_tilts("mandible", 3.0, 0.0)
    benchmark.extra_info["faces"] = len(arch.scan.solid.faces)
    benchmark.pedantic(survey, args=(arch, path), rounds=2, warmup_rounds=1)


def test_gauge(benchmark: Any, arch: DentalArch, seen: Survey) -> None:
    points = arch.scan.surface.vertices[seen.hidden][:5000]
    benchmark.extra_info["points"] = len(points)
    benchmark.pedantic(gauge, args=(seen, points), rounds=3, warmup_rounds=1)


def test_hidden_vertices(benchmark: Any, arch: DentalArch, seen: Survey) -> None:
    tree = DistanceTree(arch.scan.solid)
    benchmark.pedantic(
        hidden_vertices, args=(arch.scan, tree, seen.path.direction), rounds=3, warmup_rounds=1
    )


def test_hidden_vertices_embreex(benchmark: Any, arch: DentalArch, seen: Survey) -> None:
    solid = arch.scan.solid
    scene = rtcore_scene.EmbreeScene()
    TriangleMesh(scene, solid.vertices.astype(np.float32), solid.faces)
    way = seen.path.direction
    start = (arch.scan.surface.vertices + 0.002 * way).astype(np.float32)
    ways = np.tile(way.astype(np.float32), (len(start), 1))
    benchmark.pedantic(lambda: scene.run(start, ways, query="OCCLUDED"), rounds=3, warmup_rounds=1)


def test_block_out(benchmark: Any, arch: DentalArch, seen: Survey) -> None:
    benchmark.pedantic(block_out, args=(arch, seen), rounds=2, warmup_rounds=1)


def test_search_path(benchmark: Any, arch: DentalArch) -> None:
    zones = tuple((code, side, 0.25) for code in (45, 35) for side in ("buccal", "lingual"))
    found = benchmark.pedantic(search_path, args=(arch, zones), rounds=2, warmup_rounds=1)
    benchmark.extra_info["paths"] = len(found.tried)
