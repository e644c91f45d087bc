"""A splinting bar's section and sizes; how it is laid on an arch stands in tests/app."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import Floats
from claspwright.framework import SplintBar
from claspwright.framework.canvas import TABLE_STEP
from claspwright.framework.splint_bar import sizes, splint_section
from claspwright.limits import limit


def at(height: float, thickness: float, spots: Floats) -> Floats:
    """Signed distance of (across, up) places to the section."""
    section = splint_section(height, thickness)
    nodes = np.round((spots - section.low) / TABLE_STEP).astype(int)
    return np.asarray(section.table[nodes[:, 0], nodes[:, 1]], np.float64)


@pytest.mark.parametrize(("height", "thickness"), [(2.5, 2.2), (2.0, 2.6), (3.0, 1.8)])
def test_the_section_is_round_below_and_flat_above(height: float, thickness: float) -> None:
    low, high, half = -height / 2, height / 2, thickness / 2
    middles = np.array([[0.0, low], [0.0, high], [half, 0.25 * height], [-half, 0.25 * height]])
    assert np.allclose(at(height, thickness, middles), 0.0, atol=0.06)
    upper = at(height, thickness, np.array([[0.5 * half, high - 0.05], [-0.5 * half, high - 0.05]]))
    assert (upper < 0.03).all()
    corners = np.array([[0.9 * half, low + 0.1], [-0.9 * half, low + 0.1]])
    assert (at(height, thickness, corners) > 0.1).all()


def test_sizes_are_those_of_the_rule_book_unless_the_sheet_gives_its_own() -> None:
    plain = SplintBar((45, 47))
    assert sizes(plain, across=True) == (
        limit("splint.height").value,
        limit("splint.thickness").value,
    )
    assert sizes(plain, across=False) == (
        limit("splint.continuous_height").value,
        limit("splint.continuous_thickness").value,
    )
    assert sizes(SplintBar((45, 47), 2.0, 1.9), across=True) == (2.0, 1.9)
