"""The pad of a cingulum rest on an ellipsoid: rounded, low, thick enough, blunt."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from claspwright.arch import RestSeat
from claspwright.base import Floats
from claspwright.framework.cingulum_rest import WIDEST, cingulum_rest, sound
from claspwright.framework.ground import Ground, Piece
from claspwright.framework.terrain import sampled
from claspwright.geometry import Grid, box
from claspwright.limits import limit

TOOTH = 46
AXES = (4.0, 3.0, 5.0)
UP = np.array([0.0, -2.2, 5.0 * np.sqrt(1 - (2.2 / 3.0) ** 2)])  # on the tongue side


def seat() -> RestSeat:
    """Where a seat is asked for on the tongue side, 2.7 mm wide."""
    turn = np.linspace(0, 2 * np.pi, 24, endpoint=False)
    rim = UP + np.column_stack([1.35 * np.cos(turn), 0.7 * np.sin(turn), 0 * turn])
    rim[:, 2] = 5.0 * np.sqrt(1 - (rim[:, 0] / 4.0) ** 2 - (rim[:, 1] / 3.0) ** 2)
    return RestSeat(TOOTH, "cingulum", UP, np.array([0.0, 1.0, 0.0]), False, 0.0, 2.7, rim)


@pytest.fixture(scope="module")
def crown(ellipsoid_ground: Callable[..., Ground]) -> Ground:
    return ellipsoid_ground(*AXES)


@pytest.fixture(scope="module")
def pad(crown: Ground) -> Piece:
    return cingulum_rest(crown, TOOTH, seat())


def at(ground: Ground, piece: Piece, points: Floats) -> Floats:
    """Field of a piece at points of the crown's frame."""
    box = piece.shape.box
    grid = Grid(ground.grid.frame, box.low, ground.grid.spacing, box.shape)
    return sampled(grid, piece.shape.values, ground.here(np.atleast_2d(points)))


def normal(point: Floats) -> Floats:
    out = point / np.array(AXES) ** 2
    return np.asarray(out / np.linalg.norm(out))


def coat(ground: Ground, piece: Piece, point: Floats) -> float:
    """Metal over a point of the crown, along its normal [mm]."""
    steps = np.arange(0.02, 2.0, 0.02)
    inside = at(ground, piece, point + steps[:, None] * normal(point)) < 0
    return float(steps[inside].max(initial=0.0))


def on_crown(x: float, y: float) -> Floats:
    return np.array([x, y, 5.0 * np.sqrt(1 - (x / 4.0) ** 2 - (y / 3.0) ** 2)])


def test_the_pad_is_thick_enough_along_the_path_and_low(crown: Ground, pad: Piece) -> None:
    middle = pad.component.line.mean(axis=0)
    foot = on_crown(middle[0], middle[1])
    column = foot + np.arange(0.02, 4.0, 0.02)[:, None] * [0.0, 0.0, 1.0]
    upright = 0.02 * float((at(crown, pad, column) < 0).sum())
    assert upright >= (limit("rest.thickness").note_below or 1.5) - 0.35
    assert 0.7 < coat(crown, pad, UP) < 1.3


def test_it_thins_out_to_its_border_without_corners(crown: Ground, pad: Piece) -> None:
    middle = coat(crown, pad, UP)
    half = 0.5 * float(pad.component.width_mm[0])
    assert 0.5 * limit("rest.cingulum_length").value <= half <= WIDEST[0]
    for side in (-1.0, 1.0):
        near = coat(crown, pad, on_crown(side * 0.85 * half, UP[1]))
        assert 0.2 < near < 0.9 * middle  # blunt, and thinner than the middle
        assert coat(crown, pad, on_crown(side * 1.15 * half, UP[1])) == 0.0
        assert coat(crown, pad, on_crown(side * 0.9 * half, UP[1] + 1.1)) == 0.0  # no corner


def test_it_stays_on_its_side_of_the_crown(crown: Ground, pad: Piece) -> None:
    lips = np.array([[x, 3.2, z] for x in (-1.0, 0.0, 1.0) for z in (0.0, 2.0, 4.0)])
    values = at(crown, pad, lips)
    assert values.min() > 0


@pytest.mark.parametrize("height", [4.2, 9.0])
def test_it_keeps_below_the_opposing_teeth(crown: Ground, height: float) -> None:
    above = box(np.array([-8.0, -8, height]), np.array([8.0, 8, height + 2]))
    ground = replace(crown, arch=replace(crown.arch, opposing=above))
    piece = cingulum_rest(ground, TOOTH, seat())
    column = UP + np.arange(0.02, 4.0, 0.02)[:, None] * [0.0, 0.0, 1.0]
    high = column[at(ground, piece, column) < 0, 2].max()
    assert high < height - 0.05
    assert piece.component.figures["room_mm"] == pytest.approx(height - 0.1 - UP[2], abs=0.6)


def test_no_blade_hangs_down_beside_a_flank() -> None:
    """Metal 2 mm thick on a wall, and below it a blade of 0.25 mm along the same wall."""
    step = 0.1
    x, z = (step * np.arange(60)[:, None, None] - 2.0, step * np.arange(60)[None, None, :])
    off = np.broadcast_to(x, (60, 20, 60)).astype(np.float32)  # the tooth is where x < 0
    block = np.maximum(x - 2.0, np.abs(z - 4.0) - 1.2)
    blade = np.maximum(x - 0.25, np.abs(z - 2.0) - 1.2)
    pad = np.broadcast_to(np.minimum(block, blade), off.shape).astype(np.float32)
    left = sound(pad, off, step)
    assert pad[21, 10, 15] < 0 < left[21, 10, 15]  # 0.1 mm off the wall, in the blade
    assert (left[21:39, 10, 32:48] < 0).all()  # the block stays
