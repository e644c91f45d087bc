from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import InputError
from claspwright.geometry import Mesh, ball
from claspwright.survey import gauge_mesh

UP = np.array([0.0, 0.0, 2.5])  # of any length


@pytest.fixture(scope="module")
def sphere() -> Mesh:
    return ball(4.0, 0.2)


@pytest.mark.reference("check-values W2, B29: 0.25 mm at 1.392 mm on a sphere of 4 mm")
def test_the_sphere_reads_as_the_worked_example(sphere: Mesh) -> None:
    found = gauge_mesh(sphere, UP, np.array([0.3, 3.75, -1.392]))
    at = found.point_mm
    assert found.undercut_mm == pytest.approx(4.0 - np.hypot(at[0], at[1]), abs=0.003)
    assert found.below_survey_line_mm == pytest.approx(-at[2], abs=0.003)
    assert found.convergence_deg == pytest.approx(np.degrees(np.arcsin(1.392 / 4.0)), abs=0.5)
    assert found.path == pytest.approx([0, 0, 1])
    assert found.closed
    assert found.notes == ()
    assert found.free_point_mm is not None
    assert np.hypot(*found.free_point_mm[:2]) == pytest.approx(4.0, abs=0.005)


def test_a_free_point_tells_how_far_it_lies_above_the_line(sphere: Mesh) -> None:
    found = gauge_mesh(sphere, UP, np.array([0.0, 3.0, np.sqrt(7.0)]))
    assert found.undercut_mm == 0.0
    assert found.below_survey_line_mm == pytest.approx(-np.sqrt(7.0), abs=0.02)
    assert found.convergence_deg < -30
    assert "2.65 mm above the survey line" in " ".join(found.notes)


def test_an_open_mesh_is_read_as_a_surface_without_space_behind_it(sphere: Mesh) -> None:
    kept = sphere.corners[:, :, 2].max(axis=1) > -2.5
    shell = Mesh(sphere.vertices, sphere.faces[kept])
    at = np.array([0.0, 3.5, -np.sqrt(16 - 3.5**2)])
    found, whole = gauge_mesh(shell, UP, at), gauge_mesh(sphere, UP, at)
    assert not found.closed
    assert "read as a surface" in found.notes[0]
    assert found.undercut_mm == pytest.approx(whole.undercut_mm, abs=1e-6)


def test_a_mesh_inside_out_is_turned_and_said(sphere: Mesh) -> None:
    at = np.array([0.0, 3.75, -1.392])
    found = gauge_mesh(Mesh(sphere.vertices, sphere.faces[:, ::-1]), UP, at)
    assert found.undercut_mm == pytest.approx(0.25, abs=0.005)
    assert "inside out" in found.notes[0]


def test_what_cannot_be_read_is_refused(sphere: Mesh) -> None:
    with pytest.raises(InputError, match="no direction"):
        gauge_mesh(sphere, np.zeros(3), np.array([0, 0, 4.0]))
    with pytest.raises(InputError, match=r"6\.0 mm from the mesh.*nearest point"):
        gauge_mesh(sphere, UP, np.array([0, 0, 10.0]))
    with pytest.raises(InputError, match="no faces"):
        gauge_mesh(Mesh(np.zeros((0, 3)), np.zeros((0, 3), int)), UP, np.zeros(3))
