"""Rest seats: where a rest lies on a tooth, and whether the dentist has prepared it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from claspwright.arch.model import DentalArch
from claspwright.base import Floats, InputError

SeatPlace = Literal["mesial", "distal", "cingulum"]


@dataclass(frozen=True, slots=True, eq=False)
class RestSeat:
    """A seat, or the place where one is to be asked for; arch frame, mm."""

    point: Floats  # (3,) on the floor of the seat
    direction: Floats  # (3,) horizontal unit vector from the tooth's border into the tooth
    prepared: bool
    depth_mm: float  # of the floor below the marginal ridge's level
    width_mm: float  # across `direction`
    outline: Floats  # (M, 3) border of the seat on the surface


def find_rest_seat(arch: DentalArch, tooth: int, where: SeatPlace) -> RestSeat:
    """The place of a rest on the marginal ridge or the cingulum of a tooth.

    Raises:
        InputError: the tooth is not on the scan.
    """
    if tooth not in arch.teeth:
        raise InputError(
            f"tooth {tooth} is not on the scan", remedy="Mark it, or plan no rest there"
        )
    found = arch.teeth[tooth]
    spots = arch.scan.surface.corners.mean(axis=1)[found.faces]
    rel = spots - found.centre
    if where == "cingulum":
        towards = found.lingual
        low = float(found.margin[:, 2].mean())
        level = low + 0.45 * (float(spots[:, 2].max()) - low)
        strip = spots[(np.abs(rel @ found.mesial) < 1.2) & (rel @ towards > 0)]
        point = strip[np.argmin(np.abs(strip[:, 2] - level))]
    else:
        towards = found.mesial if where == "mesial" else found.distal
        reach = rel @ towards
        near = np.abs(reach - (reach.max() - 1.8)) < 0.25
        strip = spots[near & (np.abs(rel @ found.buccal) < 0.5)]
        point = strip[np.argmax(strip[:, 2])]
    outline = spots[np.hypot(*(spots - point)[:, :2].T) < 1.4]
    outline = outline[np.abs(outline[:, 2] - point[2]) < 1.5]
    return RestSeat(point, -towards, False, 0.0, 2.6, outline)
