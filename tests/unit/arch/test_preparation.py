"""Seats and guiding planes as read, and what is still to be reduced."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).parent))
from invented import invented, with_teeth

from claspwright.arch import read_plane, read_seat

NAME = "mandible_class_1"
UP = np.array([0.0, 0.0, 1.0])


@pytest.mark.reference("check-values B17: guiding plane 1.5 to 2 mm high beside a free end")
def test_prepared_planes_ask_for_no_cut_and_bare_surfaces_do() -> None:
    _, made = invented(NAME, 0.2)
    arch = with_teeth(NAME, 0.2)
    assert made.truth.planes
    for cut in made.truth.planes:
        found = read_plane(arch, cut.tooth, cut.side, UP, free=True)
        assert found.plane.height_mm > 1.5
        assert found.reduce_mm == 0
        assert abs(found.plane.height_mm - cut.height_mm) < 0.6
        assert found.width_mm > 0.25 * arch.teeth[cut.tooth].buccolingual_mm
    for tooth in (44, 45, 34):
        bare = read_plane(arch, tooth, "mesial", UP, free=False)
        assert bare.width_mm < 0.25 * arch.teeth[tooth].buccolingual_mm
        assert 0.4 < bare.reduce_mm < 2.0
        assert np.linalg.norm(bare.at - arch.teeth[tooth].centre) < 7.0


def test_the_cut_grows_with_the_tilt_of_the_path() -> None:
    arch = with_teeth(NAME, 0.2)
    tilted = np.array([0.0, np.sin(np.radians(-12)), np.cos(np.radians(12))])
    leant = read_plane(arch, 35, "distal", tilted, free=False)
    upright = read_plane(arch, 35, "distal", UP, free=False)
    assert leant.reduce_mm > upright.reduce_mm + 0.2


@pytest.mark.reference("check-values: floor of a rest under 90 degrees to its minor connector")
def test_seats_are_read_with_the_angles_of_their_floors() -> None:
    _, made = invented(NAME, 0.2)
    arch = with_teeth(NAME, 0.2)
    for cut in made.truth.seats:
        found = read_seat(arch, cut.tooth, cut.form, UP, wanted_mm=1.0)
        assert found.seat.prepared
        assert found.floor_to_connector_deg is not None
        assert 50.0 < found.floor_to_connector_deg < 91.0
        assert found.floor_to_axis_deg is not None
        assert 70.0 < found.floor_to_axis_deg < 95.0
    asked = read_seat(arch, 43, "cingulum", UP, wanted_mm=1.0)
    assert not asked.seat.prepared
    assert asked.reduce_mm > 0.3
    assert asked.floor_to_axis_deg is None
