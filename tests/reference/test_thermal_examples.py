"""Thermal lag against worked examples of handbooks, named, within 1 %."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from scipy.special import erfc

from claspwright.base import InputError
from claspwright.process import (
    Body,
    Slab,
    film_of_radiation,
    lumped,
    slab_temperatures,
    time_at_temperature,
)


def constant(value: float) -> Callable[[float], float]:
    return lambda time: value


@pytest.mark.reference(
    "Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, Example 5.1: thermocouple "
    "junction of 0.706 mm, time constant 1 s, 199 degC after 5.2 s (from memory)"
)
def test_thermocouple_junction() -> None:
    diameter = 7.06e-4
    ball = Body(np.pi * diameter**3 / 6, np.pi * diameter**2, 8500.0, 400.0, 20.0)
    assert ball.time_constant_s(400.0) == pytest.approx(1.0, rel=0.01)
    assert ball.biot(400.0) == pytest.approx(2.35e-3, rel=0.01)
    times = np.linspace(0.0, 6.0, 601)
    found = lumped(ball, 25.0, constant(200.0), times, film_w_m2_k=400.0)
    assert times[np.argmax(found >= 199.0)] == pytest.approx(5.2, rel=0.01)


@pytest.mark.reference(
    "Incropera & DeWitt, Example 5.2: the same junction, film 400 W/m2K and walls at 400 degC, "
    "emissivity 0.9: steady state 218.7 degC, 217.7 degC after 4.9 s (from memory)"
)
def test_thermocouple_junction_with_radiation() -> None:
    diameter = 7.06e-4
    ball = Body(np.pi * diameter**3 / 6, np.pi * diameter**2, 8500.0, 400.0, 20.0)
    # Gas at 200 degC, walls at 400 degC: the environment of the film and of radiation differ,
    # which a film coefficient of radiation about the steady state stands for.
    radiation = film_of_radiation(218.7, 400.0, 0.9)
    steady = (400.0 * 200.0 + radiation * 400.0) / (400.0 + radiation)
    assert steady == pytest.approx(218.7, rel=0.01)
    times = np.linspace(0.0, 6.0, 601)
    found = lumped(ball, 25.0, constant(steady), times, film_w_m2_k=400.0 + radiation)
    assert found[490] == pytest.approx(217.7, rel=0.01)


@pytest.mark.reference(
    "Incropera & DeWitt, plane wall with convection (steel pipeline of 40 mm wall heated by oil "
    "at 60 degC, h 500): 42.9 degC at the insulated and 45.2 degC at the heated face after "
    "8 min (from memory)"
)
def test_pipeline_wall() -> None:
    wall = Slab(0.040, 7832.0, 434.0, 63.9)
    assert wall.diffusivity_m2_s == pytest.approx(18.8e-6, rel=0.01)
    found = slab_temperatures(
        wall, -20.0, constant(60.0), np.array([0.0, 480.0]), film_w_m2_k=500.0
    )[-1]
    assert found[-1] == pytest.approx(42.9, rel=0.01)
    assert found[0] == pytest.approx(45.2, rel=0.01)


@pytest.mark.reference(
    "Holman, Heat Transfer, semi-infinite steel block (k 45, alpha 1.4e-5) raised to 250 degC at "
    "its face: 118.5 degC 25 mm below after 0.5 min (from memory); erfc solution"
)
def test_thick_steel_block() -> None:
    block = Slab(0.25, 45.0 / 1.4e-5 / 500.0, 500.0, 45.0)
    found = slab_temperatures(
        block, 35.0, constant(250.0), np.array([0.0, 30.0]), film_w_m2_k=1e7, cells=500
    )[-1]
    depth = np.concatenate([[0.0], (np.arange(500) + 0.5) * 0.25 / 500, [0.25]])
    assert np.interp(0.025, depth, found) == pytest.approx(118.5, rel=0.01)
    exact = 35.0 + 215.0 * erfc(depth / (2.0 * np.sqrt(1.4e-5 * 30.0)))
    assert np.abs(found - exact).max() < 0.01 * 215.0


def test_a_loaded_platform_lags_behind_its_furnace() -> None:
    """A steel plate of 100 x 100 x 25 mm on a ramp of 400 K/h: planning, never proof."""
    plate = Body(2.5e-4, 3.0e-2, 7850.0, 650.0, 25.0)
    times = np.linspace(0.0, 4.0 * 3600.0, 961)

    def furnace(time: float) -> float:
        return min(20.0 + 400.0 * time / 3600.0, 800.0)

    core = lumped(plate, 20.0, furnace, times, film_w_m2_k=10.0, emissivity=0.8)
    reached = time_at_temperature(times, core, 800.0, 15.0)
    assert reached > 780.0 / 400.0 * 3600.0  # later than the furnace
    assert (np.diff(core) > -1e-3).all()
    with pytest.raises(InputError, match="reaches"):
        time_at_temperature(times, core, 900.0, 5.0)


def test_a_wall_ends_at_the_furnace_temperature() -> None:
    wall = Slab(0.02, 7832.0, 434.0, 63.9)
    found = slab_temperatures(
        wall, 20.0, constant(800.0), np.array([0.0, 36_000.0]), film_w_m2_k=100.0
    )
    assert np.allclose(found[-1], 800.0, atol=0.01)
