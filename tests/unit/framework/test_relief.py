"""Relief under a base: its field stays a distance, and no lip of metal hangs over its edge."""

from __future__ import annotations

from types import SimpleNamespace
from typing import cast

import numpy as np
import pytest
from shapely.geometry import Point, Polygon, box

from claspwright.arch import DentalArch
from claspwright.base import Singles
from claspwright.framework.lattice import BasePlan
from claspwright.framework.relief import FOOT, PAST, ReliefMap, carried_past, clear_of_crowns
from claspwright.framework.terrain import Terrain
from claspwright.geometry import IDENTITY, Field, Grid

WAX = 0.8
GRID = Grid(IDENTITY, np.array([-5.0, -5.0, -3.0]), 0.15, (68, 68, 45))
OUTLINE = box(-3.0, -3.0, 3.0, 3.0)


def relieved(stop_at: float | None = None) -> Singles:
    """The field of a flat ground at z = 0 with wax under a square base."""
    _, _, z = np.meshgrid(*GRID.axes(), indexing="ij")
    blocked = Terrain.of(Field(GRID, z.astype(np.float32)))
    scan = SimpleNamespace(surface=SimpleNamespace(middles=np.zeros((1, 3))))
    arch = cast(DentalArch, SimpleNamespace(scan=scan, crown_of_face=np.zeros(1, np.int32)))
    crest = np.column_stack([np.linspace(-2, 2, 9), np.zeros(9), np.zeros(9)])
    base = SimpleNamespace(relief_mm=WAX, teeth=(46,))
    plan = SimpleNamespace(base=base, crest=crest, stop_at=stop_at, station=lambda s: 0,
                           buccal=np.tile([0.0, 1.0, 0.0], (9, 1)))  # fmt: skip
    relief = ReliefMap(arch, blocked)
    relief.lay(relief.under_base(cast(BasePlan, plan), OUTLINE))
    return np.asarray(blocked.field.values - relief.field().values)


def test_the_relieved_ground_is_a_distance_field() -> None:
    field = relieved()
    around = np.abs(field) < 1.0
    steep = np.sqrt(sum(np.square(d) for d in np.gradient(field, GRID.spacing)))[around]
    assert steep.max() < 1.5  # a ramp of the thickness had 4 and more
    x, y, z = GRID.axes()
    middle = field[len(x) // 2]
    assert np.interp(0.0, middle[len(y) // 2], z) == pytest.approx(WAX, abs=0.02)
    row = field[:, len(y) // 2, int(np.searchsorted(z, WAX / 2))]
    edge = x[np.flatnonzero(np.diff(np.sign(row)))]
    assert np.abs(np.abs(edge) - 3.0).max() <= GRID.spacing  # a wall where the outline is


def test_a_tissue_stop_stands_on_the_tissue() -> None:
    field = relieved(stop_at=2.0)
    x, y, z = GRID.axes()
    column = field[int(np.abs(x).argmin()), int(np.abs(y).argmin())]
    assert np.interp(0.0, column, z) == pytest.approx(0.0, abs=0.02)


def test_relief_goes_on_past_a_lip_and_stays_where_metal_goes_on() -> None:
    lip = carried_past(OUTLINE, box(-2.0, -2.0, 3.4, 2.0))
    assert lip.contains(box(3.0, -1.5, 3.4 + 0.8 * PAST, 1.5))
    wide = carried_past(OUTLINE, box(-2.0, -2.0, 9.0, 2.0))
    assert wide.symmetric_difference(OUTLINE).area < 0.3
    assert carried_past(OUTLINE, Polygon(Point(0, 0).buffer(2.0))) is OUTLINE


def test_relief_leaves_room_for_a_foot_beside_a_crown() -> None:
    crown = box(3.2, -2.0, 9.0, 2.0)  # a slot of 0.2 mm
    clear = clear_of_crowns(OUTLINE, [crown])
    assert FOOT - 0.05 <= clear.distance(crown) <= FOOT + 0.3
    assert clear.contains(box(-2.8, -2.8, 1.5, 2.8))
    assert clear_of_crowns(OUTLINE, []) is OUTLINE
    assert clear_of_crowns(OUTLINE, [OUTLINE.buffer(1.0)]) is OUTLINE  # better than none
