"""Published tooth sizes and arch curves for the invented mouth.

Sources:
    ash2003, Table 1-1 (rows with an asterisk in `FROM_MEMORY` were written from memory).
    The arch curves were fitted here to the crown centroids of 179 research scans.
"""

from __future__ import annotations

from dataclasses import dataclass

from claspwright.arch import Jaw


@dataclass(frozen=True, slots=True)
class ToothSize:
    """Average size of one tooth [mm]."""

    length: float  # crown, cervix to the highest cusp
    mesiodistal: float
    mesiodistal_cervix: float
    buccolingual: float
    buccolingual_cervix: float


ASH: dict[Jaw, tuple[ToothSize, ...]] = {
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

# median crown centroids of 179 research scans, measured here: teeth 1 to 8, distance from the
# midline and distance behind the central incisors [mm]
ARCH_POINTS: dict[Jaw, tuple[tuple[float, float], ...]] = {
    "maxilla": ((4.4, 0.0), (11.3, 3.2), (17.0, 8.0), (19.6, 15.3), (22.0, 22.1), (23.9, 30.6),
                (27.6, 39.8), (28.4, 46.7)),
    "mandible": ((2.7, 0.0), (7.9, 1.5), (13.4, 4.4), (17.3, 10.5), (19.7, 17.5), (22.4, 26.4),
                 (24.9, 36.9), (28.3, 44.2)),
}  # fmt: skip

# labial or buccal inclination of the crown's long axis and mesial tip [deg], teeth 1 to 8;
# common practice, no source
BUCCAL_TILT: dict[Jaw, tuple[float, ...]] = {
    "maxilla": (11.0, 10.0, 5.0, 2.0, 2.0, 4.0, 6.0, 6.0),
    "mandible": (6.0, 5.0, 1.0, -2.0, -4.0, -7.0, -9.0, -10.0),
}
MESIAL_TIP: dict[Jaw, tuple[float, ...]] = {
    "maxilla": (3.0, 5.0, 6.0, 3.0, 2.0, 2.0, 1.0, 0.0),
    "mandible": (1.0, 1.0, 3.0, 2.0, 2.0, 3.0, 4.0, 4.0),
}


def quadrants(jaw: Jaw) -> tuple[int, int]:
    """(quadrant at +x, quadrant at -x) in the arch frame of a jaw."""
    return (2, 1) if jaw == "maxilla" else (4, 3)


def arch_codes(jaw: Jaw) -> tuple[int, ...]:
    """The 16 ISO 3950 codes from the -x end of the arch frame to the +x end."""
    plus, minus = quadrants(jaw)
    return tuple(minus * 10 + n for n in range(8, 0, -1)) + tuple(
        plus * 10 + n for n in range(1, 9)
    )


def side_sign(code: int) -> float:
    """+1 for teeth at +x of their arch frame, -1 for the others."""
    return 1.0 if code // 10 in (2, 4) else -1.0
