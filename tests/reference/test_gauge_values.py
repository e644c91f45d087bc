"""The undercut gauge on solids whose reading is known in closed form."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import Floats
from claspwright.geometry import DistanceTree, Mesh, ball, level_lines, revolved
from claspwright.survey import read_fields, survey_fields

UP = np.array([0.0, 0.0, 1.0])
TILTED = np.array([0.12, -0.09, 1.0]) / np.linalg.norm([0.12, -0.09, 1.0])
TOLERANCE = 0.01  # mm, as the check values ask on edges up to 0.1 mm


def readings(solid: Mesh, direction: Floats, spacing: float = 0.15) -> tuple[Floats, Floats]:
    """Undercut and height below the survey line at all vertices [mm]."""
    tree = DistanceTree(solid)
    scan, block, _ = survey_fields(solid, tree, direction, spacing)
    reading = read_fields(scan, block, solid.vertices, tree)
    return reading.undercut_mm, reading.below_survey_line_mm


@pytest.mark.reference("check-values B29 and W2, sphere of R = 4 mm; B03 for the three gauges")
@pytest.mark.parametrize("direction", [UP, TILTED], ids=["upright", "tilted"])
def test_sphere_at_the_three_gauges(direction: Floats) -> None:
    sphere = ball(4.0, 0.1)
    undercut, below = readings(sphere, direction)
    for gauge, depth, arc in ((0.25, 1.392, 1.422), (0.5, 1.936, 2.021), (0.75, 2.332, 2.489)):
        (line,) = level_lines(sphere, undercut, gauge)
        height = -(line @ direction)
        assert np.abs(height - depth).max() < TOLERANCE
        along = 4.0 * np.arcsin(np.clip(height / 4.0, -1, 1))
        assert np.abs(along - arc).max() < TOLERANCE
    height = -(sphere.vertices @ direction)
    part = (undercut > 0.05) & (undercut < 2.0)
    assert np.abs(below[part] - height[part]).max() < 2 * TOLERANCE


@pytest.mark.reference("check-values B30, cone of 10 degrees convergence")
def test_cone() -> None:
    rise = np.linspace(0.0, 6.0, 61)
    side = np.column_stack([3.0 + rise * np.tan(np.radians(10.0)), rise])
    rim = np.column_stack([np.linspace(0, side[-1, 0], 45)[-2:0:-1], np.full(43, 6.0)])
    cone = revolved(np.concatenate([[[0.0, 0.0]], side, rim, [[0.0, 6.0]]]), 300)
    undercut, below = readings(cone, UP)
    wall = np.hypot(cone.vertices[:, 0], cone.vertices[:, 1]) > 2.99
    depth = 6.0 - cone.vertices[:, 2]
    part = wall & (depth > 0.15) & (depth < 5.5)
    assert np.abs(undercut[part] - depth[part] * np.tan(np.radians(10.0))).max() < TOLERANCE
    upper = cone.corners[:, :, 2].min(axis=1) > 3.0
    (line,) = level_lines(cone, undercut, 0.25, upper & wall[cone.faces].all(axis=1))
    assert np.abs(6.0 - line[:, 2] - 1.418).max() < TOLERANCE
    assert np.interp(1.5, depth[part][::-1], undercut[part][::-1]) == pytest.approx(
        0.2645, abs=TOLERANCE
    )
    assert np.abs(below[part] - depth[part]).max() < 0.15  # the rim is sharp: one step of the grid


@pytest.mark.reference("circle of radius R - u about the axis, closed form")
@pytest.mark.parametrize("spacing", [0.4, 0.2, 0.1])
def test_error_of_the_grid_alone_falls_with_the_square_of_its_spacing(spacing: float) -> None:
    sphere = ball(4.0, 0.1)
    scan, block, _ = survey_fields(sphere, DistanceTree(sphere), TILTED, spacing)
    undercut = read_fields(scan, block, sphere.vertices).undercut_mm
    height = sphere.vertices @ TILTED
    true = np.where(height < 0, 4.0 - np.sqrt(np.maximum(16.0 - height**2, 0.0)), 0.0)
    near = true < 1.5
    assert np.abs(undercut - true)[near].max() < 0.15 * spacing**2 + 0.002
