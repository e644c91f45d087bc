"""Wall thickness by shrinking balls, on bodies whose thickness is known."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.geometry import DistanceTree, Mesh, ball, box
from claspwright.rules.thickness import ROUND, START, wall_thickness


def gridded(low: list[float], high: list[float], cuts: int) -> Mesh:
    """A box whose faces are cut into small triangles."""
    body = box(np.array(low), np.array(high))
    for _ in range(cuts):
        a, b, c = body.corners.transpose(1, 0, 2)
        ab, bc, ca = (a + b) / 2, (b + c) / 2, (c + a) / 2
        parts = [(a, ab, ca), (ab, b, bc), (ca, bc, c), (ab, bc, ca)]
        soup = np.concatenate([np.stack(part, axis=1) for part in parts]).reshape(-1, 3)
        points, where = np.unique(np.round(soup, 9), axis=0, return_inverse=True)
        body = Mesh(points, where.reshape(-1, 3))
    return body


@pytest.mark.parametrize("thick", [0.3, 0.8, 1.2])
def test_a_plate_is_as_thick_as_it_is(thick: float) -> None:
    samples = wall_thickness(DistanceTree(gridded([0, 0, 0], [6, 5, thick], 5)))
    assert samples.thickness.max() == pytest.approx(thick, abs=0.01)
    assert np.quantile(samples.thickness, 0.02) == pytest.approx(thick, rel=0.15)
    assert samples.thickness.min() > min(0.9 * thick, 0.5)  # corners are no thin walls


def test_a_rod_is_as_thick_as_it_is() -> None:
    sphere = ball(1.0, 0.08)
    rod = Mesh(sphere.vertices * [6.0, 0.5, 0.5], sphere.faces)
    samples = wall_thickness(DistanceTree(rod))
    middle = np.abs(samples.points[:, 0]) < 1.0
    assert np.median(samples.thickness[middle]) == pytest.approx(1.0, abs=0.02)


def test_the_edges_of_a_thick_body_are_not_thin_walls() -> None:
    samples = wall_thickness(DistanceTree(gridded([0, 0, 0], [6, 6, 6], 6)))
    assert samples.thickness.min() > 0.5  # the rule's own threshold
    assert samples.thickness.max() == pytest.approx(2 * START)


def test_a_wedge_is_thin_only_where_it_is_slender() -> None:
    """Near the edge of a wedge a ball has the diameter 2 x tan(half the angle)."""
    body = gridded([0.02, 0, 0], [6, 6, 1], 6)
    for angle in (20.0, 60.0):
        points = body.vertices.copy()
        points[:, 2] *= points[:, 0] * np.tan(np.radians(angle))
        samples = wall_thickness(DistanceTree(Mesh(points, body.faces)))
        middle = np.abs(samples.points[:, 1] - 3.0) < 2.0  # away from its other edges
        middle &= samples.points[:, 0] < 3.0
        least = float(np.quantile(samples.thickness[middle], 0.005))
        expected = 2 * ROUND * np.tan(np.radians(angle / 2))
        assert least == pytest.approx(min(expected, 2 * START), rel=0.25)
