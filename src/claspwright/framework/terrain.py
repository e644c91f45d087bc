"""The ground that components are laid on: heights along the path, profiles, projections.

A model that is blocked out along the path is a height field seen along the path, so each
column of the grid has one top. Lines are laid by walking over those tops; steep walls are
followed by projecting onto the zero of the distance field.
"""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

import numpy as np
from scipy.ndimage import map_coordinates

from claspwright.base import Floats, Singles
from claspwright.framework import _sweep_kernels as kernels
from claspwright.framework.canvas import Box
from claspwright.geometry import (
    Field,
    Grid,
    PointBlocks,
    from_chunks,
    in_chunks,
    linear_values,
    resampled,
)

STEP = 0.1  # mm between the points of a profile
REACH = 2.0  # mm round points within which their nearest place on the surface is looked for
BAND = (-1.5, 3.0)  # mm of the field about the surface within which it is measured anew
BLOCK_STEPS = 4.0  # of the grid, a side of the cubes in which the surface is looked up
PLANES = 16  # of nodes looked through at once
MEASURED = 32  # boxes that are kept; more than a framework has plates

Bounds = tuple[tuple[int, int], tuple[int, int], tuple[int, int]]  # nodes of a box


@dataclass(frozen=True, slots=True, eq=False)
class Terrain:
    """A blocked-out surface; all coordinates in the grid (survey) frame, mm."""

    field: Field
    tops: Singles  # (nx, ny) height of the topmost crossing, NaN where none
    closer: Terrain | None = None  # the same surface on a finer grid, where points are asked about
    _measured: dict[Bounds, Singles] = dataclasses.field(default_factory=dict, repr=False)

    @staticmethod
    def of(field: Field, closer: Terrain | None = None) -> Terrain:
        """Find the top of each column of a distance field."""
        grid = field.grid
        tops = np.empty(grid.shape[:2], np.float32)
        z0, step = float(grid.origin[2]), grid.spacing

        def work(begin: int, end: int) -> None:
            kernels.top_heights(field.values, z0, step, begin, end, tops)

        in_chunks(work, len(tops), PLANES)
        return Terrain(field, tops, closer)

    def coarser(self) -> Terrain:
        """On every second node, for what is drawn; points are still asked about on this one."""
        grid = self.grid
        values = np.ascontiguousarray(self.field.values[::2, ::2, ::2])
        a, b, c = values.shape
        return Terrain.of(
            Field(Grid(grid.frame, grid.origin, 2 * grid.spacing, (a, b, c)), values), self
        )

    @property
    def grid(self) -> Grid:
        """The grid of the field."""
        return self.field.grid

    def distance(self, points: Floats) -> Floats:
        """(N,) height above the surface of (N, 3) points [mm]."""
        if self.closer is not None:
            return self.closer.distance(points)
        return sampled(self.grid, self.field.values, np.atleast_2d(points))

    def normal(self, points: Floats, reach: float = 0.4) -> Floats:
        """(N, 3) unit outward normals, averaged over `reach` [mm]."""
        points = np.atleast_2d(points)
        columns = [
            self.distance(points + reach * axis) - self.distance(points - reach * axis)
            for axis in np.eye(3)
        ]
        slope = np.stack(columns, axis=1)
        return np.asarray(slope / (np.linalg.norm(slope, axis=1, keepdims=True) + 1e-12))

    def settle(self, points: Floats, height: float = 0.0, rounds: int = 6) -> Floats:
        """Move (N, 3) points along the normal onto the level `height` of the field."""
        points = np.array(np.atleast_2d(points), np.float64)
        for _ in range(rounds):
            points -= (self.distance(points) - height)[:, None] * self.normal(points, 0.15)
        return points

    def off_surface(self, box: Box) -> Singles:
        """Distance to the surface itself at the nodes of a box [mm], positive outside.

        The field of a relieved surface is a distance only near it: in the air over wax, and
        beside its edge, it reads short. Further off than BAND it is left as it is.
        """
        a, b, c = ((s.start, s.stop) for s in box.slices)
        if (a, b, c) not in self._measured:  # the same parts are laid again and again
            if len(self._measured) == MEASURED:
                self._measured.clear()
            self._measured[a, b, c] = self._measure(box)
        return self._measured[a, b, c]

    def _measure(self, box: Box) -> Singles:
        values = self.field.values[box.slices]
        near = (values > BAND[0]) & (values < BAND[1])
        if not near.any():
            return values
        spots = box.low + self.grid.spacing * np.argwhere(near)
        gap = np.linalg.norm(spots - self.nearest(spots), axis=1)
        out = values.copy()
        out[near] = np.where(values[near] > 0, gap, -gap)
        out.setflags(write=False)
        return out

    def nearest(self, points: Floats) -> Floats:
        """(N, 3) places nearest to (N, 3) points where the surface crosses an edge of the grid.

        They stand a step of the grid apart, so that a distance of half a millimetre counted to
        them is long by 0.02 mm at most.
        """
        step, origin = self.grid.spacing, self.grid.origin
        low = ((points.min(axis=0) - REACH - origin) / step).astype(int)
        high = ((points.max(axis=0) + REACH - origin) / step).astype(int) + 2
        low = np.maximum(low, 0)
        values = self.field.values[tuple(slice(a, b) for a, b in zip(low, high, strict=True))]
        found = from_chunks(lambda a, b: kernels.crossings(values, a, b), len(values), PLANES)
        places = origin + step * (low + np.concatenate(found))
        if not len(places):
            return np.full(points.shape, np.inf)
        _, at = PointBlocks(places, BLOCK_STEPS * step).nearest(points)
        return np.asarray(places[at], np.float64)

    def height(self, plan: Floats) -> Floats:
        """(N,) top heights at (N, 2) plan points; NaN outside the model."""
        if self.closer is not None:
            return self.closer.height(plan)
        nodes = (np.atleast_2d(plan) - self.grid.origin[:2]) / self.grid.spacing
        found = map_coordinates(self.tops, nodes.T, order=1, mode="constant", cval=np.nan)
        return np.asarray(found, np.float64)

    def profile(self, start: Floats, towards: Floats, length: float) -> Floats:
        """(M, 3) line over the surface in the upright plane through `start`.

        Args:
            start: (2,) or (3,) plan point where it begins [mm].
            towards: (2,) or (3,) horizontal direction it runs in.
            length: plan distance it covers [mm]; it ends earlier where the model ends.

        Returns:
            Points at even steps along the surface, steep walls included.
        """
        away = np.asarray(towards[:2], np.float64)
        away = away / np.linalg.norm(away)
        s = np.arange(0.0, length + 1e-9, STEP / 2)
        plan = np.asarray(start[:2]) + s[:, None] * away
        z = self.height(plan)
        missing = np.flatnonzero(np.isnan(z))
        if missing.size:
            plan, z = plan[: missing[0]], z[: missing[0]]
        if len(plan) < 2:
            return np.zeros((0, 3))
        return resampled(np.column_stack([plan, z]), STEP)


def sampled(grid: Grid, values: Singles, points: Floats) -> Floats:
    """(N,) trilinear values at (N, 3) points of the grid's own frame; border values outside."""
    nodes = (points - grid.origin) / grid.spacing
    return linear_values(values, nodes)
