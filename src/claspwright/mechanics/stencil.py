"""The stiffness of a whole solid as a stencil over its nodes, and what solves it.

Conjugate gradients for many loads at once, with the preconditioner of `two_levels`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from claspwright.base import ConvergenceError, Floats, Ints, Progress, part, silent
from claspwright.geometry import in_chunks
from claspwright.mechanics import _cell_kernels as kernels
from claspwright.mechanics._round_kernels import WIDE
from claspwright.mechanics.cells import Cells, cell_stiffness
from claspwright.mechanics.two_levels import CHUNK, TwoLevels

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
    progress: Progress = silent,
) -> tuple[Floats, int]:
    """Displacements under K loads.

    Args:
        stencil: stiffness of the solid on its springs.
        cells: the solid.
        loads: (N, 3, K) [N].
        tolerance: of the residual against the load.
        progress: told of each round.

    Returns:
        (N, 3, K) displacements [mm] and the number of rounds.

    Raises:
        ConvergenceError: a load does not settle within its rounds.
    """
    count = loads.shape[2]
    two = TwoLevels(
        cells, stencil.near, stencil.values, stencil.inverse, loads=count,
        progress=part(progress, 0.0, 0.3),
    )  # fmt: skip
    pieces = [loads[:, :, first : first + WIDE] for first in range(0, count, WIDE)]
    moved, rounds = [], 0
    for n, piece in enumerate(pieces):
        told = part(progress, 0.3 + 0.7 * n / len(pieces), 0.3 + 0.7 * (n + 1) / len(pieces))
        found, took = _gradients(stencil, two, piece, tolerance, told)
        moved.append(found)
        rounds = max(rounds, took)
    return (moved[0] if len(moved) == 1 else np.concatenate(moved, axis=2)), rounds


def _gradients(
    stencil: Stencil, two: TwoLevels, loads: Floats, tolerance: float, progress: Progress
) -> tuple[Floats, int]:
    """Conjugate gradients; flexible (Notay 2000 [memory]), as the preconditioner is rounded."""
    size, _, count = loads.shape
    width, do = two.width, two.kernels
    values = stencil.values.reshape(size, 27, 9)
    residual = np.zeros((size, 3, width))
    residual[:, :, :count] = loads
    goal = np.sqrt((loads**2).sum(axis=(0, 1)))
    goal[goal == 0] = 1.0
    x, pushed = np.zeros_like(residual), np.zeros_like(residual)
    rest = residual.astype(two.kind)

    def ready() -> tuple[Floats, Floats, Floats]:
        """What the preconditioner makes of the residual; its products with it and `pushed`."""
        near_it, more = two.apply(residual, rest)

        def work(first: int, last: int, dots: Floats) -> None:
            do.meet(first, last, residual, pushed, more, near_it, dots)

        both = _summed(size, 2 * width, work)
        return near_it, both[:width], both[width:]

    def times_along(first: int, last: int, dots: Floats) -> None:
        do.product(first, last, stencil.near, values, along, pushed, dots)

    def advance(first: int, last: int, dots: Floats) -> None:
        do.advance(first, last, x, along, residual, pushed, length, rest, dots)

    def turn(first: int, last: int) -> None:
        do.turn(first, last, fresh, share, along)

    fresh, energy, _ = ready()
    along = fresh.copy()
    for n in range(ROUNDS):
        work = _summed(size, width, times_along)
        length = np.divide(energy, work, out=np.zeros_like(energy), where=work > 0)
        squares = _summed(size, width, advance)
        left = float((np.sqrt(squares[:count]) / goal).max())
        progress(min(np.log(left) / np.log(tolerance), 1.0) if left < 1 else 0.0,
                 "finite elements")  # fmt: skip
        if left < tolerance:
            return np.ascontiguousarray(x[:, :, :count]), n + 1
        fresh, after, slope = ready()
        share = np.divide(-length * slope, energy, out=np.zeros_like(energy), where=energy > 0)
        in_chunks(turn, size, CHUNK)
        energy = after
    raise ConvergenceError(
        f"the finite elements left {left:.1e} of the load after {ROUNDS} rounds, "
        f"{tolerance:.0e} asked for",
        remedy="A loose piece without support cannot carry a load: see the bodies of the solid.",
    )


def _summed(size: int, width: int, work: Callable[[int, int, Floats], None]) -> Floats:
    """(W,) sum of what each chunk of rows leaves; the same whatever the number of threads."""
    dots = np.zeros((-(-size // CHUNK), width))
    in_chunks(lambda first, last: work(first, last, dots[first // CHUNK]), size, CHUNK)
    return np.asarray(dots.sum(axis=0))
