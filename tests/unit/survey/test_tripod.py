"""The path carried to the stone and back."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.arch import DentalArch
from claspwright.base import InputError
from claspwright.geometry import DistanceTree, closest_points
from claspwright.survey import (
    cast_shadow,
    path_from_lines,
    path_from_tilts,
    path_from_tripod,
    tripod,
)


@pytest.mark.parametrize("tilts", [(0.0, 0.0), (6.0, -4.0), (-9.0, 3.0)])
def test_marks_and_lines_give_the_path_back(balls: DentalArch, tilts: tuple[float, float]) -> None:
    path = path_from_tilts("mandible", *tilts)
    shadow = cast_shadow(balls.scan.solid, path.direction)
    found = tripod(balls, path, shadow)
    assert found is not None
    assert path_from_tripod(found.marks) == pytest.approx(path.direction, abs=1e-9)
    assert path_from_lines(found.base_lines) == pytest.approx(path.direction, abs=1e-9)
    on_scan = closest_points(DistanceTree(balls.scan.solid), found.marks).points
    assert np.linalg.norm(on_scan - found.marks, axis=1).max() < 1e-6
    assert not shadow.hides(found.marks + 0.01 * path.direction).any()  # a point can touch there
    assert found.spread_mm > 8.0
    assert found.marks[0, 0] == found.marks[:, 0].max()  # begins at the patient's right


@pytest.mark.reference("check-values B15: 0.05 mm over a spread of 30 mm tilts by 0.095 degrees")
def test_a_mark_set_amiss_tilts_the_path_as_printed() -> None:
    path = path_from_tilts("mandible", 3.0, -2.0).direction
    side = np.cross(path, [1.0, 0.0, 0.0])
    side /= np.linalg.norm(side)
    marks = np.array([np.zeros(3), 30.0 * side, 30.0 * np.cross(path, side)])
    assert path_from_tripod(marks) == pytest.approx(path, abs=1e-12)
    amiss = path_from_tripod(marks + np.array([np.zeros(3), 0.05 * path, np.zeros(3)]))
    off = np.degrees(np.arccos(min(float(amiss @ path), 1.0)))
    assert off == pytest.approx(0.095, abs=0.0006)
    turned = path_from_tripod(marks[::-1], out_of_mouth=np.array([0.0, 0.0, 1.0]))
    assert turned == pytest.approx(path, abs=1e-12)
    assert path_from_tripod(marks[::-1]) == pytest.approx(-path, abs=1e-12)


def test_marks_on_a_line_are_refused() -> None:
    with pytest.raises(InputError, match="on a line"):
        path_from_tripod(np.array([[0.0, 0, 0], [10, 0, 0], [20, 0.5, 0]]))
    with pytest.raises(InputError, match="three points"):
        path_from_tripod(np.zeros((2, 3)))
    with pytest.raises(InputError, match="same way"):
        path_from_lines(np.array([[[0.0, 0, 0], [0, 0, 1]], [[0, 0, 1], [0, 0, 0]]]))
