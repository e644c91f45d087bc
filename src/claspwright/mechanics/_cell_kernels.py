"""Kernels of the finite elements: cut cells, their stiffness, products of the whole."""

from __future__ import annotations

import numpy as np
from numba import njit

from claspwright.base import Floats, Ints, Singles


@njit(cache=True, nogil=True)
def cell_moments(
    first: int,
    last: int,
    values: Singles,
    cells: Ints,
    per: int,
    sub: int,
    step: float,
    out: Floats,
) -> None:
    """Moments of the inside of cells over 27 monomials, from distances on a finer lattice.

    `values` holds signed distances, `per` lattice steps to a cell; each cell is split into
    sub^3 parts, filled by how deep their middle lies. `out` is (E, 27), over the cell's volume.
    """
    width = 2.0 / sub
    reach = step / sub  # edge of a part in mm
    for e in range(first, last):
        i0, j0, k0 = cells[e, 0] * per, cells[e, 1] * per, cells[e, 2] * per
        for m in range(27):
            out[e, m] = 0.0
        for a in range(sub):
            x = -1.0 + (a + 0.5) * width
            gx = (x + 1.0) * 0.5 * per
            ia = min(int(gx), per - 1)
            fx = gx - ia
            for b in range(sub):
                y = -1.0 + (b + 0.5) * width
                gy = (y + 1.0) * 0.5 * per
                jb = min(int(gy), per - 1)
                fy = gy - jb
                for c in range(sub):
                    z = -1.0 + (c + 0.5) * width
                    gz = (z + 1.0) * 0.5 * per
                    kc = min(int(gz), per - 1)
                    fz = gz - kc
                    d = 0.0
                    for p in range(2):
                        wx = fx if p else 1.0 - fx
                        for q in range(2):
                            wy = fy if q else 1.0 - fy
                            for r in range(2):
                                wz = fz if r else 1.0 - fz
                                d += wx * wy * wz * values[i0 + ia + p, j0 + jb + q, k0 + kc + r]
                    # what straight lines between lattice points leave out of a curved distance
                    ni = min(max(i0 + ia + (1 if fx > 0.5 else 0), 1), values.shape[0] - 2)
                    nj = min(max(j0 + jb + (1 if fy > 0.5 else 0), 1), values.shape[1] - 2)
                    nk = min(max(k0 + kc + (1 if fz > 0.5 else 0), 1), values.shape[2] - 2)
                    mid = 2.0 * values[ni, nj, nk]
                    bx = values[ni - 1, nj, nk] + values[ni + 1, nj, nk] - mid
                    by = values[ni, nj - 1, nk] + values[ni, nj + 1, nk] - mid
                    bz = values[ni, nj, nk - 1] + values[ni, nj, nk + 1] - mid
                    d -= 0.5 * (fx * (1 - fx) * bx + fy * (1 - fy) * by + fz * (1 - fz) * bz)
                    fill = min(max(0.5 - d / reach, 0.0), 1.0)
                    if fill == 0.0:
                        continue
                    share = fill / (sub * sub * sub)
                    square = width * width / 12.0  # of a part about its own middle
                    px0, px1, px2 = 1.0, x, x * x + square
                    py0, py1, py2 = 1.0, y, y * y + square
                    pz0, pz1, pz2 = 1.0, z, z * z + square
                    for m in range(27):
                        ma, mb, mc = m // 9, (m // 3) % 3, m % 3
                        vx = px0 if ma == 0 else (px1 if ma == 1 else px2)
                        vy = py0 if mb == 0 else (py1 if mb == 1 else py2)
                        vz = pz0 if mc == 0 else (pz1 if mc == 1 else pz2)
                        out[e, m] += share * vx * vy * vz


@njit(cache=True, nogil=True)
def condensed(
    first: int,
    last: int,
    moments: Floats,
    table: Floats,
    strain: Floats,
    mode: Floats,
    material: Floats,
    volume: float,
    out: Floats,
) -> None:
    """(E, 24, 24) stiffness of cells with their incompatible modes condensed out.

    `table` (27, 33, 33) is the stiffness of each monomial for 24 displacements and 9 modes;
    `strain` (27, 6, 24) and `mode` (27, 6, 9) their strains. The modes are made free of mean
    strain over the inside, so that the patch test holds in a cut cell.
    """
    full = np.zeros((33, 33))
    mean, bare, pressed = np.zeros((6, 24)), np.zeros((6, 9)), np.zeros((6, 9))
    mixed, inner = np.zeros((9, 24)), np.zeros((9, 9))
    for e in range(first, last):
        full[:] = 0.0
        mean[:] = 0.0
        bare[:] = 0.0
        for m in range(27):
            weight = moments[e, m]
            if weight == 0.0:
                continue
            for i in range(33):
                for j in range(33):
                    full[i, j] += weight * table[m, i, j]
            for i in range(6):
                for j in range(24):
                    mean[i, j] += weight * strain[m, i, j]
                for j in range(9):
                    bare[i, j] += weight * mode[m, i, j]
        inside = moments[e, 0]
        for i in range(6):
            for j in range(9):
                bare[i, j] /= inside
        for i in range(6):
            for j in range(9):
                pressed[i, j] = 0.0
                for k in range(6):
                    pressed[i, j] += material[i, k] * bare[k, j]
        trace = 0.0
        for i in range(9):
            for j in range(9):
                inner[i, j] = full[24 + i, 24 + j]
                for k in range(6):
                    inner[i, j] -= inside * bare[k, i] * pressed[k, j]
            for j in range(24):
                mixed[i, j] = full[24 + i, j]
                for k in range(6):
                    mixed[i, j] -= pressed[k, i] * mean[k, j]
            trace += inner[i, i]
        for i in range(9):
            inner[i, i] += 1e-9 * trace + 1e-30
        # Cholesky: inner = L L^T, and mixed <- L^-1 mixed
        for j in range(9):
            for k in range(j):
                for i in range(j, 9):
                    inner[i, j] -= inner[i, k] * inner[j, k]
            pivot = np.sqrt(max(inner[j, j], 1e-30))
            for i in range(j, 9):
                inner[i, j] /= pivot
        for i in range(9):
            for k in range(i):
                for j in range(24):
                    mixed[i, j] -= inner[i, k] * mixed[k, j]
            for j in range(24):
                mixed[i, j] /= inner[i, i]
        for i in range(24):
            for j in range(24):
                value = full[i, j]
                for k in range(9):
                    value -= mixed[k, i] * mixed[k, j]
                out[e, i, j] = volume * value


