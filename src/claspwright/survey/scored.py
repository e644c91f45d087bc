"""The score of a path of placement, and the map of scores over the cone."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from claspwright.base import Bools, Floats
from claspwright.survey.model import PathOfPlacement


@dataclass(frozen=True, slots=True)
class GuidingFace:
    """What a proximal face beside a span guides along one path."""

    tooth: int
    where: Literal["mesial", "distal"]
    free_end: bool  # whether the span ends free
    height_mm: float  # graded, of the part within 5 degrees where a strip is 1 mm wide or more
    area_mm2: float  # graded, of the part within 5 degrees
    deviation_deg: float  # mean, of that part from the path; the grade is 1 less a fifth of it


@dataclass(frozen=True, slots=True)
class PathScore:
    """How one path does; the lowest total wins."""

    path: PathOfPlacement
    total: float  # points
    undercut_mm: tuple[float, ...]  # by zone: usable, at this path and at zero tilt alike
    tissue_mm3: float  # undercut of the tissue under connector and bases
    proximal_mm3: float  # undercut of the proximal faces beside the spans
    guiding_mm2: float  # of those faces, graded by their deviation up to 5 degrees
    tilt_deg: float  # of the path against the normal of the occlusal plane
    at_path_mm: tuple[float, ...] = ()  # by zone: undercut along this path
    across_mm: tuple[float, ...] = ()  # by zone: undercut across the occlusal plane
    opposite_mm3: float = 0.0  # undercut of the faces across from the clasps
    guiding: tuple[GuidingFace, ...] = ()
    line_height: tuple[float, ...] = ()  # by zone: survey line over the margin, part of the crown
    points: tuple[float, ...] = ()  # by row of the table of scores


@dataclass(frozen=True, slots=True, eq=False)
class Cone:
    """Scores of all tilts of a cone, D of them on an even grid."""

    step_deg: float
    tilts_deg: Floats  # (D, 2) anterior and right lateral
    totals: Floats  # (D,) points
    points: Floats  # (S, D) by row of the table of scores
    usable_mm: Floats  # (Z, D) undercut of each clasp that counts
    at_path_mm: Floats  # (Z, D) undercut of each clasp along the path
    guiding_height_mm: Floats  # (P, D) of each proximal face beside a span, graded

    def square(self, values: Floats) -> tuple[Floats, Floats]:
        """Values (D,) as a map: (A,) tilts along either axis and (A, A), NaN off the cone.

        Rows run over the anterior tilt, columns over the right lateral tilt.
        """
        at = np.rint(self.tilts_deg / self.step_deg).astype(int)
        reach = int(np.abs(at).max())
        out = np.full((2 * reach + 1, 2 * reach + 1), np.nan)
        out[at[:, 0] + reach, at[:, 1] + reach] = values
        ticks = self.step_deg * np.arange(-reach, reach + 1, dtype=np.float64)
        return ticks, np.asarray(out, np.float64)

    def dips(self) -> Bools:
        """(D,) True where no tilt beside one has a lower total."""
        _, total = self.square(self.totals)
        reach = len(total) // 2
        wide = np.pad(np.where(np.isnan(total), np.inf, total), 1, constant_values=np.inf)
        size = len(total)
        low = np.ones_like(total, dtype=bool)
        for i in (-1, 0, 1):
            for j in (-1, 0, 1):
                low &= total <= wide[1 + i : 1 + i + size, 1 + j : 1 + j + size]
        at = np.rint(self.tilts_deg / self.step_deg).astype(int) + reach
        return np.asarray(low[at[:, 0], at[:, 1]], dtype=np.bool_)
