from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import InputError
from claspwright.geometry import (
    arc_lengths,
    distance_to_line,
    length,
    point_at,
    resampled,
    smoothed,
    tangents,
)

LINE = np.array([[0.0, 0, 0], [3, 0, 0], [3, 4, 0]])
TURN = np.linspace(0, 2 * np.pi, 73)
CIRCLE = np.column_stack([np.cos(TURN), np.sin(TURN), 0 * TURN])


def test_lengths_and_points() -> None:
    assert arc_lengths(LINE) == pytest.approx([0, 3, 7])
    assert length(LINE) == 7.0
    assert length(LINE[:0]) == 0.0
    assert point_at(LINE, 5.0) == pytest.approx([3, 2, 0])
    assert point_at(LINE, np.array([-1.0, 99.0])) == pytest.approx(LINE[[0, 2]])


def test_even_steps_keep_the_ends() -> None:
    found = resampled(LINE, 0.9)
    assert len(found) == 9
    assert found[[0, -1]] == pytest.approx(LINE[[0, 2]])
    assert np.ptp(np.diff(arc_lengths(resampled(CIRCLE, 0.1)))) < 1e-3
    with pytest.raises(InputError, match="2 points"):
        resampled(LINE[:1], 1.0)


def test_smoothing_takes_noise_and_leaves_ends_and_straight_lines() -> None:
    straight = np.linspace([0.0, 0, 0], [10, 5, 0], 101)
    assert smoothed(straight, 0.5) == pytest.approx(straight, abs=1e-9)
    rough = straight + np.random.default_rng(1).normal(0, 0.05, straight.shape)
    out = smoothed(rough, 0.5)
    assert out[[0, -1]] == pytest.approx(rough[[0, -1]])
    gap, _ = distance_to_line(straight, out[10:-10])
    before, _ = distance_to_line(straight, rough[10:-10])
    assert gap.mean() < 0.5 * before.mean()


def test_a_closed_line_shrinks_evenly() -> None:
    radius = np.linalg.norm(smoothed(CIRCLE, 0.2, closed=True), axis=1)
    assert radius == pytest.approx(np.exp(-0.5 * 0.2**2), abs=0.003)  # Gaussian on a unit circle


def test_tangents_and_distance() -> None:
    assert tangents(CIRCLE)[18] == pytest.approx([-1, 0, 0], abs=1e-9)
    gap, along = distance_to_line(LINE, np.array([[1.0, 2, 0], [5, 6, 0]]))
    assert gap == pytest.approx([2.0, np.sqrt(8.0)])
    assert along == pytest.approx([1.0, 7.0])
