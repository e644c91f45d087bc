"""Distortion against beam theory and the published bridges.

Curl of a strip: check-values F19, W13. Layers laid on a strip that is free to bend: beam theory of
a growing strip, derived below. Bridges: NIST AMB2018-01, check-values F13 to F16; their measures
from memory.
"""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import Floats, InputError
from claspwright.build import Coupon, coupon_rise, strain_from_rise
from claspwright.mechanics.cells import Cells, cut_cells
from claspwright.mechanics.growth import Grown, cut_free, grow, in_plane

MODULUS, POISSON = 200_000.0, 0.3
LENGTH, HEIGHT = 30.0, 3.0


def strip(step: float) -> Cells:
    size = np.array([LENGTH, 2.0, HEIGHT])

    def distance(points: Floats) -> Floats:
        out = np.abs(points - 0.5 * size) - 0.5 * size
        outside = np.linalg.norm(np.maximum(out, 0.0), axis=1)
        return np.asarray(outside + np.minimum(out.max(axis=1), 0.0))

    return cut_cells(distance, np.zeros(3), size, step)


def test_a_strip_with_a_gradient_curls_as_beam_theory_says() -> None:
    cells = strip(0.5)
    strain = np.zeros((len(cells.place), 6))
    strain[:, 0] = -0.002 * (cells.middle[:, 2] / HEIGHT - 0.5)  # the top shrinks more
    still = np.zeros((len(cells.nodes), 3))
    laid = Grown(cells, still, np.zeros((len(cells.place), 24)), strain, 1)
    foot = cells.nodes[:, 0] < 1e-6
    free = cut_free(laid, cells, modulus=MODULUS, poisson=POISSON, held=foot)
    tip = free.moved()[cells.nodes[:, 0] > LENGTH - 1e-6, 2].mean()
    steps = HEIGHT / 0.5  # the strain is even within a cell, which takes 1 / n^2 from the moment
    assert tip == pytest.approx(0.300 * (1 - 1 / steps**2), rel=2e-3)
    assert tip == pytest.approx(0.300, rel=0.03)
    half = free.moved(0.5)[cells.nodes[:, 0] > LENGTH - 1e-6, 2].mean()
    assert half == pytest.approx(0.5 * tip, rel=1e-6)


def test_layers_on_a_strip_free_to_bend() -> None:
    """A layer h of strain e on top of n - 1 curves the strip by 6 e h (n - 1) h / (n h)^3."""
    cells, h, strain = strip(0.5), 0.5, 0.002
    foot = cells.nodes[:, 0] < 1e-6
    grown = grow(
        cells, in_plane(-strain, len(cells.place)), modulus=MODULUS, poisson=POISSON, held=foot
    )
    count = int(HEIGHT / h)
    turns = [12 * strain * h * 0.5 * (n - 1) * h / (n * h) ** 3 for n in range(1, count + 1)]
    low = (cells.nodes[:, 0] > LENGTH - 1e-6) & (cells.nodes[:, 2] < 1e-6)
    assert grown.moved[low, 2].mean() == pytest.approx(sum(turns) * LENGTH**2 / 2, rel=0.03)
    free = cut_free(grown, cells, modulus=MODULUS, poisson=POISSON, held=foot)
    assert np.abs(free.springing).max() < 2e-4 * np.abs(free.standing).max()  # nothing was cut


def test_even_shrinking_without_plate_bends_nothing() -> None:
    cells = strip(0.5)
    grown = grow(
        cells, in_plane(-0.002, len(cells.place)), modulus=MODULUS, poisson=POISSON, lump=99,
        held=cells.nodes[:, 0] < 1e-6,
    )  # fmt: skip
    tip = grown.moved[cells.nodes[:, 0] > LENGTH - 1e-6]
    assert tip[:, 0].mean() == pytest.approx(-0.002 * LENGTH, rel=0.01)
    assert abs(tip[:, 2].mean()) < 0.02 * 0.002 * LENGTH


def test_finer_layers_converge() -> None:
    small = Coupon(12.0, 1.0, 2.0, 4, 1.0, 1.0)
    rises = [
        coupon_rise(small, -0.004, modulus=MODULUS, poisson=POISSON, step_mm=step, lump=lump)
        for step, lump in ((0.5, 2), (0.5, 1), (0.25, 1))
    ]
    assert all(rise > 0 for rise in rises)  # free ends rise: check-values F16
    assert abs(rises[2] - rises[1]) < 0.75 * abs(rises[1] - rises[0])


def test_published_bridges_ask_for_a_plausible_strain() -> None:
    bridge = Coupon(75.0, 5.0, 7.5, 12, 3.0, 5.0)
    strain = strain_from_rise(bridge, 1.276, modulus=MODULUS, poisson=POISSON, step_mm=1.25, lump=1)
    for rise in (1.276, 1.168):  # IN625, 15-5: check-values F13, F14; the model is linear
        found = strain * rise / 1.276
        assert -0.01 < found < -0.001  # F18, from memory: -0.002 to -0.01
        assert 100.0 < -found * MODULUS < 1000.0  # F17: order 10^2 MPa to near yield


def test_a_coupon_gives_back_the_strain_that_bent_it() -> None:
    small = Coupon(20.0, 2.0, 2.0, 5, 1.0, 1.0)
    rise = coupon_rise(small, -0.003, modulus=MODULUS, poisson=POISSON)
    found = strain_from_rise(small, rise, modulus=MODULUS, poisson=POISSON)
    assert found == pytest.approx(-0.003, rel=1e-9)
    with pytest.raises(InputError, match="rise"):
        strain_from_rise(small, -0.1, modulus=MODULUS, poisson=POISSON)


def test_a_lump_that_nothing_carries_yet_stays_in_place() -> None:
    """Two posts, the second begins in the air; a bridge joins them at the end."""
    boxes = [
        (np.array([0.0, 0.0, 0.0]), np.array([1.0, 1.0, 4.0])),
        (np.array([4.0, 0.0, 2.0]), np.array([5.0, 1.0, 4.0])),
        (np.array([0.0, 0.0, 3.0]), np.array([5.0, 1.0, 4.0])),
    ]

    def distance(points: Floats) -> Floats:
        out = [np.abs(points - 0.5 * (a + b)) - 0.5 * (b - a) for a, b in boxes]
        return np.asarray(np.min([one.max(axis=1) for one in out], axis=0))

    cells = cut_cells(distance, np.zeros(3), np.array([5.0, 1.0, 4.0]), 0.5)
    grown = grow(cells, in_plane(-0.004, len(cells.place)), modulus=MODULUS, poisson=POISSON)
    assert 0.001 < np.abs(grown.moved).max() < 0.2
