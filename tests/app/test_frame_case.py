"""`claspwright frame`: the solid and its components, with stable ids."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
import trimesh

from claspwright.app.frame_case import FRAME_NAMES, frame_case
from claspwright.base import InputError

from .conftest import Done


@pytest.fixture(scope="module")
def framed(done: Done, tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("frame") / "out"
    assert frame_case(done.case, out).made
    return out


def test_the_solid_is_that_of_a_run_and_no_report_is_made(done: Done, framed: Path) -> None:
    names = {file.name for file in framed.iterdir()}
    assert names == FRAME_NAMES - {"wires.stl", "framework_to_build.stl"}  # not asked for
    for name in ("framework.stl", "framework.3mf", "blocked_out.ply"):
        assert (framed / name).read_bytes() == (done.out / name).read_bytes()


@pytest.mark.reference("trimesh: volume of the printed file")
def test_the_list_tells_ids_sizes_and_volumes(framed: Path) -> None:
    told = json.loads((framed / "components.json").read_text(encoding="utf-8"))
    parts = told["components"]
    ids = [part["id"] for part in parts]
    assert len(set(ids)) == len(ids) and "major_connector" in ids
    assert {"rest", "proximal plate", "lattice", "retentive arm"} <= {p["kind"] for p in parts}
    solid = trimesh.load(framed / "framework.stl")
    assert told["framework"]["volume_mm3"] == pytest.approx(solid.volume, rel=1e-3)
    assert told["framework"]["bodies"] == 1 and told["framework"]["status"] == "NoError"
    sizes = np.array([part["volume_mm3"] for part in parts])
    assert sizes.min() > 0.5 and sizes.sum() > 0.95 * solid.volume  # joints count more than once
    bar = parts[ids.index("major_connector")]
    swept = bar["length_mm"] * np.pi / 4 * 4.0 * 2.0  # half an ellipse of 4 by 2 mm
    assert bar["volume_mm3"] == pytest.approx(swept, rel=0.25)
    low, high = np.array(bar["low_mm"]), np.array(bar["high_mm"])
    assert np.all(low >= solid.bounds[0] - 1.0) and np.all(high <= solid.bounds[1] + 1.0)


def test_other_files_are_not_removed(done: Done, tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("keep me", encoding="utf-8")
    with pytest.raises(InputError, match=r"letter\.txt"):
        frame_case(done.case, tmp_path)
