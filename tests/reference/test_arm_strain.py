"""The strain that a design reckons with, against beam theory and a worked example."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import InputError
from claspwright.framework.spring import peak_strain
from claspwright.materials import material
from claspwright.mechanics import arm_result


@pytest.mark.reference("check-values W3: uniform half round, 0.8 mm, 12 mm, 220 GPa: 527.6 MPa")
def test_a_uniform_arm_has_the_strain_of_the_worked_example() -> None:
    even = np.full(11, 0.8)
    assert 220_000 * peak_strain(12.0, even, even, 0.25) == pytest.approx(527.6, abs=0.1)


@pytest.mark.reference("check-values W4: the same arm tapered to half: 312.7 MPa")
def test_a_tapered_arm_has_the_strain_of_the_worked_example() -> None:
    taper = 0.8 * np.linspace(1.0, 0.5, 41)
    assert 220_000 * peak_strain(12.0, taper, taper, 0.25) == pytest.approx(312.7, abs=0.2)


@pytest.mark.reference("beam theory: strain goes with the travel and with 1 / length^2")
def test_strain_goes_with_travel_and_length() -> None:
    half, thick = np.linspace(0.7, 0.35, 41), np.linspace(0.9, 0.5, 41)
    at = peak_strain(9.0, half, thick, 0.2)
    assert peak_strain(9.0, half, thick, 0.1) == pytest.approx(at / 2, rel=1e-9)
    assert peak_strain(18.0, half, thick, 0.2) == pytest.approx(at / 4, rel=1e-9)


def test_it_is_the_strain_of_the_straight_beam_that_judges_the_finished_arm() -> None:
    alloy = material("cocr-lpbf-stress-relieved")
    half, thick = np.linspace(0.7, 0.35, 41), np.maximum(0.8 * np.linspace(1, 0.5, 41), 0.5)
    line = np.column_stack([np.linspace(0.0, 9.5, 41), np.zeros((41, 2))])
    judged = arm_result(line, 2 * half, thick, alloy, 0.2)
    mine = alloy.modulus.nominal * peak_strain(9.5, half, thick, 0.2)
    assert mine == pytest.approx(judged.peak_stress_mpa, rel=2e-3)


def test_an_arm_without_length_is_refused() -> None:
    with pytest.raises(InputError):
        peak_strain(0.0, np.ones(3), np.ones(3), 0.25)
