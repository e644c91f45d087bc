"""A new scan taken into a case: marks carried over, places kept, what changed told."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from claspwright.app import two_scans
from claspwright.app.demo_arch import write_case
from claspwright.app.two_scans import rescanned
from claspwright.base import InputError
from claspwright.case import Answers, read_sheet, with_mark
from claspwright.demo import build_arch, options_for, scenario
from claspwright.formats import read_mesh, write_stl
from claspwright.geometry import DistanceTree, Mesh, Rigid, closest_points

NAME = "mandible_class_1"


def test_a_rescan_keeps_the_case_and_moves_into_its_frame(tmp_path: Path) -> None:
    case = scenario(NAME)
    options = options_for(case, edge_mm=0.6)
    answers = Answers("R-1", "mandible", "cocr-lpbf-stress-relieved", case.missing,
                      not_replaced=case.not_replaced, functional_depth_mm=9.5)  # fmt: skip
    write_case(options, answers, tmp_path / "case")
    sheet = read_sheet(tmp_path / "case")
    old = read_mesh(sheet.scans.master)
    worn = old.vertices.copy()
    made = build_arch(options)
    at = made.truth.marks[44]
    near = closest_points(DistanceTree(old), at[None]).points[0]
    if np.linalg.norm(near - at) > 1.0:
        pytest.fail("the case is not written in the frame of the builder")
    gap = np.linalg.norm(worn - near, axis=1)
    worn[:, 2] -= 0.6 * np.exp(-((gap / 2.0) ** 2))
    marked = with_mark(sheet.text, "iso3950", 44, [float(v) for v in near])
    sheet.path.write_text("# kept\n" + marked, encoding="utf-8")
    pose = Rigid(Rotation.from_rotvec([0.3, 2.0, -1.0]).as_matrix(), np.array([9.0, 80.0, -3.0]))
    write_stl(Mesh(worn, old.faces).moved(pose), tmp_path / "new.stl")
    before = {f: f.read_bytes() for f in (tmp_path / "case").rglob("*") if f.is_file()}

    found = rescanned(tmp_path / "case", tmp_path / "new.stl", tmp_path / "again")

    assert all(file.read_bytes() == data for file, data in before.items())
    fresh = read_sheet(tmp_path / "again")
    assert fresh.text.startswith("# kept\n")
    assert fresh.scans.master.name == "rescan-new.ply"
    laid = read_mesh(fresh.scans.master)
    off = closest_points(DistanceTree(laid), worn).distance
    assert np.percentile(np.abs(off), 95) < 0.01
    assert found.comparison.changed_teeth == (44,)
    assert found.moved_marks == (44,)
    put = np.array(fresh.marks[44])
    assert abs(closest_points(DistanceTree(laid), put[None]).distance[0]) < 0.005
    assert 0.05 < np.linalg.norm(put - near) < 0.7
    told = json.loads((tmp_path / "again" / "rescan.json").read_text(encoding="utf-8"))
    assert told["changed_teeth"] == [44]
    with pytest.raises(InputError, match="in use"):
        rescanned(tmp_path / "case", tmp_path / "new.stl", tmp_path / "again")

    in_the_case(tmp_path / "case", tmp_path / "new.stl", before)


def in_the_case(case: Path, new: Path, before: dict[Path, bytes]) -> None:
    """The same in the case itself: an interruption changes nothing, the earlier sheet stays."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(two_scans, "write_whole_text", _interrupted)
        with pytest.raises(KeyboardInterrupt):
            rescanned(case, new, None)
    assert all(file.read_bytes() == data for file, data in before.items())
    found = rescanned(case, new, None)
    assert found.folder == case
    assert all(file.read_bytes() == data for file, data in before.items() if file.suffix == ".stl")
    (report,) = case.glob("rescan-*.json")
    told = json.loads(report.read_text(encoding="utf-8"))
    assert (case / told["earlier_sheet"]).read_bytes() == before[case / "case.toml"]
    assert (case / told["earlier_master"]).read_bytes() == before[case / "scans" / "master.stl"]
    fresh = read_sheet(case)
    assert fresh.text.startswith("# kept\n")
    assert fresh.scans.master == case / told["master"]
    assert fresh.scans.opposing == read_sheet(case / told["earlier_sheet"]).scans.opposing
    assert not list(case.rglob("*.unfinished"))


def _interrupted(path: Path, text: str) -> None:
    raise KeyboardInterrupt
