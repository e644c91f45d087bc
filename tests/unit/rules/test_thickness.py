"""Local thickness by shrinking balls, on bodies whose thickness is known."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.geometry import DistanceTree, ball, box
from claspwright.rules.thickness import local_thickness


@pytest.mark.parametrize("thick", [0.3, 0.8, 2.0])
def test_a_plate_is_as_thick_as_it_is(thick: float) -> None:
    plate = box(np.zeros(3), np.array([12.0, 9.0, thick]))
    samples = local_thickness(DistanceTree(plate))
    assert len(samples.thickness)
    assert samples.thickness == pytest.approx(thick, abs=0.01)


def test_a_rod_is_as_thick_as_it_is() -> None:
    sphere = ball(1.0, 0.08)
    stretched = type(sphere)(sphere.vertices * [6.0, 0.5, 0.5], sphere.faces)
    samples = local_thickness(DistanceTree(stretched))
    middle = np.abs(samples.points[:, 0]) < 1.0
    assert np.median(samples.thickness[middle]) == pytest.approx(1.0, abs=0.02)


def test_thick_bodies_say_nothing() -> None:
    block = box(np.zeros(3), np.full(3, 20.0))
    assert not len(local_thickness(DistanceTree(block)).thickness)
