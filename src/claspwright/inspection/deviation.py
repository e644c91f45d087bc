"""Signed deviation of a scanned part from its design, and the figures that sum it up."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats, InputError, Ints, frozen_floats, frozen_ints
from claspwright.geometry import DistanceTree, Mesh, Rigid, closest_points


@dataclass(frozen=True, slots=True)
class DeviationFigures:
    """What a set of signed deviations comes to; positive: the scan lies outside the design."""

    count: int
    bias_um: float  # mean, with its sign
    mean_abs_um: float
    rms_um: float
    sd_um: float  # of a sample (n - 1); zero for one value
    p95_um: float  # 95th percentile of the amounts
    lowest_um: float
    highest_um: float


@dataclass(frozen=True, slots=True, eq=False)
class Deviation:
    """Each vertex of a scan against the surface of the design; design frame."""

    scan: Mesh  # moved on to the design
    distance_mm: Floats  # (V,) positive outside the design
    faces: Ints  # (V,) nearest face of the design

    def __post_init__(self) -> None:
        object.__setattr__(self, "distance_mm", frozen_floats(self.distance_mm, (None,), "d"))
        object.__setattr__(self, "faces", frozen_ints(self.faces, (None,), "faces"))


def deviation(scan: Mesh, design: DistanceTree, scan_to_design: Rigid) -> Deviation:
    """Distance of every vertex of the scan to the nearest point of the design [mm].

    The sign is that of the design's surface there: positive where the scan lies outside.
    """
    moved = scan.moved(scan_to_design)
    near = closest_points(design, moved.vertices)
    return Deviation(moved, near.distance, near.faces)


def deviation_figures(distance_mm: Floats) -> DeviationFigures:
    """The figures over signed deviations [mm].

    Raises:
        InputError: there is no value.

    Source:
        definitions; check-values G17 (rms^2 = bias^2 + population variance), W9.
    """
    values = 1000.0 * np.asarray(distance_mm, dtype=np.float64).ravel()
    if not values.size:
        raise InputError("no deviation to sum up", remedy="Check the scan and the areas.")
    return DeviationFigures(
        count=int(values.size),
        bias_um=float(values.mean()),
        mean_abs_um=float(np.abs(values).mean()),
        rms_um=float(np.sqrt(np.mean(values**2))),
        sd_um=float(values.std(ddof=1)) if values.size > 1 else 0.0,
        p95_um=float(np.percentile(np.abs(values), 95.0)),
        lowest_um=float(values.min()),
        highest_um=float(values.max()),
    )
