"""A solid as cut hexahedral cells: what lies inside each, and their stiffness.

A regular grid of cubes; a cube that the surface cuts counts with what lies inside. Each cube has
eight corners and nine incompatible modes of its own, which make it bend like a beam.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

import numpy as np
from scipy.ndimage import label, map_coordinates

from claspwright.base import (
    Bools,
    Floats,
    GeometryError,
    InputError,
    Ints,
    Progress,
    Singles,
    part,
    silent,
)
from claspwright.geometry import in_chunks
from claspwright.mechanics import _cell_kernels as kernels

SUB = 6  # parts of a cell along each edge
PER = 2  # steps of the lattice of distances along each edge of a cell
FULL = 1.0 - 1e-9
ROWS = 4  # of that lattice that one piece of work takes
LEAST = 0.004  # share of a cell below which it is left out
DEEP = 0.75  # steps under the surface within which a cell reads its stress at the surface
FAINT = 1e-6  # share of the full stiffness that every cell keeps
Distance = Callable[[Floats], Floats]  # (P, 3) points -> signed distance, negative inside


@dataclass(frozen=True, slots=True, eq=False)
class Cells:
    """A solid as E cells on N nodes."""

    origin: Floats  # (3,) corner of cell (0, 0, 0) [mm]
    step: float  # edge of a cell [mm]
    place: Ints  # (E, 3) of each cell on the grid
    moments: Floats  # (E, 27) of its inside, over the cell's volume
    corners: Ints  # (E, 8) node of each corner, z fastest
    nodes: Floats  # (N, 3) [mm]
    near: Ints  # (N, 27) neighbours of each node, -1 where there is none
    shape: tuple[int, int, int]  # cells of the grid along each axis
    skin: Floats | None = None  # (E, 3) surface nearest to a cell by it, else its centroid [mm]

    @property
    def volume(self) -> float:
        """Volume of the solid as the cells see it [mm3]."""
        return float(self.moments[:, 0].sum() * self.step**3)

    @property
    def middle(self) -> Floats:
        """(E, 3) centroid of what lies inside each cell [mm]."""
        return np.asarray(
            self.origin + (self.place + 0.5 + 0.5 * _centroids(self.moments)) * self.step
        )


def cut_cells(
    distance: Distance, low: Floats, high: Floats, step: float, *, progress: Progress = silent
) -> Cells:
    """Cut a solid into cells.

    Args:
        distance: signed distance to the solid at (P, 3) points [mm].
        low: (3,) corner of a box that holds the solid; a plane of the grid.
        high: (3,) the opposite corner, rounded up.
        step: edge of a cell [mm].
        progress: told of the rows of distances.

    Raises:
        InputError: the box is empty.
        GeometryError: no cell has any of the solid.
    """
    count = np.maximum(np.ceil((high - low) / step - 1e-6).astype(int), 1)
    if not (step > 0 and np.all(high > low)):
        raise InputError(f"cells need a step above zero and a box, got {step}, {low} to {high}")
    values = _lattice(distance, low, count, step, part(progress, 0.0, 0.7))
    place = _candidates(values, count, step)
    moments = np.zeros((len(place), 27))

    def work(first: int, last: int) -> None:
        kernels.cell_moments(first, last, values, place, PER, SUB, step, moments)

    in_chunks(work, len(place), 20_000)
    kept = moments[:, 0] >= LEAST
    if not kept.any():
        raise GeometryError("the solid fills no cell of the grid")
    kept &= _in_one_piece(place, kept, count)
    progress(0.9, "cells")
    place, moments = place[kept], moments[kept]
    return _numbered(low, step, place, moments, _skin(values, low, step, place, moments), count)


def _lattice(
    distance: Distance, low: Floats, count: Ints, step: float, progress: Progress
) -> Singles:
    """Signed distances on the lattice of PER steps to a cell."""
    axes = [low[a] + step / PER * np.arange(PER * count[a] + 1) for a in range(3)]
    values = np.empty(tuple(len(axis) for axis in axes), dtype=np.float32)
    y, z = np.meshgrid(axes[1], axes[2], indexing="ij")

    def work(first: int, last: int) -> None:
        for i in range(first, last):
            points = np.stack([np.full(y.size, axes[0][i]), y.ravel(), z.ravel()], axis=1)
            values[i] = distance(points).reshape(y.shape)

    in_chunks(work, len(axes[0]), ROWS, progress=progress, phase="distances")
    return values


def _candidates(values: Singles, count: Ints, step: float) -> Ints:
    """(E, 3) cells that may hold some of the solid."""
    middle = values[PER // 2 :: PER, PER // 2 :: PER, PER // 2 :: PER]
    middle = middle[: count[0], : count[1], : count[2]]
    return np.ascontiguousarray(np.argwhere(middle < 0.9 * step).astype(np.int32))


def _in_one_piece(place: Ints, kept: Bools, count: Ints) -> Bools:
    """(E,) True for the cells of the largest piece that hangs together by faces."""
    grid = np.zeros(tuple(count), dtype=np.bool_)
    grid[tuple(place[kept].T)] = True
    pieces, _ = label(grid)
    mine = pieces[tuple(place.T)]
    return np.asarray(mine == int(np.bincount(mine[kept]).argmax()))


def _skin(values: Singles, low: Floats, step: float, place: Ints, moments: Floats) -> Floats:
    """(E, 3) point of the surface nearest to the inside of each cell that lies by it."""
    spot = place + 0.5 + 0.5 * _centroids(moments)
    at = (PER * spot).T
    depth = map_coordinates(values, at, order=1, mode="nearest")
    slope = np.stack(
        [
            map_coordinates(values, at + way[:, None], order=1, mode="nearest")
            - map_coordinates(values, at - way[:, None], order=1, mode="nearest")
            for way in np.eye(3)
        ],
        axis=1,
    )
    out = slope / np.maximum(np.linalg.norm(slope, axis=1, keepdims=True), 1e-9)
    way = np.where(np.abs(depth) < DEEP * step, -depth, 0.0)
    return np.asarray(low + step * spot + way[:, None] * out)


def _centroids(moments: Floats) -> Floats:
    """(E, 3) centroid of what lies inside each cell, from -1 to 1 over the cell."""
    return np.stack([moments[:, 9], moments[:, 3], moments[:, 1]], axis=1) / moments[:, :1]


def _numbered(
    low: Floats, step: float, place: Ints, moments: Floats, skin: Floats, count: Ints
) -> Cells:
    """Number the corners of the cells that are kept, and find each node's neighbours."""
    shape = count + 1
    offsets = np.array([[a, b, c] for a in (0, 1) for b in (0, 1) for c in (0, 1)])
    keys = node_key(place[:, None, :] + offsets[None], shape)
    unique, corners = np.unique(keys, return_inverse=True)
    spot = np.stack(np.unravel_index(unique, tuple(shape)), axis=1)
    around = np.array([[a, b, c] for a in (-1, 0, 1) for b in (-1, 0, 1) for c in (-1, 0, 1)])
    near = np.full((len(unique), 27), -1, dtype=np.int32)
    for s, shift in enumerate(around):
        moved = spot + shift
        there = np.all((moved >= 0) & (moved < shape), axis=1)
        key = node_key(np.where(there[:, None], moved, 0), shape)
        found = np.minimum(np.searchsorted(unique, key), len(unique) - 1)
        near[:, s] = np.where(there & (unique[found] == key), found, -1)
    return Cells(
        np.asarray(low, dtype=np.float64), step, place, moments,
        corners.reshape(-1, 8).astype(np.int32), low + spot * step, near,
        (int(count[0]), int(count[1]), int(count[2])), skin,
    )  # fmt: skip


