"""Published tooth sizes and arch curves for the invented mouth.

Sources:
    ash2003, Table 1-1 (rows with an asterisk in `FROM_MEMORY` were written from memory).
    The arch curves were fitted here to the crown centroids of 179 research scans.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.interpolate import splev, splprep
from scipy.ndimage import gaussian_filter1d

from claspwright.arch import Jaw
from claspwright.base import Floats


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
    "maxilla": (14.0, 13.0, 6.0, 2.0, 2.0, 4.0, 6.0, 6.0),
    "mandible": (10.0, 9.0, 3.0, -2.0, -4.0, -7.0, -9.0, -10.0),
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


def curve_points(jaw: Jaw, scale: float, step: float = 0.1) -> Floats:
    """(N, 2) points on the arch curve from -x to +x, apex at the origin [mm].

    A smoothing cubic through the median centroids of both sides; beyond the second molars it
    goes on straight, slightly outwards.
    """
    half = np.array(ARCH_POINTS[jaw])
    both = np.concatenate([half[::-1] * [-1.0, -1.0], half * [1.0, -1.0]]) * scale
    weight = np.ones(len(both))
    (tck, _) = splprep(both.T, w=weight, s=2.5, k=3)
    fine = np.stack(splev(np.linspace(0, 1, 6001), tck), axis=1)
    fine = 0.5 * (fine + fine[::-1] * [-1.0, 1.0])  # alike on both sides
    fine[:, 1] -= fine[:, 1].max()
    fine = fine[fine[:, 1] > -44.0 * scale]
    arc = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(fine, axis=0), axis=1))])
    even = np.linspace(0.0, arc[-1], round(arc[-1] / step) + 1)
    inner = np.stack([np.interp(even, arc, fine[:, i]) for i in range(2)], axis=1)
    ahead = inner[-1] - inner[-40]
    ahead = ahead / np.linalg.norm(ahead)
    run = step * np.arange(1, round(30.0 / step))[:, None]
    tail = inner[-1] + run * ahead
    head = inner[0] + run[::-1] * ahead * np.array([-1.0, 1.0])
    whole = np.concatenate([head, inner, tail])
    return np.asarray(gaussian_filter1d(whole, 1.5 / step, axis=0, mode="nearest"))
