"""Which surface belongs to which component."""

from __future__ import annotations

import numpy as np

from claspwright.app.case_areas import regions_of
from claspwright.framework import Component
from claspwright.geometry import Rigid, box
from claspwright.inspection import region_of_faces

HERE = Rigid(np.eye(3), np.zeros(3))


def rest_and_minor() -> tuple[Component, Component]:
    """A rest, 3 mm across and known by its outline, and the connector that runs into its middle."""
    round_ = np.linspace(0.0, 2.0 * np.pi, 60, endpoint=False)
    outline = np.stack([1.5 * np.cos(round_), 1.5 * np.sin(round_), 0.0 * round_], axis=1)
    line = np.stack([np.linspace(8.0, 0.0, 80), np.zeros(80), np.zeros(80)], axis=1)
    rest = Component("rest.35", "rest", outline, np.array([2.1]), np.array([1.2]), tooth=35)
    minor = Component("minor.35", "minor connector", line, np.array([2.8]), np.array([1.5]))
    return rest, minor


def test_the_middle_of_a_rest_is_the_rest_not_the_connector_that_enters_it() -> None:
    regions = tuple(regions_of(rest_and_minor(), HERE))
    assert [region.group for region in regions] == ["rests", "minor connectors"]
    seat = box((-0.5, -0.5, -0.6), (0.5, 0.5, 0.6))
    bar = box((3.5, -0.5, -0.6), (4.5, 0.5, 0.6))
    assert (region_of_faces(seat, regions) == 0).all()
    assert (region_of_faces(bar, regions) == 1).all()


def test_a_connector_without_a_rest_keeps_its_whole_line() -> None:
    _, minor = rest_and_minor()
    (region,) = regions_of((minor,), HERE)
    assert len(region.points) == len(minor.line)
