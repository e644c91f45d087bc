"""The optional fast solver: one sparse Cholesky factor for all loads, where it is installed.

The extra `fast` brings a permissively licensed binding to oneMKL's PARDISO, which is proprietary
and made for one family of processors. Nothing needs it: without it, and wherever it fails, the
portable solver does the same work.
"""

from __future__ import annotations

import logging
from typing import Any

import numpy as np
from scipy.sparse import csr_array, csr_matrix, triu

from claspwright.base import Floats

log = logging.getLogger(__name__)
POSITIVE_DEFINITE = 2  # PARDISO's number for real, symmetric, positive definite
KEPT = 1e12  # bytes of a matrix up to which the binding compares it instead of hashing it
ENOUGH = 1e-7  # of the residual against the load, beyond which the answer is not taken


def fast_solver() -> type[Any] | None:
    """Class of the fast solver, or None where it is not installed; Any: the binding is untyped."""
    try:
        from pypardiso import PyPardisoSolver
    except (ImportError, OSError):
        return None
    found: type[Any] = PyPardisoSolver
    return found


def solve_fast(solver: type[Any], matrix: csr_array, loads: Floats) -> Floats | None:
    """Displacements by one factor of the whole stiffness.

    Args:
        solver: from `fast_solver`; Any: the binding is untyped.
        matrix: (D, D) symmetric, positive definite stiffness [N/mm].
        loads: (D, K) [N].

    Returns:
        (D, K) displacements [mm]; None where the factor fails or leaves too much of a load.
    """
    upper = csr_matrix(triu(matrix, format="csr"))
    upper.sort_indices()
    made = solver(mtype=POSITIVE_DEFINITE, size_limit_storage=KEPT)
    try:
        made.factorize(upper)
        found = np.asarray(made.solve(upper, np.asfortranarray(loads)), dtype=np.float64)
    except Exception as error:  # noqa: BLE001  the binding raises classes of its own
        log.warning("the fast solver failed, the portable one takes over: %s", error)
        return None
    finally:
        made.free_memory(everything=True)
    size = np.sqrt((loads**2).sum(axis=0))
    size[size == 0] = 1.0
    left = float((np.sqrt(((loads - matrix @ found) ** 2).sum(axis=0)) / size).max())
    if not left < ENOUGH:
        log.warning("the fast solver left %.1e of a load, the portable one takes over", left)
        return None
    return found.reshape(loads.shape)
