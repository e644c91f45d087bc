"""A clasp arm: Castigliano on the program's stations beside adaptive quadrature of scipy."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from scipy.integrate import quad

from claspwright.materials import material
from claspwright.mechanics import arm_result, half_ellipse

ALLOY = material("cocr-lpbf-stress-relieved")
LENGTH, WIDTH, THICKNESS, TAPER, UNDERCUT = 15.0, 1.6, 1.1, 0.5, 0.25


def by_quadrature() -> float:
    def integrand(s: float) -> float:
        scale = TAPER + (1 - TAPER) * s / LENGTH
        return s**2 / half_ellipse(scale * WIDTH / 2, scale * THICKNESS).i_x

    compliance, _ = quad(integrand, 0.0, LENGTH, epsabs=0.0, epsrel=1e-9)
    return UNDERCUT * ALLOY.modulus.nominal / compliance


@pytest.mark.parametrize("stations", [20, 100, 500])
def test_arm_result(benchmark: Any, stations: int) -> None:
    line = np.zeros((stations, 3))
    line[:, 0] = np.linspace(0.0, LENGTH, stations)
    scale = np.linspace(1.0, TAPER, stations)
    arm = benchmark(arm_result, line, WIDTH * scale, THICKNESS * scale, ALLOY, UNDERCUT)
    assert abs(arm.force_n / by_quadrature() - 1) < 1e-7


def test_scipy_quadrature(benchmark: Any) -> None:
    benchmark(by_quadrature)
