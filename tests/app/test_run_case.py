"""The main job: what it writes, and what it leaves alone."""

from __future__ import annotations

import hashlib
import json
import shutil
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest

from claspwright import __version__
from claspwright.app.folder import RESULT_NAMES
from claspwright.app.run_case import run_case
from claspwright.base import Cancelled, InputError
from claspwright.case import parse_sheet
from claspwright.formats import read_mesh

if TYPE_CHECKING:
    from tests.app.conftest import Done


def hashes(folder: Path) -> dict[str, str]:
    files = sorted(file for file in folder.rglob("*") if file.is_file())
    return {
        file.relative_to(folder).as_posix(): hashlib.sha256(file.read_bytes()).hexdigest()
        for file in files
    }


def summary(done: Done) -> dict[str, object]:
    read: dict[str, object] = json.loads((done.out / "summary.json").read_text("utf-8"))
    return read


def test_every_result_is_there_and_hashed(done: Done) -> None:
    assert done.result.made
    written = hashes(done.out)
    assert set(written) == RESULT_NAMES - {"wires.stl", "framework_to_build.stl"}  # not asked for
    listed = summary(done)["files"]
    assert listed == {
        name: value
        for name, value in written.items()
        if name not in ("summary.json", "timings.json")
    }


def test_the_summary_says_what_the_case_is(done: Done) -> None:
    found = summary(done)
    assert found["version"] == __version__
    assert (found["kennedy_class"], found["modifications"]) == ("III", 1)
    assert found["input_hashes"] == hashes(done.case)
    assert found["date"] == "2026-11-20"
    volume, mass = found["volume_mm3"], found["mass_g"]
    assert isinstance(volume, float) and isinstance(mass, float)
    assert mass == pytest.approx(8.4e-3 * volume, abs=1e-4)  # check-values W7: 8.4 g/cm3


def test_path_tilts_and_frames_agree(done: Done) -> None:
    found = summary(done)
    to_arch = np.array(found["scan_to_arch"])
    path = to_arch[:3, :3] @ np.array(found["path"])
    assert path == pytest.approx(np.array(found["path_arch_frame"]), abs=1e-7)
    a, b = np.radians([found["anterior_tilt_deg"], found["right_lateral_tilt_deg"]])
    want = np.array([-np.tan(b), -np.tan(a), 1.0])  # mandible: +x is the patient's right
    assert path == pytest.approx(want / np.linalg.norm(want), abs=1e-7)


def test_files_lie_in_the_frame_of_the_scan(done: Done) -> None:
    master = read_mesh(done.case / "scans" / "master.stl")
    low, high = master.bounds
    for name in ("framework.stl", "blocked_out.ply"):
        middle = read_mesh(done.out / name).bounds.mean(axis=0)
        assert np.all(middle > low) and np.all(middle < high), name
    places = [
        finding["at_mm"]
        for finding in json.loads((done.out / "findings.json").read_text("utf-8"))
        if finding["at_mm"] is not None
    ]
    assert places and np.all(np.array(places) > low - 10) and np.all(np.array(places) < high + 10)


def test_findings_carry_all_their_parts(done: Done) -> None:
    findings = json.loads((done.out / "findings.json").read_text("utf-8"))
    keys = {"rule", "severity", "measured", "limit", "unit", "source", "at_mm", "text"}
    for finding in findings:
        assert keys <= set(finding) and finding["rule"] and finding["text"] and finding["source"]
        assert finding["severity"] in ("stop", "look", "note")


def test_the_proposed_sheet_is_sound_and_complete(done: Done) -> None:
    text = (done.out / "case.proposed.toml").read_text("utf-8")
    sheet = parse_sheet(text, done.case / "case.toml")
    assert len(sheet.marks) == 16 - len(sheet.prescription.missing)
    assert sheet.tilts_deg is not None
    assert sheet.wishes.connector is not None
    assert len(sheet.wishes.bases) == 2 and len(sheet.wishes.retainers) >= 3


def test_progress_never_falls_and_ends_at_one(done: Done) -> None:
    assert list(done.fractions) == sorted(done.fractions)
    assert done.fractions[-1] == pytest.approx(1.0)


def test_timings_name_the_stages(done: Done) -> None:
    timings = json.loads((done.out / "timings.json").read_text("utf-8"))
    stages = timings["stage_seconds"]
    assert {"intake", "teeth", "survey", "design", "framework", "rules", "report"} <= set(stages)
    assert timings["total_seconds"] >= sum(stages.values()) - 0.1
    assert timings["peak_memory_mib"] > 50


@pytest.mark.slow
def test_same_input_same_bytes_and_the_case_stays_as_it_was(done: Done, tmp_path: Path) -> None:
    before = hashes(done.case)
    run_case(done.case / "case.toml", tmp_path / "again", date="2026-11-20")
    first, second = hashes(done.out), hashes(tmp_path / "again")
    assert first.pop("timings.json") and second.pop("timings.json")
    assert second == first
    assert hashes(done.case) == before


def test_cancelling_leaves_nothing(done: Done, tmp_path: Path) -> None:
    def stop(fraction: float, phase: str) -> None:
        if fraction > 0.05:
            raise Cancelled("stopped by the test")

    with pytest.raises(Cancelled):
        run_case(done.case, tmp_path / "out", progress=stop)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("line", "rule"),
    [
        ('retention = "implants"', "scope.retention"),
        ('base_material = "flexible"', "scope.base_material"),
        ('prosthesis = "obturator"', "scope.prosthesis"),
    ],
)
def test_out_of_scope_is_refused_with_findings_and_report(
    done: Done, tmp_path: Path, line: str, rule: str
) -> None:
    case = tmp_path / "case"
    shutil.copytree(done.case, case)
    sheet = case / "case.toml"
    sheet.write_text(sheet.read_text("utf-8").replace("alloy", f"{line}\nalloy"), "utf-8")
    result = run_case(case, tmp_path / "out")
    assert result.stopped and not result.made
    assert rule in {finding.rule for finding in result.findings if finding.severity == "stop"}
    names = {file.name for file in (tmp_path / "out").iterdir()}
    assert {"report.pdf", "findings.json", "summary.json", "review.html"} <= names
    assert "framework.stl" not in names


@pytest.mark.parametrize(
    ("damage", "words"),
    [
        (b"", "empty"),
        (b"\x89PNG\r\n\x1a\n" + b"0" * 400, "PNG"),
        (b"solid x\nfacet normal", "STL"),
    ],
)
def test_a_bad_scan_is_bad_input(done: Done, tmp_path: Path, damage: bytes, words: str) -> None:
    case = tmp_path / "case"
    shutil.copytree(done.case, case)
    (case / "scans" / "master.stl").write_bytes(damage)
    with pytest.raises(InputError, match=f"(?i){words}"):
        run_case(case, tmp_path / "out")
    assert not (tmp_path / "out").exists()
