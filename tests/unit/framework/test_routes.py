"""The way of a minor connector over an embrasure: in its valley, with room for its metal."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from claspwright.framework.ground import Ground
from claspwright.framework.routes import _in_valley, crossing_finding
from claspwright.framework.terrain import Terrain
from claspwright.geometry import IDENTITY, Field, Grid, box

STEP = 0.2
VALLEY = 1.0  # mm aside of the straight way


def with_valley(ground: Ground) -> Ground:
    """Ground with a valley beside the straight way along y."""
    count = (60, 80, 40)
    x = STEP * np.arange(count[0]) - 6.0
    heights = 2.0 + 0.6 * np.abs(x - VALLEY)
    z = STEP * np.arange(count[2])
    values = np.broadcast_to(z[None, None, :] - heights[:, None, None], count).astype(np.float32)
    grid = Grid(IDENTITY, np.array([-6.0, -8.0, 0.0]), STEP, count)
    return replace(ground, laid=Terrain.of(Field(grid, np.array(values))))


def test_a_way_over_an_embrasure_keeps_to_its_valley(sphere: Ground) -> None:
    ground = with_valley(sphere)
    straight = ground.laid.profile(np.array([0.0, -4.0]), np.array([0.0, 1.0]), 8.0)
    drawn = _in_valley(ground, straight, np.array([1.0, 0.0, 0.0]))
    middle = drawn[np.abs(drawn[:, 1]) < 2.0]
    assert np.allclose(middle[:, 0], VALLEY, atol=0.15)
    assert middle[:, 2].max() < straight[:, 2].min() - 0.4


@pytest.mark.parametrize(("height", "stops"), [(4.6, True), (7.0, False)])
def test_a_crossing_asks_for_room(sphere: Ground, height: float, stops: bool) -> None:
    above = box(np.array([-8.0, -8, height]), np.array([8.0, 8, height + 2]))
    ground = replace(sphere, arch=replace(sphere.arch, opposing=above))
    y = np.linspace(-2.0, 2.0, 21)
    route = np.column_stack([0 * y, y, np.sqrt(16 - y**2)])
    found = crossing_finding(ground, "minor.46.mesial", 46, route, np.array([0.0, 3.0, 2.6]))
    assert [f.rule for f in found] == ["minor.room"] * stops
    if stops:
        assert found[0].severity == "stop" and found[0].measured == pytest.approx(0.5, abs=0.05)
    level = crossing_finding(ground, "minor.46.mesial", 46, route, np.array([0.0, 0.0, 4.0]))
    assert level == ()  # it does not climb
