"""The path of placement from tilts of the cast, and back."""

from __future__ import annotations

from typing import Literal

import numpy as np
import pytest

from claspwright.arch import patient_right
from claspwright.base import InputError
from claspwright.survey import path_from_tilts, tilts_of


@pytest.mark.reference("design, frames and units: mandible, a = 5, b = 0")
def test_printed_example() -> None:
    path = path_from_tilts("mandible", 5.0, 0.0).direction
    assert path == pytest.approx([0.0, -0.0872, 0.9962], abs=0.5e-4)


@pytest.mark.reference("design, frames and units: path = normalise(z - tan(a) y - tan(b) r)")
@pytest.mark.parametrize("jaw", ["mandible", "maxilla"])
def test_lowered_side_tips_away_from_the_path(jaw: Literal["mandible", "maxilla"]) -> None:
    front = path_from_tilts(jaw, 7.0, 0.0).direction
    right = path_from_tilts(jaw, 0.0, 7.0).direction
    assert front[1] < 0
    assert right @ patient_right(jaw) == pytest.approx(-np.sin(np.radians(7.0)))
    back = tilts_of(path_from_tilts(jaw, 4.0, -6.5).direction, jaw)
    assert (back.anterior_tilt_deg, back.right_lateral_tilt_deg) == pytest.approx((4.0, -6.5))


@pytest.mark.reference("check-values B15: 0.05 mm over a spread of 30 mm tilts by 0.095 degrees")
def test_three_points_across_the_path_give_it_back() -> None:
    path = path_from_tilts("mandible", 3.0, -2.0).direction
    side = np.cross(path, [1.0, 0.0, 0.0])
    side /= np.linalg.norm(side)
    marks = np.array([np.zeros(3), 30.0 * side, 30.0 * np.cross(side, path)])

    def off(points: np.ndarray) -> float:
        normal = np.cross(points[1] - points[0], points[2] - points[0])
        normal *= np.sign(normal @ path) / np.linalg.norm(normal)
        found = tilts_of(normal, "mandible").direction
        return float(np.degrees(np.arccos(min(found @ path, 1.0))))

    assert off(marks) < 1e-5
    assert off(marks + np.array([np.zeros(3), 0.05 * path, np.zeros(3)])) == pytest.approx(
        np.degrees(np.arctan(0.05 / 30.0)), abs=1e-4
    )


def test_a_path_into_the_mouth_and_a_wild_tilt_are_refused() -> None:
    with pytest.raises(InputError, match="out of the mouth"):
        tilts_of(np.array([0.0, 0.3, -1.0]), "maxilla")
    with pytest.raises(InputError, match="45"):
        path_from_tilts("maxilla", 50.0)
