"""The border of a strap meets the ground squarely, however steep the palate is there."""

from __future__ import annotations

from types import SimpleNamespace
from typing import cast

import numpy as np
import pytest
from shapely.geometry import box

from claspwright.base import Floats
from claspwright.framework.design import MajorConnector
from claspwright.framework.ground import Ground
from claspwright.framework.palate import lay_strap
from claspwright.framework.terrain import Terrain
from claspwright.geometry import IDENTITY, Field, Grid

THICK = 1.0
GRID = Grid(IDENTITY, np.array([-5.0, -3.5, -10.0]), 0.15, (68, 48, 134))


def on_slope(deg: float) -> tuple[Ground, Floats]:
    """A plane that falls along +x, and its upward normal."""
    x, _, z = np.meshgrid(*GRID.axes(), indexing="ij")
    normal = np.array([np.sin(np.radians(deg)), 0.0, np.cos(np.radians(deg))])
    laid = Terrain.of(Field(GRID, (x * normal[0] + z * normal[2]).astype(np.float32)))
    ground = SimpleNamespace(laid=laid, grid=GRID, back=lambda points: points)
    return cast(Ground, ground), normal  # all that a strap is laid with


@pytest.mark.parametrize("deg", [0.0, 45.0, 60.0])
def test_the_border_of_a_strap_is_square_to_the_ground(deg: float) -> None:
    ground, normal = on_slope(deg)
    wanted = MajorConnector("palatal strap", 0.0, 8.0, THICK, 6.0, 0.0)
    shape = lay_strap(ground, box(-2.5, -2.0, 2.5, 2.0), wanted).shape
    field = Field(Grid(IDENTITY, shape.box.low, GRID.spacing, shape.box.shape), shape.values)

    def over(x: float, off: float) -> float:
        foot = np.array([x, 0.0, -x * normal[0] / normal[2]])
        return float(field.at((foot + off * normal)[None])[0])

    for side in (-1.0, 1.0):
        for off in (0.15, 0.4):
            assert over(side * 2.35, off) < 0 < over(side * 2.7, off)
        assert over(side * 2.7, 0.8 * THICK) > 0  # no blade over the border
    assert over(0.0, 0.9 * THICK) < 0 < over(0.0, 1.1 * THICK)
