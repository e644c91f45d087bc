"""Which unit a scan file is in, judged by the size of a dental arch."""

from __future__ import annotations

import math
from dataclasses import dataclass

from claspwright.base import InputError
from claspwright.geometry import Mesh

MM_PER_UNIT = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "inch": 25.4, "um": 0.001}
TYPICAL_MM = 65.0  # longest side of the box round an arch; 52 to 79 on the arches measured
RANGE_MM = (32.0, 125.0)  # from a short horseshoe to a stone model with a wide base


@dataclass(frozen=True, slots=True)
class UnitGuess:
    """The unit that gives the scan the size of an arch."""

    unit: str
    mm_per_unit: float
    longest_mm: float  # longest side of the box round the scan, in that unit
    others: tuple[str, ...]  # units that would also give a possible size


def guess_unit(mesh: Mesh) -> UnitGuess:
    """Choose the unit in which the longest side of the scan is nearest to that of an arch.

    STL, PLY and OBJ carry no unit (check-values J05), so this is an assumption to be reported.

    Raises:
        InputError: no unit gives the size of an arch.
    """
    low, high = mesh.bounds
    longest = float((high - low).max())
    sizes = {unit: longest * factor for unit, factor in MM_PER_UNIT.items()}
    possible = [u for u, size in sizes.items() if RANGE_MM[0] <= size <= RANGE_MM[1]]
    if not possible:
        raise InputError(
            f"the longest side of the scan is {longest:.4g} file units; in no unit "
            f"({', '.join(MM_PER_UNIT)}) is that the size of a dental arch, "
            f"{RANGE_MM[0]:.0f} to {RANGE_MM[1]:.0f} mm",
            remedy="Check that the file is a scan of a whole arch and export it in millimetres.",
        )
    best = min(possible, key=lambda unit: abs(math.log(sizes[unit] / TYPICAL_MM)))
    others = tuple(unit for unit in possible if unit != best)
    return UnitGuess(best, MM_PER_UNIT[best], sizes[best], others)
