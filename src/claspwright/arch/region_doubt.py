"""How sure a crown's region is: whether it stays when creases count for less, or for more."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from claspwright.arch.regions import CREASE_MM, FaceGraph, grow_regions, refined, tidied
from claspwright.base import Finding, Floats, Ints, Point

OTHER_CREASES_MM = (0.3 * CREASE_MM, 3.0 * CREASE_MM)
STEADY = 0.93  # overlap of the regions, from which a region is called sure
_SOURCE = "own measurement: hand-made labels of research scans, docs/teeth-dice.md"


def region_steadiness(
    graph: FaceGraph, seeds: Mapping[int, Ints], crowns: Ints, band_mm: float
) -> dict[int, float]:
    """Least overlap of each crown's region with those found when creases weigh otherwise.

    Where a crease closes round the crown its weight does not matter; where the border has to
    cross plain surface, it does.

    Args:
        graph: faces of the surface.
        seeds: that the regions grew from; label 0 is tissue.
        crowns: (F,) the regions found.
        band_mm: in which borders compete again.

    Returns:
        Dice overlap by area, 0 to 1, by code.
    """
    least = {code: 1.0 for code in seeds if code}
    for crease in OTHER_CREASES_MM:
        first = grow_regions(graph, seeds, crease_mm=crease)
        other = tidied(graph, refined(graph, first, band_mm, crease_mm=crease))
        for code in least:
            least[code] = min(least[code], overlap(graph.areas, crowns == code, other == code))
    return least


def overlap(areas: Floats, one: Ints, two: Ints) -> float:
    """Dice overlap by area of two sets of faces: 2 |A and B| / (|A| + |B|)."""
    whole = float(areas[one].sum() + areas[two].sum())
    return 2.0 * float(areas[one & two].sum()) / whole if whole > 0.0 else 0.0


def region_findings(steadiness: Mapping[int, float], places: Mapping[int, Floats]) -> list[Finding]:
    """Crowns whose borders hang on how much creases count."""
    out = []
    for code, share in steadiness.items():
        if share >= STEADY:
            continue
        x, y, z = (round(float(v), 3) for v in np.asarray(places[code]))
        at: Point = (x, y, z)
        text = (
            f"The border of the crown of tooth {code} is not sure: found in another way it "
            f"overlaps by {share:.0%}. Look at its region; a second mark does not help, a scan "
            "with open embrasures and a clear gingival margin does."
        )
        out.append(
            Finding("tooth.region_unsure", "look", text, _SOURCE, round(share, 3), STEADY,
                    "overlap", at_mm=at, component=f"tooth.{code}")
        )  # fmt: skip
    return out
