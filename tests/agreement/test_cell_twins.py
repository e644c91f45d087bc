"""Kernels of the finite elements against their slow twins."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.sparse import bsr_array

from claspwright.base import Floats, silent
from claspwright.mechanics import _cell_kernels as kernels
from claspwright.mechanics import cut_cells, elasticity
from claspwright.mechanics.cells import cell_stiffness, full_moments, stiffness_terms, strain_terms
from claspwright.mechanics.stencil import stencil_of
from claspwright.mechanics.two_levels import TwoLevels, as_matrix


def ball(p: Floats) -> Floats:
    return np.linalg.norm(p - 0.05, axis=1) - 0.9


def test_moments_of_cut_cells() -> None:
    cells = cut_cells(ball, -np.ones(3), np.ones(3), 0.25)
    rng = np.random.default_rng(5)
    for e in rng.choice(len(cells.place), 12, replace=False):
        g = (np.arange(40) + 0.5) / 20 - 1.0
        local = np.stack(np.meshgrid(g, g, g, indexing="ij"), axis=-1).reshape(-1, 3)
        world = cells.origin + (cells.place[e] + 0.5 + 0.5 * local) * cells.step
        inside = ball(world) < 0
        powers = [(a, b, c) for a in range(3) for b in range(3) for c in range(3)]
        twin = [np.mean(inside * np.prod(local ** np.array(p), axis=1)) for p in powers]
        assert cells.moments[e] == pytest.approx(twin, abs=0.02)


def test_condensed_stiffness() -> None:
    cells = cut_cells(ball, -np.ones(3), np.ones(3), 0.25)
    material = elasticity(210.0, 0.3)
    found, kind = cell_stiffness(cells, material)
    strain, mode = strain_terms()
    terms = stiffness_terms(material)
    moments = np.vstack([full_moments()[None], cells.moments[kind > 0] + 1e-6 * full_moments()])
    for n in (0, 3, len(moments) // 2):
        full = np.einsum("m,mij->ij", moments[n], terms)
        mean, bare = (np.einsum("m,mij->ij", moments[n], t) for t in (strain, mode))
        bare = bare / moments[n, 0]
        mixed = full[:24, 24:] - mean.T @ material @ bare
        inner = full[24:, 24:] - moments[n, 0] * bare.T @ material @ bare
        inner += 1e-9 * np.trace(inner) * np.eye(9)
        twin = cells.step * (full[:24, :24] - mixed @ np.linalg.solve(inner, mixed.T))
        assert found[n] == pytest.approx(twin, rel=1e-6, abs=1e-6 * np.abs(twin).max())


def test_constant_strain_passes_every_cell() -> None:
    """The patch test: a linear displacement stores exactly the energy of what lies inside."""
    cells = cut_cells(ball, -np.ones(3), np.ones(3), 0.25)
    material = elasticity(210.0, 0.3)
    found, kind = cell_stiffness(cells, material)
    slope = np.random.default_rng(2).normal(size=(3, 3))
    moved = (cells.nodes @ slope.T)[cells.corners].reshape(len(kind), 24)
    energy = np.einsum("ei,eij,ej->e", moved, found[kind], moved)
    e = np.array([
        slope[0, 0], slope[1, 1], slope[2, 2], slope[0, 1] + slope[1, 0],
        slope[1, 2] + slope[2, 1], slope[2, 0] + slope[0, 2],
    ])  # fmt: skip
    exact = (e @ material @ e) * cells.moments[:, 0] * cells.step**3
    assert energy == pytest.approx(exact, rel=1e-3)


def test_products_and_smoothing() -> None:
    cells = cut_cells(ball, -np.ones(3), np.ones(3), 0.25)
    springs = np.tile(np.eye(3), (len(cells.nodes), 1, 1))
    stencil = stencil_of(cells, elasticity(210.0, 0.3), springs)
    x = np.random.default_rng(1).normal(size=(len(cells.nodes), 3, 4))
    dense = as_matrix(stencil.near, stencil.values).toarray()
    assert dense == pytest.approx(dense.T, abs=1e-9 * np.abs(dense).max())
    twin = (dense @ x.reshape(-1, 4)).reshape(x.shape)
    assert stencil.times(x) == pytest.approx(twin, rel=1e-9, abs=1e-9 * np.abs(twin).max())


@pytest.mark.parametrize("loads", [1, 4])
def test_kernels_of_the_rounds(loads: int) -> None:
    """Products, the polynomial, clusters and substitution, each against dense algebra."""
    cells = cut_cells(ball, -np.ones(3), np.ones(3), 0.25)
    springs = np.tile(np.eye(3), (len(cells.nodes), 1, 1))
    stencil = stencil_of(cells, elasticity(210.0, 0.3), springs)
    two = TwoLevels(cells, stencil.near, stencil.values, stencil.inverse, loads=loads,
                    progress=silent)  # fmt: skip
    dense = as_matrix(stencil.near, stencil.values).toarray()
    size, wide = len(cells.nodes), two.width
    x = np.random.default_rng(3).normal(size=(size, 3, wide))
    flat = x.reshape(3 * size, wide)
    out, dots = np.empty_like(x), np.empty(wide)
    values = stencil.values.reshape(size, 27, 9)
    two.kernels.product(0, size, stencil.near, values, x, out, dots)
    assert out.reshape(flat.shape) == pytest.approx(dense @ flat, rel=1e-9, abs=1e-9)
    assert dots == pytest.approx((flat * (dense @ flat)).sum(axis=0))
    starts, parts, blocks = two.up
    whole = bsr_array((blocks, parts, starts)).toarray().astype(float)
    coarse = whole.T @ dense @ whole
    found = two.factor.solve(two.kernels, np.ascontiguousarray(whole.T @ flat))
    used = np.diag(coarse) > 1e-9 * np.diag(coarse).max()
    twin = np.zeros_like(found)
    twin[used] = np.linalg.solve(coarse[np.ix_(used, used)], (whole.T @ flat)[used])
    assert found == pytest.approx(twin, rel=1e-4, abs=1e-4 * np.abs(twin).max())

    inverse = np.zeros_like(dense)
    for n in range(size):
        inverse[3 * n : 3 * n + 3, 3 * n : 3 * n + 3] = stencil.inverse[n]
    low, high = two.highest / 12.0, two.highest
    roots = (high + low) / 2 + (high - low) / 2 * np.cos(np.pi * (np.arange(3) + 0.5) / 3)
    smoother = np.eye(3 * size)  # error left by Chebyshev's polynomial, by its roots
    for root in roots:
        smoother = smoother @ (np.eye(3 * size) - inverse @ dense / root)
    reduced = np.zeros_like(coarse)
    reduced[np.ix_(used, used)] = np.linalg.inv(coarse[np.ix_(used, used)])
    step = (np.eye(3 * size) - smoother) @ np.linalg.solve(dense, flat)
    step += whole @ (reduced @ (whole.T @ (flat - dense @ step)))
    step = step + (np.eye(3 * size) - smoother) @ np.linalg.solve(dense, flat - dense @ step)
    some, more = two.apply(x, x.astype(two.kind))
    assert (some + more).reshape(flat.shape) == pytest.approx(step, abs=1e-5 * np.abs(step).max())


def test_stress_carried_to_the_skin() -> None:
    """Weighted least squares by a library; a linear field comes through as it is."""
    cells = cut_cells(ball, -np.ones(3), np.ones(3), 0.25)
    assert cells.skin is not None
    middle, inside = cells.middle, np.ascontiguousarray(cells.moments[:, 0])
    values = np.column_stack([np.sin(3 * middle[:, 0]), 2.0 + middle @ [1.0, -2.0, 0.5]])
    where = np.full(tuple(cells.place.max(axis=0) + 1), -1, dtype=np.int32)
    where[tuple(cells.place.T)] = np.arange(len(middle))
    fit, radius = np.empty_like(values), 0.5
    kernels.fitted(0, len(fit), cells.place, where, middle, inside, cells.skin, 4, radius,
                   values, fit)  # fmt: skip
    assert np.abs(np.linalg.norm(cells.skin - 0.05, axis=1) - 0.9).min() < 1e-2
    assert np.abs(fit[:, 1] - 2.0 - cells.skin @ [1.0, -2.0, 0.5]).max() < 0.02
    for e in (0, 17, len(fit) // 2):
        away = (middle - cells.skin[e]) / radius
        far = (away**2).sum(axis=1)
        weight = inside * np.maximum(1.0 - far, 0.0) ** 2
        rows = np.column_stack([np.ones(len(away)), away])
        matrix = rows.T @ (weight[:, None] * rows)
        matrix[range(1, 4), range(1, 4)] += 1e-3 * matrix[0, 0]
        twin = np.linalg.solve(matrix, rows.T @ (weight[:, None] * values))[0]
        assert fit[e] == pytest.approx(twin, rel=1e-9)
