"""A clasp arm: Castigliano on the program's stations beside adaptive quadrature of scipy."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from scipy.integrate import quad

from claspwright.materials import material
from claspwright.mechanics import (
    Elastic,
    Grip,
    Hold,
    arm_result,
    beam_arm,
    crown_track,
    dislodging_load,
    half_ellipse,
    half_ovals,
    motions,
    ride,
    sprung,
)

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


def arm_on_ball() -> Any:
    turn, depth = np.linspace(0.0, 2.2, 81), np.linspace(0.8, -1.39, 81)
    flat = np.sqrt(16.0 - depth**2)
    line = np.stack([flat * np.cos(turn), flat * np.sin(turn), depth], axis=1)
    size = np.linspace(1.0, 0.5, 81)
    return beam_arm(line, line / 4.0, half_ovals(1.6 * size, 0.9 * size), stations=81)


def ball(points: Any) -> Any:
    size = np.linalg.norm(points, axis=1, keepdims=True)
    return size[:, 0] - 4.0, points / size


def test_an_arm_in_space(benchmark: Any) -> None:
    arm = arm_on_ball()
    out = arm.off[-1]
    assert benchmark(sprung, arm, out, 0.25, Elastic(210e3)).force_n > 0


def test_a_ride_over_a_crown(benchmark: Any) -> None:
    arm = arm_on_ball()
    track = crown_track(arm, ball, np.array([0.0, 0.0, 1.0]))
    grips = (Grip(0.15, 0.0, 210e3),)
    assert benchmark(ride, arm, track, Elastic(210e3), grips)[0].withdrawal_n > 0


HOLDS = tuple(
    Hold(f"{k}", np.array(at), 5.0 * (k % 2), pushes=k % 2 == 0)
    for k, at in enumerate(
        [(-22.0, 10.0), (-24.0, 9.0), (20.0, 12.0), (23.0, 11.0), (-14.0, 26.0), (15.0, 25.0)]
    )
)
POINTS = np.random.default_rng(1).uniform(-25, 25, size=(400, 2))


def test_the_lifting_map_by_motions(benchmark: Any) -> None:
    loads = benchmark(lambda: motions(HOLDS).loads(POINTS))
    for at, load in zip(POINTS[:5], loads[:5], strict=True):
        assert abs(load - dislodging_load(HOLDS, at)) < 1e-6 * max(load, 1.0)


def test_the_lifting_map_by_highs(benchmark: Any) -> None:
    benchmark.pedantic(lambda: [dislodging_load(HOLDS, at) for at in POINTS[:40]], rounds=1)
