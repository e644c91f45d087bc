"""Channels of a drawn crown: which are prepared seats."""

from __future__ import annotations

from typing import cast

import numpy as np
import pytest

from claspwright.arch.crowntop import CrownTop
from claspwright.arch.slots import find_channel
from claspwright.base import Floats


class Drawn:
    """A flat crown of 10 mm with one channel along u, its walls of one slope."""

    class tooth:
        mesiodistal_mm = 10.0
        buccolingual_mm = 10.0

    def __init__(self, wall: float, lip_mm: float = 0.0, depth_mm: float = 1.5) -> None:
        self.wall, self.lip_mm, self.depth_mm = wall, lip_mm, depth_mm

    def z(self, u: Floats, v: Floats) -> Floats:
        u, v = np.broadcast_arrays(u, v)
        floor = np.where(u > 4.0, self.lip_mm, 0.0)
        top = np.maximum(floor, np.minimum(self.depth_mm, self.wall * (np.abs(v) - 0.8)))
        return np.where((np.abs(u) < 4.8) & (np.abs(v) < 5.0), top, np.nan)


def prepared(crown: Drawn) -> bool:
    channel = find_channel(cast(CrownTop, crown))
    assert channel is not None
    return channel.prepared


@pytest.mark.parametrize(
    ("wall", "lip_mm", "seat"),
    [
        (1.3, 0.0, False),  # a natural groove
        (1.55, 0.0, True),
        (1.55, 0.7, False),  # gentle walls, and closed outwards
        (2.0, 0.7, True),
        (2.5, 1.4, False),  # a pit, or the far end of a channel that opens to the other side
    ],
)
def test_a_seat_has_steep_walls_and_an_open_end(wall: float, lip_mm: float, seat: bool) -> None:
    assert prepared(Drawn(wall, lip_mm)) is seat
