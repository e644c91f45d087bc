"""A window on the grid joins pieces as the whole grid does."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats
from claspwright.framework.build import joined
from claspwright.framework.canvas import Shape, box_round
from claspwright.framework.ground import Piece
from claspwright.framework.model import Component
from claspwright.framework.terrain import Terrain
from claspwright.framework.window import MARGIN, Window
from claspwright.geometry import IDENTITY, Field, Grid

GRID = Grid(IDENTITY, np.array([-6.0, -6.0, -6.0]), 0.2, (61, 61, 61))


def flat() -> Terrain:
    """A plane at z = 0."""
    z = GRID.origin[2] + GRID.spacing * np.arange(GRID.shape[2])
    values = np.broadcast_to(z.astype(np.float32), GRID.shape)
    return Terrain.of(Field(GRID, np.ascontiguousarray(values)))


def lump(centre: Floats, radius: float) -> Piece:
    box = box_round(GRID, np.array([centre]), radius + 0.8)
    axes = [box.low[a] + GRID.spacing * np.arange(box.shape[a]) - centre[a] for a in range(3)]
    x, y, z = np.meshgrid(*axes, indexing="ij")
    values = (np.sqrt(x * x + y * y + z * z) - radius).astype(np.float32)
    record = Component("lump", "palatal plate", np.array([centre]), np.ones(1), np.ones(1), 14, {})
    return Piece(record, Shape(box, values), 0.5)


def test_pieces_are_joined_in_a_window_as_on_the_whole_grid() -> None:
    ground = flat()
    pieces = [lump(np.array([0.5, 0.0, 0.3]), 0.8), lump(np.array([1.6, 0.4, 0.2]), 0.7)]
    roof = np.full(GRID.shape[:2], 0.9)
    window = Window.round(GRID, pieces)
    assert all(a > 0 for a in window.low) and np.all(np.array(window.high) < GRID.shape)
    here = window.pieces(pieces)
    found = joined(here, window.terrain(ground), window.heights(roof)).values
    whole = joined(pieces, ground, roof).values
    cut = tuple(slice(a, b) for a, b in zip(window.low, window.high, strict=True))
    np.testing.assert_allclose(found, whole[cut], atol=1e-5)
    outside = np.ones(GRID.shape, bool)
    outside[cut] = False
    assert whole[outside].min() > MARGIN * GRID.spacing / 2  # nothing was laid beyond it


def test_a_piece_that_reaches_in_is_cut_down_and_one_beside_it_is_left_out() -> None:
    near, far = lump(np.array([0.0, 0.0, 0.0]), 0.8), lump(np.array([5.6, 4.4, 0.0]), 0.3)
    window = Window.round(GRID, [near])
    assert len(window.pieces([near, far])) == 1
    wide = lump(np.array([2.6, 0.0, 0.0]), 1.5)
    (cut,) = window.pieces([wide])
    first = np.array([part.start for part in cut.shape.box.slices])
    assert cut.shape.values.shape[0] < wide.shape.values.shape[0]
    spot = window.low + first - [part.start for part in wide.shape.box.slices]
    assert cut.shape.values[0, 0, 0] == wide.shape.values[tuple(spot)]


def test_without_pieces_it_is_the_whole_grid() -> None:
    window = Window.round(GRID, [])
    assert window.grid.shape == GRID.shape and not window.pieces([])
