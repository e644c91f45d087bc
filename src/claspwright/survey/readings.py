"""Exact readings along a chosen path: what each clasp finds, and what is to be blocked out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.spatial import KDTree

from claspwright.arch import DentalArch
from claspwright.base import Floats, Ints, Progress, Singles, silent
from claspwright.survey.gauge import gauge, read_gauge
from claspwright.survey.judge import deepest
from claspwright.survey.model import Survey
from claspwright.survey.shadow import cast_shadow
from claspwright.survey.zones import Face, Zone, clasp_zone, covered_vertices, near_border, skin_of

LEAST_FILL_MM3 = 0.05  # regions with less are left out
NEAR_MM = 3.0  # from the surface, what counts to a region
BORDER_MM = 0.5  # of the open border, where a place counts to what lies beyond it
BEYOND = -2
SLAB = 16


@dataclass(frozen=True, slots=True, eq=False)
class RetainerReading:
    """What one clasp finds on its face of the tooth; the gauge's exact readings."""

    tooth: int
    side: Face
    wanted_mm: float
    at_path_mm: float  # that the deepest 0.4 mm2 have at least, along the path
    across_mm: float  # the same across the occlusal plane
    usable_mm: float  # the same, of the lesser of the two at each point
    tip: Floats  # (3,) where the reading along the path comes nearest to the wanted and the one
    # across the occlusal plane falls least short of it, arch frame [mm]
    tip_undercut_mm: float  # along the path, there
    tip_below_line_mm: float  # below the survey line, along the path; NaN beyond the gauge
    tip_free: Floats  # (3,) where the gauge's upright stands; NaN beyond the gauge


@dataclass(frozen=True, slots=True)
class Fill:
    """Volume that blockout fills in one region."""

    region: str  # such as "crown 35"
    volume_mm3: float


def read_retainers(
    arch: DentalArch, survey: Survey, zones: Sequence[Zone]
) -> tuple[RetainerReading, ...]:
    """Exact readings on the zone of each clasp, along the path and across the occlusal plane.

    Raises:
        InputError: a zone names a tooth that does not stand.

    Source:
        check-values B10; retention must exist across the occlusal plane too.
    """
    skin = skin_of(arch)
    across = cast_shadow(arch.scan.solid, np.array([0.0, 0.0, 1.0]))
    found = []
    for tooth, side, wanted in zones:
        spot = clasp_zone(arch, tooth, side, skin)
        if not len(spot.points):
            nowhere = np.full(3, np.nan)
            centre = arch.teeth[tooth].centre
            found.append(
                RetainerReading(
                    tooth, side, wanted, 0.0, 0.0, 0.0, centre, 0.0, float("nan"), nowhere
                )
            )
            continue
        along = gauge(survey, spot.points)
        zero = read_gauge(across, spot.points, spot.normals).undercut_mm
        usable = np.minimum(along.undercut_mm, zero)
        at_path, crosswise, both = (
            float(deepest(np.ascontiguousarray(depth)[:, None], spot.areas)[0])
            for depth in (along.undercut_mm, zero, usable)
        )
        n = int(np.argmin(np.abs(along.undercut_mm - wanted) + np.maximum(wanted - zero, 0.0)))
        found.append(
            RetainerReading(
                tooth, side, wanted, at_path, crosswise, both, spot.points[n],
                float(along.undercut_mm[n]), float(along.below_survey_line_mm[n]),
                along.free_points[n],
            )
        )  # fmt: skip
    return tuple(found)


def fills(arch: DentalArch, survey: Survey, *, progress: Progress = silent) -> tuple[Fill, ...]:
    """Volume between the scan and its parallel blockout, by region, the largest first.

    A place counts to the region of the nearest point of the surface within 3 mm; what hangs
    over beyond the border of the scan is left out.
    """
    tree = KDTree(arch.scan.surface.vertices)
    label = _labels(arch)
    scan, block = survey.scan_field, survey.block_field
    step = scan.grid.spacing
    names = np.unique(label[label != BEYOND])
    sums = np.zeros(len(names))
    for first in range(0, scan.grid.shape[0], SLAB):
        here = slice(first, first + SLAB)
        filled = _inside(block.values[here], step) - _inside(scan.values[here], step)
        nodes = np.argwhere(filled > 1e-3).astype(np.int64)
        progress(first / scan.grid.shape[0], "volumes to block out")
        if not len(nodes):
            continue
        at = scan.grid.to_world((nodes + np.array([first, 0, 0])).astype(np.float64))
        far, vertex = (np.asarray(a) for a in tree.query(at, distance_upper_bound=NEAR_MM))
        kept = np.isfinite(far)
        kept[kept] = label[vertex[kept]] != BEYOND
        which = np.searchsorted(names, label[vertex[kept]])
        sums += np.bincount(which, filled[tuple(nodes[kept].T)], len(names))
    progress(1.0, "volumes to block out")
    found = [
        Fill(_region(int(name)), float(total) * step**3)
        for name, total in zip(names, sums, strict=True)
        if float(total) * step**3 >= LEAST_FILL_MM3
    ]
    return tuple(sorted(found, key=lambda fill: -fill.volume_mm3))


def _inside(values: Singles, step: float) -> Floats:
    """Part of each node that lies inside."""
    return np.asarray(np.clip(0.5 - values / step, 0.0, 1.0), np.float64)


def _labels(arch: DentalArch) -> Ints:
    """(V,) code of the crown, -1 on tissue under connector and bases, 0 on other, or BEYOND."""
    label = np.zeros(len(arch.scan.surface.vertices), np.int32)
    label[covered_vertices(arch)] = -1
    on_crown = arch.crown_of_face > 0
    label[arch.scan.surface.faces[on_crown]] = arch.crown_of_face[on_crown, None]
    label[near_border(arch, BORDER_MM)] = BEYOND
    return label


def _region(label: int) -> str:
    if label > 0:
        return f"crown {label}"
    return "tissue under connector and bases" if label else "other tissue"