def rigid_motions(lever: Floats) -> Floats:
    """(N, 3, 6) displacements at (N, 3) places by unit shifts along and turns about the axes."""
    motion = np.zeros((len(lever), 3, 6))
    motion[:, range(3), range(3)] = 1.0
    x, y, z = lever.T
    motion[:, 1, 3], motion[:, 2, 3] = -z, y
    motion[:, 0, 4], motion[:, 2, 4] = z, -x
    motion[:, 0, 5], motion[:, 1, 5] = -y, x
    return motion


def node_key(spot: Ints, shape: Ints) -> Ints:
    """One number for each (..., 3) place on a grid of `shape` nodes; z runs fastest."""
    wide = spot.astype(np.int64)
    return np.asarray((wide[..., 0] * shape[1] + wide[..., 1]) * shape[2] + wide[..., 2])


def elasticity(modulus: float, poisson: float) -> Floats:
    """(6, 6) stress of strain (xx, yy, zz, xy, yz, zx) of an isotropic solid [MPa]."""
    if not (modulus > 0 and -1 < poisson < 0.5):
        raise InputError(f"no elastic solid has modulus {modulus} MPa, Poisson {poisson}")
    lame = modulus * poisson / ((1 + poisson) * (1 - 2 * poisson))
    shear = modulus / (2 * (1 + poisson))
    out = np.zeros((6, 6))
    out[:3, :3] = lame
    out[range(3), range(3)] += 2 * shear
    out[range(3, 6), range(3, 6)] = shear
    return out


