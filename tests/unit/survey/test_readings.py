"""Exact readings along a path: closed forms on balls."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.arch import DentalArch
from claspwright.survey import Zone, fills, path_from_tilts, read_retainers, survey

ZONES: tuple[Zone, ...] = ((45, "buccal", 0.25), (47, "lingual", 0.25))


@pytest.mark.reference("check-values W2: sphere of 4 mm, 0.25 mm lies 1.392 mm below the line")
def test_upright_and_tilted_readings_on_a_ball(balls: DentalArch) -> None:
    level = survey(balls, path_from_tilts("mandible"))
    for found in read_retainers(balls, level, ZONES):
        assert found.at_path_mm == pytest.approx(found.across_mm, abs=1e-3)
        assert found.usable_mm == pytest.approx(found.across_mm, abs=1e-3)
        assert found.tip_undercut_mm == pytest.approx(0.25, abs=0.05)
        below = np.sqrt(4.0**2 - (4.0 - found.tip_undercut_mm) ** 2)
        assert found.tip_below_line_mm == pytest.approx(below, abs=0.1)  # facets of 0.3 mm
    tilted = survey(balls, path_from_tilts("mandible", 8.0, 0.0))
    buccal, lingual = read_retainers(balls, tilted, ZONES)
    # front lowered: the path leans back, the undercut grows in front and shrinks behind
    assert buccal.at_path_mm > buccal.across_mm + 0.1
    assert lingual.at_path_mm < lingual.across_mm - 0.1
    assert buccal.usable_mm == pytest.approx(buccal.across_mm, abs=0.02)  # won by tilt: no use
    assert lingual.usable_mm == pytest.approx(lingual.at_path_mm, abs=0.02)


def test_fills_are_those_between_ball_and_block(balls: DentalArch) -> None:
    """Under a ball of radius 4 down to 2.5 mm below its middle: cylinder less spherical zone."""
    seen = survey(balls, path_from_tilts("mandible"), spacing_mm=0.1)
    by_region = {fill.region: fill.volume_mm3 for fill in fills(balls, seen)}
    whole = np.pi * (16.0 * 2.5 - (16.0 * 2.5 - 2.5**3 / 3.0))
    total = sum(by_region.values())
    assert total == pytest.approx(2 * whole, rel=0.03)
    assert by_region["crown 45"] == pytest.approx(by_region["crown 47"], rel=0.05)
