"""The stiffness of a whole solid as a stencil over its nodes, and what solves it.

Conjugate gradients for many loads at once, or the fast solver where it is installed. The
preconditioner has two levels: a block-Jacobi polynomial on the nodes, and a coarse space of six
rigid motions for each cluster of joined nodes, smoothed once and solved directly. Thin parts that
stand side by side never share a cluster.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.sparse import bsr_array, coo_array, csc_array, csr_array
from scipy.sparse.csgraph import connected_components
from scipy.sparse.linalg import LinearOperator, eigsh, splu

from claspwright.base import ConvergenceError, Floats, Ints, Progress, part, silent
from claspwright.geometry import in_chunks
from claspwright.mechanics import _cell_kernels as kernels
from claspwright.mechanics.cells import Cells, cell_stiffness, rigid_motions
from claspwright.mechanics.fast_solver import fast_solver, solve_fast

CHUNK = 4000  # rows of a product that one piece of work takes
CLUSTER = 4  # steps of the grid along each edge of a cluster of nodes
DEGREE = 3  # of the smoothing polynomial
TOLERANCE = 1e-8  # of the residual against the load
ROUNDS = 600


@dataclass(frozen=True, slots=True, eq=False)
class Stencil:
    """Stiffness of N nodes, 27 neighbours each."""

    near: Ints  # (N, 27)
    values: Floats  # (N, 27, 3, 3) N/mm
    inverse: Floats  # (N, 3, 3) of each node's own block

    def times(self, x: Floats) -> Floats:
        """(N, 3, K) product with K displacement fields."""
        out = np.empty_like(x)

        def work(first: int, last: int) -> None:
            kernels.product(first, last, self.near, self.values, x, out)

        in_chunks(work, len(x), CHUNK)
        return out


def stencil_of(cells: Cells, material: Floats, springs: Floats) -> Stencil:
    """Stiffness of a solid on springs.

    Args:
        cells: the solid.
        material: (6, 6) elasticity [MPa].
        springs: (N, 3, 3) stiffness of each node's own spring to the ground [N/mm].
    """
    each, kind = cell_stiffness(cells, material)
    values = np.zeros((len(cells.nodes), 27, 3, 3))
    kernels.scatter(cells.corners, each, kind, values)
    values[:, 13] += springs
    return Stencil(cells.near, values, np.asarray(np.linalg.inv(values[:, 13]), dtype=np.float64))


def solve(
    stencil: Stencil,
    cells: Cells,
    loads: Floats,
    *,
    tolerance: float = TOLERANCE,
    fast: bool = True,
    progress: Progress = silent,
) -> tuple[Floats, int]:
    """Displacements under K loads.

    Args:
        stencil: stiffness of the solid on its springs.
        cells: the solid.
        loads: (N, 3, K) [N].
        tolerance: of the residual against the load.
        fast: take the fast solver where it is installed.
        progress: told of each round.

    Returns:
        (N, 3, K) displacements [mm] and the number of rounds; 0 where the fast solver did it.

    Raises:
        ConvergenceError: a load does not settle within its rounds.
    """
    solver = fast_solver() if fast else None
    if solver is not None:
        size = 3 * len(stencil.near)
        found = solve_fast(solver, csr_array(_as_matrix(stencil)), loads.reshape(size, -1))
        if found is not None:
            progress(1.0, "finite elements")
            return found.reshape(loads.shape), 0
    two = _TwoLevels(stencil, cells, part(progress, 0.0, 0.3))
    x = np.zeros_like(loads)
    residual = loads.copy()
    size = np.sqrt((loads**2).sum(axis=(0, 1)))
    size[size == 0] = 1.0
    ready = two.apply(residual)
    along = ready.copy()
    energy = (residual * ready).sum(axis=(0, 1))
    for turn in range(ROUNDS):
        pushed = stencil.times(along)
        work = (along * pushed).sum(axis=(0, 1))
        step = np.divide(energy, work, out=np.zeros_like(energy), where=work > 0)
        x += step * along
        residual -= step * pushed
        left = float((np.sqrt((residual**2).sum(axis=(0, 1))) / size).max())
        progress(0.3 + 0.7 * min(np.log(left) / np.log(tolerance), 1.0) if left < 1 else 0.3,
                 "finite elements")  # fmt: skip
        if left < tolerance:
            return x, turn + 1
        ready = two.apply(residual)
        fresh = (residual * ready).sum(axis=(0, 1))
        along = ready + np.divide(fresh, energy, out=np.zeros_like(fresh), where=energy > 0) * along
        energy = fresh
    raise ConvergenceError(
        f"the finite elements left {left:.1e} of the load after {ROUNDS} rounds, "
        f"{tolerance:.0e} asked for",
        remedy="A loose piece without support cannot carry a load: see the bodies of the solid.",
    )


class _TwoLevels:
    """The preconditioner: smooth, correct on the clusters, smooth."""

    def __init__(self, stencil: Stencil, cells: Cells, progress: Progress) -> None:
        self.stencil = stencil
        self.highest = 1.1 * _highest(stencil)
        progress(0.2, "finite elements: clusters")
        cluster = clusters(cells)
        rigid = _rigid_motions(cells, cluster)
        matrix = _as_matrix(stencil)
        progress(0.4, "finite elements: coarse space")
        size = len(cells.nodes)
        blocks = bsr_array(
            (stencil.inverse, np.arange(size), np.arange(size + 1)), shape=(3 * size, 3 * size)
        )
        smoothed = rigid - (4.0 / 3.0 / self.highest) * (blocks @ (matrix @ rigid))
        self.down = csr_array(smoothed.T)
        self.up = csr_array(smoothed)
        coarse = csc_array(self.down @ (matrix @ self.up))
        progress(0.8, "finite elements: coarse factor")
        self.factor = splu(
            coarse + _faint(coarse), permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0,
            options={"SymmetricMode": True},
        )  # fmt: skip
        progress(1.0, "finite elements: coarse factor")

    def apply(self, residual: Floats) -> Floats:
        """About the inverse of the stiffness times (N, 3, K) residuals; symmetric."""
        many = residual.shape[2]
        x = np.zeros_like(residual)
        self._smooth(x, residual, fresh=True)
        left = (residual - self.stencil.times(x)).reshape(-1, many)
        fix = self.up @ self.factor.solve(self.down @ left)
        x += fix.reshape(x.shape)
        self._smooth(x, residual, fresh=False)
        return x

    def _smooth(self, x: Floats, load: Floats, *, fresh: bool) -> None:
        """Chebyshev's polynomial over the upper part of the spectrum."""
        low, high = self.highest / 12.0, self.highest
        middle, half = (high + low) / 2, (high - low) / 2
        step = np.zeros_like(x)
        ratio = 0.0
        for n in range(DEGREE):
            residual = load if fresh and n == 0 else load - self.stencil.times(x)
            if n == 0:
                keep, scale = 0.0, 1.0 / middle
                ratio = half / middle
            else:
                after = 1.0 / (2.0 * middle / half - ratio)
                keep, scale = after * ratio, 2.0 * after / half
                ratio = after

            def work(first: int, last: int, r: Floats = residual, s: float = scale,
                     k: float = keep) -> None:  # fmt: skip
                kernels.smooth_step(first, last, self.stencil.inverse, r, s, k, step, x)

            in_chunks(work, len(x), CHUNK)


