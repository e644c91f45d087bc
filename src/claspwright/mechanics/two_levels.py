"""The preconditioner of the finite elements: smooth, correct on clusters of nodes, smooth.

A block-Jacobi polynomial works on the nodes; a coarse space of six rigid motions for each cluster
of joined nodes, smoothed once, is solved directly. Thin parts that stand side by side never share
a cluster. Under many loads the polynomial works in single numbers on what is left of them; what it
leaves, and the motions of the clusters, which may be large and soft, are kept in double ones. One
load is done in double numbers throughout: it is bound by memory, and a free body held at three
points by very stiff springs does not bear the rounding.
"""

from __future__ import annotations

import numpy as np
from scipy.sparse import bsr_array, coo_array, csc_array
from scipy.sparse.csgraph import connected_components
from scipy.sparse.linalg import LinearOperator, eigsh, splu

from claspwright.base import Floats, Ints, Progress
from claspwright.geometry import in_chunks
from claspwright.mechanics._round_kernels import RoundKernels, Some, round_kernels
from claspwright.mechanics.cells import Cells, rigid_motions

CHUNK = 4000  # rows of a product that one piece of work takes
CLUSTER = 4  # steps of the grid along each edge of a cluster of nodes
DEGREE = 3  # of the smoothing polynomial


class TwoLevels:
    """About the inverse of a stiffness, for fields of one width.

    Args:
        cells: the solid.
        near: (N, 27) neighbours of each node.
        values: (N, 27, 3, 3) stiffness of each neighbour [N/mm].
        inverse: (N, 3, 3) of each node's own block.
        loads: how many at once; more than the kernels' width come in parts.
        progress: told of its parts.

    Source:
        Smoothed aggregation with rigid motions (Vanek, Mandel, Brezina 1996) [memory].
    """

    def __init__(
        self, cells: Cells, near: Ints, values: Floats, inverse: Floats, *, loads: int,
        progress: Progress,
    ) -> None:  # fmt: skip
        self.width, self.kernels = round_kernels(loads)
        self.near = near
        self.highest = 1.1 * _highest(near, values, inverse)
        progress(0.2, "finite elements: clusters")
        rigid = _rigid_motions(cells, clusters(cells))
        matrix = as_matrix(near, values)
        progress(0.4, "finite elements: coarse space")
        size = len(near)
        blocks = bsr_array(
            (inverse, np.arange(size), np.arange(size + 1)), shape=(3 * size, 3 * size)
        )
        smoothed = rigid - (4.0 / 3.0 / self.highest) * (blocks @ (matrix @ rigid))
        across = bsr_array(smoothed.T)
        coarse = csc_array(across @ (matrix @ smoothed))
        progress(0.8, "finite elements: coarse factor")
        self.factor = _Factor(coarse + _faint(coarse))
        self.up, self.down = _parts(smoothed), _parts(across)
        self.values = values.reshape(size, 27, 9)
        self.kind = np.dtype(np.float64 if loads == 1 else np.float32)
        self.rounded = self.values.astype(self.kind, copy=False)
        self.inverse = inverse.reshape(size, 9).astype(self.kind)
        self.scratch: tuple[Some, Some, Some, Floats] | None = None
        progress(1.0, "finite elements: coarse factor")

    def apply(self, load: Floats, rounded: Some) -> tuple[Floats, Some]:
        """About the inverse of the stiffness times residuals, as a sum of two; symmetric.

        Args:
            load: (N, 3, W) residuals.
            rounded: the same in numbers of `kind`.

        Returns:
            (N, 3, W) each; they hold until it is called again.
        """
        do, size = self.kernels, len(load)
        if self.scratch is None:
            some = (np.empty_like(rounded), np.empty_like(rounded), np.empty_like(rounded))
            self.scratch = (*some, np.empty_like(load))
        one, other, step, near_it = self.scratch
        x = self._smooth(rounded, step, one, other)
        left = near_it
        in_chunks(lambda a, b: do.left(a, b, self.near, self.values, x, load, left), size, CHUNK)
        below = np.empty((len(self.down[0]) - 1, 6, self.width))
        in_chunks(lambda a, b: do.gather(a, b, *self.down, left, below), len(below), CHUNK // 16)
        fix = self.factor.solve(do, below.reshape(-1, self.width)).reshape(below.shape)
        in_chunks(lambda a, b: do.spread(a, b, *self.up, fix, x, near_it), size, CHUNK)
        rest = step
        in_chunks(
            lambda a, b: do.left(a, b, self.near, self.values, near_it, load, rest), size, CHUNK
        )
        return near_it, self._smooth(rest, np.empty_like(rest), one, other)

    def _smooth(self, load: Some, step: Some, one: Some, other: Some) -> Some:
        """Chebyshev's polynomial over the upper part of the spectrum; the rest is scratch."""
        low, high = self.highest / 12.0, self.highest
        middle, half = (high + low) / 2, (high - low) / 2
        ratio = half / middle
        do, size, x = self.kernels, len(load), one
        in_chunks(
            lambda a, b: do.begin(a, b, self.inverse, load, 1.0 / middle, step, one), size, CHUNK
        )
        for _ in range(DEGREE - 1):
            after = 1.0 / (2.0 * middle / half - ratio)

            def work(first: int, last: int, at: Some = x, out: Some = other,
                     keep: float = after * ratio, scale: float = 2.0 * after / half,
                     ) -> None:  # fmt: skip
                do.sweep(first, last, self.near, self.rounded, self.inverse, at, load, keep, scale,
                         step, out)  # fmt: skip

            in_chunks(work, size, CHUNK)
            x, other, ratio = other, x, after
        return x


class _Factor:
    """A direct factor of the coarse stiffness, by SuperLU, and its use for many loads at once."""

    def __init__(self, matrix: csc_array) -> None:
        made = splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0,
                    options={"SymmetricMode": True})  # fmt: skip
        self.lower, self.upper = made.L.tocsc(), made.U.tocsc()
        self.lower.sort_indices()
        self.upper.sort_indices()
        self.row = np.asarray(made.perm_r, dtype=np.int32)
        self.column = np.asarray(made.perm_c, dtype=np.int32)

    def solve(self, kernels: RoundKernels, load: Floats) -> Floats:
        """(D, W) answers; SuperLU's own substitution takes ten times as long for many loads."""
        out = np.empty_like(load)
        low, up = self.lower, self.upper
        kernels.substitute(
            low.indptr, low.indices, low.data, up.indptr, up.indices, up.data, self.row,
            self.column, load, np.empty_like(load), out,
        )  # fmt: skip
        return out


