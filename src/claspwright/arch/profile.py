"""What a scan shows along the line of its arch: creases across it, crown walls, height."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import gaussian_filter1d, maximum_filter1d

from claspwright.arch.archline import STEP, ArchLine
from claspwright.arch.regions import FaceGraph
from claspwright.base import Bools, Floats, frozen_floats

CROWN_ZONE = 6.0  # mm below the local top in which creases between crowns are looked for
WALL_ZONE = 9.0  # mm below the local top in which gingival creases are looked for


@dataclass(frozen=True, slots=True, eq=False)
class ArchProfile:
    """Values at the stations of an arch line, STEP apart.

    `valley` is the inward turning across the line (embrasures), `wall` the inward turning
    along it (gingival creases and fossae), both in mm rad of crease per mm of arch and scaled
    by their own high values; `top` is the highest point of the surface.
    """

    valley: Floats  # (K,) about 0 to 1
    wall: Floats  # (K,) about 0 to 1
    top: Floats  # (K,) mm

    def __post_init__(self) -> None:
        for name in ("valley", "wall", "top"):
            object.__setattr__(self, name, frozen_floats(getattr(self, name), (None,), name))

    def reversed(self) -> ArchProfile:
        """The same from the other end, as a mirrored arch or the other jaw would show it."""
        return ArchProfile(self.valley[::-1], self.wall[::-1], self.top[::-1])


def arch_profile(graph: FaceGraph, line: ArchLine) -> ArchProfile:
    """Collect creases and heights along the line of the arch."""
    count = len(line.points)
    s, r = line.coordinates(graph.centres)
    station = np.clip(np.rint(s / STEP).astype(int), 0, count - 1)
    inside = (np.abs(r) < 7.0) & (s > -1) & (s < line.length + 1)
    top = np.full(count, graph.centres[:, 2].min())
    np.maximum.at(top, station[inside], graph.centres[inside, 2])
    top = maximum_filter1d(top, int(3.0 / STEP), mode="nearest")
    one, two = graph.pairs[:, 0], graph.pairs[:, 1]
    step = graph.centres[two] - graph.centres[one]
    along = np.einsum("ij,ij->i", step[:, :2], line.tangent[station[one]]) / graph.reach
    z = graph.centres[one, 2]
    size = graph.edge * graph.turn * inside[one]
    deep = top[station[one]] - z
    across_line = size * along**2 * (deep < CROWN_ZONE)
    along_line = size * (1 - along**2) * (deep < WALL_ZONE)
    valley = _per_station(station[one], across_line, count)
    valley = valley + _open_sides(graph, station, inside, top, count)
    wall = _per_station(station[one], along_line, count)
    return ArchProfile(
        _scaled(gaussian_filter1d(valley, 0.5 / STEP), 95),
        _scaled(gaussian_filter1d(wall, 2.0 / STEP), 75),
        top,
    )


def _open_sides(
    graph: FaceGraph, station: NDArray[np.intp], inside: Bools, top: Floats, count: int
) -> Floats:
    """Borders high on the arch are slits that the scanner left between crowns."""
    slit = graph.on_border & inside & (top[station] - graph.centres[:, 2] < CROWN_ZONE)
    size = np.sqrt(graph.areas[slit])  # about the length of the open side, one radian
    return _per_station(station[slit], 0.7 * size, count)


def _per_station(station: NDArray[np.intp], size: Floats, count: int) -> Floats:
    return np.asarray(np.bincount(station, size, count), np.float64)


def _scaled(values: Floats, percentile: float) -> Floats:
    high = float(np.percentile(values[values > 0], percentile)) if (values > 0).any() else 1.0
    return np.clip(values / max(high, 1e-9), 0.0, 1.5)
