"""Tooth marks proposed from the geometry of the scan alone."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from claspwright.arch.model import MasterScan
from claspwright.arch.notation import in_arch_order, is_third_molar
from claspwright.arch.partition import Stretch, partition
from claspwright.arch.seeds import CrownBox, crown_boxes
from claspwright.arch.sketch import ArchSketch, sketch
from claspwright.base import Floats, Progress, frozen_floats, silent


@dataclass(frozen=True, slots=True, eq=False)
class MarkProposal:
    """A point on the crown's top and how sure the program is that it is this tooth."""

    point: Floats  # (3,) on the surface, arch frame [mm]
    confidence: float  # 0 to 1

    def __post_init__(self) -> None:
        object.__setattr__(self, "point", frozen_floats(self.point, (3,), "point"))


def propose_marks(
    scan: MasterScan, present: Iterable[int], *, progress: Progress = silent
) -> dict[int, MarkProposal]:
    """Propose one mark for each present tooth, to be confirmed by a person.

    The present teeth are laid along the arch so that embrasures fall between them and their
    widths suit the published averages. A third molar that the scan does not show gets none:
    lists of missing teeth often leave third molars out.

    Args:
        scan: the master scan, arch frame.
        present: codes of the teeth that stand; the mark of one that is absent misleads.
        progress: called with the fraction done.

    Returns:
        Proposals by code, in arch order.

    Raises:
        InputError: a code belongs to the other jaw, or the arch is too short for the teeth.
        GeometryError: the surface holds no arch.
    """
    codes = in_arch_order(present, scan.jaw)
    progress(0.0, "line of the arch")
    seen = sketch(scan)
    progress(0.4, "teeth along the arch")
    stretches = _with_third_molars(seen, codes)
    boxes = crown_boxes(seen.graph, seen.along, seen.across, stretches)
    progress(1.0, "marks")
    return {
        code: MarkProposal(top_point(seen, boxes[code]), stretches[code].confidence)
        for code in stretches
    }


def _with_third_molars(seen: ArchSketch, codes: tuple[int, ...]) -> Mapping[int, Stretch]:
    """Lay the teeth along the arch, each third molar only where the scan shows a crown."""
    chosen = tuple(code for code in codes if not is_third_molar(code))
    if not chosen:
        return partition(seen.profile, codes).stretches
    best = partition(seen.profile, chosen)
    for code in codes:
        if is_third_molar(code):
            more = tuple(c for c in codes if c in chosen or c == code)
            other = partition(seen.profile, more)
            if other.score > best.score + THIRD_MOLAR_GAIN:
                chosen, best = more, other
    return best.stretches


THIRD_MOLAR_GAIN = 5.0  # by which the whole arch must look better with a third molar


def top_point(seen: ArchSketch, box: CrownBox) -> Floats:
    """(3,) face centre nearest to the middle of a crown's top [mm]."""
    along, across = box.centre
    graph = seen.graph
    away = np.hypot(seen.along - along, seen.across - across)
    away = away + 0.3 * np.abs(graph.centres[:, 2] - box.top_mm)
    away = np.where(graph.normals[:, 2] > 0.2, away, away + 5.0)
    return np.asarray(graph.centres[int(np.argmin(away))])