def _parts(matrix: bsr_array) -> tuple[Ints, Ints, Floats]:
    return matrix.indptr, matrix.indices, np.ascontiguousarray(matrix.data)


def as_matrix(near: Ints, values: Floats) -> bsr_array:
    """A stencil as a sparse matrix of 3 x 3 blocks."""
    there = near >= 0
    starts = np.concatenate([[0], np.cumsum(there.sum(axis=1))])
    size = 3 * len(near)
    return bsr_array((values[there], near[there].astype(np.int32), starts), shape=(size, size))


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


def _rigid_motions(cells: Cells, cluster: Ints) -> bsr_array:
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
    unit = motion @ (vector * scale[:, None, :])[cluster]
    rows = np.arange(len(cluster) + 1)
    return bsr_array((unit, cluster, rows), shape=(3 * len(cluster), 6 * count))


def _faint(coarse: csc_array) -> csc_array:
    """What keeps motions that a small cluster does not have from making the factor singular."""
    diagonal = coarse.diagonal()
    top = float(diagonal.max())
    filled = np.where(diagonal > 1e-12 * top, 1e-12 * diagonal, top)
    size = len(diagonal)
    return csc_array((filled, (np.arange(size), np.arange(size))), shape=(size, size))


def _highest(near: Ints, values: Floats, inverse: Floats) -> float:
    """The greatest eigenvalue of D^-1 A, by Lanczos' method.

    It may sit on one sliver of a cell, where a few rounds of the power method miss it; with too
    small a value the smoother is no longer positive and the solver stands still.
    """
    half = np.linalg.cholesky(inverse)
    size = len(half)
    turned_half = np.ascontiguousarray(half.transpose(0, 2, 1))
    _, kernels = round_kernels(1)
    flat = values.reshape(size, 27, 9)

    def turned(x: Floats) -> Floats:
        there = np.einsum("nij,nj->ni", half, x.reshape(size, 3))[:, :, None]
        pushed = np.empty_like(there)

        def work(first: int, last: int) -> None:
            kernels.product(first, last, near, flat, there, pushed, np.empty(1))

        in_chunks(work, size, CHUNK)
        return np.asarray(np.einsum("nij,nj->ni", turned_half, pushed[:, :, 0])).reshape(-1)

    start = np.random.default_rng(7).normal(size=3 * size)
    operator = LinearOperator((3 * size, 3 * size), matvec=turned, dtype=np.float64)
    found = eigsh(operator, k=1, which="LA", v0=start, tol=1e-2, return_eigenvectors=False)
    return float(found[0])
