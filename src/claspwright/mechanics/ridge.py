"""Share of a bite between teeth and ridge: a rigid base on springs that only push."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import ConvergenceError, Floats, InputError

ROUNDS = 60


@dataclass(frozen=True, slots=True, eq=False)
class Bed:
    """What a denture stands on; plan coordinates across the path [mm]."""

    rests: Floats  # (R, 2)
    rest_stiffness: float  # N/mm, each
    tissue: Floats  # (T, 2) middles of patches of the bases
    patch_mm2: Floats  # (T,)
    tissue_stiffness: float  # N/mm3: modulus over thickness of an elastic layer

    def __post_init__(self) -> None:
        if not (self.rest_stiffness > 0 and self.tissue_stiffness > 0):
            raise InputError("rests and tissue need a stiffness above zero")


@dataclass(frozen=True, slots=True, eq=False)
class Sharing:
    """Who bears a bite."""

    teeth: float  # share of the load on the rests
    ridge: float  # share on the tissue
    deepest_mm: float  # how far a base sinks at most
    pressure_mpa: float  # greatest on the tissue
    rests_n: Floats  # (R,)


def sharing(bed: Bed, at: Floats, load_n: float) -> Sharing:
    """Share of a load along the path at a point between rests and ridge.

    Args:
        bed: rests and tissue with their stiffness.
        at: (2,) place of the load.
        load_n: load into the mouth [N].

    Raises:
        ConvergenceError: which springs bear does not settle: the base tips off.

    Source:
        Equilibrium of a rigid plate on one-sided springs (Winkler's bed), contact by trial.
    """
    spots = np.vstack([bed.rests.reshape(-1, 2), bed.tissue.reshape(-1, 2)])
    stiff = np.concatenate(
        [np.full(len(bed.rests), bed.rest_stiffness), bed.tissue_stiffness * bed.patch_mm2]
    )
    ones = np.column_stack([np.ones(len(spots)), spots])
    target = load_n * np.array([1.0, *at])
    bearing = np.ones(len(spots), dtype=bool)
    for _ in range(ROUNDS):
        held = ones[bearing]
        matrix = held.T @ (stiff[bearing, None] * held)
        if np.linalg.matrix_rank(matrix, tol=1e-9 * np.abs(matrix).max()) < 3:
            break
        sunk = ones @ np.linalg.solve(matrix, target)
        wanted = sunk > 0
        if np.array_equal(wanted, bearing):
            force = np.where(bearing, stiff * sunk, 0.0)
            teeth = float(force[: len(bed.rests)].sum())
            under = sunk[len(bed.rests) :]
            deepest = float(max(under.max(initial=0.0), 0.0))
            return Sharing(
                teeth / load_n, 1.0 - teeth / load_n, deepest, deepest * bed.tissue_stiffness,
                force[: len(bed.rests)],
            )  # fmt: skip
        bearing = wanted
    raise ConvergenceError("the base tips off its bed under this bite")
