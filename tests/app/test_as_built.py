"""What finishing takes off is built on beforehand, surface by surface."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any  # the shared case of conftest

import numpy as np
import pytest

from claspwright.app.as_built import TO_BUILD, as_built, carried_over, grown, surface_kinds
from claspwright.app.build_sources import read_source
from claspwright.app.carry_out import carry_out
from claspwright.app.memory import FolderMemory
from claspwright.app.results import write_geometry
from claspwright.app.watch import Watch
from claspwright.base import silent
from claspwright.case import read_sheet
from claspwright.formats import read_mesh
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    ball,
    check_solid,
    closest_points,
    face_normals,
    union,
    vertex_normals,
    volume,
)
from claspwright.process import FinishingPlan

PLAN = FinishingPlan(("blasting", "electropolishing"), ("tissue", "rest", "arm"))


def test_a_ball_grows_by_the_allowance_all_round() -> None:
    round_ = ball(5.0, 0.4)
    bigger = grown(round_, np.full(len(round_.faces), 0.045))
    assert np.linalg.norm(bigger.vertices, axis=1) == pytest.approx(5.045, abs=1e-3)
    assert np.array_equal(grown(round_, np.zeros(len(round_.faces))).vertices, round_.vertices)


def test_no_face_turns_over_in_a_crease_too_narrow_to_grow_into() -> None:
    one = ball(3.0, 0.15)
    both = union(one, Mesh(one.vertices + [5.5, 0.0, 0.0], one.faces))
    before = face_normals(both)
    straight = Mesh(both.vertices + 0.2 * vertex_normals(both), both.faces)
    assert np.einsum("fd,fd->f", face_normals(straight), before).min() < 0.0  # it would
    bigger = grown(both, np.full(len(both.faces), 0.2))
    whole = (before != 0.0).any(axis=1)
    assert np.einsum("fd,fd->f", face_normals(bigger), before)[whole].min() > 0.0
    assert bigger.vertices[:, 0].min() == pytest.approx(-3.2, abs=1e-2)


def test_the_side_that_loses_less_moves_out_no_further_where_allowances_meet() -> None:
    round_ = ball(5.0, 0.4)
    lower = round_.corners.mean(axis=1)[:, 2] < 0.0
    bigger = grown(round_, np.where(lower, 0.010, 0.135))
    reach = np.linalg.norm(bigger.vertices, axis=1)
    height = round_.vertices[:, 2]
    assert reach[height < -0.5].max() < 5.012
    assert reach[height > 2.0] == pytest.approx(5.135, abs=1e-3)
    border = np.abs(height) <= 0.5
    assert reach[border].max() > 5.05  # in between
    assert reach[border].min() > 5.005


def test_flags_go_to_the_nearest_faces() -> None:
    design, solid = ball(5.0, 0.4), ball(5.1, 0.7)
    above = carried_over(design.corners.mean(axis=1)[:, 2] > 0.0, design, solid)
    height = solid.corners.mean(axis=1)[:, 2]
    assert above[height > 0.5].all()
    assert not above[height < -0.5].any()


def slivers(solid: Mesh) -> int:
    """Triangles lower than a micrometre."""
    corners = solid.corners
    sides = np.linalg.norm(corners - np.roll(corners, 1, axis=1), axis=2).max(axis=1)
    double = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    return int((np.linalg.norm(double, axis=1) < 0.001 * sides).sum())


def test_the_plan_spares_what_is_masked() -> None:
    allowed = PLAN.allowances_mm()
    assert allowed["polished"] == pytest.approx(0.045)
    assert allowed["tissue"] == pytest.approx(0.010)
    bare = FinishingPlan(PLAN.steps).allowances_mm()
    assert bare["tissue"] == pytest.approx(0.040)
    assert not any(FinishingPlan().allowances_mm().values())


def test_a_case_that_names_its_finishing_is_built_thicker(
    done: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("claspwright.app.carry_out.judge", lambda *_, **__: [])  # not looked at
    case = tmp_path / "case"
    shutil.copytree(done.case, case)
    sheet_file = case / "case.toml"
    asked = '\n[finishing]\nsteps = ["blasting", "electropolishing"]\n'
    asked += 'masked = ["tissue", "rest", "arm"]\n'
    sheet_file.write_text(sheet_file.read_text() + asked)
    sheet = read_sheet(case)
    assert sheet.finishing == PLAN
    work = carry_out(sheet, Watch(), silent, memory=FolderMemory(done.stages))
    assert work.framework is not None
    designed = work.framework.solid
    made = as_built(work.framework, PLAN)
    kinds = surface_kinds(work.framework, designed)
    assert set(kinds.tolist()) == {"tissue", "polished", "rest", "arm"}
    on = closest_points(DistanceTree(designed), made.corners.mean(axis=1))
    moved, kind = 1000.0 * on.distance, kinds[on.faces]
    assert np.percentile(moved, 99) == pytest.approx(45.0, abs=1.0)
    assert np.median(moved[kind == "polished"]) == pytest.approx(45.0, abs=2.0)
    assert np.median(moved[kind == "tissue"]) == pytest.approx(10.0, abs=2.0)
    assert check_solid(made).watertight
    assert slivers(made) < 0.5 * slivers(designed)
    bare = as_built(work.framework, FinishingPlan(PLAN.steps))  # the bath reaches the inner side
    on = closest_points(DistanceTree(designed), bare.corners.mean(axis=1))
    for inner, um in (("tissue", 40.0), ("rest", 35.0), ("arm", 40.0)):
        told = 1000.0 * np.median(on.distance[kinds[on.faces] == inner])
        assert 0.6 * um < told < um + 2.0, inner  # arms are narrow and rough: less in creases
    folder = tmp_path / "out"
    folder.mkdir()
    shutil.copy(done.out / "summary.json", folder)
    shutil.copy(sheet_file, folder / "case.proposed.toml")
    write_geometry(folder, work)
    assert volume(read_mesh(folder / "framework.stl")) == pytest.approx(volume(designed), rel=1e-4)
    source = read_source(folder)
    assert source.file == TO_BUILD
    assert source.finishing == PLAN
    assert volume(source.blank.solid) == pytest.approx(volume(made), rel=1e-4)
    assert source.blank.protected.any()


def test_a_case_that_names_none_is_built_as_designed(done: Any) -> None:
    assert not (done.out / TO_BUILD).exists()
    assert read_source(done.out).file == "framework.stl"