@cache
def strain_terms() -> tuple[Floats, Floats]:
    """(27, 6, 24) and (27, 6, 9) strains of displacements and of modes, by monomial; unit cell.

    Source:
        Trilinear hexahedron with the incompatible modes 1 - xi^2, 1 - eta^2, 1 - zeta^2 of
        Wilson and Taylor.
    """
    strain, mode = np.zeros((27, 6, 24)), np.zeros((27, 6, 9))
    for a in range(8):
        signs = np.array([2 * (a // 4) - 1, 2 * ((a // 2) % 2) - 1, 2 * (a % 2) - 1], float)
        for axis in range(3):
            others = [k for k in range(3) if k != axis]
            for p in (0, 1):
                for q in (0, 1):
                    power = [0, 0, 0]
                    power[others[0]], power[others[1]] = p, q
                    # N = (1 + s x)(1 + t y)(1 + u z) / 8; d/dX = 2 d/dxi on a unit cell
                    value = 0.25 * signs[axis] * signs[others[0]] ** p * signs[others[1]] ** q
                    _into(strain, power, 3 * a, axis, value)
    for axis in range(3):
        power = [0, 0, 0]
        power[axis] = 1
        _into(mode, power, 3 * axis, axis, -4.0)
    return strain, mode


def _into(out: Floats, power: list[int], column: int, axis: int, value: float) -> None:
    """Add d(value)/dX_axis of each displacement component to the strains."""
    m = 9 * power[0] + 3 * power[1] + power[2]
    shears = {(0, 1): 3, (1, 2): 4, (0, 2): 5}
    for component in range(3):
        pair = (min(component, axis), max(component, axis))
        row = axis if component == axis else shears[pair]
        out[m, row, column + component] += value


def stiffness_terms(material: Floats) -> Floats:
    """(27, 33, 33) stiffness of each monomial, by exact products of the strains."""
    strain, mode = strain_terms()
    both = np.concatenate([strain, mode], axis=2)
    used = [m for m in range(27) if np.any(both[m])]
    out = np.zeros((27, 33, 33))
    for m in used:
        for n in used:
            power = [m // 9 + n // 9, (m // 3) % 3 + (n // 3) % 3, m % 3 + n % 3]
            if max(power) > 2:  # beyond what products of these strains can hold
                continue
            out[9 * power[0] + 3 * power[1] + power[2]] += both[m].T @ material @ both[n]
    return out


def cell_stiffness(cells: Cells, material: Floats) -> tuple[Floats, Ints]:
    """Stiffness of every kind of cell: the full one once, each cut one by itself.

    Returns:
        (M, 24, 24) stiffness [N/mm] and (E,) which of them each cell has.
    """
    whole = full_moments()
    inside = cells.moments[:, 0]
    kind = np.zeros(len(inside), dtype=np.int32)
    cut = np.flatnonzero(inside < FULL)
    kind[cut] = np.arange(1, len(cut) + 1)
    moments = np.vstack([whole[None], cells.moments[cut] + FAINT * whole])
    strain, mode = strain_terms()
    terms = stiffness_terms(material)
    out = np.zeros((len(moments), 24, 24))

    def work(first: int, last: int) -> None:
        kernels.condensed(first, last, moments, terms, strain, mode, material, cells.step, out)

    in_chunks(work, len(moments), 4000)
    return out, kind


def full_moments() -> Floats:
    """(27,) moments of a full cell: the mean of each monomial over the cube."""
    single = np.array([1.0, 0.0, 1.0 / 3.0])
    return np.asarray(np.einsum("a,b,c->abc", single, single, single).ravel())
