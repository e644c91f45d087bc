"""The border of a strap meets the ground squarely, however steep the palate is there."""

from __future__ import annotations

from types import SimpleNamespace
from typing import cast

import numpy as np
import pytest
from shapely.geometry import LineString, Point, Polygon, box

from claspwright.base import Floats
from claspwright.framework.design import MajorConnector
from claspwright.framework.ground import Ground
from claspwright.framework.palate import lay_strap, strap_outline
from claspwright.framework.stations import Stations
from claspwright.framework.terrain import Terrain
from claspwright.geometry import IDENTITY, Field, Grid, Mesh
from claspwright.limits import limit

THICK = 1.0
GRID = Grid(IDENTITY, np.array([-5.0, -3.5, -10.0]), 0.15, (68, 48, 134))


def on_slope(deg: float) -> tuple[Ground, Floats]:
    """A plane that falls along +x, and its upward normal."""
    x, _, z = np.meshgrid(*GRID.axes(), indexing="ij")
    normal = np.array([np.sin(np.radians(deg)), 0.0, np.cos(np.radians(deg))])
    laid = Terrain.of(Field(GRID, (x * normal[0] + z * normal[2]).astype(np.float32)))
    ground = SimpleNamespace(laid=laid, blocked=laid, grid=GRID, back=lambda points: points)
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


def ring_of(x: float, y: float, radius: float = 3.5) -> Floats:
    turn = np.linspace(0.0, 2 * np.pi, 36, endpoint=False)
    return np.column_stack(
        [x + radius * np.cos(turn), y + radius * np.sin(turn), np.zeros(len(turn))]
    )


def palate(notch: bool = False) -> Ground:
    """A flat palate between crowns on an arch, its scan ending behind at y = -30."""
    turn = np.radians(np.linspace(-10.0, 190.0, 12))
    codes = [17, 16, 15, 14, 13, 12, 22, 23, 24, 25, 26, 27]
    teeth = {
        code: SimpleNamespace(margin=ring_of(-26 * np.cos(t), 34 * np.sin(t) - 14), code=code)
        for code, t in zip(codes, turn, strict=True)
    }
    rim = (
        [(-34, -30), (-4, -30), (-3, -22), (-2, -30), (34, -30)]
        if notch
        else [(-34, -30), (34, -30)]
    )
    edge = np.array([*rim, (34, 30), (-34, 30)], np.float64)
    middle = np.vstack([np.column_stack([edge, np.zeros(len(edge))]), [[0.0, 0.0, 0.0]]])
    count = len(edge)
    faces = [(n, (n + 1) % count, count) for n in range(count)]
    surface = Mesh(middle, np.array(faces, np.int32))
    tops = np.zeros((100, 100), np.float32)
    grid = Grid(IDENTITY, np.array([-50.0, -50.0, 0.0]), 1.0, (100, 100, 2))
    arch = SimpleNamespace(teeth=teeth, scan=SimpleNamespace(surface=surface))
    ground = SimpleNamespace(arch=arch, grid=grid, blocked=SimpleNamespace(tops=tops),
                             here=lambda points: points, tooth=teeth.__getitem__)  # fmt: skip
    return cast(Ground, ground)


def laid_out(ground: Ground, joined: set[int]) -> Polygon:
    turn = np.radians(np.linspace(-40.0, 220.0, 60))
    plan = np.column_stack([-22.5 * np.cos(turn), 30.5 * np.sin(turn) - 14])
    wanted = MajorConnector("anterior-posterior strap", 0.0, 8.5, THICK, 6.0, 0.0)
    edge = np.column_stack([np.linspace(-5, 5, 11), np.full(11, 10.0), np.zeros(11)])
    anchors = [np.array([s * 20.0, -22.0, 0.0]) for s in (-1, 1)]
    return strap_outline(ground, cast(Stations, SimpleNamespace(plan=plan)), wanted, anchors,
                         [edge], joined)  # fmt: skip


def test_a_strap_keeps_off_the_margins_of_teeth_that_it_does_not_join() -> None:
    ground = palate()
    outline = laid_out(ground, {17, 27, 12, 22})
    limit_mm = limit("strap.margin").value
    for code, tooth in ground.arch.teeth.items():
        if code not in (17, 27, 12, 22):
            assert outline.distance(Polygon(tooth.margin[:, :2])) >= limit_mm, code
    across = LineString([(0.0, -60.0), (0.0, 60.0)]).intersection(outline)
    assert [part.length >= 8.0 for part in across.geoms] == [True, True]


def test_a_strap_passes_a_notch_of_the_scan_and_its_border_stays_smooth() -> None:
    plain, notched = (laid_out(palate(notch), {17, 27, 12, 22}) for notch in (False, True))
    assert notched.distance(Point(-3.0, -22.0)) >= 1.4
    assert plain.distance(Point(-3.0, -22.0)) == 0.0
    assert notched.area > 0.8 * plain.area
