"""The line of the arch: where teeth and ridge crests run, seen from the occlusal side.

It gives every point of a scan an arch coordinate `s` (along, from the patient's right end to
the left) and an offset `r` (across, positive on the buccal side).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import make_smoothing_spline
from scipy.ndimage import gaussian_filter1d
from scipy.spatial import cKDTree

from claspwright.arch.model import Jaw
from claspwright.base import Floats, GeometryError, frozen_floats

STEP = 0.25  # mm between stations
BAND = 2.5  # mm below the local top that still counts as the top of the arch
SAMPLES = 40000  # points that are enough to find the line
MANY = 20000  # points from which the nearest station is looked up in a raster
RASTER = 0.4  # mm
HALF_WIDTH = 8.0  # mm across the line that may belong to teeth or ridge


@dataclass(frozen=True, slots=True, eq=False)
class ArchLine:
    """A smooth plan curve with even stations from the patient's right end to the left."""

    points: Floats  # (K, 2) x, y in the arch frame [mm], STEP apart
    outward: Floats  # (K, 2) unit vectors to the buccal side

    def __post_init__(self) -> None:
        object.__setattr__(self, "points", frozen_floats(self.points, (None, 2), "points"))
        object.__setattr__(self, "outward", frozen_floats(self.outward, (None, 2), "outward"))

    @property
    def length(self) -> float:
        """Length of the line [mm]."""
        return STEP * (len(self.points) - 1)

    @property
    def tangent(self) -> Floats:
        """(K, 2) unit vectors along the line, towards the patient's left end."""
        step = np.gradient(self.points, axis=0)
        return np.asarray(step / np.linalg.norm(step, axis=1, keepdims=True))

    def coordinates(self, points: Floats) -> tuple[Floats, Floats]:
        """(N,) arch coordinate and (N,) offset of (N, 2 or 3) points [mm]."""
        plan = np.atleast_2d(points)[:, :2]
        nearest = self._nearest(plan)
        off = plan - self.points[nearest]
        tangent = self.tangent
        along = off[:, 0] * tangent[nearest, 0] + off[:, 1] * tangent[nearest, 1]
        outward = self.outward
        across = off[:, 0] * outward[nearest, 0] + off[:, 1] * outward[nearest, 1]
        return STEP * nearest + along, across

    def _nearest(self, plan: Floats) -> NDArray[np.intp]:
        """(N,) nearest station; of many points, that of the middle of their raster cell."""
        stations = cKDTree(self.points)
        if len(plan) < MANY:
            return np.asarray(stations.query(plan)[1])
        low = plan.min(axis=0)
        cell = ((plan - low) / RASTER).astype(np.int32)
        rows, columns = cell.max(axis=0) + 1
        x = low[0] + RASTER * (np.arange(rows) + 0.5)
        y = low[1] + RASTER * (np.arange(columns) + 0.5)
        nodes = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
        table = np.asarray(stations.query(nodes)[1]).reshape(rows, columns)
        return np.asarray(table[cell[:, 0], cell[:, 1]])

    def at(self, s: Floats | float, r: Floats | float = 0.0) -> Floats:
        """(N, 2) plan points at arch coordinates and offsets [mm]."""
        s, r = np.broadcast_arrays(np.atleast_1d(s), np.atleast_1d(r))
        out = [
            self._sample(self.points[:, k], s) + r * self._sample(self.outward[:, k], s)
            for k in range(2)
        ]
        return np.stack(out, axis=1)

    def outward_at(self, s: Floats | float) -> Floats:
        """(N, 2) unit vectors to the buccal side at arch coordinates."""
        s = np.atleast_1d(s)
        found = np.stack([self._sample(self.outward[:, k], s) for k in range(2)], axis=1)
        return np.asarray(found / np.linalg.norm(found, axis=1, keepdims=True))

    def tangent_at(self, s: Floats | float) -> Floats:
        """(N, 2) unit vectors towards the patient's left end at arch coordinates."""
        s = np.atleast_1d(s)
        tangent = self.tangent
        found = np.stack([self._sample(tangent[:, k], s) for k in range(2)], axis=1)
        return np.asarray(found / np.linalg.norm(found, axis=1, keepdims=True))

    def _sample(self, values: Floats, s: Floats) -> Floats:
        return np.asarray(np.interp(s, STEP * np.arange(len(values)), values))


def line_through(points: Floats, jaw: Jaw) -> ArchLine:
    """Even stations on a plan polyline of (N, 2) points, ordered from the patient's right."""
    away = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    s = np.arange(0.0, away[-1], STEP)
    even = np.stack([np.interp(s, away, points[:, k]) for k in range(2)], axis=1)
    even = _smoothed_ends(even, 3.0)
    along = np.gradient(even, axis=0)
    along /= np.linalg.norm(along, axis=1, keepdims=True)
    turn = 1.0 if jaw == "mandible" else -1.0  # the mandible runs counter-clockwise from above
    outward = turn * np.stack([along[:, 1], -along[:, 0]], axis=1)
    return ArchLine(even, outward)


def _smoothed_ends(points: Floats, sigma_mm: float) -> Floats:
    """Gaussian smoothing whose ends run on straight instead of bending."""
    pad = int(4 * sigma_mm / STEP)
    k = np.arange(1, pad + 1)[:, None]
    reach = min(len(points) - 1, int(6.0 / STEP))
    head = points[0] + k[::-1] * (points[0] - points[reach]) / reach
    tail = points[-1] + k * (points[-1] - points[-1 - reach]) / reach
    whole = np.concatenate([head, points, tail])
    return np.asarray(gaussian_filter1d(whole, sigma_mm / STEP, axis=0, mode="nearest"))[pad:-pad]


