"""Areas of a design: where a deviation is reported by itself, and what a scan is aligned by."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from claspwright.base import Bools, Floats, InputError, Point
from claspwright.geometry import DistanceTree, Mesh, Registration, Rigid, compacted, register
from claspwright.inspection.deviation import Deviation, DeviationFigures, deviation_figures


@dataclass(frozen=True, slots=True)
class Area:
    """All of a surface within a ball; design frame."""

    name: str  # such as "rest.35.mesial"
    at_mm: Point
    radius_mm: float
    reference: bool = False  # the scan is aligned by the areas of reference alone
    springs: bool = False  # a retentive third, which gives way when the metal is set down

    def __post_init__(self) -> None:
        if not self.radius_mm > 0:
            raise InputError(f"radius {self.radius_mm} mm is not positive", place=self.name)

    def holds(self, points: Floats) -> Bools:
        """(P,) True for the (P, 3) points within."""
        off = points - np.asarray(self.at_mm)
        return np.asarray(np.einsum("pd,pd->p", off, off) <= self.radius_mm**2)


def align_by_areas(
    scan: Mesh, design: DistanceTree, start: Rigid, areas: Sequence[Area]
) -> Registration:
    """Align once more by the areas of reference only, from a start that is nearly right.

    A fit over everything spreads a warp and hides its bias; a fit by areas that must be right
    (the rests) shows it.

    Raises:
        InputError: no area of reference, or the scan shows too little of them.

    Source:
        check-values G19.
    """
    wanted = [area for area in areas if area.reference]
    if not wanted:
        raise InputError(
            "no area is marked as reference", remedy="Set reference = true in one or more areas."
        )
    moved = scan.moved(start)
    inside = np.any([area.holds(moved.vertices) for area in wanted], axis=0)
    faces = moved.faces[inside[moved.faces].all(axis=1)]
    if len(faces) < 50:
        raise InputError(
            f"the scan shows {len(faces)} faces within the areas of reference, 50 are needed",
            remedy="Make the areas larger, or scan them.",
        )
    found = register(compacted(moved.vertices, faces), design, search=False)
    return replace(found, rigid=found.rigid.after(start))


def figures_by_area(
    found: Deviation, areas: Sequence[Area]
) -> tuple[tuple[Area, DeviationFigures | None], ...]:
    """The figures of each area; None where the scan shows nothing of it."""
    out = []
    for area in areas:
        inside = area.holds(found.scan.vertices)
        out.append((area, deviation_figures(found.distance_mm[inside]) if inside.any() else None))
    return tuple(out)
