"""The survey of a case as files, and the same path whatever pose the scan comes in."""

from __future__ import annotations

import json
import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader
from typer.testing import CliRunner

from claspwright.app.demo_arch import write_case
from claspwright.app.survey_case import survey_case
from claspwright.base import Cancelled, InputError
from claspwright.case import Answers
from claspwright.cli.commands import app
from claspwright.demo import options_for, scenario
from claspwright.formats import read_mesh, write_stl
from claspwright.geometry import Rigid, rotation_between
from claspwright.survey import path_from_lines, path_from_tripod

NAME = "maxilla_class_3_mod_1"


@dataclass(frozen=True)
class Surveyed:
    case: Path
    out: Path
    told: dict[str, Any]
    fractions: list[float]


def as_case(folder: Path) -> Path:
    """A coarse invented case."""
    asked = scenario(NAME)
    answers = Answers(
        "TEST-2", asked.jaw, "cocr-lpbf-stress-relieved", asked.missing,
        not_replaced=asked.not_replaced,
    )  # fmt: skip
    write_case(options_for(asked, seed=3, edge_mm=0.45), answers, folder)
    return folder


def in_another_pose(case: Path, folder: Path, move: Rigid) -> Path:
    """The same case, its scans turned and shifted as one."""
    shutil.copytree(case, folder)
    for file in (folder / "scans").iterdir():
        write_stl(read_mesh(file).moved(move), file)
    return folder


@pytest.fixture(scope="module")
def done(tmp_path_factory: pytest.TempPathFactory) -> Surveyed:
    folder = tmp_path_factory.mktemp("survey")
    case, fractions = as_case(folder / "case"), []
    survey_case(case, folder / "out", progress=lambda at, _: fractions.append(at))
    told = json.loads((folder / "out" / "survey.json").read_text(encoding="utf-8"))
    return Surveyed(case, folder / "out", told, fractions)


def test_every_file_is_there(done: Surveyed) -> None:
    names = {file.name for file in done.out.iterdir()}
    assert {"survey.json", "survey.pdf", "findings.json", "cone.png", "cone.svg"} <= names
    clasps = [f"section_{r['tooth']}_{r['side']}.svg" for r in done.told["retainers"]]
    assert clasps
    assert set(clasps) <= names
    with Image.open(done.out / "cone.png") as picture:
        assert len(set(picture.convert("L").tobytes())) > 50  # maps, not white paper
    assert done.fractions == sorted(done.fractions)
    assert done.fractions[-1] == 1.0
    words = "".join(page.extract_text() for page in PdfReader(done.out / "survey.pdf").pages)
    assert "Carrying the path to the stone" in words
    assert done.told["reasons"][0][:50] in " ".join(words.split())


def test_tripod_and_base_lines_in_the_file_give_the_path_back(done: Surveyed) -> None:
    carried = done.told["tripod"]
    assert path_from_tripod(np.array(carried["marks_mm"])) == pytest.approx(
        done.told["path"], abs=1e-5
    )
    assert path_from_lines(np.array(carried["base_lines_mm"])) == pytest.approx(
        done.told["path"], abs=1e-5
    )


def test_what_is_told_hangs_together(done: Surveyed) -> None:
    told = done.told
    score, zero = told["score"], told["score_at_zero_tilt"]
    assert score["points"] <= zero["points"]
    assert score["points"] == pytest.approx(sum(score["points_by_part"].values()), abs=1e-3)
    assert told["second_best"]["points"] >= score["points"]
    assert score["points"] <= min(told["cone"]["points"]) + 1e-3 or score["tilt_deg"] == 0.0
    for reading in told["retainers"]:
        both = reading["along_the_path_mm"], reading["across_the_occlusal_plane_mm"]
        assert reading["usable_mm"] <= min(both) + 1e-4
    assert {face["tooth"] for face in told["guiding_planes"]} == {14, 17, 23, 26}


def test_same_bytes_again_and_cancelling_leaves_nothing(done: Surveyed, tmp_path: Path) -> None:
    def stop(fraction: float, phase: str) -> None:
        if "cone" in phase:
            raise Cancelled("enough")

    with pytest.raises(Cancelled):
        survey_case(done.case, tmp_path / "out", progress=stop)
    assert not (tmp_path / "out").exists()
    asked = ["survey", str(done.case), "--out", str(tmp_path / "again"), "--json"]
    said = CliRunner().invoke(app, asked)
    assert said.exit_code == 0
    assert json.loads(said.stdout) == done.told
    for name in ("survey.json", "survey.pdf", "cone.svg", "cone.png"):
        assert (tmp_path / "again" / name).read_bytes() == (done.out / name).read_bytes()
    (tmp_path / "other").mkdir()
    (tmp_path / "other" / "letter.txt").write_text("mine")
    with pytest.raises(InputError, match="other files"):
        survey_case(done.case, tmp_path / "other")


def test_a_scan_tilted_by_7_degrees_gets_its_path_back(done: Surveyed, tmp_path: Path) -> None:
    """The arch frame is found anew in the scan, so the path must turn with it."""
    up = np.array([0.0, 0.0, 1.0])
    lean = np.array([0.4, -0.9, 0.0])
    lean *= np.sin(np.radians(7.0)) / np.linalg.norm(lean)
    lean[2] = np.cos(np.radians(7.0))
    move = Rigid(rotation_between(up, lean), np.array([40.0, -12.0, 7.0]))
    told = survey_case(in_another_pose(done.case, tmp_path / "case", move)).told
    before = move.turn(np.array(done.told["path"]))
    off = np.degrees(np.arccos(min(float(before @ np.array(told["path"])), 1.0)))
    assert off < 1.0
    assert told["score"]["points"] == pytest.approx(done.told["score"]["points"], abs=0.05)
