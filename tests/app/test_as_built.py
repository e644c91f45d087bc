"""What finishing takes off is built on beforehand, surface by surface."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any  # the shared case of conftest

import numpy as np
import pytest
from scipy.spatial import cKDTree

from claspwright.app.as_built import TO_BUILD, as_built, carried_over, grown, surface_kinds
from claspwright.app.build_sources import read_source
from claspwright.app.carry_out import carry_out
from claspwright.app.judge import finished_work
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
    box,
    check_solid,
    closest_points,
    face_areas,
    face_normals,
    mesh_edges,
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


def test_a_thin_bar_grows_by_its_allowance_on_every_face() -> None:
    """All its corners lie on sharp edges: a mean normal would grow each face by 1 / sqrt(3)."""
    size = np.array([12.0, 1.2, 0.6])
    bar = box(-size / 2, size / 2)
    whole = grown(bar, np.full(len(bar.faces), 0.040))
    assert np.abs(whole.vertices) == pytest.approx(np.tile(size / 2 + 0.040, (8, 1)), abs=1e-9)
    inner = face_normals(bar)[:, 2] < -0.5
    masked = grown(bar, np.where(inner, 0.0, 0.135))
    low, high = masked.vertices.min(axis=0), masked.vertices.max(axis=0)
    assert low == pytest.approx(-size / 2 - [0.135, 0.135, 0.0], abs=1e-9)
    assert high == pytest.approx(size / 2 + 0.135, abs=1e-9)


def test_flags_go_to_the_nearest_faces() -> None:
    design, solid = ball(5.0, 0.4), ball(5.1, 0.7)
    above = carried_over(design.corners.mean(axis=1)[:, 2] > 0.0, design, solid)
    height = solid.corners.mean(axis=1)[:, 2]
    assert above[height > 0.5].all()
    assert not above[height < -0.5].any()


def away_from_edges(solid: Mesh, kinds: Any, mm: float = 0.2) -> Any:
    """(F,) faces whose middle is so far from every edge of more than 30 degrees or of two kinds."""
    edges, of_face = mesh_edges(solid)
    order = np.argsort(of_face.ravel(), kind="stable")
    first, second = np.repeat(np.arange(len(solid.faces)), 3)[order].reshape(-1, 2).T
    normals = face_normals(solid)
    bent = np.einsum("ed,ed->e", normals[first], normals[second]) < np.cos(np.radians(30.0))
    ends = solid.vertices[edges[bent | (kinds[first] != kinds[second])]]
    marks = np.concatenate([ends[:, 0], ends[:, 1], ends.mean(axis=1)])
    return cKDTree(marks).query(solid.corners.mean(axis=1))[0] > mm


def held(designed: Mesh, made: Mesh, kinds: Any, kind: str, um: float) -> float:
    """Share of the area of a kind of surface, away from edges, that grew by `um` within 5 um."""
    on = closest_points(DistanceTree(made), designed.corners.mean(axis=1), 0.5)
    taken = away_from_edges(designed, kinds) & (kinds == kind)
    within = np.abs(-1000.0 * on.distance - um) < 5.0
    areas = face_areas(designed)
    return float(areas[taken & within].sum() / areas[taken].sum())


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
    for result, asked in (
        (bare, {"tissue": 40.0, "rest": 35.0, "arm": 40.0, "polished": 45.0}),
        (made, {"tissue": 10.0, "rest": 5.0, "arm": 10.0, "polished": 45.0}),
    ):
        for surface, um in asked.items():
            assert held(designed, result, kinds, surface, um) > 0.98, surface
    looked_at = finished_work(work)  # walls of grooves are judged as built
    assert looked_at is not None and looked_at.growth_mm is not None
    assert set(looked_at.growth_mm.round(6).tolist()) == {0.005, 0.010, 0.045}
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
