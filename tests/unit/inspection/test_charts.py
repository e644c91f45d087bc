"""Control charts, capability and regression against published examples."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import InputError
from claspwright.inspection import capability, control_chart, drivers, sd_interval

FLOW = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]


@pytest.mark.reference("NIST/SEMATECH e-Handbook 6.3.2.2, individuals chart of flow rates")
def test_individuals_chart_of_the_handbook() -> None:
    chart = control_chart(FLOW)
    assert chart.middle == pytest.approx(50.81, abs=0.005)
    assert chart.range_middle == pytest.approx(1.8778, abs=5e-5)
    assert chart.upper == pytest.approx(55.8041, abs=5e-4)
    assert chart.lower == pytest.approx(45.8159, abs=5e-4)
    assert chart.outside == ()


def test_a_jump_and_a_run_are_seen() -> None:
    assert control_chart([*FLOW, 75.0]).outside == (10,)
    drift = control_chart([1.0, 1.1, 0.9, 1.0, 1.1, 0.9, 1.0, 1.1, 0.95,
                           2.0, 2.1, 1.9, 2.0, 2.1, 1.9, 2.0, 2.1, 1.95])  # fmt: skip
    assert drift.runs == (8, 17)
    with pytest.raises(InputError):
        control_chart([1.0, 2.0])


@pytest.mark.reference(
    "NIST/SEMATECH e-Handbook 6.1.6: limits 8 and 20, mean 16, s 2: Cp 1.0, Cpk 0.6667"
)
def test_capability_of_the_handbook() -> None:
    spread = 2.0 * (4.0 / 5.0) ** 0.5 / (0.8**0.5)
    values = [16.0 + spread * z for z in (-1.0, 1.0, -1.0, 1.0, 0.0)]
    found = capability(values, lower=8.0, upper=20.0)
    assert found.mean == pytest.approx(16.0)
    assert found.sd == pytest.approx(2.0)
    assert found.cp == pytest.approx(1.0)
    assert found.cpk == pytest.approx(0.6667, abs=5e-5)
    assert found.cpk_low < found.cpk < found.cpk_high
    one_sided = capability(values, upper=20.0)
    assert one_sided.cp is None
    assert one_sided.cpk == pytest.approx(0.6667, abs=5e-5)
    low, high = sd_interval(values)
    assert low < 2.0 < high


@pytest.mark.reference("F. J. Anscombe, Am Stat 1973;27:17-21, first set: 3.00 + 0.500 x")
def test_regression_of_anscombe() -> None:
    x = [10.0, 8.0, 13.0, 9.0, 11.0, 14.0, 6.0, 4.0, 12.0, 7.0, 5.0]
    y = [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68]
    intercept, slope = drivers(y, {"x": x})
    assert intercept.estimate == pytest.approx(3.0001, abs=5e-5)
    assert intercept.standard_error == pytest.approx(1.1247, abs=5e-5)
    assert slope.estimate == pytest.approx(0.5001, abs=5e-5)
    assert slope.standard_error == pytest.approx(0.1179, abs=5e-5)
    assert slope.clear
    with pytest.raises(InputError, match="told apart"):
        drivers(y, {"x": x, "again": [2 * v for v in x]})


def test_intervals_of_drivers_hold_the_truth_as_often_as_they_say() -> None:
    truth, held = np.array([10.0, 2.0, 0.0]), np.zeros(3)
    trials = 400
    for seed in range(trials):
        random = np.random.default_rng(seed)
        x, z = random.uniform(-6, 6, (2, 25))
        misfit = truth[0] + truth[1] * x + truth[2] * z + random.normal(0, 5, 25)
        found = drivers(misfit.tolist(), {"x": x.tolist(), "z": z.tolist()})
        held += [row.low < true < row.high for row, true in zip(found, truth, strict=True)]
    # 95 %, within three standard errors of a share over 400 trials
    assert np.abs(held / trials - 0.95).max() < 3.0 * np.sqrt(0.95 * 0.05 / trials)
