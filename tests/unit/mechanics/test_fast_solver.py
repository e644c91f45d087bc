"""The optional solver: taken where it is there, checked, and left where it fails."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from scipy.sparse import csr_array
from scipy.sparse.linalg import spsolve

from claspwright.base import Floats
from claspwright.mechanics import Push, Spring, bear, cut_cells, stencil
from claspwright.mechanics.fast_solver import solve_fast


class StandIn:
    """A direct solver of the binding's shape, from the upper triangle alone."""

    wrong = 0.0

    def __init__(self, mtype: int, size_limit_storage: float) -> None:
        assert mtype == 2 and size_limit_storage > 1e9

    def factorize(self, upper: Any) -> None:
        self.whole = upper + upper.T - csr_array(np.diag(upper.diagonal()))

    def solve(self, upper: Any, loads: Floats) -> Floats:
        return np.asarray(spsolve(self.whole.tocsc(), loads)).reshape(loads.shape) + self.wrong

    def free_memory(self, everything: bool) -> None:
        assert everything


class Wrong(StandIn):
    wrong = 1.0


class Broken(StandIn):
    def factorize(self, upper: Any) -> None:
        raise ValueError("not positive definite")


MATRIX = csr_array(np.array([[4.0, -1.0, 0.0], [-1.0, 4.0, -1.0], [0.0, -1.0, 4.0]]))
LOADS = np.array([[1.0, 0.0], [0.0, 2.0], [3.0, 0.0]])


def test_a_sound_answer_is_taken_and_a_bad_one_is_not() -> None:
    found = solve_fast(StandIn, MATRIX, LOADS)
    assert found is not None
    assert np.allclose(MATRIX @ found, LOADS)
    assert solve_fast(Wrong, MATRIX, LOADS) is None
    assert solve_fast(Broken, MATRIX, LOADS) is None


@pytest.mark.parametrize(("solver", "portable"), [(StandIn, False), (Wrong, True), (None, True)])
def test_both_solvers_give_the_same_displacements(
    monkeypatch: pytest.MonkeyPatch, solver: type[Any] | None, portable: bool
) -> None:
    def bar(p: Floats) -> Floats:
        return np.max(np.abs(p - [2.0, 0.5, 0.5]) - [2.0, 0.5, 0.5], axis=1)

    cells = cut_cells(bar, np.zeros(3), np.array([4.0, 1.0, 1.0]), 0.5)
    root, tip = np.array([[0.1, 0.5, 0.5], [1.0, 0.5, 0.5]]), np.array([[3.9, 0.5, 0.5]])
    held = [Spring(root, 1e4 * np.eye(3)), Spring(root[:1], 1e4 * np.eye(3), 0.6)]
    push = [Push("tip", tip, np.array([[0.0, 0.0, 1.0]]), 0.6)]
    monkeypatch.setattr(stencil, "fast_solver", lambda: solver)
    found = bear(cells, held, push, modulus=1e5, poisson=0.3)
    slow = bear(cells, held, push, modulus=1e5, poisson=0.3, fast=False)
    assert (found.rounds > 0) == portable and slow.rounds > 0
    assert np.allclose(found.moved, slow.moved, rtol=1e-5, atol=1e-9)
