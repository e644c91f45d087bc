"""Laws that every clasp arm obeys."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from claspwright.materials import material
from claspwright.mechanics import arm_result, clasp_arm

ALLOY = material("cocr-lpbf-stress-relieved")
sizes = st.floats(0.5, 2.5)
tapers = st.floats(0.3, 1.0)
lengths = st.floats(5.0, 25.0)


@given(width=sizes, thickness=sizes, taper=tapers, length=lengths, factor=st.floats(0.5, 2.0))
@settings(max_examples=50, deadline=None)
def test_force_and_stress_scale_as_beam_theory_says(
    width: float, thickness: float, taper: float, length: float, factor: float
) -> None:
    """Force with L^-3, width and thickness^3; stress with L^-2 and thickness; both with travel."""
    base = clasp_arm((width, thickness), taper, length, ALLOY, 0.25)
    longer = clasp_arm((width, thickness), taper, factor * length, ALLOY, 0.25)
    thicker = clasp_arm((width, factor * thickness), taper, length, ALLOY, 0.25)
    deeper = clasp_arm((width, thickness), taper, length, ALLOY, factor * 0.25)
    assert longer.force_n == pytest.approx(base.force_n / factor**3)
    assert longer.peak_stress_mpa == pytest.approx(base.peak_stress_mpa / factor**2)
    assert thicker.force_n == pytest.approx(base.force_n * factor**3)
    assert thicker.peak_stress_mpa == pytest.approx(base.peak_stress_mpa * factor)
    assert deeper.force_n == pytest.approx(base.force_n * factor)
    assert base.safe_undercut_mm == pytest.approx(deeper.safe_undercut_mm)


@given(seed=st.integers(0, 2**31), length=lengths)
@settings(max_examples=25, deadline=None)
def test_an_arm_does_not_know_where_it_lies(seed: int, length: float) -> None:
    rng = np.random.default_rng(seed)
    turn = np.linspace(0.0, 2.0, 40)
    line = length / 2 * np.stack([np.cos(turn), np.sin(turn), 0.1 * turn], axis=1)
    size = np.linspace(1.6, 0.8, 40)
    moved = Rotation.random(random_state=seed).apply(line) + rng.normal(size=3)
    here = arm_result(line, size, 0.7 * size, ALLOY, 0.25)
    there = arm_result(moved, size, 0.7 * size, ALLOY, 0.25)
    assert there.force_n == pytest.approx(here.force_n)
    assert there.peak_stress_mpa == pytest.approx(here.peak_stress_mpa)
    assert there.turn_rad == pytest.approx(here.turn_rad)
