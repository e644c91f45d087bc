"""Average crown sizes, as a prior for where teeth end on a scan.

Source:
    Ash M.M., Nelson S.J., Wheeler's Dental Anatomy, Physiology and Occlusion, Table 1-1,
    as listed with honesty marks in the arch-sizes table (upper 1, 2, 5 and 6 read, rest from
    memory).
"""

from __future__ import annotations

from dataclasses import dataclass

from claspwright.arch.notation import jaw_of, position_of


@dataclass(frozen=True, slots=True)
class CrownSize:
    """Average crown length, mesiodistal and buccolingual diameter [mm]."""

    length_mm: float
    mesiodistal_mm: float
    buccolingual_mm: float


_UPPER = (
    CrownSize(10.5, 8.5, 7.0),
    CrownSize(9.0, 6.5, 6.0),
    CrownSize(10.0, 7.5, 8.0),
    CrownSize(8.5, 7.0, 9.0),
    CrownSize(8.5, 7.0, 9.0),
    CrownSize(7.5, 10.0, 11.0),
    CrownSize(7.0, 9.0, 11.0),
    CrownSize(6.5, 8.5, 10.0),
)
_LOWER = (
    CrownSize(9.0, 5.0, 6.0),
    CrownSize(9.5, 5.5, 6.5),
    CrownSize(11.0, 7.0, 7.5),
    CrownSize(8.5, 7.0, 7.5),
    CrownSize(8.0, 7.0, 8.0),
    CrownSize(7.5, 11.0, 10.5),
    CrownSize(7.0, 10.5, 10.0),
    CrownSize(7.0, 10.0, 9.5),
)


def average_crown(code: int) -> CrownSize:
    """The average size of one tooth by its ISO 3950 code."""
    table = _UPPER if jaw_of(code) == "maxilla" else _LOWER
    return table[position_of(code) - 1]