@njit(cache=True, nogil=True)
def scatter(cells: Ints, stiffness: Floats, kind: Ints, out: Floats) -> None:
    """Add cell stiffness to the (N, 27, 3, 3) stencil; `kind` picks the row of `stiffness`."""
    for e in range(cells.shape[0]):
        s = kind[e]
        for a in range(8):
            ax, ay, az = a // 4, (a // 2) % 2, a % 2
            n = cells[e, a]
            for b in range(8):
                bx, by, bz = b // 4, (b // 2) % 2, b % 2
                slot = (bx - ax + 1) * 9 + (by - ay + 1) * 3 + (bz - az + 1)
                for i in range(3):
                    for j in range(3):
                        out[n, slot, i, j] += stiffness[s, 3 * a + i, 3 * b + j]


@njit(cache=True, nogil=True)
def product(first: int, last: int, near: Ints, stencil: Floats, x: Floats, out: Floats) -> None:
    """(N, 3, K) product of the stencil with K vectors at rows first to last."""
    many = x.shape[2]
    for n in range(first, last):
        for i in range(3):
            for k in range(many):
                out[n, i, k] = 0.0
        for s in range(27):
            m = near[n, s]
            if m < 0:
                continue
            for i in range(3):
                a, b, c = stencil[n, s, i, 0], stencil[n, s, i, 1], stencil[n, s, i, 2]
                for k in range(many):
                    out[n, i, k] += a * x[m, 0, k] + b * x[m, 1, k] + c * x[m, 2, k]


@njit(cache=True, nogil=True)
def fitted(
    first: int,
    last: int,
    place: Ints,
    where: Ints,
    middle: Floats,
    inside: Floats,
    at: Floats,
    reach: int,
    radius: float,
    values: Floats,
    out: Floats,
) -> None:
    """(E, Q) values at points by a linear fit to the cells within a radius of each.

    `where` (X, Y, Z) holds the number of each cell or -1, `inside` (E,) its weight, `at` (E, 3)
    the points, `reach` cells to look at each way. A slope that the cells do not show is none.
    """
    many = values.shape[1]
    matrix, lower, row = np.zeros((4, 4)), np.zeros((4, 4)), np.zeros(4)
    for e in range(first, last):
        for q in range(many):
            out[e, q] = 0.0
        i0, j0, k0 = place[e, 0], place[e, 1], place[e, 2]
        for turn in range(2):
            if turn == 0:
                matrix[:] = 0.0
            for i in range(max(i0 - reach, 0), min(i0 + reach + 1, where.shape[0])):
                for j in range(max(j0 - reach, 0), min(j0 + reach + 1, where.shape[1])):
                    for k in range(max(k0 - reach, 0), min(k0 + reach + 1, where.shape[2])):
                        n = where[i, j, k]
                        if n < 0:
                            continue
                        x = (middle[n, 0] - at[e, 0]) / radius
                        y = (middle[n, 1] - at[e, 1]) / radius
                        z = (middle[n, 2] - at[e, 2]) / radius
                        far = x * x + y * y + z * z
                        if far >= 1.0:
                            continue
                        weight = inside[n] * (1.0 - far) * (1.0 - far)
                        row[0], row[1], row[2], row[3] = 1.0, x, y, z
                        if turn == 0:
                            for a in range(4):
                                for b in range(4):
                                    matrix[a, b] += weight * row[a] * row[b]
                            continue
                        share = weight * (
                            lower[0, 0] + lower[0, 1] * x + lower[0, 2] * y + lower[0, 3] * z
                        )
                        for q in range(many):
                            out[e, q] += share * values[n, q]
            if turn == 0:
                total = matrix[0, 0]
                if total <= 0.0:
                    n = where[i0, j0, k0]
                    for q in range(many):
                        out[e, q] = values[n, q]
                    break
                for a in range(1, 4):
                    matrix[a, a] += 1e-3 * total
                lower[:] = np.linalg.inv(matrix)
