"""Kernels of the finite elements against their slow twins."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import Floats
from claspwright.mechanics import _cell_kernels as kernels
from claspwright.mechanics import cut_cells, elasticity
from claspwright.mechanics.cells import cell_stiffness, full_moments, stiffness_terms, strain_terms
from claspwright.mechanics.stencil import _as_matrix, stencil_of


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
    dense = _as_matrix(stencil).toarray()
    assert dense == pytest.approx(dense.T, abs=1e-9 * np.abs(dense).max())
    twin = (dense @ x.reshape(-1, 4)).reshape(x.shape)
    assert stencil.times(x) == pytest.approx(twin, rel=1e-9, abs=1e-9 * np.abs(twin).max())
    step, moved = np.ones_like(x), np.zeros_like(x)
    kernels.smooth_step(0, len(x), stencil.inverse, x, 0.5, 0.25, step, moved)
    twin = 0.25 + 0.5 * np.einsum("nij,njk->nik", stencil.inverse, x)
    assert moved == pytest.approx(twin, rel=1e-12)


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
