"""Published tooth sizes and arch curves for the invented mouth.

Sources:
    ash2003, Table 1-1, in `limits`, for the sizes of teeth.
    The arch curves were fitted here to the crown centroids of 179 research scans.
"""

from __future__ import annotations

from claspwright.arch import Jaw
from claspwright.limits import ASH, ToothSize

__all__ = [
    "ARCH_POINTS",
    "ASH",
    "BUCCAL_TILT",
    "MESIAL_TIP",
    "ToothSize",
    "arch_codes",
    "quadrants",
    "side_sign",
]


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
