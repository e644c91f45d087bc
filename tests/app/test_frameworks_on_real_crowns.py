"""Frameworks for arches with real crowns, from mesh files and a sheet to one solid."""

from __future__ import annotations

import importlib.util
import sys
from dataclasses import replace
from pathlib import Path
from types import ModuleType
from typing import Any

import numpy as np
import pytest
from scipy.spatial import cKDTree

from claspwright.app.demo_arch import read_crowns
from claspwright.app.work import Work
from claspwright.base import Floats, InfeasibleError
from claspwright.framework import Design, Workpiece, preview, taken_up
from claspwright.geometry import (
    DistanceTree,
    check_solid,
    closest_points,
    face_areas,
    resampled,
    volume,
)

pytestmark = [pytest.mark.scans, pytest.mark.slow]
ROOT = Path(__file__).resolve().parents[2]
CASES = {"mandible_class_1": "b", "maxilla_class_3_mod_1": "a"}


@pytest.fixture(scope="module")
def tools() -> ModuleType:
    path = ROOT / "tools" / "framework_measures.py"
    spec = importlib.util.spec_from_file_location("framework_measures", path)
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["framework_measures"] = module  # a dataclass looks its module up
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module", params=list(CASES))
def made(request: pytest.FixtureRequest, scans: Path, tools: ModuleType) -> tuple[Work, Any]:
    """The case worked out in a random pose, and its measures."""
    jaws = ("mandible", "maxilla")
    crowns = {
        code: mesh
        for jaw in jaws
        for code, mesh in read_crowns(scans / "crowns", CASES[request.param], jaw).items()
    }
    work = tools.worked_out(request.param, crowns, seed=1, pose_seed=7)
    assert work.framework is not None, [f.text for f in work.findings if f.severity == "stop"]
    return work, tools.measure(work.arch, work.surveyed, work.framework)


def test_one_sound_body(made: tuple[Work, Any]) -> None:
    measures = made[1]
    assert (measures.status, measures.watertight, measures.bodies) == ("NoError", True, 1)
    assert 300 < measures.volume_mm3 < 3000


def test_the_tissue_side_lies_on_the_blocked_out_model(made: tuple[Work, Any]) -> None:
    measures = made[1]
    assert measures.tissue_95_um <= 10.0
    assert measures.tissue_area_mm2 > 200.0  # enough of it was looked at


def test_no_metal_in_a_tooth_or_in_the_gum(made: tuple[Work, Any]) -> None:
    measures = made[1]
    assert measures.in_tooth_um <= 10.0
    assert measures.in_gum_um <= 10.0


def test_every_tip_reads_its_prescribed_undercut(made: tuple[Work, Any]) -> None:
    work, measures = made
    assert not [f for f in work.findings if f.rule == "clasp.undercut_available"]
    assert measures.tips
    for tip in measures.tips:
        assert tip.gap_mm < 0.05  # the metal does reach the tooth there
        assert abs(tip.off_mm) <= 0.05, tip
        # no metal below the tip that could not spring out (its zone has a tenth to spare)
        assert tip.deepest_mm <= tip.asked_mm + 0.15, tip


def test_no_arm_is_cut_off_or_bent_for_good(made: tuple[Work, Any]) -> None:
    stops = [f for f in made[0].findings if f.severity == "stop"]
    assert not [f.text for f in stops if f.rule.startswith(("clasp.", "framework.loose"))]


def test_no_metal_through_the_opposing_teeth(made: tuple[Work, Any]) -> None:
    assert made[1].through_opposing_um == 0.0


def test_the_preview_is_the_final_shape_within_a_tenth(made: tuple[Work, Any]) -> None:
    """The same components along the same lines, and the surface but for edges."""
    work = made[0]
    assert work.arch is not None and work.surveyed is not None and work.framework is not None
    quick = preview(work.arch, work.surveyed, work.framework.design)
    laid = {component.id: component.line for component in quick.components}
    assert list(laid) == [component.id for component in work.framework.components]
    for component in work.framework.components:
        away = _between_lines(component.line, laid[component.id])
        assert away < 0.1, (component.id, away)
    solids = (quick.solid, work.framework.solid)
    for one, other in (solids, solids[::-1]):
        off = closest_points(DistanceTree(other), one.middles).distance
        areas = face_areas(one)
        assert areas[np.abs(off) > 0.1].sum() < 0.02 * areas.sum()


