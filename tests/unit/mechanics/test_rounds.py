"""The solver of the finite elements against a direct one."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.sparse import csc_array
from scipy.sparse.linalg import spsolve

from claspwright.base import ConvergenceError, Floats
from claspwright.mechanics import cut_cells, elasticity, stencil
from claspwright.mechanics.cells import Cells
from claspwright.mechanics.stencil import Stencil, solve, stencil_of
from claspwright.mechanics.two_levels import as_matrix


def bar(p: Floats) -> Floats:
    return np.max(np.abs(p - [2.0, 0.5, 0.5]) - [2.0, 0.5, 0.5], axis=1)


@pytest.fixture(scope="module")
def clamped() -> tuple[Cells, Stencil]:
    cells = cut_cells(bar, np.zeros(3), np.array([4.0, 1.0, 1.0]), 0.25)
    springs = np.zeros((len(cells.nodes), 3, 3))
    springs[cells.nodes[:, 0] < 0.3] = 1e7 * np.eye(3)
    return cells, stencil_of(cells, elasticity(1e5, 0.3), springs)


@pytest.mark.parametrize("count", [1, 3, 19])
def test_displacements_are_those_of_a_direct_solver(
    clamped: tuple[Cells, Stencil], count: int
) -> None:
    """One load, some, and more than the kernels take at once; one of them is no load at all."""
    cells, stiff = clamped
    loads = np.random.default_rng(count).normal(size=(len(cells.nodes), 3, count))
    loads[:, :, 1:2] = 0.0
    found, rounds = solve(stiff, cells, loads)
    matrix = csc_array(as_matrix(stiff.near, stiff.values))
    twin = spsolve(matrix, loads.reshape(-1, count)).reshape(loads.shape)
    assert 0 < rounds < 60
    assert found == pytest.approx(twin, rel=1e-6, abs=1e-6 * np.abs(twin).max())
    again, _ = solve(stiff, cells, loads)
    assert np.array_equal(found, again)


def test_what_does_not_settle_is_told(
    clamped: tuple[Cells, Stencil], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(stencil, "ROUNDS", 1)
    cells, stiff = clamped
    with pytest.raises(ConvergenceError, match="after 1 rounds"):
        solve(stiff, cells, np.ones((len(cells.nodes), 3, 1)))
