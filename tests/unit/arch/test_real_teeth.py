"""Crown regions on labelled research scans, through the tool that writes the table."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest

from claspwright.arch import (
    SeatPlace,
    find_rest_seat,
    find_teeth,
    kind_of,
    present_teeth,
    propose_marks,
)

ROOT = Path(__file__).resolve().parents[3]
SCANS = ROOT.parent / "shared" / "scans" / "arches"


@pytest.fixture(scope="module")
def tool() -> ModuleType:
    path = ROOT / "tools" / "measure_dice.py"
    spec = importlib.util.spec_from_file_location("measure_dice", path)
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["measure_dice"] = module
    spec.loader.exec_module(module)
    return module


@pytest.mark.scans
@pytest.mark.reference("hand-made labels of the research scans; the aim is a median of 0.90")
@pytest.mark.parametrize("name", ["oral_001_L", "oral_030_U", "oral_069_L", "pair1_upper"])
def test_regions_agree_with_hand_made_labels(tool: ModuleType, name: str) -> None:
    case = tool.load(name, SCANS)
    for how in ("centroid", "anywhere"):
        found = list(tool.measure(case, how).values())
        assert np.median(found) > 0.95
        assert np.percentile(found, 10) > 0.75


@pytest.mark.scans
@pytest.mark.reference("hand-made labels of the research scans")
@pytest.mark.parametrize("name", ["pair1_lower", "upper_017C"])
def test_gum_down_to_the_border_of_the_scan_is_not_taken_for_crown(
    tool: ModuleType, name: str
) -> None:
    """Scans that end a few millimetres below the margins."""
    case = tool.load(name, SCANS)
    assert min(tool.measure(case, "centroid").values()) > 0.90


@pytest.mark.scans
@pytest.mark.reference("hand-made labels of the research scans")
@pytest.mark.parametrize("name", ["oral_001_U", "pair2_upper"])
def test_no_rest_seat_is_invented_in_a_real_mouth(tool: ModuleType, name: str) -> None:
    case = tool.load(name, SCANS)
    missing = [c for c in present_teeth(case.scan.jaw, []) if c not in case.codes]
    arch = find_teeth(case.scan, tool.marks_at(case, "centroid"), missing)
    found = []
    for code in arch.teeth:
        back = kind_of(code) in ("premolar", "molar")
        sides: tuple[SeatPlace, ...] = ("mesial", "distal") if back else ("cingulum",)
        found += [(code, side) for side in sides if find_rest_seat(arch, code, side).prepared]
    assert found == []


@pytest.mark.scans
@pytest.mark.reference("hand-made labels of the research scans")
@pytest.mark.parametrize("name", ["oral_001_L", "oral_030_U", "pair1_upper"])
def test_proposed_marks_find_the_same_crowns(tool: ModuleType, name: str) -> None:
    case = tool.load(name, SCANS)
    found = list(tool.measure(case, "proposed").values())
    assert np.median(found) > 0.95


@pytest.mark.scans
@pytest.mark.reference("hand-made labels of the research scans")
@pytest.mark.parametrize(
    ("name", "standing"),
    [("oral_001_L", set()), ("oral_030_U", {28}), ("oral_062_U", set()), ("pair1_upper", {18, 28})],
)
def test_third_molars_are_proposed_only_where_they_stand(
    tool: ModuleType, name: str, standing: set[int]
) -> None:
    case = tool.load(name, SCANS)
    thirds = (18, 28) if case.scan.jaw == "maxilla" else (38, 48)
    found = propose_marks(case.scan, {*case.codes, *thirds})
    assert set(found) & set(thirds) == standing


@pytest.mark.scans
@pytest.mark.reference("hand-made labels; the list of this one does not fit its mouth")
def test_marks_on_another_tooth_are_told(tool: ModuleType) -> None:
    found = tool.from_proposed(tool.load("oral_069_L", SCANS))
    astray = [tooth for tooth in found if not tooth.on_its_own]
    assert {tooth.code for tooth in astray} == {36, 46}
    assert all(tooth.told for tooth in astray)
    assert np.mean([bool(tooth.told) for tooth in found if tooth.dice > 0.9]) < 0.2
