from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import InputError
from claspwright.geometry import ball, box, check_solid, revolved, tube, volume


def test_primitives_are_sound_and_of_the_right_size() -> None:
    sphere = ball(2.0, 0.15)
    edges = sphere.corners - np.roll(sphere.corners, 1, axis=1)
    assert np.linalg.norm(edges, axis=2).max() <= 0.15
    assert volume(sphere) == pytest.approx(4 / 3 * np.pi * 8, rel=2e-3)
    assert volume(box(np.zeros(3), np.array([1.0, 2, 3]))) == pytest.approx(6.0)
    cone = revolved(np.array([[0, 0], [1.0, 0], [0, 3.0]]), 200)
    assert volume(cone) == pytest.approx(np.pi, rel=1e-3)
    assert all(check_solid(m).sound for m in (sphere, cone, box(np.zeros(3), np.ones(3))))


def test_a_profile_off_the_axis_is_refused() -> None:
    with pytest.raises(InputError, match="on the axis"):
        revolved(np.array([[0.5, 0], [1.0, 0], [0, 3.0]]), 20)


def test_a_bent_rod_is_sound_and_holds_its_section_times_its_length() -> None:
    turn = np.linspace(0.0, 1.5 * np.pi, 400)
    line = np.column_stack([5.0 * np.cos(turn), 5.0 * np.sin(turn), 0.5 * turn])
    rod = tube(line, np.full(400, 0.5), 64)
    length = float(np.hypot(5.0, 0.5) * 1.5 * np.pi)
    polygon = 32 * np.sin(2 * np.pi / 64) * 0.25  # area of 64 sides on a radius of 0.5
    assert check_solid(rod).sound
    assert volume(rod) == pytest.approx(polygon * length, rel=2e-3)  # Pappus
    with pytest.raises(InputError, match="positive radius"):
        tube(line, np.zeros(400), 12)
