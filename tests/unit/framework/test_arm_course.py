"""Arms that the sheet leads through places between their ends."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from claspwright.framework.arm_course import bends, course_heights
from claspwright.framework.arm_plans import ArmStart
from claspwright.framework.arms import circumferential_arm
from claspwright.framework.design import Clasp, CoursePoint
from claspwright.framework.ground import Ground, Piece

TOOTH = 46
START = ArmStart(30.0, 30.0)
T = np.linspace(0.0, 1.0, 60)
CLASP = Clasp("circumferential", "buccal", 0.25)
LINE = -0.346  # mm, height of the survey line: from 0.015 mm of undercut on a ball of 4 mm


def arm(ground: Ground, *course: tuple[float, float]) -> Piece:
    clasp = replace(CLASP, course=tuple(CoursePoint(*place) for place in course))
    return circumferential_arm(ground, TOOTH, clasp, "mesial", np.zeros((0, 3)), START)


def test_one_place_on_a_power_curve_gives_that_curve() -> None:
    """By hand: 2 - 3 t^2 stands at 1.25 half way."""
    z = course_heights(T, [(0.0, 2.0), (0.5, 1.25)], -1.0)
    np.testing.assert_allclose(z, 2.0 - 3.0 * T**2, atol=1e-9)
    assert not bends(z)


@pytest.mark.parametrize("middle", [-2.0, -0.9, 0.0, 0.5, 1.9, 3.0])
def test_one_place_never_makes_an_inflection(middle: float) -> None:
    z = course_heights(T, [(0.0, 2.0), (0.5, middle)], -1.0)
    assert np.interp(0.5, T, z) == pytest.approx(middle, abs=0.01)
    assert (z[0], z[-1]) == (pytest.approx(2.0), pytest.approx(-1.0))
    assert not bends(z)


def test_a_wave_is_an_inflection_and_an_even_fall_is_none() -> None:
    waving = course_heights(T, [(0.0, 1.0), (0.3, -0.5), (0.7, 1.0)], -1.0)
    assert len(bends(waving)) == 1
    even = course_heights(T, [(0.0, 1.0), (0.4, 0.8), (0.7, 0.2)], -1.0)
    assert not bends(even)


def test_the_arm_runs_through_its_place_and_keeps_its_ends(sphere: Ground) -> None:
    """The line counts from 0.015 mm of undercut: on a ball of 4 mm 0.346 mm below the equator."""
    as_planned, led = arm(sphere), arm(sphere, (0.5, 0.9))
    for piece in (as_planned, led):
        course = piece.component.course
        assert course is not None and course.shape == (len(piece.component.line), 2)
        np.testing.assert_allclose(course[:, 1], piece.component.line[:, 2] - LINE, atol=0.1)
        assert course[-1, 0] == pytest.approx(1.0, abs=0.02)
    course, line = led.component.course, led.component.line
    assert course is not None
    assert np.interp(0.5, course[:, 0], course[:, 1]) == pytest.approx(0.9, abs=0.06)
    np.testing.assert_allclose(line[-1], as_planned.component.line[-1], atol=0.06)
    np.testing.assert_allclose(line[0], as_planned.component.line[0], atol=0.06)
    assert np.abs(np.linalg.norm(line, axis=1) - 4.0).max() < 0.02  # on the tooth all along
    assert not led.findings


def test_without_a_course_nothing_differs(sphere: Ground) -> None:
    """The one that is planned passes through its own places: led there, it stays in place."""
    free = arm(sphere)
    course = free.component.course
    assert course is not None
    own = float(np.interp(0.5, course[:, 0], course[:, 1]))
    kept = arm(sphere, (0.5, own))
    gap = np.abs(kept.component.line[:, 2] - np.interp(
        kept.component.course[:, 0], course[:, 0], free.component.line[:, 2]))  # type: ignore[index]  # fmt: skip
    assert gap.max() < 0.15


def test_a_course_that_waves_or_nears_the_margin_is_told(sphere: Ground) -> None:
    """The margin lies 3.2 mm below the equator; an arm 2.6 mm below it comes too near."""
    waves = {f.rule for f in arm(sphere, (0.3, -1.0), (0.7, 1.0)).findings}
    assert "clasp.course_bend" in waves
    low = [f for f in arm(sphere, (0.5, -2.4)).findings if f.rule == "clasp.course_margin"]
    assert len(low) == 1 and isinstance(low[0].measured, float)
    assert low[0].measured < 0.5 and low[0].severity == "look"
    assert not [f for f in arm(sphere, (0.5, 0.5)).findings if f.rule.startswith("clasp.course")]
