"""Average crown sizes, read by the search for teeth and by the invented mouth.

Source:
    ash2003: Ash M.M., Nelson S.J., Wheeler's Dental Anatomy, Physiology and Occlusion,
    Table 1-1 (upper 1, 2, 5 and 6 read, the rest from memory).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class ToothSize:
    """Average size of one tooth [mm]."""

    length: float  # crown, cervix to the highest cusp
    mesiodistal: float
    mesiodistal_cervix: float
    buccolingual: float
    buccolingual_cervix: float


ASH: Mapping[Literal["maxilla", "mandible"], tuple[ToothSize, ...]] = {
    "maxilla": (
        ToothSize(10.5, 8.5, 7.0, 7.0, 6.0),
        ToothSize(9.0, 6.5, 5.0, 6.0, 5.0),
        ToothSize(10.0, 7.5, 5.5, 8.0, 7.0),
        ToothSize(8.5, 7.0, 5.0, 9.0, 8.0),
        ToothSize(8.5, 7.0, 5.0, 9.0, 8.0),
        ToothSize(7.5, 10.0, 8.0, 11.0, 10.0),
        ToothSize(7.0, 9.0, 7.0, 11.0, 10.0),
        ToothSize(6.5, 8.5, 6.5, 10.0, 9.5),
    ),
    "mandible": (
        ToothSize(9.0, 5.0, 3.5, 6.0, 5.3),
        ToothSize(9.5, 5.5, 4.0, 6.5, 5.8),
        ToothSize(11.0, 7.0, 5.5, 7.5, 7.0),
        ToothSize(8.5, 7.0, 5.0, 7.5, 6.5),
        ToothSize(8.0, 7.0, 5.0, 8.0, 7.0),
        ToothSize(7.5, 11.0, 9.0, 10.5, 9.0),
        ToothSize(7.0, 10.5, 8.0, 10.0, 9.0),
        ToothSize(7.0, 10.0, 7.5, 9.5, 9.0),
    ),
}
