from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from claspwright.arch import DentalArch
from claspwright.base import InputError
from claspwright.geometry import Rigid, length
from claspwright.survey import (
    Survey,
    gauge,
    path_from_tilts,
    survey,
    tilts_of,
    undercut_line,
    undercut_lines,
)
from claspwright.survey.surveying import survey_grid

RADIUS = 4.0
TISSUE = -2.5


@pytest.fixture(scope="module")
def seen(balls: DentalArch) -> Survey:
    return survey(balls, path_from_tilts("mandible"), spacing_mm=0.2)


def test_undercut_of_the_crowns_and_none_on_top(balls: DentalArch, seen: Survey) -> None:
    points = balls.scan.surface.vertices
    for tooth in balls.teeth.values():
        vertices = np.unique(balls.scan.surface.faces[tooth.faces])
        off = points[vertices] - tooth.centre
        deep = (off[:, 2] < -0.3) & (off[:, 2] > TISSUE + 0.4)
        true = RADIUS - np.hypot(off[deep, 0], off[deep, 1])
        assert np.abs(seen.undercut[vertices[deep]] - true).max() < 0.01
        assert not seen.hidden[vertices[off[:, 2] > 0.3]].any()
    assert (seen.undercut[~seen.hidden] == 0).all()
    assert not seen.undercut.flags.writeable


def test_tissue_under_a_bulge_is_hidden_up_to_its_shadow(balls: DentalArch, seen: Survey) -> None:
    """On the block's top the reading is the way out of the crown's shadow."""
    across = np.array([3.3, 3.5, 3.7])
    spots = np.column_stack([8.0 + 0 * across, across, np.full(3, TISSUE)])
    reading = gauge(seen, spots)
    assert reading.undercut_mm == pytest.approx(RADIUS - across, abs=0.01)
    assert reading.below_survey_line_mm == pytest.approx(np.full(3, -TISSUE), abs=0.06)
    free = gauge(seen, np.array([[8.0, 5.0, TISSUE], [0.0, 0.0, TISSUE]]))
    assert free.undercut_mm == pytest.approx([0.0, 0.0])


def test_one_survey_line_a_crown(balls: DentalArch, seen: Survey) -> None:
    for code in balls.teeth:
        lines = seen.survey_lines[code]
        assert sum(length(line) for line in lines) == pytest.approx(2 * np.pi * RADIUS, rel=0.02)
        assert max(np.abs(line[:, 2]).max() for line in lines) < 0.15


def test_undercut_lines(balls: DentalArch, seen: Survey) -> None:
    (line,) = undercut_line(balls, seen, 45, 0.25)
    assert line[:, 2] == pytest.approx(np.full(len(line), -1.392), abs=0.02)
    shallow, deep = undercut_lines(balls, seen, 45, (0.25, 0.5))
    assert (shallow.undercut_mm, deep.undercut_mm, deep.tooth) == (0.25, 0.5, 45)
    assert shallow.below_survey_line_mm == pytest.approx(1.392, abs=0.1)
    assert deep.convergence_deg == pytest.approx(np.degrees(np.arcsin(1.936 / 4)), abs=2.5)
    assert shallow.length_mm == pytest.approx(2 * np.pi * 3.75, rel=0.01)
    assert undercut_line(balls, seen, 45, 2.0) == ()
    with pytest.raises(InputError, match="tooth 44"):
        undercut_line(balls, seen, 44, 0.25)
    with pytest.raises(InputError, match="positive"):
        undercut_line(balls, seen, 45, 0.0)


def test_a_rigid_motion_changes_no_reading(balls: DentalArch, seen: Survey) -> None:
    """Arch and path turned together: the grid lies elsewhere on the surface."""
    turn = np.radians(17.0)
    rigid = Rigid(
        np.array([[np.cos(turn), -np.sin(turn), 0], [np.sin(turn), np.cos(turn), 0], [0, 0, 1.0]]),
        np.array([3.3, -1.7, 0.41]),
    )
    scan = replace(
        balls.scan, surface=balls.scan.surface.moved(rigid), solid=balls.scan.solid.moved(rigid)
    )
    moved = survey(replace(balls, scan=scan), seen.path, spacing_mm=0.2)
    crown = balls.scan.surface.vertices[:, 2] > TISSUE + 0.1
    near = crown & (seen.undercut > 0) & (seen.undercut < 1.0)
    assert near.sum() > 1000
    assert np.abs(moved.undercut - seen.undercut)[near].max() < 0.001


def test_tilting_moves_the_survey_line_down_on_the_raised_side(balls: DentalArch) -> None:
    path = path_from_tilts("mandible", 8.0, 0.0)
    tilted = survey(balls, path, spacing_mm=0.25)
    line = np.concatenate(tilted.survey_lines[45]) - balls.teeth[45].centre
    assert np.abs(line @ path.direction).max() < 0.2
    front = line[line[:, 1] > 3.5, 2].mean()
    assert front == pytest.approx(3.75 * np.tan(np.radians(8.0)), abs=0.15)


def test_a_grid_too_large_is_made_coarser_and_said(balls: DentalArch) -> None:
    up = np.array([0.0, 0.0, 1.0])
    grid, findings = survey_grid(balls.scan.surface, up, 0.15, most_nodes=1_000_000)
    assert np.prod(grid.shape) <= 1_000_000
    assert [f.rule for f in findings] == ["survey.grid"]
    assert findings[0].measured == pytest.approx(grid.spacing, abs=1e-4)
    assert survey_grid(balls.scan.surface, up, 0.3)[1] == ()
    with pytest.raises(InputError, match="spacing"):
        survey(balls, tilts_of(up, "mandible"), spacing_mm=5.0)
