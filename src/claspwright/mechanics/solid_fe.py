"""Finite elements of a solid on springs: displacements and stress under many loads."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats, InputError, Progress, part, silent
from claspwright.mechanics.bearing import Reach
from claspwright.mechanics.bearing import shape_at as shape_at
from claspwright.mechanics.cells import Cells, elasticity
from claspwright.mechanics.skin_stress import skin_stress
from claspwright.mechanics.stencil import solve, stencil_of

LOOSE = 1e-11  # share of the stiffest node that every node is held by, so that nothing floats


@dataclass(frozen=True, slots=True, eq=False)
class Spring:
    """A region held to the ground along some directions."""

    points: Floats  # (P, 3) the stiffness is shared between them [mm]
    stiffness: Floats  # (3, 3) of all of them together [N/mm]
    patch_mm: float = 0.0  # about each point, over which it bears; 0: the nearest cell


@dataclass(frozen=True, slots=True, eq=False)
class Push:
    """A load case: forces over regions."""

    name: str
    points: Floats  # (P, 3) [mm]
    forces: Floats  # (P, 3) [N]
    patch_mm: float = 0.0  # about each point, over which it presses; 0: the nearest cell


@dataclass(frozen=True, slots=True, eq=False)
class Answer:
    """Displacements and stress under K pushes."""

    cells: Cells
    moved: Floats  # (N, 3, K) displacement of the nodes [mm]
    mises: Floats  # (E, K) equivalent stress at the skin of each cell [MPa]
    names: tuple[str, ...]  # (K,)
    work_mm: Floats  # (K,) displacement along each push's own forces, times the forces [N mm]
    rounds: int  # of the solver

    def at(self, points: Floats) -> Floats:
        """(P, 3, K) displacement at points in or near the solid [mm]."""
        corners, weights = shape_at(self.cells, points)
        return np.asarray(np.einsum("pa,paik->pik", weights, self.moved[corners]))

    def peak(self, case: int) -> float:
        """Highest stress under a push [MPa].

        Read at the skin over a fixed length, so it settles in a re-entrant corner too.
        """
        return float(self.mises[:, case].max())

    def peak_at(self, case: int) -> Floats:
        """(3,) place of the highest stress under a push [mm]."""
        places = self.cells.middle if self.cells.skin is None else self.cells.skin
        return np.asarray(places[int(np.argmax(self.mises[:, case]))])


def bear(
    cells: Cells,
    springs: Sequence[Spring],
    pushes: Sequence[Push],
    *,
    modulus: float,
    poisson: float,
    progress: Progress = silent,
) -> Answer:
    """Displacements and stress of a solid on springs under loads.

    Args:
        cells: the solid.
        springs: what holds it; what they leave free is held very softly.
        pushes: the load cases.
        modulus: Young's modulus [MPa].
        poisson: Poisson's ratio.
        progress: told of each round.

    Raises:
        InputError: there is no load.
        ConvergenceError: the solver does not settle.

    Source:
        Trilinear hexahedra with incompatible modes (Wilson, Taylor), cut by the surface.
    """
    if not pushes:
        raise InputError("finite elements need at least one load")
    material = elasticity(modulus, poisson)
    held = np.zeros((len(cells.nodes), 3, 3))
    held[:] = LOOSE * modulus * cells.step * np.eye(3)
    reach = Reach(cells)
    for spring in springs:
        borne = reach.onto(spring.points, spring.patch_mm)
        share = np.asarray(borne.sum(axis=0)).ravel() / len(spring.points)
        held += share[:, None, None] * spring.stiffness
    loads = np.zeros((len(cells.nodes), 3, len(pushes)))
    for k, push in enumerate(pushes):
        loads[:, :, k] = reach.onto(push.points, push.patch_mm).T @ push.forces
    stencil = stencil_of(cells, material, held)
    moved, rounds = solve(stencil, cells, loads, progress=part(progress, 0.0, 0.9))
    mises = skin_stress(cells, moved, material)
    progress(1.0, "finite elements")
    names = tuple(push.name for push in pushes)
    return Answer(cells, moved, mises, names, (loads * moved).sum(axis=(0, 1)), rounds)


def fixed(points: Floats, modulus: float, step: float) -> Spring:
    """A region held fast: springs a thousand times as stiff as the cells."""
    return Spring(points, 1e3 * modulus * step * len(points) * np.eye(3))
