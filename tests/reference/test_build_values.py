"""Energy density, build rate, time and layer count against the worked example."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.build import (
    Beam,
    curl,
    energy_density,
    exposure_rate,
    job_time,
    layer_count,
    strain_from_coupon,
)

BEAM = Beam(power_w=200.0, speed_mm_s=800.0)


@pytest.mark.reference("ASME GTINDIA2017-4614, eq. 1 (check-values F01, F02, W6)")
def test_energy_density_and_rate() -> None:
    assert energy_density(BEAM, 0.08, 0.03) == pytest.approx(104.17, abs=0.005)
    assert exposure_rate(BEAM, 0.08, 0.03) * 3.6 == pytest.approx(6.912, abs=1e-9)  # cm3/h


@pytest.mark.reference("derived (check-values F03, F29, W6)")
def test_six_frameworks_take_four_hours() -> None:
    metal = 6 * 1100.0 * 1.15
    layers = layer_count(35.0, 0.03)
    assert layers == 1167
    seconds = job_time(metal, exposure_rate(BEAM, 0.08, 0.03), layers, 9.0)
    assert metal / exposure_rate(BEAM, 0.08, 0.03) == pytest.approx(3953.1, abs=0.05)
    assert seconds / 3600 == pytest.approx(4.016, abs=0.0005)


@pytest.mark.reference("derived (check-values F29)")
@pytest.mark.parametrize(
    ("height", "layer", "count"), [(35.0, 0.03, 1167), (20.0, 0.025, 800), (0.03, 0.03, 1)]
)
def test_layer_count(height: float, layer: float, count: int) -> None:
    assert layer_count(height, layer) == count == int(np.ceil(round(height / layer, 9)))


@pytest.mark.reference("beam theory (check-values F19, W13)")
def test_curl_of_a_strip() -> None:
    assert curl(0.002, 3.0, 30.0) == pytest.approx(0.300, abs=1e-12)
    assert strain_from_coupon(0.300, 3.0, 30.0) == pytest.approx(0.002, abs=1e-12)


@pytest.mark.reference("NIST AMB2018-01 (check-values F16): free ends deflect upward")
def test_a_top_that_shrinks_more_curls_up() -> None:
    assert curl(0.004, 12.0, 60.0) > 0
