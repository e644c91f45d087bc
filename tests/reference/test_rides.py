"""An arm's way over a crown against the wedge and springs in series; sections cut from a solid."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import Floats, InputError
from claspwright.geometry import ball
from claspwright.mechanics import (
    Elastic,
    Grip,
    SpaceArm,
    beam_arm,
    crown_track,
    cut_sections,
    half_ovals,
    outlines,
    own_sections,
    respond,
    ride,
)

R, E = 4.0, 210_000.0
UP = np.array([0.0, 0.0, 1.0])


def on_ball(points: Floats) -> tuple[Floats, Floats]:
    size = np.linalg.norm(points, axis=1, keepdims=True)
    return size[:, 0] - R, points / size


def arm_on_ball(undercut: float) -> SpaceArm:
    """An arm round a ball, its tip where the gauge reads an undercut."""
    turn = np.linspace(0.0, 2.2, 81)
    depth = np.linspace(0.8, -np.sqrt(R**2 - (R - undercut) ** 2), 81)
    flat = np.sqrt(R**2 - depth**2)
    line = np.stack([flat * np.cos(turn), flat * np.sin(turn), depth], axis=1)
    size = np.linspace(1.0, 0.5, 81)
    return beam_arm(line, line / R, half_ovals(1.6 * size, 0.9 * size), stations=81)


@pytest.mark.reference("statics of the wedge on a ball, P = F (mu + tan a)/(1 - mu tan a)")
@pytest.mark.parametrize("give", [0.0, 0.01])
def test_a_tip_over_a_ball_is_a_wedge_all_the_way(give: float) -> None:
    undercut, mu = 0.25, 0.15
    arm = arm_on_ball(undercut)
    tip_alone = np.zeros(81, dtype=np.bool_)
    track = crown_track(arm, on_ball, UP, on_tooth=tip_alone)
    found = ride(arm, track, Elastic(E), (Grip(mu, give, E),))[0]
    tip = arm.line[-1]
    out = np.array([tip[0], tip[1], 0.0]) / np.hypot(tip[0], tip[1])
    soft = respond(arm, np.array([80]), out[None], Elastic(E)).compliance[0, 0] + give
    height = tip[2] + found.lift_mm
    sphere = np.sqrt(R**2 - height**2)
    slope = -height / sphere
    # the gap is read along the normal and divided by its lean: exact to its own square
    force = np.maximum(sphere - sphere[0], 0.0) / soft
    expected = force * (mu + slope) / (1 - mu * slope)
    free = found.side_n > 0
    assert found.side_n[free] == pytest.approx(force[free], rel=0.03)
    assert found.withdrawal_n == pytest.approx(expected.max(), rel=0.03)
    into = force * (mu - slope) / (1 + mu * slope)
    assert found.insertion_n == pytest.approx(into.max(), rel=0.03)
    assert found.travel_mm.max() == pytest.approx(undercut, rel=0.01)
    # at the height of contour the withdrawal is friction alone
    at_contour = int(np.argmin(np.abs(height)))
    assert found.out_n[at_contour] == pytest.approx(mu * found.side_n[at_contour], rel=0.15)


def test_more_contacts_never_ask_less_and_never_pull() -> None:
    arm = arm_on_ball(0.25)
    alone = crown_track(arm, on_ball, UP, on_tooth=np.zeros(81, dtype=np.bool_))
    grip = Grip(0.15, 0.0, E)
    one = ride(arm, alone, Elastic(E), (grip,))[0]
    many = ride(arm, crown_track(arm, on_ball, UP), Elastic(E), (grip,))[0]
    assert many.side_n.max() >= one.side_n.max() - 1e-9
    assert many.side_n.min() >= 0.0


def test_force_and_stress_go_with_the_modulus_and_fall_with_the_give() -> None:
    arm = arm_on_ball(0.25)
    track = crown_track(arm, on_ball, UP)
    base, stiff, soft = ride(
        arm, track, Elastic(E),
        (Grip(0.15, 0.0, E), Grip(0.15, 0.0, 1.1 * E), Grip(0.15, 0.01, E)),
    )  # fmt: skip
    assert stiff.withdrawal_n == pytest.approx(1.1 * base.withdrawal_n, rel=1e-6)
    assert stiff.peak_stress_mpa == pytest.approx(1.1 * base.peak_stress_mpa, rel=1e-6)
    assert soft.peak_stress_mpa < base.peak_stress_mpa
    with pytest.raises(InputError, match="locks"):
        Grip(0.6, 0.0, E)
    with pytest.raises(InputError, match="cannot be"):
        Grip(-0.1, 0.0, E)


@pytest.mark.reference("a plane cuts a ball in a circle: area pi (R^2 - d^2), I = pi r^4 / 4")
def test_sections_of_a_ball() -> None:
    solid = ball(1.5, 0.08)
    line = np.stack([np.linspace(-1.0, 1.0, 9), np.zeros(9), np.full(9, -0.2)], axis=1)
    off = np.tile(UP, (9, 1))
    found = cut_sections(solid, line, off, np.full(9, 0.2))
    for at, section in zip(line, found, strict=True):
        assert section is not None
        radius = np.sqrt(1.5**2 - at[0] ** 2)
        profile = outlines([section])
        assert profile.area[0] == pytest.approx(np.pi * radius**2, rel=0.01)
        assert profile.i_w[0] == pytest.approx(np.pi * radius**4 / 4, rel=0.02)
        assert profile.centre[0] == pytest.approx([0.0, 0.2], abs=0.01)
    narrow = own_sections(found, np.full(9, 1.5), np.full(9, 1.5))
    assert not narrow[4] and own_sections(found, np.full(9, 3.0), np.full(9, 3.0)).all()
    missing = cut_sections(solid, line + [0.0, 5.0, 0.0], off, np.full(9, 0.2))
    assert all(section is None for section in missing)
