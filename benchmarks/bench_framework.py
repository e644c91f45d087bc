"""Times of the framework stage: laying sweeps, drawing the body, the exact cut.

pytest benchmarks/bench_framework.py -q
"""

from __future__ import annotations

from functools import cache

import manifold3d
import numpy as np
from pytest_benchmark.fixture import BenchmarkFixture
from skimage.measure import marching_cubes

from claspwright.base import Floats
from claspwright.framework.bar import pear_section
from claspwright.framework.canvas import TABLE_STEP, Canvas, oval_sweep
from claspwright.geometry import IDENTITY, Field, Grid, Mesh, ball, check_solid, contour, difference

SPACING = 0.15


@cache
def grid() -> Grid:
    """As large as the box of a whole arch, 9 million nodes."""
    return Grid(IDENTITY, np.array([-32.0, -8.0, -6.0]), SPACING, (428, 260, 81))


def horseshoe(count: int = 400) -> tuple[Floats, Floats]:
    turn = np.linspace(0.15, np.pi - 0.15, count)
    line = np.column_stack([28 * np.cos(turn), 24 * np.sin(turn), np.sin(6 * turn)])
    out = np.column_stack([np.cos(turn), np.sin(turn), np.full(count, 0.4)])
    return line, out / np.linalg.norm(out, axis=1, keepdims=True)


@cache
def body() -> Field:
    canvas = Canvas(grid())
    line, normal = horseshoe()
    count = len(line)
    canvas.add(oval_sweep(grid(), line, normal, np.full(count, 2.0), np.full(count, 1.2), 0.5), 0.5)
    for n in range(20, count, 60):
        spoke = line[n] + np.linspace(0, 1, 30)[:, None] * np.array([0.0, 0.0, 4.0])
        up = np.tile(normal[n], (30, 1))
        shape = oval_sweep(grid(), spoke, up, np.full(30, 0.8), np.full(30, 0.6), 0.5)
        canvas.add(shape, 0.5)
    return canvas.field()


@cache
def outer() -> Mesh:
    return contour(body())


@cache
def tissue() -> Mesh:
    unit = ball(1.0, 0.012)
    return Mesh(unit.vertices * [27.5, 23.5, 8.0], unit.faces)


def raw(mesh: Mesh) -> manifold3d.Manifold:
    return manifold3d.Manifold(
        manifold3d.Mesh64(np.array(mesh.vertices, order="C"), np.array(mesh.faces, np.uint64))
    )


def test_oval_sweep(benchmark: BenchmarkFixture) -> None:
    line, normal = horseshoe()
    half, height = np.full(len(line), 2.0), np.full(len(line), 1.2)
    benchmark(oval_sweep, grid(), line, normal, half, height, 0.5)


def test_section_table(benchmark: BenchmarkFixture) -> None:
    section = benchmark(pear_section, 4.0, 2.0)
    assert (section.table < 0).sum() * TABLE_STEP**2 > 5.0


def test_joining_with_fillets(benchmark: BenchmarkFixture) -> None:
    def join() -> Canvas:
        canvas = Canvas(grid())
        line, normal = horseshoe()
        shape = oval_sweep(grid(), line, normal, np.full(400, 2.0), np.full(400, 1.2), 0.5)
        for _ in range(4):
            canvas.add(shape, 0.5)
        return canvas

    benchmark(join)


def test_contour(benchmark: BenchmarkFixture) -> None:
    field = body()
    mesh = benchmark(contour, field)
    assert check_solid(mesh).sound


def test_contour_by_marching_cubes(benchmark: BenchmarkFixture) -> None:
    values = np.array(body().values)
    benchmark(marching_cubes, values, 0.0, spacing=(SPACING,) * 3)


def test_exact_cut(benchmark: BenchmarkFixture) -> None:
    metal, model = outer(), tissue()
    assert check_solid(benchmark(difference, metal, model)).sound


def test_exact_cut_by_manifold(benchmark: BenchmarkFixture) -> None:
    metal, model = outer(), tissue()

    def cut() -> float:
        return float((raw(metal) - raw(model)).volume())

    mine = check_solid(difference(metal, model)).volume_mm3
    assert abs(benchmark(cut) - mine) < 1e-3 * mine
