"""Arms along a centreline: shapes, places and refusals."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import InputError
from claspwright.materials import material
from claspwright.mechanics import (
    arc_stiffness_ratio,
    arm_result,
    clasp_arm,
    goodman_factor,
    half_ellipse,
    retentive_force,
    safe_undercut,
    tapered_peak,
    withdrawal_force,
)

ALLOY = material("cocr-lpbf-stress-relieved")
TURN = np.linspace(0.0, np.pi / 2, 61)
QUARTER = np.stack([8 * np.cos(TURN), 8 * np.sin(TURN), 0 * TURN], axis=1)


def test_a_curved_line_counts_by_its_arc_length_and_says_how_much_it_turns() -> None:
    ends = np.linspace(1.0, 0.5, 61)
    curved = arm_result(QUARTER, 1.6 * ends, 1.1 * ends, ALLOY, 0.25)
    straight = clasp_arm((1.6, 1.1), 0.5, curved.length_mm, ALLOY, 0.25)
    assert curved.length_mm == pytest.approx(4 * np.pi, rel=1e-3)
    assert curved.force_n == pytest.approx(straight.force_n, rel=1e-6)
    assert curved.turn_rad == pytest.approx(np.pi / 2, rel=0.02)
    assert straight.turn_rad == 0.0


def test_the_peak_lies_on_the_centreline() -> None:
    ends = np.linspace(1.0, 0.5, 61)
    arm = arm_result(QUARTER, 1.6 * ends, 1.1 * ends, ALLOY, 0.25)
    assert np.linalg.norm(arm.peak_point) == pytest.approx(8.0, abs=0.01)
    angle = np.arctan2(arm.peak_point[1], arm.peak_point[0])
    assert angle == pytest.approx(arm.peak_at_mm / 8.0, rel=0.01)


def test_force_follows_the_modulus_and_goodman_the_strengths() -> None:
    arm = clasp_arm((1.6, 1.1), 0.5, 15.0, ALLOY, 0.25)
    assert arm.force_low_n < arm.force_n < arm.force_high_n
    assert arm.fatigue_factor == goodman_factor(arm.peak_stress_mpa, ALLOY)
    assert goodman_factor(ALLOY.fatigue.nominal, ALLOY) == pytest.approx(
        2 / (1 + ALLOY.fatigue.nominal / ALLOY.tensile.nominal)
    )


def test_one_size_holds_for_the_whole_line() -> None:
    line = np.array([[0.0, 0, 0], [15.0, 0, 0]])
    arm = arm_result(line, np.array([1.6]), np.array([1.1]), ALLOY, 0.25)
    assert arm.peak_at_mm == 0.0


def test_what_cannot_be_an_arm_is_refused() -> None:
    line = np.array([[0.0, 0, 0], [15.0, 0, 0]])
    one = np.array([1.0])
    with pytest.raises(InputError, match="coincide"):
        arm_result(np.zeros((3, 3)), one, one, ALLOY, 0.25)
    with pytest.raises(InputError, match="centreline"):
        arm_result(line[:1], one, one, ALLOY, 0.25)
    with pytest.raises(InputError, match="width"):
        arm_result(line, np.ones(3), one, ALLOY, 0.25)
    with pytest.raises(InputError, match="positive"):
        arm_result(line, one, one, ALLOY, 0.0)
    with pytest.raises(InputError, match="outward"):
        arm_result(line, one, one, ALLOY, 0.25, outward=np.array([0.0, 0.0, 2.0]))
    with pytest.raises(InputError, match="along the arm"):
        arm_result(line, one, one, ALLOY, 0.25, outward=np.array([1.0, 0.0, 0.0]))
    with pytest.raises(InputError, match="length"):
        clasp_arm((1.6, 1.1), 0.5, 0.0, ALLOY, 0.25)
    with pytest.raises(InputError, match="arc"):
        retentive_force(np.array([0.0, 1.0]), np.ones(2), modulus=1.0, undercut=0.1)
    with pytest.raises(InputError, match="increase"):
        retentive_force(np.array([0.0, 2.0, 1.0]), np.ones(3), modulus=1.0, undercut=0.1)
    with pytest.raises(InputError, match="taper"):
        tapered_peak(0.0)
    with pytest.raises(InputError, match="arc"):
        arc_stiffness_ratio(4.0)
    with pytest.raises(InputError, match="half_width"):
        half_ellipse(0.0, 1.0)
    with pytest.raises(InputError, match="locks"):
        withdrawal_force(4.0, 7.0, 0.15)
    with pytest.raises(InputError, match="peak stress"):
        safe_undercut(0.25, 0.0, 500.0)
