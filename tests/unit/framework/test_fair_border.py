"""Borders of connectors are smooth, stay in their room, and pass notches in a bay."""

from __future__ import annotations

import numpy as np
import pytest
from shapely.geometry import Point, Polygon, box

from claspwright.base import Floats
from claspwright.framework.fair_border import fair, largest
from claspwright.geometry import resampled

RADIUS = 15.0


def waved(amplitude: float, count: int) -> Polygon:
    turn = np.linspace(0.0, 2 * np.pi, 720, endpoint=False)
    away = RADIUS + amplitude * np.sin(count * turn)
    return Polygon(np.column_stack([away * np.cos(turn), away * np.sin(turn)]))


def sharpest(outline: Polygon) -> float:
    """Least radius of a border's bends, over 1.2 mm [mm]."""
    ring = resampled(np.asarray(outline.exterior.coords, np.float64), 0.4)[:-1]
    ahead: Floats = np.roll(ring, -3, axis=0) - ring
    heading = np.unwrap(np.arctan2(ahead[:, 1], ahead[:, 0]))
    return float(1.2 / np.abs(np.angle(np.exp(1j * (np.roll(heading, -3) - heading)))).max())


def test_waves_of_a_millimetre_go_and_the_size_stays() -> None:
    ragged = waved(0.5, 24)  # waves 4 mm long
    even = fair(ragged, Point(0.0, 0.0).buffer(40.0))
    away = np.linalg.norm(np.asarray(even.exterior.coords), axis=1)
    assert np.ptp(away) < 0.1
    assert away.mean() == pytest.approx(RADIUS, abs=0.1)


def test_a_notch_in_the_room_is_passed_in_a_bay() -> None:
    room = box(-20.0, -20.0, 20.0, 20.0).difference(box(-1.0, -20.0, 1.0, -14.0))
    border = fair(room.buffer(-0.5), room)
    assert border.difference(room).area < 1e-9
    assert sharpest(border) > 1.5 > sharpest(room.buffer(-0.5))


def test_holes_are_kept_and_evened_and_crumbs_of_holes_closed() -> None:
    hole = waved(0.5, 24).buffer(-8.0)
    whole = waved(0.0, 1).difference(hole).difference(box(-0.5, 11, 0.5, 12))
    assert isinstance(whole, Polygon) and len(whole.interiors) == 2
    even = fair(whole, waved(0.0, 1))
    assert len(even.interiors) == 1
    assert Polygon(even.interiors[0]).area == pytest.approx(hole.area, rel=0.05)


def test_the_largest_part_of_nothing_is_empty() -> None:
    assert largest(Point(0, 0)).is_empty
    assert largest(box(0, 0, 1, 1).union(box(3, 0, 5, 1))).area == pytest.approx(2.0)