def find_arch_line(points: Floats, weights: Floats, jaw: Jaw) -> ArchLine:
    """Find the line of the arch from the shape alone: the top of teeth and ridge.

    Args:
        points: (N, 3) samples of the surface in the arch frame [mm].
        weights: (N,) area of each sample.
        jaw: which jaw it is.

    Raises:
        GeometryError: the surface holds no arch.
    """
    every = max(1, len(points) // SAMPLES)
    points, weights = points[::every], weights[::every]
    line = _straight_legs(line_through(_polar_start(points, jaw), jaw), jaw)
    for smooth in (5.0, 3.5, 2.5):
        line = _straight_legs(_recentred(line, points, weights, jaw, smooth), jaw)
    return line


def _straight_legs(line: ArchLine, jaw: Jaw) -> ArchLine:
    """Cut off ends that turn across the jaw, as they do along the back border of a palate."""
    slope = np.abs(line.tangent[:, 1])  # 1: straight back, 0: across
    middle = int(np.argmax(line.points[:, 1]))
    crossing = slope < np.sin(np.radians(50))
    depth = line.points[middle, 1] - line.points[:, 1]
    behind = depth > 0.6 * depth.max()
    right = np.flatnonzero(crossing[:middle] & behind[:middle])
    left = np.flatnonzero(crossing[middle:] & behind[middle:])
    first = int(right[-1]) + 1 if len(right) else 0
    last = middle + int(left[0]) if len(left) else len(slope)
    if first == 0 and last == len(slope):
        return line
    return line_through(line.points[first:last], jaw)


def _polar_start(points: Floats, jaw: Jaw) -> Floats:
    """First guess: the highest place in each direction from a point between the legs."""
    low, high = np.percentile(points[:, :2], [1, 99], axis=0)
    centre = np.array([(low[0] + high[0]) / 2, low[1] + 0.3 * (high[1] - low[1])])
    away = points[:, :2] - centre
    radius = np.linalg.norm(away, axis=1)
    angle = np.arctan2(away[:, 1], away[:, 0])  # 0 at +x, 90 degrees in front
    angle = np.where(angle < -np.pi / 2, angle + 2 * np.pi, angle)
    width = np.radians(3.0)
    sector = np.floor((angle + np.radians(45)) / width).astype(int)
    inside = (sector >= 0) & (sector < 90) & (radius > 0.25 * (high[0] - low[0]))
    best = []
    for k in np.unique(sector[inside]):
        here = np.flatnonzero(inside & (sector == k))
        top = here[points[here, 2] > points[here, 2].max() - 1.0]
        best.append(((k + 0.5) * width - np.radians(45), radius[top].mean(), len(here)))
    if len(best) < 30:
        raise GeometryError(
            "the scan holds no arch that could be followed round",
            remedy="Check the jaw and the orientation of the scan.",
        )
    table = np.array(best)
    smooth = make_smoothing_spline(table[:, 0], _without_jumps(table[:, 1]), lam=2e-3)
    fine = np.linspace(table[0, 0], table[-1, 0], 400)
    r = smooth(fine)
    line = centre + r[:, None] * np.stack([np.cos(fine), np.sin(fine)], axis=1)
    return np.asarray(line if jaw == "mandible" else line[::-1])


def _without_jumps(radius: Floats) -> Floats:
    """Replace values that stand far off the median of their neighbours."""
    padded = np.pad(radius, 4, mode="edge")
    middle = np.median(np.lib.stride_tricks.sliding_window_view(padded, 9), axis=1)
    return np.where(np.abs(radius - middle) > 5.0, middle, radius)


def _recentred(
    line: ArchLine, points: Floats, weights: Floats, jaw: Jaw, smooth_mm: float
) -> ArchLine:
    """Move the line to the middle of what stands highest at each station."""
    line = lengthened(line, jaw, 12.0)
    s, r = line.coordinates(points)
    near = (np.abs(r) < HALF_WIDTH) & (s > 0) & (s < line.length)
    bins = (s[near] / 1.0).astype(int)
    count = int(line.length) + 1
    top = np.full(count, -np.inf)
    np.maximum.at(top, bins, points[near, 2])
    top = np.asarray([top[max(0, i - 1) : i + 2].max() for i in range(count)])
    share = 1 / (1 + np.exp((top[bins] - BAND - points[near, 2]) / 0.4)) * weights[near]
    mass = np.bincount(bins, share, count)
    moment = np.bincount(bins, share * r[near], count)
    known = mass > 0.2 * np.median(mass[mass > 0])
    centres = np.arange(count) + 0.5
    first, last = centres[known][[0, -1]]
    offset = np.interp(centres, centres[known], moment[known] / mass[known])
    offset = gaussian_filter1d(np.clip(offset, -5, 5), smooth_mm, mode="nearest")
    stations = np.arange(first, last, 0.5)
    return line_through(line.at(stations, np.interp(stations, centres, offset)), jaw)


def lengthened(line: ArchLine, jaw: Jaw, reach: float) -> ArchLine:
    """Run both ends of the line on straight by `reach` [mm]."""
    tangent = line.tangent
    k = np.arange(STEP, reach, STEP)[:, None]
    back = int(min(len(tangent) - 1, 6.0 / STEP))
    first = tangent[: back + 1].mean(axis=0)
    last = tangent[-back - 1 :].mean(axis=0)
    head = line.points[0] - k[::-1] * first / np.linalg.norm(first)
    tail = line.points[-1] + k * last / np.linalg.norm(last)
    return line_through(np.concatenate([head, line.points, tail]), jaw)
