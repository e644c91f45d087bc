"""Crowns whose border hangs on how much creases count are told; sharp ones are not."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).parent))
from invented import with_teeth

from claspwright.arch.region_doubt import STEADY, overlap, region_findings

AREAS = np.array([1.0, 2.0, 3.0])


def test_overlap_is_dice_by_area() -> None:
    one, two = np.array([True, True, False]), np.array([False, True, True])
    assert overlap(AREAS, one, two) == pytest.approx(2 * 2.0 / (3.0 + 5.0))
    assert overlap(AREAS, one, one) == 1.0
    assert overlap(AREAS, one & ~one, one & ~one) == 0.0


def test_only_unsteady_regions_are_told() -> None:
    places = {35: np.zeros(3), 36: np.array([1.0, 2, 3])}
    (found,) = region_findings({35: STEADY, 36: STEADY - 0.01}, places)
    assert (found.rule, found.component) == ("tooth.region_unsure", "tooth.36")
    assert found.at_mm == (1.0, 2.0, 3.0)


@pytest.mark.parametrize("name", ["mandible_class_1", "maxilla_class_3_mod_1"])
def test_invented_crowns_are_sure(name: str) -> None:
    assert "tooth.region_unsure" not in {f.rule for f in with_teeth(name, 0.6).findings}
