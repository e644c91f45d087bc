"""The bead line of a palatal connector, on a level palate."""

from __future__ import annotations

from typing import Any, cast

import numpy as np
import pytest
from shapely.geometry import box as rectangle

from claspwright.arch import DentalArch, Jaw, MasterScan
from claspwright.framework.beads import bead_lines
from claspwright.framework.connectors import Connector
from claspwright.framework.ground import Ground
from claspwright.framework.terrain import Terrain
from claspwright.geometry import IDENTITY, DistanceTree, Field, box, length
from claspwright.survey import Survey, survey_fields

UP = np.array([0.0, 0.0, 1.0])


def level_ground(jaw: Jaw) -> Ground:
    slab = box(np.array([-15.0, -15.0, -4.0]), np.array([15.0, 15.0, 0.0]))
    arch = DentalArch(
        MasterScan(jaw, slab, slab, IDENTITY, 0.3), {}, (), np.zeros(len(slab.faces), np.int32)
    )
    scan, block, _ = survey_fields(slab, DistanceTree(slab), UP, 0.3)
    terrain = Terrain.of(block)
    return Ground(arch, cast("Survey", None), Terrain.of(scan), terrain, terrain, {}, {})


def relief_on(ground: Ground, left_of: float) -> Field:
    x, _, _ = np.meshgrid(*ground.grid.axes(), indexing="ij")
    return Field(ground.grid, np.where(x < left_of, 0.5, 0.0).astype(np.float32))


@pytest.mark.reference("check-values B28: bead 1 mm wide in the maxilla, none in the mandible")
def test_a_bead_runs_along_the_border_and_off_the_relief() -> None:
    ground = level_ground("maxilla")
    connector = Connector(cast("Any", None), outline=rectangle(-10, -6, 10, 6))
    beads = bead_lines(ground, connector, [], relief_on(ground, -99.0))
    assert [bead.width_mm for bead in beads] == [1.0] * len(beads)
    line = np.concatenate([bead.line for bead in beads])
    assert np.abs(line[:, 2]).max() < 0.02
    inset = np.minimum(10 - np.abs(line[:, 0]), 6 - np.abs(line[:, 1]))
    assert inset == pytest.approx(0.8, abs=0.1)
    assert sum(length(bead.line) for bead in beads) == pytest.approx(2 * (18.4 + 10.4), rel=0.05)
    partly = bead_lines(ground, connector, [], relief_on(ground, 0.0))
    assert np.concatenate([bead.line for bead in partly])[:, 0].min() > -0.5
    below = level_ground("mandible")
    assert bead_lines(below, connector, [], relief_on(below, -99.0)) == ()
