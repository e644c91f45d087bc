"""The inverse on a ball of a tooth: what it offers holds what it says."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from claspwright.base import InputError
from claspwright.framework import Component
from claspwright.geometry import IDENTITY, DistanceTree, Field, Grid, ball
from claspwright.materials import material
from claspwright.mechanics import ArmCase, Grip, choose_arm, laid_ride

R = 4.5


@pytest.fixture(scope="module")
def case() -> ArmCase:
    grid = Grid(IDENTITY, np.full(3, -6.6), 0.15, (89, 89, 89))
    x, y, z = np.meshgrid(*grid.axes(), indexing="ij")
    field = Field(grid, (np.sqrt(x**2 + y**2 + z**2) - R).astype(np.float32))
    scan = ball(R, 0.3)
    path = SimpleNamespace(direction=np.array([0.0, 0.0, 1.0]))
    survey: Any = SimpleNamespace(scan_field=field, path=path)
    arch: Any = SimpleNamespace(crown_of_face=np.full(len(scan.faces), 36))
    alloy = material("cocr-lpbf-stress-relieved")
    nothing: Any = None
    return ArmCase(nothing, arch, survey, alloy, DistanceTree(scan))


def arm(turn_deg: float, undercut: float = 0.25) -> Component:
    turn = np.radians(np.linspace(0.0, turn_deg, 61))
    depth = np.linspace(1.2, -np.sqrt(R**2 - (R - undercut) ** 2), 61)
    flat = np.sqrt(R**2 - depth**2)
    line = np.stack([flat * np.cos(turn), flat * np.sin(turn), depth], axis=1)
    size = np.linspace(1.0, 0.5, 61)
    return Component(
        "clasp.36.buccal", "retentive arm", line, 1.6 * size, 1.1 * size, 36,
        {"undercut_mm": undercut},
    )  # fmt: skip


def test_what_is_offered_keeps_its_stress(case: ArmCase) -> None:
    for turn in (80.0, 150.0):
        found = choose_arm(case, arm(turn), wanted_n=3.0)
        assert found.best is None or found.best.peak_mpa <= found.best.allowed_mpa
        if found.strongest is not None:
            assert found.strongest.form == "half-oval" and found.strongest.undercut_mm <= 0.3
        assert found.reached == (found.best is not None and found.best.withdrawal_n >= 2.7)


def test_a_short_arm_gets_no_answer_but_advice(case: ArmCase) -> None:
    short, long = choose_arm(case, arm(40.0)), choose_arm(case, arm(170.0), wanted_n=1.5)
    assert not short.reached and "tooth" in short.words
    assert long.reached and long.best is not None


def test_what_would_reach_the_force_is_told(case: ArmCase) -> None:
    found = choose_arm(case, arm(120.0), wanted_n=9.0)
    assert found.best is not None and not found.reached
    assert "no arm on this way" in found.words and "What would" in found.words
    assert "degrees under the arm" in found.words and "another abutment" in found.words
    assert found.wire is None or found.wire.form == "round wire"
    easy = choose_arm(case, arm(120.0), wanted_n=1.0)
    assert easy.reached and "What would" not in easy.words
    if easy.best is not None and easy.best.form == "half-oval":
        assert easy.unfinished_n is not None and easy.unfinished_n > easy.best.withdrawal_n


def test_a_ride_with_the_laid_sizes(case: ArmCase) -> None:
    weak = laid_ride(case, arm(150.0), Grip(0.1, 0.0, 210e3)).withdrawal_n
    strong = laid_ride(case, arm(150.0), Grip(0.2, 0.0, 210e3)).withdrawal_n
    assert 0 < weak < strong
    with pytest.raises(InputError, match="wanted"):
        choose_arm(case, arm(150.0), wanted_n=0.0)
