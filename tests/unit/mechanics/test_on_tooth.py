"""Sections that the plane only grazes do not count; a thin arm stays thin."""

from __future__ import annotations

import numpy as np
from shapely.geometry import box

from claspwright.mechanics.on_tooth import _without_slivers


def test_a_grazed_tip_takes_its_neighbours_section() -> None:
    full, sliver = box(-0.5, 0.0, 0.5, 0.8), box(-0.1, 0.0, 0.1, 0.2)
    laid = np.full(7, 0.8)
    nick = _without_slivers([full, full, sliver, full, full, full, sliver], laid)
    assert all(section.equals(full) for section in nick)
    thin = [full, full, sliver, sliver, sliver, sliver, full]
    assert _without_slivers(thin, laid) == thin
    assert _without_slivers([sliver] * 7, laid) == [sliver] * 7
