from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
import pytest
from scipy.spatial import KDTree

sys.path.insert(0, str(Path(__file__).parent))
from invented import invented, with_teeth

from claspwright.arch import find_teeth, present_teeth, propose_marks, side_of
from claspwright.arch.margins import region_borders
from claspwright.base import InputError
from claspwright.demo import scenario
from claspwright.geometry import face_areas

CASES = ["mandible_class_2_mod_1", "maxilla_class_3_mod_1"]


@pytest.mark.parametrize("name", CASES)
def test_regions_are_the_crowns_that_were_built(name: str) -> None:
    scan, made = invented(name)
    arch = with_teeth(name)
    area = face_areas(scan.surface)
    for code in arch.teeth:
        mine, built = arch.crown_of_face == code, made.truth.crown_of_face == code
        overlap = 2 * area[mine & built].sum() / (area[mine].sum() + area[built].sum())
        assert overlap > 0.9, code


@pytest.mark.parametrize("name", CASES)
def test_margins_run_where_the_gum_was_built(name: str) -> None:
    scan, made = invented(name)
    for code, tooth in with_teeth(name).teeth.items():
        step = np.linalg.norm(tooth.margin - np.roll(tooth.margin, 1, axis=0), axis=1)
        assert step.max() < 0.6
        x, y = tooth.margin[:, 0], tooth.margin[:, 1]
        assert np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)) > 0  # counter-clockwise
        built = np.concatenate(region_borders(scan.surface, made.truth.crown_of_face == code))
        gap = KDTree(built).query(tooth.margin)[0]
        assert np.median(gap) < 0.3 and np.percentile(gap, 90) < 0.6, code


@pytest.mark.parametrize("name", CASES)
def test_directions_point_to_the_midline_and_the_cheek(name: str) -> None:
    arch = with_teeth(name)
    middle = np.mean([t.centre for t in arch.teeth.values()], axis=0)
    for code, tooth in arch.teeth.items():
        assert tooth.buccal @ (tooth.centre - middle) > 0
        assert abs(tooth.buccal @ tooth.mesial) < 1e-9
        ahead = [c for c in arch.teeth if side_of(c) == side_of(code) and c % 10 < code % 10]
        if ahead:
            assert tooth.mesial @ (arch.teeth[max(ahead)].centre - tooth.centre) > 0


@pytest.mark.parametrize("name", [*CASES, "mandible_class_4", "maxilla_class_1"])
def test_proposed_marks_lie_on_their_crowns(name: str) -> None:
    scan, made = invented(name)
    found = propose_marks(scan, present_teeth(scan.jaw, scenario(name).missing))
    assert set(found) == set(made.truth.marks)
    centres = scan.surface.corners.mean(axis=1)
    for code, mark in found.items():
        face = int(np.argmin(np.linalg.norm(centres - mark.point, axis=1)))
        assert made.truth.crown_of_face[face] == code


def test_third_molars_that_are_not_there_get_no_mark() -> None:
    scan, made = invented("mandible_class_2_mod_1")
    found = propose_marks(scan, (*present_teeth("mandible", (36, 37, 46)),))
    assert 38 not in found and 48 not in found


def test_a_tooth_without_a_mark_is_proposed_with_a_finding() -> None:
    scan, made = invented("mandible_class_2_mod_1")
    marks = {c: p for c, p in made.truth.marks.items() if c != 44}
    arch = find_teeth(scan, marks, (36, 37, 46))
    rules = {(f.rule, f.component) for f in arch.findings}
    assert ("tooth.mark_proposed", "tooth.44") in rules
    assert ("tooth.third_molar_absent", "tooth.38") in rules
    assert 44 in arch.teeth and 38 not in arch.teeth


def test_wrong_marks_are_refused() -> None:
    scan, made = invented("mandible_class_2_mod_1")
    marks = dict(made.truth.marks)
    with pytest.raises(InputError, match="listed as missing"):
        find_teeth(scan, {**marks, 36: marks[35]}, (36,))
    with pytest.raises(InputError, match="off the scan"):
        find_teeth(scan, {**marks, 35: marks[35] + [0, 0, 9.0]}, (36, 37, 38, 46, 48))
    with pytest.raises(InputError, match="maxilla"):
        find_teeth(scan, {**marks, 16: marks[35]}, (36, 37, 38, 46, 48))
