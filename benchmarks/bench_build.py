"""Times of build preparation beside trimesh, manifold3d, shapely and VTK, in the same run.

pytest benchmarks/bench_build.py -q

VTK (BSD licence) is not among the locked packages: what needs it is skipped where it is missing.

The part stands in for a framework: a tube round a horseshoe with rungs, 385,000 triangles, 574
layers of 25 um. Where other work loads the machine, `--benchmark-timer=time.process_time` counts
the time of the processor instead.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import TypeVar

import manifold3d
import numpy as np
import pytest
import shapely
import trimesh
from pytest_benchmark.fixture import BenchmarkFixture
from shapely.geometry import LineString, MultiLineString

from claspwright.app.slice_solid import SliceWishes, slice_file
from claspwright.build import (
    HatchPlan,
    LayerPlan,
    Outline,
    Slices,
    expose,
    hatch,
    layer_polygons,
    moved_in,
    nest,
    predict_distortion,
    simplified_slices,
    slice_solid,
    study_orientations,
    support,
)
from claspwright.formats import read_machine, read_process, write_stl
from claspwright.geometry import IDENTITY, Field, Grid, Mesh, contour, volume

LAYER = 0.025
MACHINE, PROCESS = read_machine("round-100"), read_process("cocr-25um")
TAKEN_DIRECTIONS = 2000
T = TypeVar("T")


def _few(benchmark: BenchmarkFixture, work: Callable[[], T], **how: int) -> T:
    """Run a long step a few times only."""
    run: Callable[..., T] = benchmark.pedantic
    return run(work, **how)


@cache
def part() -> Mesh:
    """A horseshoe tube with rungs, tilted, from a distance field."""
    turn = np.linspace(0.1, np.pi - 0.1, 500)
    line = np.column_stack([27 * np.cos(turn), 30 * np.sin(turn), np.zeros(500)])
    rungs = [
        np.column_stack([np.linspace(x, x + 9, 60), np.full(60, y), np.full(60, 1.0)])
        for x in (-30.0, 21.0)
        for y in (6.0, 10.0, 14.0, 18.0)
    ]
    tilt = np.radians(26.0)
    rotation = np.array(
        [[1, 0, 0], [0, np.cos(tilt), -np.sin(tilt)], [0, np.sin(tilt), np.cos(tilt)]]
    )
    points = np.concatenate([line, *rungs]) @ rotation.T
    from scipy.spatial import cKDTree

    spacing = 0.095
    grid = Grid.around(points, IDENTITY, spacing, 3.0)
    axes = grid.axes()
    nodes = np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1).reshape(-1, 3)
    far, _ = cKDTree(points).query(nodes, distance_upper_bound=3.0)
    values = np.minimum(far, 3.0).astype(np.float32).reshape(grid.shape) - np.float32(1.25)
    mesh = contour(Field(grid, values))
    return Mesh(mesh.vertices - [0.0, 0.0, mesh.bounds[0, 2]], mesh.faces)


@cache
def layers() -> Slices:
    return slice_solid(part(), LayerPlan(LAYER))


@cache
def thinned() -> Slices:
    return simplified_slices(layers(), 0.001)


def heights() -> np.ndarray:
    s = layers()
    return s.bottom_mm + LAYER * (np.arange(s.layers) + 0.5)


@pytest.mark.benchmark(group="slice, 25 um")
def test_slice(benchmark: BenchmarkFixture) -> None:
    found = benchmark(lambda: slice_solid(part(), LayerPlan(LAYER)))
    benchmark.extra_info.update(
        faces=len(part().faces), layers=found.layers, contours=found.contours,
        volume_error=found.volume() / volume(part()) - 1.0,
    )  # fmt: skip


@pytest.mark.benchmark(group="slice, 25 um")
def test_slice_manifold3d(benchmark: BenchmarkFixture) -> None:
    body = manifold3d.Manifold(
        manifold3d.Mesh(part().vertices.astype(np.float32), part().faces.astype(np.uint32))
    )
    levels = heights().tolist()
    _few(benchmark, lambda: [body.slice(z).to_polygons() for z in levels], rounds=1)


@pytest.mark.benchmark(group="slice, 25 um")
def test_slice_trimesh_every_tenth(benchmark: BenchmarkFixture) -> None:
    body = trimesh.Trimesh(part().vertices, part().faces, process=False)
    levels = heights()[::10]
    _few(
        benchmark,
        lambda: body.section_multiplane([0.0, 0.0, 0.0], [0.0, 0.0, 1.0], levels),
        rounds=1,
    )


@cache
def vtk_part() -> object:
    """The part as the library holds it; skips where VTK is not installed."""
    core = pytest.importorskip("vtkmodules.vtkCommonCore")
    model = pytest.importorskip("vtkmodules.vtkCommonDataModel")
    support = pytest.importorskip("vtkmodules.util.numpy_support")
    points, cells, data = core.vtkPoints(), model.vtkCellArray(), model.vtkPolyData()
    points.SetDataTypeToDouble()
    points.SetData(support.numpy_to_vtk(part().vertices, deep=True))
    faces = np.ascontiguousarray(part().faces, np.int64)
    cells.SetData(3, support.numpy_to_vtkIdTypeArray(faces.ravel(), deep=True))
    data.SetPoints(points)
    data.SetPolys(cells)
    return data


@pytest.mark.benchmark(group="slice, 25 um")
def test_slice_vtk_every_tenth(benchmark: BenchmarkFixture) -> None:
    """Cutter and stripper of VTK, a plane after the other; VTK is not among the locked packages."""
    body = vtk_part()
    core = pytest.importorskip("vtkmodules.vtkFiltersCore")
    model = pytest.importorskip("vtkmodules.vtkCommonDataModel")

    def cut() -> int:
        found = 0
        for z in heights()[::10]:
            plane, cutter, stripper = model.vtkPlane(), core.vtkCutter(), core.vtkStripper()
            plane.SetOrigin(0.0, 0.0, z)
            plane.SetNormal(0.0, 0.0, 1.0)
            cutter.SetInputData(body)
            cutter.SetCutFunction(plane)
            stripper.SetInputConnection(cutter.GetOutputPort())
            stripper.JoinContiguousSegmentsOn()
            stripper.Update()
            found += stripper.GetOutput().GetNumberOfLines()
        return found

    lines = _few(benchmark, cut, rounds=1)
    benchmark.extra_info.update(contours=lines, ours=int(np.diff(layers().layer_start)[::10].sum()))


@pytest.mark.benchmark(group="offset 50 um, 1 um simplification")
def test_offset(benchmark: BenchmarkFixture) -> None:
    _few(benchmark, lambda: moved_in(simplified_slices(layers(), 0.001), 0.05), rounds=3)


@pytest.mark.benchmark(group="hatch 80 um")
def test_hatch(benchmark: BenchmarkFixture) -> None:
    plan = HatchPlan(0.08, turn_deg=67.0, stripe_mm=5.0, shortest_mm=0.02, serpentine=True)
    found = benchmark(lambda: hatch(thinned(), plan))
    benchmark.extra_info["vectors"] = len(found.vectors)


@pytest.mark.benchmark(group="hatch 80 um")
def test_hatch_shapely_every_twentieth_layer(benchmark: BenchmarkFixture) -> None:
    polygons, layer = layer_polygons(thinned())
    chosen = [shapely.union_all(polygons[layer == k]) for k in range(0, thinned().layers, 20)]

    def fill() -> list[object]:
        out = []
        for one in chosen:
            if one.is_empty:
                continue
            x0, y0, x1, y1 = one.bounds
            lines = [((x0, y), (x1, y)) for y in np.arange(y0 + 0.04, y1, 0.08)]
            out.append(shapely.intersection(one, MultiLineString(lines)))
        return out

    _few(benchmark, fill, rounds=1)


@pytest.mark.benchmark(group="hatch 80 um")
def test_exposure_with_skins(benchmark: BenchmarkFixture) -> None:
    _few(benchmark, lambda: expose(layers(), None, MACHINE, PROCESS), rounds=2)


@pytest.mark.benchmark(group="whole steps")
def test_solid_to_binary_layer_file(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    solid, out = tmp_path / "part.stl", tmp_path / "part.cli"
    write_stl(part(), solid)
    wishes = SliceWishes(25.0, 80.0, binary=True)
    _few(benchmark, lambda: slice_file(solid, out, wishes), rounds=3, warmup_rounds=1)


@pytest.mark.benchmark(group="orientation beside stable poses")
def test_orientation(benchmark: BenchmarkFixture) -> None:
    bare = np.zeros(len(part().faces), bool)
    _few(benchmark, 
        lambda: study_orientations(part(), bare, MACHINE, PROCESS, directions=TAKEN_DIRECTIONS),
        rounds=2, warmup_rounds=1,
    )  # fmt: skip


@pytest.mark.benchmark(group="whole steps")
def test_supports(benchmark: BenchmarkFixture) -> None:
    stood = Mesh(part().vertices + [0.0, 0.0, 4.0], part().faces)
    bare = np.zeros(len(stood.faces), bool)
    found = _few(benchmark, lambda: support(stood, bare, PROCESS.supports, LAYER), rounds=1)
    benchmark.extra_info.update(contacts=len(found.columns), islands=len(found.islands))


@pytest.mark.benchmark(group="orientation beside stable poses")
def test_convex_hull_heights_trimesh(benchmark: BenchmarkFixture) -> None:
    """What a library does for part of the same question: stable poses from the hull alone."""
    body = trimesh.Trimesh(part().vertices, part().faces, process=False)
    _few(benchmark, lambda: trimesh.poses.compute_stable_poses(body, n_samples=1), rounds=1)


@pytest.mark.benchmark(group="whole steps")
def test_distortion(benchmark: BenchmarkFixture) -> None:
    stood = Mesh(part().vertices + [0.0, 0.0, 4.0], part().faces)
    held = support(stood, np.zeros(len(stood.faces), bool), PROCESS.supports, LAYER)
    found = _few(
        benchmark,
        lambda: predict_distortion(
            stood, held.solid, (), PROCESS.distortion, modulus=210_000.0, poisson=0.3
        ),
        rounds=1,
    )
    benchmark.extra_info.update(lumps=found.lumps, cells=len(found.cut.cells.place))


@pytest.mark.benchmark(group="whole steps")
def test_platform_of_horseshoes(benchmark: BenchmarkFixture) -> None:
    ring = LineString([(24 * np.cos(t), 20 * np.sin(t)) for t in np.linspace(0.2, 2.94, 40)])
    shape = shapely.buffer(ring, 4.0)
    parts = [Outline(f"part {n:02d}", shape, 20.0) for n in range(12)]
    found = _few(benchmark, lambda: nest(parts, MACHINE, 1.5), rounds=1, warmup_rounds=1)
    benchmark.extra_info["a_platform"] = [len(one) for one in found]
