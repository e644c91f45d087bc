"""Wrong scans and sheets each give their finding, and a sound scan none of them."""

from __future__ import annotations

import sys
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))
from invented import invented
from wrong_scans import LOWER, UPPER, UPPER_MISSING, WRONG, WrongScan, as_it_is

from claspwright.arch import find_teeth, take_in
from claspwright.arch.scan_kind import STONE_MM2, double_layer, flat_area_mm2
from claspwright.base import Finding
from claspwright.formats import read_mesh

STONE = ("stone_lower_a", "stone_upper_c")
MOUTH = ("oral_001_L", "oral_030_U", "oral_062_U", "pair1_lower", "trimmed_4O6ZE6F3_upper")


def findings(case: WrongScan) -> tuple[Finding, ...]:
    _, made = invented(case.base, case.edge_mm)
    mesh = case.spoil(made.master, made.truth.marks)
    jaw = None if case.title == "no jaw named" else case.jaw
    scan = take_in(mesh, jaw=jaw)
    if not case.teeth:
        return scan.findings
    return (*scan.findings, *find_teeth(scan, {}, case.missing).findings)


@cache
def sound(name: str) -> tuple[Finding, ...]:
    case = replace(WRONG[0], spoil=as_it_is, teeth=True)
    if name == UPPER:
        case = replace(case, base=name, jaw="maxilla", missing=UPPER_MISSING)
    return findings(case)


@pytest.mark.parametrize("case", WRONG, ids=lambda case: case.title.replace(" ", "_"))
def test_a_wrong_scan_gives_its_finding(case: WrongScan) -> None:
    found = {(finding.rule, finding.severity) for finding in findings(case)}
    assert (case.rule, case.severity) in found


@pytest.mark.parametrize("name", [LOWER, UPPER])
def test_a_sound_scan_gives_none_of_them(name: str) -> None:
    wrong = {(case.rule, case.severity) for case in WRONG}
    allowed = {("scan.resolution", "look")}  # it is built coarse
    assert wrong & {(f.rule, f.severity) for f in sound(name)} <= allowed


@pytest.mark.scans
@pytest.mark.parametrize("name", [*STONE, *MOUTH])
def test_a_stone_model_and_a_mouth_are_told_apart(name: str, scans: Path) -> None:
    flat = flat_area_mm2(read_mesh(scans / "arches" / f"{name}.ply"))
    assert (flat > STONE_MM2) == (name in STONE)


@pytest.mark.scans
@pytest.mark.parametrize("name", MOUTH)
def test_real_mouths_have_one_layer(name: str, scans: Path) -> None:
    assert double_layer(read_mesh(scans / "arches" / f"{name}.ply"))[0] < 0.002


def test_a_layer_stitched_to_the_scan_is_seen_too() -> None:
    _, made = invented(LOWER, 0.6)
    case = next(case for case in WRONG if case.rule == "scan.layers")
    share, at = double_layer(case.spoil(made.master, made.truth.marks))
    assert 0.05 < share < 0.9
    assert at[1] > -15.0
