"""`claspwright build` from solids to files, whole or not at all."""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path

import lib3mf
import numpy as np
import pytest
from typer.testing import CliRunner

from claspwright.app.build_platform import BuildWishes, build_platforms
from claspwright.base import Cancelled, InputError
from claspwright.cli.commands import app
from claspwright.formats import read_mesh, write_stl
from claspwright.geometry import Mesh, ball, box, union, volume


def bracket(length: float) -> Mesh:
    return union(
        box(np.zeros(3), np.array([length, 3.0, 1.5])),
        box(np.zeros(3), np.array([1.5, 3.0, 5.0])),
        Mesh(ball(1.2, 0.5).vertices + [length, 1.5, 1.0], ball(1.2, 0.5).faces),
    )


@pytest.fixture(scope="module")
def solids(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    folder = tmp_path_factory.mktemp("solids")
    files = []
    for name, length in (("b-17", 9.0), ("b-18", 7.0)):
        files.append(folder / f"{name}.stl")
        write_stl(bracket(length), files[-1])
    return files


@pytest.fixture(scope="module")
def built(solids: list[Path], tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("build") / "out"
    asked = ["build", *map(str, solids), "--machine", "round-100", "--process", "cocr-25um"]
    result = CliRunner().invoke(app, [*asked, "--out", str(out), "--processes", "1"])
    assert result.exit_code == 0, result.output
    assert "not been validated on any machine" in result.output
    return out


def test_everything_lies_there(built: Path) -> None:
    told = json.loads((built / "build.json").read_text(encoding="utf-8"))
    inner = {f.name for f in (built / "platform-1").iterdir()}
    assert inner >= {
        "platform.3mf", "platform.stl", "b-17.stl", "b-18.stl", "layers-ascii.cli",
        "layers-binary.cli", "platform-map.svg", "film-strip.png", "layer-times.svg",
        "build-sheet.pdf",
    }  # fmt: skip
    (platform,) = told["platforms"]
    assert {part["tag"] for part in platform["parts"]} == {"B-17", "B-18"}
    assert platform["least_distance_mm"] >= 1.5
    assert told["not_validated_on_any_machine"] is True
    for part in platform["parts"]:
        assert part["slice_volume_mm3"] == pytest.approx(part["volume_mm3"], rel=1e-3)
        assert all(c["at_mm"][2] >= 3.9 for c in part["contacts"])
    hours = sum(part["share"]["machine_h"] for part in platform["parts"])
    assert hours == pytest.approx(platform["estimate"]["total_h"], rel=1e-4)


def test_solids_and_slices_are_read_back(built: Path) -> None:
    inner = built / "platform-1"
    model = lib3mf.get_wrapper().CreateModel()  # type: ignore[no-untyped-call] # has no types
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromFile(str(inner / "platform.3mf"))
    assert reader.GetWarningCount() == 0
    objects = model.GetMeshObjects()
    assert objects.Count() == 4
    while objects.MoveNext():
        assert objects.GetCurrentMeshObject().IsManifoldAndOriented()
    one = read_mesh(inner / "b-17.stl")
    assert volume(one) > volume(bracket(9.0))
    assert one.bounds[0, 2] == pytest.approx(0.0, abs=1e-6)
    assert (inner / "build-sheet.pdf").read_bytes().startswith(b"%PDF")
    head = (inner / "layers-binary.cli").read_bytes()[:400]
    assert b"//Claspwright. This file has not been validated on any machine//" in head


def test_two_processes_write_the_same_bytes(
    built: Path, solids: list[Path], tmp_path: Path
) -> None:
    build_platforms(solids, tmp_path / "two", BuildWishes("round-100", processes=2))
    alone = {f.relative_to(built): f.read_bytes() for f in built.rglob("*") if f.is_file()}
    two = tmp_path / "two"
    assert {f.relative_to(two): f.read_bytes() for f in two.rglob("*") if f.is_file()} == alone


def test_a_stopped_build_leaves_the_earlier_one(built: Path, solids: list[Path]) -> None:
    before = {f: f.read_bytes() for f in built.rglob("*") if f.is_file()}

    def stop(fraction: float, phase: str) -> None:
        if fraction > 0.85:
            raise Cancelled("enough")

    wishes = BuildWishes("round-100", processes=1, layer_files=False)
    with pytest.raises(Cancelled):
        build_platforms(solids[:1], built, wishes, progress=stop)
    assert {f: f.read_bytes() for f in built.rglob("*") if f.is_file()} == before
    assert [f.name for f in built.parent.iterdir()] == ["out"]


def test_refused_sources(tmp_path: Path, solids: list[Path]) -> None:
    wishes = BuildWishes("round-100", processes=1)
    with pytest.raises(InputError, match="neither a case sheet nor results"):
        build_platforms([tmp_path], tmp_path / "out", wishes)
    (tmp_path / "mine.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(InputError, match="holds other files"):
        build_platforms(solids, tmp_path, wishes)


def test_distortion_on_the_sheet_and_no_compensation_by_a_start_value(
    solids: list[Path], tmp_path: Path
) -> None:
    out = tmp_path / "out"
    wishes = BuildWishes("round-100", processes=1, layer_files=False, distortion=True)
    result = build_platforms(solids[1:], out, wishes)
    told = json.loads((out / "build.json").read_text(encoding="utf-8"))
    (part,) = told["platforms"][0]["parts"]
    assert part["distortion"]["after_relief_mm"]["p99"] > 0
    assert part["distortion"]["compensated"] is None
    assert "build.distortion-uncalibrated" in {f.rule for _, f in result.findings}
    assert (out / "platform-1" / "distortion-b-18.png").is_file()
    with pytest.raises(InputError, match="coupon"):
        build_platforms(solids[1:], out, BuildWishes("round-100", compensate=True))


def test_a_calibrated_process_may_compensate(solids: list[Path], tmp_path: Path) -> None:
    shipped = files("claspwright.formats").joinpath("processes/cocr-25um.toml").read_text("utf-8")
    scans = "".join(
        f'[[distortion.scans]]\ncase = "C-{n}"\npredicted_mm = 0.1\nmeasured_mm = 0.12\n'
        for n in range(3)
    )
    record = tmp_path / "own.toml"
    record.write_text(
        shipped.replace('coupon = ""', 'coupon = "invented, 2026-11-02"') + scans, encoding="utf-8"
    )
    out = tmp_path / "out"
    wishes = BuildWishes("round-100", str(record), processes=1, layer_files=False, compensate=True)
    result = build_platforms(solids[1:], out, wishes)
    told = json.loads((out / "build.json").read_text(encoding="utf-8"))
    made = told["platforms"][0]["parts"][0]["distortion"]["compensated"]
    assert made["rms_before_mm"] > 3 * made["rms_expected_mm"]
    rules = {f.rule for _, f in result.findings}
    assert "build.compensated" in rules and "build.island" not in rules


def test_the_coupon_command(tmp_path: Path) -> None:
    asked = ["coupon", "--rise-mm", "0.5", "--length-mm", "16", "--width-mm", "1", "--height-mm"]
    asked += ["1", "--legs", "4", "--leg-mm", "1", "--leg-height-mm", "1", "--json"]
    result = CliRunner().invoke(app, [*asked, "--out", str(tmp_path / "coupon.stl")])
    assert result.exit_code == 0, result.output
    told = json.loads(result.stdout)
    assert told["strain"] == pytest.approx(-0.004 * 0.5 / told["record_rise_mm"], rel=1e-3)
    solid = read_mesh(tmp_path / "coupon.stl")
    assert volume(solid) == pytest.approx(16 + 4 * 1 * 1 * 1, rel=1e-5)
    assert CliRunner().invoke(app, ["coupon", "--rise-mm", "-0.1"]).exit_code != 0
