"""Layer by layer: how a solid strains while it grows on a plate, and springs when it is cut free.

Lumped layers are laid one on another. A fresh lump lies where it was drawn, whatever has become
of what lies below it; then it shrinks by its inherent strain, and all that stands so far gives way
to it. What is cut free afterwards springs until its own stress is in balance.

Everything is linear elastic: doubling the strain doubles every displacement.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import label

from claspwright.base import Bools, Floats, GeometryError, Ints, Progress, part, silent
from claspwright.mechanics.bearing import shape_at
from claspwright.mechanics.cells import (
    Cells,
    cell_stiffness,
    elasticity,
    node_key,
    rigid_motions,
    strain_terms,
)
from claspwright.mechanics.stencil import solve, stencil_of

HELD = 1e3  # times the stiffness of a cell: nodes on the plate
ENOUGH = 1e-5  # of the solver's residual: far below what is known of the strain
ADRIFT = 1e-4  # times the same: a lump whose support the cells show only higher up stays in place
LOOSE = 1e-11  # times the stiffness of a cell: nothing floats away


@dataclass(frozen=True, slots=True, eq=False)
class Grown:
    """A solid as it stands on its plate after the last lump, E cells on N nodes."""

    cells: Cells
    moved: Floats  # (N, 3) from where it was drawn [mm]
    laid: Floats  # (E, 24) displacement of a cell's corners when it was laid [mm]
    strain: Floats  # (E, 6) inherent strain of each cell
    lumps: int


@dataclass(frozen=True, slots=True, eq=False)
class CutFree:
    """What was cut free: displacement = standing + share of stress that is left x springing."""

    cells: Cells
    standing: Floats  # (N, 3) on the plate [mm]
    springing: Floats  # (N, 3) by the cut, all stress left [mm]
    held: bool  # something still holds it to the plate

    def moved(self, stress_left: float = 1.0) -> Floats:
        """(N, 3) displacement from the drawn shape [mm]; without rigid motion where it is free."""
        whole = self.standing + stress_left * self.springing
        return whole if self.held else without_motion(self.cells, whole)

    def at(self, points: Floats, stress_left: float = 1.0) -> Floats:
        """(P, 3) displacement at points in or near the solid [mm]."""
        return at_points(self.cells, self.moved(stress_left), points)


def in_plane(strain: float, count: int) -> Floats:
    """(count, 6) the same strain along x and y for each cell, none upright."""
    out = np.zeros((count, 6))
    out[:, :2] = strain
    return out


def grow(
    cells: Cells,
    strain: Floats,
    *,
    modulus: float,
    poisson: float,
    lump: int = 1,
    held: Bools | None = None,
    progress: Progress = silent,
) -> Grown:
    """Lay a solid lump by lump.

    Args:
        cells: the solid with its supports; +z up, z = 0 the plate.
        strain: (E, 6) inherent strain of each cell, shrinking negative.
        modulus: Young's modulus [MPa].
        poisson: Poisson's ratio.
        lump: rows of cells laid at once.
        held: (N,) nodes that do not move; by default those on the plate.
        progress: told of each lump.

    Raises:
        GeometryError: nothing stands on the plate.

    Source:
        Inherent strain in lumped layers (Ueda et al. 1975 for welds, from memory; common practice
        for powder beds).
    """
    fast = np.asarray(np.abs(cells.nodes[:, 2]) < 1e-6) if held is None else held
    if not fast.any():
        raise GeometryError("no cell stands on the plate")
    material = elasticity(modulus, poisson)
    loads = _loads(cells, strain, material)
    moved = np.zeros((len(cells.nodes), 3))
    laid = np.zeros((len(cells.place), 24))
    rows = cells.place[:, 2]
    tops = list(range(int(rows.min()) + lump, int(rows.max()) + 1 + lump, lump))
    for n, top in enumerate(tops):
        active = np.flatnonzero(rows < top)
        fresh = np.flatnonzero((rows < top) & (rows >= top - lump))
        laid[fresh] = moved[cells.corners[fresh]].reshape(-1, 24)
        some, used = only(cells, active)
        springs = _springs(len(used), modulus * cells.step)
        springs += (ADRIFT * _adrift(some, fast[used]))[:, None, None] * (
            modulus * cells.step * np.eye(3)
        )
        springs[fast[used]] += HELD * modulus * cells.step * np.eye(3)
        load = _gathered(cells, fresh, loads)[used]
        stencil = stencil_of(some, material, springs)
        moved[used] += solve(stencil, some, load[:, :, None], tolerance=ENOUGH)[0][:, :, 0]
        progress((n + 1) / len(tops), "layers are laid")
    return Grown(cells, moved, laid, strain, len(tops))


def cut_free(
    grown: Grown,
    cells: Cells,
    *,
    modulus: float,
    poisson: float,
    held: Bools | None = None,
    progress: Progress = silent,
) -> CutFree:
    """Spring of what is left when plate and supports are cut away.

    Args:
        grown: solid and supports on the plate.
        cells: what is left, on the same grid.
        modulus: Young's modulus [MPa].
        poisson: Poisson's ratio.
        held: (N,) nodes of what is left that still stand on the plate; none by default.
        progress: told of the solver.

    Slivers that the whole has no cell for are left out.

    Raises:
        GeometryError: it lies on another grid.
    """
    material = elasticity(modulus, poisson)
    cells, cell, node = _found_in(cells, grown.cells)
    each, kind = cell_stiffness(cells, material)
    standing = grown.moved[node]
    since = standing[cells.corners].reshape(-1, 24) - grown.laid[cell]
    forces = _times(each, kind, since) - _loads(cells, grown.strain[cell], material)
    load = -_gathered(cells, np.arange(len(cells.place)), forces)
    if held is None:
        springs = _three_points(cells, HELD * modulus * cells.step)
    else:
        springs = np.zeros((len(cells.nodes), 3, 3))
        springs[held] = HELD * modulus * cells.step * np.eye(3)
    springs += _springs(len(cells.nodes), modulus * cells.step)
    stencil = stencil_of(cells, material, springs)
    moved, _ = solve(stencil, cells, load[:, :, None], progress=part(progress, 0.1, 1.0))
    return CutFree(cells, standing, moved[:, :, 0], held is not None)


def at_points(cells: Cells, moved: Floats, points: Floats) -> Floats:
    """(P, 3) displacement at points in or near the solid [mm]."""
    corners, weights = shape_at(cells, points)
    return np.asarray(np.einsum("pa,pai->pi", weights, moved[corners]))


def without_motion(cells: Cells, moved: Floats) -> Floats:
    """(N, 3) displacement less the rigid motion that fits it best, by volume."""
    weight = np.zeros(len(cells.nodes))
    np.add.at(weight, cells.corners, cells.moments[:, :1] / 8.0)
    middle = np.average(cells.nodes, axis=0, weights=weight)
    arm = cells.nodes - middle
    motion = rigid_motions(arm)
    root = np.sqrt(weight)[:, None]
    found, *_ = np.linalg.lstsq(
        (motion * root[:, :, None]).reshape(-1, 6), (moved * root).ravel(), rcond=None
    )
    return np.asarray(moved - motion @ found)


def only(cells: Cells, chosen: NDArray[np.intp]) -> tuple[Cells, NDArray[np.intp]]:
    """Some of the cells by themselves, and which nodes of the whole are theirs."""
    used = np.unique(cells.corners[chosen]).astype(np.intp)
    fresh = np.full(len(cells.nodes) + 1, -1, dtype=np.int32)
    fresh[used] = np.arange(len(used), dtype=np.int32)
    some = Cells(
        cells.origin, cells.step, cells.place[chosen], cells.moments[chosen],
        fresh[cells.corners[chosen]], cells.nodes[used], fresh[cells.near[used]], cells.shape,
    )  # fmt: skip
    return some, used


def _adrift(cells: Cells, held: Bools) -> Floats:
    """(N,) one for the nodes of pieces that nothing joins, by faces of cells, to what is held."""
    grid = np.zeros(cells.shape, dtype=np.bool_)
    grid[tuple(cells.place.T)] = True
    pieces, count = label(grid)
    mine = pieces[tuple(cells.place.T)]
    stands = np.zeros(count + 1, dtype=np.bool_)
    stands[mine[held[cells.corners].any(axis=1)]] = True
    out = np.zeros(len(cells.nodes))
    out[cells.corners[~stands[mine]]] = 1.0
    return out


def _loads(cells: Cells, strain: Floats, material: Floats) -> Floats:
    """(E, 24) forces on the corners of cells that would strain freely [N]."""
    terms, _ = strain_terms()
    used = [m for m in range(27) if np.any(terms[m])]
    stress = strain @ material
    out = np.zeros((len(strain), 24))
    for m in used:
        out += cells.moments[:, m, None] * (stress @ terms[m])
    return out * cells.step**2


def _gathered(cells: Cells, chosen: NDArray[np.intp], forces: Floats) -> Floats:
    """(N, 3) sum of forces on the corners of some cells."""
    out = np.zeros((len(cells.nodes), 3))
    np.add.at(out, cells.corners[chosen], forces[chosen].reshape(-1, 8, 3))
    return out


def _times(each: Floats, kind: Ints, moved: Floats) -> Floats:
    """(E, 24) stiffness times displacement, cell by cell."""
    out = np.empty_like(moved)
    whole = kind == 0
    out[whole] = moved[whole] @ each[0]
    cut = np.flatnonzero(~whole)
    for first in range(0, len(cut), 20_000):
        here = cut[first : first + 20_000]
        out[here] = np.einsum("eij,ej->ei", each[kind[here]], moved[here])
    return out


def _springs(count: int, stiff: float) -> Floats:
    return np.tile(LOOSE * stiff * np.eye(3), (count, 1, 1))


def _three_points(cells: Cells, stiff: float) -> Floats:
    """(N, 3, 3) springs at three nodes that take away the six rigid motions and no more."""
    places = cells.nodes
    a = int(np.argmin(np.linalg.norm(places - places.mean(axis=0), axis=1)))
    away = places - places[a]
    b = int(np.argmax(np.linalg.norm(away, axis=1)))
    along = away[b] / np.linalg.norm(away[b])
    aside = np.cross(along, away)
    c = int(np.argmax(np.linalg.norm(aside, axis=1)))
    normal = aside[c] / np.linalg.norm(aside[c])
    out = np.zeros((len(places), 3, 3))
    out[a] = stiff * np.eye(3)
    out[b] = stiff * (np.eye(3) - np.outer(along, along))
    out[c] = stiff * np.outer(normal, normal)
    return out


def _found_in(cells: Cells, whole: Cells) -> tuple[Cells, NDArray[np.intp], NDArray[np.intp]]:
    """The cells that the whole has too, and which cell and node of it each of theirs is."""
    same = cells.step == whole.step and cells.shape == whole.shape
    if not (same and np.allclose(cells.origin, whole.origin)):
        raise GeometryError("the cells that are left lie on another grid")
    shape = np.asarray(whole.shape, dtype=np.int32) + 1
    there, cell = _places_in(node_key(cells.place, shape), node_key(whole.place, shape))
    if not there.any():
        raise GeometryError("nothing is left of what was laid")
    if not there.all():
        cells, _ = only(cells, np.flatnonzero(there))
    spots = [np.rint((c.nodes - c.origin) / c.step).astype(np.int32) for c in (cells, whole)]
    _, node = _places_in(node_key(spots[0], shape), node_key(spots[1], shape))
    return cells, cell[there], node


def _places_in(some: Ints, every: Ints) -> tuple[Bools, NDArray[np.intp]]:
    """Whether each key is among all, and where."""
    order = np.argsort(every)
    at = np.minimum(np.searchsorted(every[order], some), len(every) - 1)
    return np.asarray(every[order][at] == some), np.asarray(order[at], dtype=np.intp)
