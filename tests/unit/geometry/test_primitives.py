from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import InputError
from claspwright.geometry import ball, box, check_solid, revolved, volume


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
