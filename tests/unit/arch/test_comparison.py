"""Two scans of one arch: what was prepared between them is found, and nothing else."""

from __future__ import annotations

import sys
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

sys.path.insert(0, str(Path(__file__).parent))
from invented import invented, with_teeth

from claspwright.arch import Comparison, DentalArch, MasterScan, compare_scans, find_teeth
from claspwright.base import Floats
from claspwright.demo import build_arch, options_for, scenario
from claspwright.geometry import IDENTITY, Mesh, Rigid

NAME = "mandible_class_1"
EDGE = 0.4
POSE = Rigid(Rotation.from_rotvec([1.9, -0.7, 0.4]).as_matrix(), np.array([31.0, -12.0, 55.0]))


def crowns(arch: DentalArch) -> dict[int, Floats]:
    return {
        code: arch.scan.surface.corners[tooth.faces].mean(axis=1)
        for code, tooth in arch.teeth.items()
    }


@cache
def after_preparation() -> Comparison:
    """The old arch before the seats of 34 and 44 were cut; the new one in another pose."""
    _, made = invented(NAME, EDGE)
    case = scenario(NAME)
    fewer = {code: forms for code, forms in case.seats.items() if code not in (34, 44)}
    options = replace(options_for(replace(case, seats=fewer), edge_mm=EDGE), with_opposing=False)
    old = build_arch(options)
    scan = MasterScan(old.jaw, old.master, old.master, IDENTITY, EDGE)
    named = crowns(find_teeth(scan, old.truth.marks, case.missing))
    return compare_scans(old.master, made.master.moved(POSE), named)


def test_the_seats_cut_between_the_scans_are_found_and_named() -> None:
    found = after_preparation()
    assert found.changed_teeth == (34, 44)
    assert all(change.tooth in (34, 44) for change in found.changes)
    assert all(-2.2 < change.greatest_mm < -0.5 for change in found.changes)
    _, made = invented(NAME, EDGE)
    for seat in made.truth.seats:
        if seat.tooth in (34, 44):
            gaps = [np.linalg.norm((c.at - seat.centre)[:2]) for c in found.changes]
            assert min(gaps) < 1.2


def test_the_pose_comes_back_and_untouched_teeth_agree() -> None:
    found = after_preparation()
    _, made = invented(NAME, EDGE)
    back = found.new_to_old.apply(POSE.apply(made.master.vertices))
    assert np.linalg.norm(back - made.master.vertices, axis=1).max() < 0.02
    untouched = [tooth for tooth in found.teeth if tooth.tooth not in (34, 44)]
    assert len(untouched) == 8
    assert max(tooth.p95_mm for tooth in untouched) < 0.03
    assert all(tooth.changed_mm2 == 0 for tooth in untouched)


def test_the_same_arch_scanned_twice_asks_for_nothing() -> None:
    _, made = invented(NAME, EDGE)
    shaken = np.random.default_rng(5).normal(0, 0.01, made.master.vertices.shape)
    again = Mesh(made.master.vertices + shaken, made.master.faces).moved(POSE)
    found = compare_scans(
        made.master, Mesh(again.vertices / 10.0, again.faces), crowns(with_teeth(NAME, EDGE))
    )
    assert not found.changes
    assert [f.severity for f in found.findings] == ["note"]


def test_another_arch_is_refused() -> None:
    _, made = invented(NAME, EDGE)
    mirrored = Mesh(made.master.vertices * [-1.0, 1.0, 1.0], made.master.faces[:, ::-1])
    _, other = invented("maxilla_class_3_mod_1", 0.6)
    found = compare_scans(made.master, other.master)
    assert found.findings[0].severity == "stop"
    assert compare_scans(made.master, mirrored).changes or found.overlap < 0.4


def test_a_change_on_the_ridge_belongs_to_no_tooth() -> None:
    _, made = invented(NAME, EDGE)
    beside = made.master.vertices - (made.truth.marks[35] + [0.0, -14.0, 0.0])
    crest = np.hypot(beside[:, 0], beside[:, 1]) - 0.3 * beside[:, 2]
    centre = made.master.vertices[np.argmin(crest)]
    gap = np.linalg.norm(made.master.vertices - centre, axis=1)
    swollen = made.master.vertices + 0.5 * np.exp(-((gap / 3.0) ** 2))[:, None] * [0, 0, 1.0]
    found = compare_scans(
        made.master, Mesh(swollen, made.master.faces), crowns(with_teeth(NAME, EDGE))
    )
    assert len(found.changes) == 1
    assert found.changes[0].tooth == 0
    assert found.changes[0].greatest_mm == pytest.approx(0.5, abs=0.1)
