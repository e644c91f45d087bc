"""How far a base reaches: as it is asked for, over the surface."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from claspwright.arch import Span
from claspwright.framework import DentureBase, Side, base_border, span_of_base
from claspwright.geometry import IDENTITY, Field, Grid

ASKED = DentureBase((36,), buccal_reach_mm=7.0, lingual_reach_mm=5.0)


@pytest.fixture
def span() -> Span:
    """A ridge along y on a slope that falls outwards, at z = 0."""
    crest = np.column_stack([np.zeros(11), np.linspace(-5, 5, 11), np.zeros(11)])
    out = np.tile([1.0, 0.0, 0.0], (11, 1))
    return Span((36,), (35, 37), crest, out, np.full(11, 9.0), np.full(11, 6.0))


def plane(slope: float) -> Field:
    """Material under z = -slope x."""
    grid = Grid(IDENTITY, np.array([-12.0, -8.0, -14.0]), 0.25, (97, 65, 113))
    x = grid.origin[0] + grid.spacing * np.arange(97)
    z = grid.origin[2] + grid.spacing * np.arange(113)
    height = (z[None, None, :] + slope * x[:, None, None]) / np.hypot(1.0, slope)
    return Field(grid, np.broadcast_to(height, grid.shape).astype(np.float32))


def test_nothing_asked_leaves_the_reach_of_the_arch(span: Span) -> None:
    assert span_of_base(span, DentureBase((36,))) is span


def test_each_side_is_asked_for_by_itself(span: Span) -> None:
    asked = span_of_base(span, replace(ASKED, buccal_reach_mm=None))
    assert (asked.lingual_width_mm == 5.0).all() and (asked.buccal_width_mm == 9.0).all()


@pytest.mark.parametrize("slope", [0.0, 0.75])
@pytest.mark.parametrize(("side", "reach", "sign"), [("buccal", 7.0, 1), ("lingual", 5.0, -1)])
def test_the_border_lies_that_far_over_the_surface(
    span: Span, slope: float, side: Side, reach: float, sign: int
) -> None:
    """On a slope of 3 to 4 a length of 5 over the surface is 4 in plan."""
    border = base_border(plane(slope), span_of_base(span, ASKED), side)
    along = reach / np.hypot(1.0, slope)
    assert len(border) == len(span.crest)
    np.testing.assert_allclose(border[:, 0], sign * along, atol=0.1)
    np.testing.assert_allclose(border[:, 2], -slope * sign * along, atol=0.1)
