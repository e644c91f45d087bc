"""Finish lines: how true the edge of their wall is."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from shapely.geometry import LineString

from claspwright.framework.finish import CREST, RAMP, finish_line
from claspwright.framework.ground import Ground
from claspwright.geometry import Field, Grid, contour
from claspwright.limits import limit

TISSUE = -3.2  # height of the block's top under the sphere of the fixture
BASE = 1.0  # mm of metal beside the line
EDGE_MM = 0.3  # from the edge within which vertices are held against it


@pytest.mark.parametrize("across", [0.4, 2.0, 3.5])
def test_the_edge_of_the_wall_lies_within_25_um_of_the_drawn_one(
    sphere: Ground, across: float
) -> None:
    """Straight over a flat place, so that the drawn edge is a line; any angle to the grid."""
    ends = np.array([[6.7 - across / 2, -8.0, TISSUE], [6.7 + across / 2, 8.0, TISSUE]])
    line = ends[0] + np.linspace(0.0, 1.0, 60)[:, None] * (ends[1] - ends[0])
    here = sphere.here(line)
    metal = sphere.aim(np.array([1.0, 0.0, 0.0]))
    piece = finish_line(sphere, "base.46.finish", here, metal, BASE)
    box, grid = piece.shape.box, sphere.grid
    part = Grid(grid.frame, box.low, grid.spacing, piece.shape.values.shape)
    found = contour(Field(part, piece.shape.values)).vertices
    along = (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0])
    aside = np.cross(along, [0.0, 0.0, 1.0])
    aside = aside * np.sign(aside[0])
    away = found - ends.mean(axis=0)
    over = np.column_stack([away @ aside, found[:, 2] - TISSUE])
    top = BASE + limit("finish.height").value
    middle = np.abs(away @ along) < 4.0
    near = middle & (np.hypot(over[:, 0], over[:, 1] - top) < EDGE_MM)
    assert near.sum() > 100
    drawn = LineString([(0.0, 0.0), (0.0, top), (CREST, top - 0.05), (RAMP, BASE * 0.6)])
    off = shapely.distance(drawn, shapely.points(over[near]))
    assert np.quantile(off, 0.95) <= 0.025
    assert off.max() <= 0.05
