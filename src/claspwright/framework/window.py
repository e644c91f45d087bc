"""A box of nodes of the whole grid, and what lies in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from claspwright.base import Floats, Ints
from claspwright.framework.canvas import Box, Canvas, Shape
from claspwright.framework.ground import Piece
from claspwright.framework.terrain import Terrain
from claspwright.geometry import Field, Grid

MARGIN = 8  # nodes around pieces, beyond their fillets: as far as walls reach
Node = tuple[int, int, int]


@dataclass(frozen=True, slots=True, eq=False)
class Window:
    """The nodes from `low` to below `high` of a grid, as a grid of their own."""

    grid: Grid
    low: Node
    high: Node

    @staticmethod
    def round(grid: Grid, pieces: Sequence[Piece]) -> Window:
        """The box around pieces, their fillets and a margin; without pieces all of the grid."""
        lows, highs = [], []
        for piece in pieces:
            spare = MARGIN + int(np.ceil(piece.fillet / grid.spacing))
            lows.append([s.start - spare for s in piece.shape.box.slices])
            highs.append([s.stop + spare for s in piece.shape.box.slices])
        if not pieces:
            return Window(grid, (0, 0, 0), grid.shape)
        low = _node(np.maximum(np.min(lows, axis=0), 0))
        high = _node(np.minimum(np.max(highs, axis=0), grid.shape))
        a, b, c = (int(n) for n in np.subtract(high, low))
        origin = grid.origin + grid.spacing * np.array(low)
        return Window(Grid(grid.frame, origin, grid.spacing, (a, b, c)), low, high)

    def canvas(self) -> Canvas:
        """An empty canvas."""
        return Canvas(self.grid)

    def terrain(self, ground: Terrain) -> Terrain:
        """The ground there."""
        here = tuple(slice(a, b) for a, b in zip(self.low, self.high, strict=True))
        values = np.ascontiguousarray(ground.field.values[here])
        return Terrain(Field(self.grid, values), ground.tops[here[:2]])

    def tips(self, pieces: Sequence[Piece]) -> Canvas:
        """The zones of its pieces where the bare tooth alone cuts."""
        canvas = self.canvas()
        for zone in (piece.tip for piece in pieces if piece.tip is not None):
            canvas.add(zone)
        return canvas

    def heights(self, values: Floats | None) -> Floats | None:
        """Those of (nx, ny) heights over the whole grid that lie there, where there are any."""
        return (
            None
            if values is None
            else values[self.low[0] : self.high[0], self.low[1] : self.high[1]]
        )

    def pieces(self, pieces: Sequence[Piece]) -> list[Piece]:
        """Those that reach into it, cut down to it, in their order."""
        found = []
        for piece in pieces:
            shape = self._clipped(piece.shape)
            if shape is not None:
                tip = None if piece.tip is None else self._clipped(piece.tip)
                found.append(replace(piece, shape=shape, tip=tip))
        return found

    def _clipped(self, shape: Shape) -> Shape | None:
        """The part of a shape that lies there, counted from the first node."""
        start = np.array([s.start for s in shape.box.slices])
        stop = np.array([s.stop for s in shape.box.slices])
        begin, end = np.maximum(start, self.low), np.minimum(stop, self.high)
        if (end <= begin).any():
            return None
        inside = tuple(slice(a, b) for a, b in zip(begin - start, end - start, strict=True))
        mine = zip(begin - self.low, end - self.low, strict=True)
        here = [slice(int(a), int(b)) for a, b in mine]
        box = Box((here[0], here[1], here[2]), shape.box.low)
        return Shape(box, np.ascontiguousarray(shape.values[inside]))


def _node(at: Ints) -> Node:
    a, b, c = (int(n) for n in at)
    return a, b, c
