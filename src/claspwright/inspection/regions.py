"""Deviation by part of the framework: rests, arms, connectors, lattice, and the tissue side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.spatial import cKDTree

from claspwright.base import Bools, Floats, InputError, Ints, frozen_floats
from claspwright.geometry import Mesh, face_normals
from claspwright.inspection.deviation import Deviation, DeviationFigures, deviation_figures

FACING = 0.5  # least cosine between a face and the path, for it to be of one side
NEIGHBOURS = 8  # points of centre lines that a face is held against
TISSUE_SIDE, POLISHED_SIDE = "tissue side", "polished side"


@dataclass(frozen=True, slots=True, eq=False)
class Region:
    """The surface round one component; design frame."""

    name: str  # of the component, such as "rest.35.mesial-occlusal"
    group: str  # that it is summed up under, such as "rests"
    points: Floats  # (P, 3) along its centre line, or spread over it [mm]
    reach_mm: Floats  # (P,) half its width there

    def __post_init__(self) -> None:
        object.__setattr__(self, "points", frozen_floats(self.points, (None, 3), "points"))
        count = len(self.points)
        object.__setattr__(self, "reach_mm", frozen_floats(self.reach_mm, (count,), "reach"))
        if not count:
            raise InputError("a region needs points", place=self.name)


@dataclass(frozen=True, slots=True)
class RegionFigures:
    """Trueness and precision of one region, as far as the scan shows it.

    The mean deviation is the trueness and the standard deviation the precision of ISO 5725-1,
    each vertex of the scan taken as one reading; neighbours are not independent of one another.
    """

    name: str
    group: str
    figures: DeviationFigures | None  # None where the scan shows nothing of it


def region_of_faces(design: Mesh, regions: Sequence[Region]) -> Ints:
    """(F,) region that each face of the design belongs to: the one whose surface is nearest."""
    points = np.concatenate([region.points for region in regions])
    reach = np.concatenate([region.reach_mm for region in regions])
    owner = np.concatenate([np.full(len(r.points), n) for n, r in enumerate(regions)])
    most = min(NEIGHBOURS, len(points))
    far, near = cKDTree(points).query(design.middles, k=most)
    far, near = np.reshape(far, (-1, most)), np.reshape(near, (-1, most))
    best = np.argmin(far - reach[near], axis=1)
    return np.asarray(owner[near[np.arange(len(near)), best]], dtype=np.int32)


def figures_by_region(
    found: Deviation, design: Mesh, regions: Sequence[Region], path: Floats | None = None
) -> tuple[RegionFigures, ...]:
    """The figures of each group, then of each side, then of each component.

    Args:
        found: deviation of a scan from the design.
        design: the mesh that the deviation was taken from.
        regions: the components of the framework.
        path: (3,) unit vector out of the mouth; without it the sides are not told apart.
    """
    if not regions:
        return ()
    of_face = region_of_faces(design, regions)
    mine = of_face[found.faces]
    groups = list(dict.fromkeys(region.group for region in regions))
    group_of = np.array([groups.index(region.group) for region in regions])
    out = [_figures(name, name, found, group_of[mine] == n) for n, name in enumerate(groups)]
    if path is not None:
        along = (face_normals(design) @ np.asarray(path, np.float64))[found.faces]
        out += [
            _figures(TISSUE_SIDE, TISSUE_SIDE, found, along < -FACING),
            _figures(POLISHED_SIDE, POLISHED_SIDE, found, along > FACING),
        ]
    out += [_figures(r.name, r.group, found, mine == n) for n, r in enumerate(regions)]
    return tuple(out)


def _figures(name: str, group: str, found: Deviation, inside: Bools) -> RegionFigures:
    seen = deviation_figures(found.distance_mm[inside]) if np.any(inside) else None
    return RegionFigures(name, group, seen)
