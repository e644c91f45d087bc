"""Average crown sizes, as a prior for where teeth end on a scan."""

from __future__ import annotations

from dataclasses import dataclass

from claspwright.arch.notation import jaw_of, position_of
from claspwright.limits import ASH


@dataclass(frozen=True, slots=True)
class CrownSize:
    """Average crown length, mesiodistal and buccolingual diameter [mm]."""

    length_mm: float
    mesiodistal_mm: float
    buccolingual_mm: float


def average_crown(code: int) -> CrownSize:
    """The average size of one tooth by its ISO 3950 code.

    Source:
        ash2003, Table 1-1.
    """
    size = ASH[jaw_of(code)][position_of(code) - 1]
    return CrownSize(size.length, size.mesiodistal, size.buccolingual)
