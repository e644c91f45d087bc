"""Regular grids in a turned frame, and scalar fields sampled on them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats, InputError, Singles, frozen_floats
from claspwright.geometry.rigid import Rigid
from claspwright.geometry.sampling import linear_values


@dataclass(frozen=True, slots=True, eq=False)
class Grid:
    """Nodes at origin + spacing * (i, j, k) in a frame turned from the world by `frame`."""

    frame: Rigid  # world -> grid frame
    origin: Floats  # (3,) of node (0, 0, 0), in the grid frame [mm]
    spacing: float  # mm
    shape: tuple[int, int, int]

    def __post_init__(self) -> None:
        object.__setattr__(self, "origin", frozen_floats(self.origin, (3,), "origin"))
        if not self.spacing > 0 or min(self.shape) < 2:
            raise InputError(f"grid needs spacing > 0 and >= 2 nodes a side, got {self.shape}")

    @staticmethod
    def around(points: Floats, frame: Rigid, spacing: float, pad: float) -> Grid:
        """The smallest grid that holds (N, 3) world points with a margin of `pad` [mm].

        The origin is snapped to whole multiples of the spacing.
        """
        inside = frame.apply(points)
        low = np.floor((inside.min(axis=0) - pad) / spacing)
        high = np.ceil((inside.max(axis=0) + pad) / spacing)
        nx, ny, nz = (int(n) + 1 for n in high - low)
        return Grid(frame, low * spacing, spacing, (nx, ny, nz))

    def axes(self) -> tuple[Floats, Floats, Floats]:
        """Coordinates of the nodes along each axis, in the grid frame [mm]."""
        x, y, z = (
            self.origin[a] + self.spacing * np.arange(self.shape[a], dtype=np.float64)
            for a in range(3)
        )
        return x, y, z

    def to_nodes(self, points: Floats) -> Floats:
        """(N, 3) fractional node indices of world points."""
        return (self.frame.apply(points) - self.origin) / self.spacing

    def to_world(self, nodes: Floats) -> Floats:
        """(N, 3) world points of fractional node indices [mm]."""
        return self.frame.inverse().apply(nodes * self.spacing + self.origin)


@dataclass(frozen=True, slots=True, eq=False)
class Field:
    """Values of a scalar at the nodes of a grid; distances are negative inside a solid."""

    grid: Grid
    values: Singles  # grid.shape, float32

    def __post_init__(self) -> None:
        if self.values.shape != self.grid.shape or self.values.dtype != np.float32:
            raise InputError(
                f"field needs float32 values of shape {self.grid.shape}, "
                f"got {self.values.dtype} {self.values.shape}"
            )
        self.values.setflags(write=False)

    def at(self, points: Floats) -> Floats:
        """(N,) trilinear values at (N, 3) world points; border values outside."""
        nodes = self.grid.to_nodes(np.atleast_2d(points))
        return linear_values(self.values, nodes)

    def gradient(self, points: Floats, step: float | None = None) -> Floats:
        """(N, 3) central-difference gradient in the world frame at (N, 3) world points."""
        reach = self.grid.spacing if step is None else step
        points = np.atleast_2d(points)
        columns = [
            (self.at(points + reach * axis) - self.at(points - reach * axis)) / (2 * reach)
            for axis in np.eye(3)
        ]
        return np.stack(columns, axis=1)
