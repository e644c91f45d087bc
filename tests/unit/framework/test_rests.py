"""Rests on a ball with a seat of known place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from claspwright.arch import RestSeat
from claspwright.base import Floats
from claspwright.framework.courses import Bench, rest_fits
from claspwright.framework.ground import Ground, Piece
from claspwright.framework.rests import DOWN, lay_rest
from claspwright.geometry import box

TOOTH = 46
MIDDLE = 2.6  # mm from the axis to the middle of the seat, towards the mesial


def seat(prepared: bool = True) -> RestSeat:
    """A seat 2.6 mm wide on the mesial shoulder of a ball of 4 mm."""
    turn = np.linspace(0, 2 * np.pi, 32, endpoint=False)
    rim = np.column_stack([MIDDLE + 1.3 * np.cos(turn), 1.3 * np.sin(turn), 0 * turn])
    rim[:, 2] = np.sqrt(np.maximum(16 - (rim[:, :2] ** 2).sum(axis=1), 0.0))
    point = np.array([MIDDLE, 0.0, np.sqrt(16 - MIDDLE**2)])
    return RestSeat(TOOTH, "mesial", point, np.array([-1.0, 0, 0]), prepared, 1.2, 2.6, rim)


def tops(piece: Piece, ground: Ground, x: float, y: float) -> tuple[float, float]:
    """Lowest and highest metal of a rest over a plan point, NaN where none [mm]."""
    at = (np.array([x, y]) - piece.shape.box.low[:2]) / ground.grid.spacing
    i, j = np.rint(at).astype(int)
    column = piece.shape.values[i, j]
    z = piece.shape.box.low[2] + ground.grid.spacing * np.arange(len(column))
    inside = z[column < 0]
    return (float(inside.min()), float(inside.max())) if inside.size else (np.nan, np.nan)


@pytest.fixture(scope="module")
def laid(sphere: Ground) -> Piece:
    return lay_rest(sphere, TOOTH, "mesial occlusal", seat())[0]


def surface(x: Floats, y: float = 0.0) -> Floats:
    return np.sqrt(16 - x**2 - y**2)


def test_a_rest_keeps_its_least_thickness_along_its_middle(laid: Piece, sphere: Ground) -> None:
    for x in (2.0, 2.6, 3.2):
        high = tops(laid, sphere, x, 0.0)[1]
        assert high - surface(np.array(x)) > 0.95, x


def test_its_top_is_even_across(laid: Piece, sphere: Ground) -> None:
    middle = tops(laid, sphere, MIDDLE, 0.0)[1]
    for y in (-0.6, -0.3, 0.3, 0.6):
        assert tops(laid, sphere, MIDDLE, y)[1] == pytest.approx(middle, abs=0.1)


def test_no_metal_runs_down_past_the_border_of_the_seat(laid: Piece, sphere: Ground) -> None:
    floor = float(surface(np.array(MIDDLE)))
    low, high = tops(laid, sphere, 4.3, 0.0)  # beside the ball, where an embrasure would be
    assert low > floor - DOWN - 0.15 and high > low


def test_a_tooth_without_a_seat_is_asked_about(sphere: Ground, laid: Piece) -> None:
    bare, _ = lay_rest(sphere, TOOTH, "mesial occlusal", seat(prepared=False))
    assert [f.rule for f in bare.findings] == ["rest.seat_missing"]
    assert laid.findings == ()


def test_on_a_tooth_without_a_seat_it_is_as_thick_over_a_ridge(
    ellipsoid_ground: Callable[..., Ground],
) -> None:
    """A pit in the crown under the seat: the ridge round it rises over the floor."""
    ground = ellipsoid_ground(4.0, 4.0, 4.0, pit_mm=2.4)
    turn = np.linspace(0, 2 * np.pi, 32, endpoint=False)
    rim = np.column_stack([1.9 + 1.3 * np.cos(turn), 1.3 * np.sin(turn), np.full(32, 2.9)])
    bare = RestSeat(
        TOOTH, "mesial", np.array([1.5, 0.0, 2.2]), np.array([-1.0, 0, 0]), False, 0.0, 2.6, rim
    )
    piece, _ = lay_rest(ground, TOOTH, "mesial occlusal", bare)
    for x in np.arange(1.7, 2.7, 0.2):
        top = tops(piece, ground, x, 0.0)[1]
        under = float(ground.laid.height(np.array([[x, 0.0]]))[0])
        assert top - under > 0.95, x


def test_it_tells_the_room_under_the_opposing_teeth(sphere: Ground, laid: Piece) -> None:
    assert "room_mm" not in laid.component.figures
    above = box(np.array([-8.0, -8, 4.8]), np.array([8.0, 8, 6.8]))
    ground = replace(sphere, arch=replace(sphere.arch, opposing=above))
    piece, _ = lay_rest(ground, TOOTH, "mesial occlusal", seat())
    inner = float(surface(np.array(MIDDLE - 0.1)))
    assert piece.component.figures["room_mm"] == pytest.approx(4.7 - inner, abs=0.25)


@pytest.mark.parametrize(("under_top", "bridged"), [(-0.9, False), (1.2, True)])
def test_what_bridges_an_embrasure_is_no_thin_tongue(
    sphere: Ground, laid: Piece, under_top: float, bridged: bool
) -> None:
    """Past the border of the seat a neighbour stands so far under the top of the metal."""
    top = tops(laid, sphere, 3.8, 0.0)[1]
    heights = sphere.laid.tops.copy()
    x = sphere.grid.origin[0] + sphere.grid.spacing * np.arange(heights.shape[0])
    heights[x > 3.95] = top - under_top
    ground = replace(sphere, laid=replace(sphere.laid, tops=heights))
    piece, _ = lay_rest(ground, TOOTH, "mesial occlusal", seat())
    low, high = tops(piece, ground, 4.3, 0.0)
    assert np.isfinite(low) == bridged
    if bridged:
        assert high - low > 0.6


@pytest.mark.parametrize(("height", "fits"), [(3.6, False), (5.5, True)])
def test_a_rest_asks_for_room_under_the_opposing_teeth(
    sphere: Ground, height: float, fits: bool
) -> None:
    above = box(np.array([-8.0, -8, height]), np.array([8.0, 8, height + 2]))
    bench = Bench(replace(sphere.arch, opposing=above), sphere.survey)
    bench.ground = replace(bench.ground, seats={(TOOTH, "mesial occlusal"): seat(False)})
    assert rest_fits(bench, TOOTH, "mesial occlusal") is fits
    assert rest_fits(None, TOOTH, "mesial occlusal")
