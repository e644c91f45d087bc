"""The survey at three sizes, beside ray casting with embreex and libigl.

On a busy machine: --benchmark-timer=time.process_time, which counts the work of all threads.
"""

from __future__ import annotations

import resource
from typing import Any

import igl
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
from claspwright.survey import (
    Survey,
    Zone,
    block_out,
    gauge,
    path_from_tilts,
    search_path,
    survey,
)
from claspwright.survey.judge import PathJudge, ways_of
from claspwright.survey.search import disc
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
    _, shadow = seen.solid_and_shadow()
    benchmark.pedantic(hidden_vertices, args=(arch.scan, shadow), rounds=3, warmup_rounds=1)


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


ZONES: tuple[Zone, ...] = (
    (45, "buccal", 0.25), (45, "lingual", 0.25), (35, "buccal", 0.25), (35, "lingual", 0.25),
)  # fmt: skip


def points_and_ways(arch: DentalArch) -> tuple[Any, Any]:
    """What the cone is read at: starts just off the surface, and the ways out of the mouth."""
    judge = PathJudge(arch, ZONES)
    spots = [*judge.clasps, *judge.opposite, *(f.spot for f in judge.proximal), judge.tissue]
    starts = np.concatenate([spot.points + 0.002 * spot.normals for spot in spots])
    return starts, ways_of(arch, disc(1.0, 20.0))


def test_search_path(benchmark: Any, arch: DentalArch) -> None:
    """The whole cone at 1 degree with its refinement, the distance field included."""
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    found = benchmark.pedantic(search_path, args=(arch, ZONES), rounds=2, warmup_rounds=1)
    benchmark.extra_info["faces"] = len(arch.scan.solid.faces)
    benchmark.extra_info["paths"] = len(found.tried)
    after = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    benchmark.extra_info["more memory MiB"] = (after - before) // 1024
    benchmark.extra_info["memory of all MiB"] = after // 1024


def test_cone_embreex(benchmark: Any, arch: DentalArch) -> None:
    """Whether each way of the cone is blocked, at the same points: no depth, no score."""
    starts, ways = points_and_ways(arch)
    solid = arch.scan.solid

    def cone() -> int:
        scene = rtcore_scene.EmbreeScene()
        TriangleMesh(scene, solid.vertices.astype(np.float32), solid.faces)
        origins = starts.astype(np.float32)
        blocked = 0
        for way in ways.astype(np.float32):
            hits = scene.run(origins, np.tile(way, (len(origins), 1)), query="OCCLUDED")
            blocked += int((np.asarray(hits) >= 0).sum())
        return blocked

    benchmark.extra_info["rays"] = len(starts) * len(ways)
    benchmark.pedantic(cone, rounds=2, warmup_rounds=1)


def test_cone_libigl(benchmark: Any, arch: DentalArch) -> None:
    """A few of those rays; libigl takes them one by one."""
    starts, ways = points_and_ways(arch)
    solid = arch.scan.solid
    some = 20

    def rays() -> None:
        for n in range(some):
            igl.ray_mesh_intersect(
                starts[n * len(starts) // some], ways[n * len(ways) // some],
                np.array(solid.vertices), np.array(solid.faces),
            )  # fmt: skip

    benchmark.pedantic(rays, rounds=2, warmup_rounds=1)
    seconds = benchmark.stats.stats.min / some if benchmark.stats else float("nan")
    benchmark.extra_info["seconds for the cone, reckoned"] = seconds * len(starts) * len(ways)