def _between_lines(one: Floats, other: Floats) -> float:
    """The furthest that a place of one line lies from the other [mm]."""
    if min(len(one), len(other)) < 2:
        return float(np.linalg.norm(one[0] - other[0]))
    return float(cKDTree(resampled(one, 0.02)).query(other)[0].max())


def test_every_arm_lies_on_its_own_tooth(made: tuple[Work, Any]) -> None:
    work = made[0]
    assert work.arch is not None and work.framework is not None
    for arm in work.framework.components:
        if arm.tooth is None or "encircled_deg" not in arm.figures:  # an approach arm crosses gum
            continue
        tooth = work.arch.teeth[arm.tooth]
        length = np.linalg.norm(np.diff(arm.line, axis=0), axis=1).sum()
        round_it = np.pi * max(tooth.mesiodistal_mm, tooth.buccolingual_mm)
        assert length < 0.75 * round_it, (arm.id, length)


def test_the_measures_see_a_framework_pushed_into_the_arch(
    made: tuple[Work, Any], tools: ModuleType
) -> None:
    """A framework 0.1 mm too low is found out: the measures do complain."""
    work = made[0]
    arch, framework = work.arch, work.framework
    assert arch is not None and framework is not None
    points = framework.solid.vertices[::7] - [0.0, 0.0, 0.1]
    tree = tools.DistanceTree(arch.scan.solid)
    deep = tools.depths(tree, arch.scan.solid, points, 1.5)
    assert 0.05 < deep.max() < 0.12


def test_a_change_of_one_clasp_is_worked_in_as_built_anew(made: tuple[Work, Any]) -> None:
    work = made[0]
    assert work.arch is not None and work.surveyed is not None and work.framework is not None
    framework = work.framework
    piece = Workpiece(taken_up(work.arch, work.surveyed, framework))
    retainers = list(framework.design.retainers)
    n = next(i for i, r in enumerate(retainers) if r.clasp)
    clasp = retainers[n].clasp
    assert clasp is not None

    def changed(thickness_mm: float) -> Design:
        thick = replace(clasp, thickness_mm=thickness_mm)
        parts = (*retainers[:n], replace(retainers[n], clasp=thick), *retainers[n + 1 :])
        return replace(framework.design, retainers=parts)

    laid = piece.lay(changed(clasp.thickness_mm + 0.2))
    arms = {p.component.id for p in laid.changed}
    assert arms and all(name.startswith(f"clasp.{retainers[n].tooth}.") for name in arms)
    assert [p.component.id for p in laid.laid.pieces] == [c.id for c in framework.components]
    shown = piece.uncut(laid)
    assert check_solid(shown).watertight
    thicker = piece.cut(laid).framework
    check = check_solid(thicker.solid)
    assert (check.status, check.watertight, check.bodies) == ("NoError", True, 1)
    assert volume(thicker.solid) > volume(framework.solid) + 0.3
    # and back again: the solid that `build` gave, but for what simplifying moves at the seams, and
    # for a hair of a few faces that only one way of laying triangles shows as a wisp to take away
    back = Workpiece(piece.cut(laid))
    again = back.cut(back.lay(changed(clasp.thickness_mm))).framework
    off = np.abs(closest_points(DistanceTree(framework.solid), again.solid.vertices).distance)
    assert off.max() < 0.2 and np.quantile(off, 0.999) < 0.003
    assert (off > 0.01).sum() < 100
    assert volume(again.solid) == pytest.approx(volume(framework.solid), abs=0.02)
    with pytest.raises(InfeasibleError, match="connector"):
        piece.lay(
            replace(framework.design, connector=replace(framework.design.connector, width_mm=9.5))
        )
