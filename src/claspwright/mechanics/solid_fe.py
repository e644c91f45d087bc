"""Finite elements of a solid on springs: displacements and stress under many loads."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.spatial import KDTree

from claspwright.base import Floats, GeometryError, InputError, Ints, Progress, part, silent
from claspwright.mechanics.cells import Cells, elasticity, strain_terms
from claspwright.mechanics.stencil import solve, stencil_of

FAR = 1.5  # mm from a point to the nearest cell, beyond which nothing can be pushed there
LOOSE = 1e-11  # share of the stiffest node that every node is held by, so that nothing floats


@dataclass(frozen=True, slots=True, eq=False)
class Spring:
    """A region held to the ground along some directions."""

    points: Floats  # (P, 3) the stiffness is shared between them [mm]
    stiffness: Floats  # (3, 3) of all of them together [N/mm]


@dataclass(frozen=True, slots=True, eq=False)
class Push:
    """A load case: forces over regions."""

    name: str
    points: Floats  # (P, 3) [mm]
    forces: Floats  # (P, 3) [N]


@dataclass(frozen=True, slots=True, eq=False)
class Answer:
    """Displacements and stress under K pushes."""

    cells: Cells
    moved: Floats  # (N, 3, K) displacement of the nodes [mm]
    mises: Floats  # (E, K) equivalent stress in the middle of what lies inside a cell [MPa]
    names: tuple[str, ...]  # (K,)
    work_mm: Floats  # (K,) displacement along each push's own forces, times the forces [N mm]
    rounds: int  # of the solver

    def at(self, points: Floats) -> Floats:
        """(P, 3, K) displacement at points in or near the solid [mm]."""
        corners, weights = shape_at(self.cells, points)
        return np.asarray(np.einsum("pa,paik->pik", weights, self.moved[corners]))

    def peak(self, case: int, share: float = 0.9995) -> float:
        """Stress that all but a sliver of the volume stays below [MPa].

        The very highest value lies in a re-entrant corner or a cut sliver and grows without
        end as cells shrink; this share of the volume does not.
        """
        order = np.argsort(self.mises[:, case])
        volume = np.cumsum(self.cells.moments[order, 0])
        place = int(np.searchsorted(volume, share * volume[-1]))
        return float(self.mises[order[min(place, len(order) - 1)], case])


def shape_at(cells: Cells, points: Floats) -> tuple[Ints, Floats]:
    """Corners and weights of the cell that each of (P, 3) points lies in, or is nearest to.

    Raises:
        GeometryError: a point lies farther from the solid than a laid line from its metal.
    """
    middle = cells.origin + (cells.place + 0.5) * cells.step
    found = KDTree(middle).query(points)
    gap, cell = np.asarray(found[0]), np.asarray(found[1])
    if gap.max(initial=0.0) > FAR + cells.step:
        worst = points[int(gap.argmax())]
        raise GeometryError(f"no metal lies near {np.round(worst, 2)} mm: nothing to push there")
    local = np.clip((points - middle[cell]) / (0.5 * cells.step), -1.0, 1.0)
    signs = np.array(
        [[2 * (a // 4) - 1, 2 * ((a // 2) % 2) - 1, 2 * (a % 2) - 1] for a in range(8)]
    )
    weights = np.prod(1.0 + signs[None] * local[:, None], axis=2) / 8.0
    return cells.corners[cell], weights


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
    for spring in springs:
        corners, weights = shape_at(cells, spring.points)
        share = weights[:, :, None, None] * spring.stiffness / len(spring.points)
        np.add.at(held, corners, share)
    loads = np.zeros((len(cells.nodes), 3, len(pushes)))
    for k, push in enumerate(pushes):
        corners, weights = shape_at(cells, push.points)
        np.add.at(loads[:, :, k], corners, weights[:, :, None] * push.forces[:, None, :])
    stencil = stencil_of(cells, material, held)
    moved, rounds = solve(stencil, cells, loads, progress=part(progress, 0.0, 0.95))
    mises = stress(cells, moved, material)
    progress(1.0, "finite elements")
    names = tuple(push.name for push in pushes)
    return Answer(cells, moved, mises, names, (loads * moved).sum(axis=(0, 1)), rounds)


def stress(cells: Cells, moved: Floats, material: Floats) -> Floats:
    """(E, K) equivalent stress in the middle of what lies inside each cell [MPa].

    Source:
        von Mises, of the strain of the displacements.
    """
    strain, _ = strain_terms()
    m = cells.moments
    local = np.stack([m[:, 9], m[:, 3], m[:, 1]], axis=1) / m[:, :1]
    out = np.empty((len(m), moved.shape[2]))
    used = [n for n in range(27) if np.any(strain[n])]
    for first in range(0, len(m), 20_000):
        here = slice(first, first + 20_000)
        x, y, z = local[here].T
        term = np.zeros((len(x), 6, 24))
        for n in used:
            power = x ** (n // 9) * y ** ((n // 3) % 3) * z ** (n % 3)
            term += power[:, None, None] * strain[n]
        corner = moved[cells.corners[here]].reshape(len(x), 24, -1)
        s = np.einsum("ij,ejk->eik", material, np.einsum("eij,ejk->eik", term, corner) / cells.step)
        a, b, c, d, e, f = (s[:, i] for i in range(6))
        out[here] = np.sqrt(
            0.5 * ((a - b) ** 2 + (b - c) ** 2 + (c - a) ** 2) + 3 * (d**2 + e**2 + f**2)
        )
    return out


def fixed(points: Floats, modulus: float, step: float) -> Spring:
    """A region held fast: springs a thousand times as stiff as the cells."""
    return Spring(points, 1e3 * modulus * step * len(points) * np.eye(3))
