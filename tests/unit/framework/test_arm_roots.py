"""The way of an arm from its rest over a crest: on the surface, aside where that is lower."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any, cast

import numpy as np
import pytest

from claspwright.framework.arm_roots import JUMP, root_way
from claspwright.framework.terrain import Terrain
from claspwright.geometry import IDENTITY, Field, Grid

STEP = 0.1
COUNT = (80, 60, 60)
ROOT, FIRST = np.array([[2.0, 2.0, 1.0]]), np.array([6.0, 2.0, 1.0])


def crested(height: float, slope: float = 0.0) -> Any:
    """A floor at 1 mm with a steep ridge across x = 4 mm, lower by `slope` a mm towards +y."""
    x = STEP * np.arange(COUNT[0])[:, None, None]
    y = STEP * np.arange(COUNT[1])[None, :, None]
    z = STEP * np.arange(COUNT[2])[None, None, :]
    top = 1.0 + np.maximum(height - slope * y, 0.0)
    wall = np.maximum(np.abs(x - 4.0) - 0.3, z - top)  # of a ridge 0.6 mm wide
    values = np.broadcast_to(np.minimum(wall, z - 1.0), COUNT).astype(np.float32)
    ground = Terrain.of(Field(Grid(IDENTITY, np.zeros(3), STEP, COUNT), np.array(values)))
    return SimpleNamespace(laid=ground)


CHART = cast("Any", SimpleNamespace(mesial=np.array([0.0, 1.0, 0.0])))


def steps(way: np.ndarray) -> np.ndarray:
    return np.linalg.norm(np.diff(np.vstack([way, FIRST[None]]), axis=0), axis=1)


def test_level_ground_is_crossed_straight() -> None:
    way = root_way(crested(0.0), CHART, ROOT, FIRST)
    assert np.abs(way[:, 1] - 2.0).max() < 1e-6
    assert way[:, 2] == pytest.approx(1.0, abs=0.01)


def test_a_crest_is_climbed_not_leapt_over() -> None:
    ground = crested(2.0)
    way = root_way(ground, CHART, ROOT, FIRST)
    assert steps(way).max() <= JUMP
    assert way[:, 2].max() == pytest.approx(3.0, abs=0.15)
    assert np.abs(ground.laid.distance(way)).max() < 0.12
    assert way[0] == pytest.approx(ROOT[0], abs=0.05)


def test_it_goes_aside_where_the_crest_is_lower() -> None:
    way = root_way(crested(2.5, slope=0.5), CHART, ROOT, FIRST)
    top = int(np.argmax(way[:, 2]))
    assert way[top, 1] > 2.6
    assert way[:, 2].max() < 1.0 + 2.5 - 0.5 * 2.6
