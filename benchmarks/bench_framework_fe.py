"""Finite elements of a framework of 1 cm3 under twelve loads, beside scikit-fem.

Processor time, nodes and memory stand in the extra figures of `--benchmark-json`. scikit-fem takes
the same cells, whole, as trilinear hexahedra and its usual solver, on coarser cells: the factor of
finer ones outgrows the memory.
"""

from __future__ import annotations

import resource
import time
from typing import Any

import numpy as np
import pytest

from claspwright.base import Floats
from claspwright.mechanics import Answer, Cells, Push, Spring, bear, cut_cells

E, NU = 210_000.0, 0.3
BEND, LOADS, PATCH = 23.0, 12, 0.6
LOW, HIGH = np.array([-29.0, -16.0, -2.4]), np.array([29.0, 29.0, 5.0])
BACK, PITCH = 15.0, 2.4  # length of either lattice, and between its bars, mm


def framework(p: Floats) -> Floats:
    """A horseshoe of a bar with a lattice at either end and eight arms and rests; about 1 cm3."""
    x, y, z = p.T
    front = np.hypot(x, np.maximum(y, 0.0)) - BEND
    bar = np.where(y >= 0, np.hypot(front, z), 9.0) - 1.88
    side = np.abs(x) - BEND
    along = np.clip(y, -BACK, 0.0)
    out = []
    for row in (-2.4, 0.0, 2.4):
        out.append(np.sqrt((side - row) ** 2 + (y - along) ** 2 + z**2) - 0.62)
    rung = y - PITCH * np.round(np.clip(y, -BACK, 0.0) / PITCH)
    out.append(np.sqrt(np.maximum(np.abs(side) - 2.4, 0.0) ** 2 + rung**2 + z**2) - 0.62)
    solid = np.minimum.reduce([bar, *out])
    for turn in np.radians([20.0, 45.0, 70.0, 85.0, 95.0, 110.0, 135.0, 160.0]):
        way = np.array([np.cos(turn), np.sin(turn)])
        reach = np.clip(p[:, :2] @ way, BEND, BEND + 4.0)
        rise = 0.8 * (reach - BEND)
        gap = np.hypot(np.hypot(x - reach * way[0], y - reach * way[1]), z - rise)
        solid = np.minimum(solid, gap - 0.75)
    return solid


def loads() -> tuple[list[Spring], list[Push]]:
    """Rests at eight places, and twelve bites: on the rests and along both lattices."""
    turns = np.radians([20.0, 45.0, 70.0, 85.0, 95.0, 110.0, 135.0, 160.0])
    rests = np.stack([27 * np.cos(turns), 27 * np.sin(turns), np.full(8, 3.2)], axis=1)
    ends = [np.array([[s * BEND, -at, 0.0]]) for s in (-1, 1) for at in (4.8, 12.0)]
    spots = [*(rest[None] for rest in rests), *ends]
    springs = [Spring(rest[None], 2000.0 * np.eye(3), PATCH) for rest in rests]
    push = np.array([[0.0, 0.0, -60.0]])
    return springs, [Push(f"bite {k}", at, push, PATCH) for k, at in enumerate(spots)]


def cells_of(step: float) -> Cells:
    return cut_cells(framework, LOW, HIGH, step)


def by_cells(step: float) -> Answer:
    springs, pushes = loads()
    assert len(pushes) == LOADS
    return bear(cells_of(step), springs, pushes, modulus=E, poisson=NU)


@pytest.mark.parametrize("step", [0.3, 0.2])
def test_a_framework(benchmark: Any, step: float) -> None:
    used = time.process_time()
    found = benchmark.pedantic(by_cells, (step,), rounds=1)
    benchmark.extra_info.update(
        volume_mm3=round(found.cells.volume), nodes=len(found.cells.nodes),
        loads=len(found.names), rounds=found.rounds,
        processor_s=round(time.process_time() - used, 1),
        most_gb_so_far=round(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e6, 1),
    )  # fmt: skip
    assert found.cells.volume == pytest.approx(1000.0, rel=0.1)
    assert found.work_mm.min() > 0


@pytest.mark.parametrize("step", [0.5])
def test_scikit_fem_with_its_usual_solver(benchmark: Any, step: float) -> None:
    """The full cells alone, as trilinear hexahedra, one factor for all loads."""
    skfem = pytest.importorskip("skfem")
    from scipy.sparse import diags_array
    from scipy.sparse.linalg import splu
    from skfem.models.elasticity import lame_parameters, linear_elasticity

    cells = cells_of(step)
    springs, pushes = loads()

    def solve() -> Floats:
        one = skfem.MeshHex()
        mine = np.rint(one.p[:, one.t[:, 0]].T @ [4, 2, 1]).astype(int)
        corners = np.ascontiguousarray(cells.corners[:, mine].T.astype(np.int64))
        mesh = skfem.MeshHex(np.ascontiguousarray(cells.nodes.T), corners)
        basis = skfem.Basis(mesh, skfem.ElementVector(skfem.ElementHex1()), intorder=2)
        matrix = linear_elasticity(*lame_parameters(E, NU)).assemble(basis).tocsc()
        load = np.zeros((basis.N, len(pushes)))
        held = np.zeros(basis.N)
        for k, push in enumerate(pushes):
            node = int(np.linalg.norm(cells.nodes - push.points[0], axis=1).argmin())
            load[basis.nodal_dofs[2, node], k] = push.forces[0, 2]
        for spring in springs:
            node = int(np.linalg.norm(cells.nodes - spring.points[0], axis=1).argmin())
            held[basis.nodal_dofs[:, node]] += spring.stiffness[0, 0]
        matrix = matrix + diags_array(held).tocsc()
        return np.asarray(splu(matrix).solve(load))

    used = time.process_time()
    found = benchmark.pedantic(solve, rounds=1)
    benchmark.extra_info.update(
        nodes=len(cells.nodes), processor_s=round(time.process_time() - used, 1)
    )
    assert np.isfinite(found).all()