def clusters(cells: Cells) -> Ints:
    """(N,) cluster of each node: a block of the grid, split where its nodes are not joined."""
    spot = np.rint((cells.nodes - cells.origin) / cells.step).astype(np.int64)
    block = spot // CLUSTER
    span = block.max(axis=0) + 1
    key = (block[:, 0] * span[1] + block[:, 1]) * span[2] + block[:, 2]
    edges = np.concatenate([cells.corners[:, [a, b]] for a, b in _CELL_EDGES])
    same = key[edges[:, 0]] == key[edges[:, 1]]
    edges = edges[same]
    graph = coo_array(
        (np.ones(len(edges), dtype=np.int8), (edges[:, 0], edges[:, 1])),
        shape=(len(key), len(key)),
    )
    return np.asarray(connected_components(graph, directed=False)[1])


_CELL_EDGES = tuple(
    (a, a + bit) for bit in (1, 2, 4) for a in range(8) if not a & bit
)  # corners of a cell, z fastest


def _rigid_motions(cells: Cells, cluster: Ints) -> csr_array:
    """(3 N, 6 C) rigid motions of each cluster about its middle, made orthonormal."""
    count = int(cluster.max()) + 1
    size = np.bincount(cluster, minlength=count)
    middle = np.stack(
        [np.bincount(cluster, cells.nodes[:, a], minlength=count) / size for a in range(3)], axis=1
    )
    lever = (cells.nodes - middle[cluster]) / (CLUSTER * cells.step)
    motion = rigid_motions(lever)
    gram = np.zeros((count, 6, 6))
    np.add.at(gram, cluster, np.einsum("nia,nib->nab", motion, motion))
    value, vector = np.linalg.eigh(gram)
    sound = value > 1e-6 * value[:, -1:]
    scale = np.where(sound, 1.0 / np.sqrt(np.where(sound, value, 1.0)), 0.0)
    unit = np.einsum("nia,nab->nib", motion, (vector * scale[:, None, :])[cluster])
    rows = np.repeat(np.arange(3 * len(cluster)), 6)
    columns = (6 * cluster[:, None, None] + np.arange(6)).repeat(3, axis=1).ravel()
    made = csr_array((unit.ravel(), (rows, columns)), shape=(3 * len(cluster), 6 * count))
    made.eliminate_zeros()
    return made


def _as_matrix(stencil: Stencil) -> bsr_array:
    """The stencil as a sparse matrix of 3 x 3 blocks."""
    there = stencil.near >= 0
    starts = np.concatenate([[0], np.cumsum(there.sum(axis=1))])
    size = 3 * len(stencil.near)
    return bsr_array(
        (stencil.values[there], stencil.near[there].astype(np.int32), starts), shape=(size, size)
    )


def _faint(coarse: csc_array) -> csc_array:
    """What keeps motions that a small cluster does not have from making the factor singular."""
    diagonal = coarse.diagonal()
    top = float(diagonal.max())
    filled = np.where(diagonal > 1e-12 * top, 1e-12 * diagonal, top)
    size = len(diagonal)
    return csc_array((filled, (np.arange(size), np.arange(size))), shape=(size, size))


def _highest(stencil: Stencil) -> float:
    """The greatest eigenvalue of D^-1 A, by Lanczos' method.

    It may sit on one sliver of a cell, where a few rounds of the power method miss it; with too
    small a value the smoother is no longer positive and the solver stands still.
    """
    half = np.linalg.cholesky(stencil.inverse)
    size = 3 * len(half)

    def turned(x: Floats) -> Floats:
        there = np.einsum("nij,njk->nik", half, x.reshape(-1, 3, 1))
        return np.asarray(np.einsum("nji,njk->nik", half, stencil.times(there))).reshape(-1)

    start = np.random.default_rng(7).normal(size=size)
    operator = LinearOperator((size, size), matvec=turned, dtype=np.float64)
    found = eigsh(operator, k=1, which="LA", v0=start, tol=1e-2, return_eigenvectors=False)
    return float(found[0])
