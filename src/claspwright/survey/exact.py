"""Gauge readings made exact: the free region's border found by rays, not by the grid."""

from __future__ import annotations

from typing import Any

import numpy as np

from claspwright.base import Bools, Floats
from claspwright.geometry import DistanceTree, Grid, is_covered

HALVINGS = 10
TURNS = 4  # rounds of turning the way to either side
STEEPEST_TURN = 0.3  # rad
GAIN_MM = 0.001  # a turn must win this much
LIFT_MM = 0.0005  # of the ways, so that level tissue does not cover what lies in its plane


def exact_undercut(
    tree: DistanceTree, grid: Grid, points: Floats, ends: Floats, undercut: Floats
) -> Floats:
    """(N,) undercut after a search by rays about the readings of the grid [mm].

    Along the way from each point to the free point that the grid gave, the border is found by
    halving; then the way is turned to either side as long as that is shorter. Where the border
    is not within a step of the grid's reading, that reading stays.

    Args:
        tree: of the closed solid.
        grid: the survey's, whose +z is the path.
        points: (N, 3) on the surface [mm].
        ends: (N, 3) free points of the same planes across the path [mm].
        undercut: (N,) distances between the two [mm].
    """
    if not len(points):
        return np.array(undercut)
    ways = _Ways(tree, grid, points)
    flat = grid.frame.turn(ends - points)
    angle = np.arctan2(flat[:, 1], flat[:, 0])
    step = grid.spacing
    low = np.maximum(undercut - step, 0.0)
    everyone = np.arange(len(points))
    found = ways.border(everyone, angle, low, undercut + step)
    best = np.where(np.isfinite(found), found, undercut)
    turn = np.minimum(0.5 * step / np.maximum(best, 1e-6), STEEPEST_TURN)
    for _ in range(TURNS):
        for side in (-1.0, 1.0):
            shorter = np.maximum(best - GAIN_MM, 0.0)
            free = everyone[~ways.covered(everyone, angle + side * turn, shorter)]
            free = free[best[free] > GAIN_MM]
            aside = angle[free] + side * turn[free]
            low = np.maximum(best[free] - step, 0.0)
            better = ways.border(free, aside, low, shorter[free])
            won = np.isfinite(better)
            best[free[won]], angle[free[won]] = better[won], aside[won]
        turn *= 0.5
    return best


class _Ways:
    """Level ways from points, given by an angle in the plane across the path."""

    def __init__(self, tree: DistanceTree, grid: Grid, points: Floats) -> None:
        self.tree, self.points = tree, points
        self.x, self.y, self.path = grid.frame.inverse().turn(np.eye(3))

    def covered(self, which: Any, angle: Floats, distance: Floats) -> Bools:
        """Whether the solid lies over the points so far along their ways."""
        along = np.cos(angle)[:, None] * self.x + np.sin(angle)[:, None] * self.y
        at = self.points[which] + LIFT_MM * self.path + distance[:, None] * along
        return is_covered(self.tree, at, self.path)

    def border(self, which: Any, angle: Floats, low: Floats, high: Floats) -> Floats:
        """Distance at which the ways come free, NaN where not between low and high."""
        low, high = np.array(low), np.array(high)
        if not len(which):
            return low
        sound = (self.covered(which, angle, low) | (low == 0.0)) & ~self.covered(which, angle, high)
        for _ in range(HALVINGS):
            middle = 0.5 * (low + high)
            inner = self.covered(which, angle, middle)
            low = np.where(inner, middle, low)
            high = np.where(inner, high, middle)
        return np.where(sound, high, np.nan)
