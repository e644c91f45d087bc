"""The curve that the crowns stand on."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.interpolate import make_splprep
from scipy.ndimage import gaussian_filter1d
from scipy.spatial import cKDTree

from claspwright.arch import Jaw
from claspwright.base import Floats
from claspwright.demo.sizes import ARCH_POINTS

_STEP = 0.1
_TAIL_MM = 30.0


@dataclass(frozen=True, slots=True, eq=False)
class ArchLine:
    """A polyline from -x to +x with its arc length, going on straight behind the molars."""

    points: Floats  # (N, 2)
    arc: Floats  # (N,) 0 at the apex
    normal: Floats  # (N, 2) outwards

    @staticmethod
    def through(points: Floats) -> ArchLine:
        """From a fine polyline; arc 0 where |x| is least."""
        steps = np.linalg.norm(np.diff(points, axis=0), axis=1)
        arc = np.concatenate([[0.0], np.cumsum(steps)])
        front = points[:, 1] > points[:, 1].max() - 10.0
        arc = arc - arc[np.argmin(np.where(front, np.abs(points[:, 0]), np.inf))]
        tangent = np.gradient(points, axis=0)
        tangent /= np.linalg.norm(tangent, axis=1, keepdims=True)
        return ArchLine(points, arc, np.stack([-tangent[:, 1], tangent[:, 0]], axis=1))

    def at(self, arc: float) -> tuple[Floats, Floats]:
        """Point and outward normal at an arc length."""
        point = np.array([np.interp(arc, self.arc, self.points[:, i]) for i in range(2)])
        normal = np.array([np.interp(arc, self.arc, self.normal[:, i]) for i in range(2)])
        return point, normal / np.linalg.norm(normal)

    def coordinates(self, xy: Floats) -> tuple[Floats, Floats]:
        """Arc length and outward distance of (N, 2) points."""
        _, near = cKDTree(self.points).query(xy, workers=1)
        gap = xy - self.points[near]
        normal = self.normal[near]
        across = np.einsum("ij,ij->i", gap, normal)
        along = gap[:, 0] * normal[:, 1] - gap[:, 1] * normal[:, 0]
        return self.arc[near] + np.clip(along, -_STEP, _STEP), across


def line_through(points: Floats, slack: float) -> ArchLine:
    """A smoothing cubic through (N, 2) points ordered from -x to +x, with straight tails.

    Args:
        points: (N, 2) in order [mm].
        slack: sum of squared distances that the curve may leave [mm2].
    """
    curve, _ = make_splprep(points.T, s=slack, k=3)
    fine = np.asarray(curve(np.linspace(0, 1, 6001)), dtype=np.float64).T
    arc = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(fine, axis=0), axis=1))])
    even = np.linspace(0.0, arc[-1], round(arc[-1] / _STEP) + 1)
    inner = np.stack([np.interp(even, arc, fine[:, i]) for i in range(2)], axis=1)
    run = _STEP * np.arange(1, round(_TAIL_MM / _STEP))[:, None]
    back = round(6.0 / _STEP)
    tail = inner[-1] + run * _unit(inner[-1] - inner[-back])
    head = inner[0] + run[::-1] * _unit(inner[0] - inner[back])
    whole = np.concatenate([head, inner, tail])
    return ArchLine.through(
        np.asarray(gaussian_filter1d(whole, 1.5 / _STEP, axis=0, mode="nearest"))
    )


def _unit(v: Floats) -> Floats:
    return np.asarray(v / np.linalg.norm(v), dtype=np.float64)


def average_line(jaw: Jaw, scale: float) -> ArchLine:
    """The average arch, alike on both sides, apex at the origin, times `scale`."""
    half = np.array(ARCH_POINTS[jaw][:7]) * scale
    both = np.concatenate([half[::-1] * [-1.0, -1.0], half * [1.0, -1.0]])
    line = line_through(both, 2.5)
    even = 0.5 * (line.points + line.points[::-1] * [-1.0, 1.0])
    even[:, 1] -= even[:, 1].max()
    return ArchLine.through(even)
