"""Finite elements of a half-round arm: cut cells and the two-level solver, beside scikit-fem."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from claspwright.base import Floats
from claspwright.mechanics import Answer, Push, bear, cut_cells, fixed

E, NU, LENGTH = 210_000.0, 0.3, 12.0


def arm(p: Floats) -> Floats:
    radius = 0.85 - 0.38 * p[:, 0] / LENGTH
    body = np.maximum(np.hypot(p[:, 1], p[:, 2]) - radius, -p[:, 2])
    return np.maximum(body, np.maximum(-p[:, 0], p[:, 0] - LENGTH))


def by_cells(step: float) -> Answer:
    cells = cut_cells(arm, np.array([0.0, -1.2, 0.0]), np.array([LENGTH, 1.2, 1.2]), step)
    root = cells.nodes[cells.nodes[:, 0] < 1e-9]
    tip = cells.nodes[cells.nodes[:, 0] > LENGTH - 1e-9]
    tip = tip[arm(tip - [1e-6, 0, 0]) < 0]
    push = Push("tip", tip, np.tile([0.0, 0.0, 1.0 / len(tip)], (len(tip), 1)))
    return bear(cells, [fixed(root, E, step)], [push], modulus=E, poisson=NU)


@pytest.mark.parametrize("step", [0.3, 0.2, 0.1])
def test_cut_cells(benchmark: Any, step: float) -> None:
    found = benchmark.pedantic(by_cells, (step,), rounds=3, warmup_rounds=1)
    assert found.work_mm[0] == pytest.approx(0.0866, rel=0.02)


@pytest.mark.parametrize("parts", [12, 24])
def test_scikit_fem_with_its_usual_solver(benchmark: Any, parts: int) -> None:
    """A straight half-round of hexahedra that follow its surface, quadratic."""
    skfem = pytest.importorskip("skfem")
    from skfem.helpers import ddot, eye, sym_grad, trace

    def solve() -> float:
        across, up = np.linspace(-1, 1, 9), np.linspace(0, 1, 5)
        mesh = skfem.MeshHex.init_tensor(np.linspace(0, LENGTH, parts + 1), across, up)
        x, u, v = mesh.p
        turn = np.pi / 2 * (1 - u)  # fan the grid out into half a disc
        radius = (0.85 - 0.38 * x / LENGTH) * v
        mesh = skfem.MeshHex(np.stack([x, radius * np.cos(turn), radius * np.sin(turn)]), mesh.t)
        basis = skfem.Basis(mesh, skfem.ElementVector(skfem.ElementHex2()), intorder=4)
        lame, shear = E * NU / ((1 + NU) * (1 - 2 * NU)), E / (2 * (1 + NU))

        @skfem.BilinearForm
        def stiffness(a: Any, b: Any, w: Any) -> Any:
            s = 2 * shear * sym_grad(a) + lame * eye(trace(sym_grad(a)), 3)
            return ddot(s, sym_grad(b))

        matrix = stiffness.assemble(basis)
        end = basis.get_dofs(lambda p: np.isclose(p[0], LENGTH)).all("u^3")
        load = np.zeros(basis.N)
        load[end] = 1.0 / len(end)
        root = basis.get_dofs(lambda p: np.isclose(p[0], 0.0))
        moved = skfem.solve(*skfem.condense(matrix, load, D=root))
        return float(load @ moved)

    assert benchmark.pedantic(solve, rounds=1) > 0
