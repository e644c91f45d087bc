"""`claspwright fit` on files: the motion, the figures, the file of deviations."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from scipy.spatial.transform import Rotation
from typer.testing import CliRunner

from claspwright.app.areas_file import looked_text
from claspwright.base import InputError
from claspwright.cli.commands import app
from claspwright.formats import read_mesh, write_ply, write_stl
from claspwright.geometry import Mesh, Rigid, ball, box, union, vertex_normals
from claspwright.inspection import Region


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path, Rigid]:
    """A design, and a scan of it that stands 20 um proud, in a pose of its own."""
    folder = tmp_path_factory.mktemp("fit")
    lump = ball(6.0, 0.35)
    moved = Mesh(lump.vertices * [1.0, 1.4, 0.7] + [4.0, 0.0, 0.0], lump.faces)
    design = union(moved, box(np.array([-9.0, -2.0, -1.0]), np.array([5.0, 2.5, 3.0])))
    write_stl(design, folder / "design.stl")
    rotation = Rotation.from_rotvec([1.0, 2.0, -0.5]).as_matrix()
    pose = Rigid(rotation, np.array([30.0, -12.0, 7.0]))
    grown = Mesh(moved.vertices + 0.02 * vertex_normals(moved), moved.faces)
    write_ply(Mesh(pose.apply(grown.vertices), grown.faces), folder / "scan.ply")
    return folder / "design.stl", folder / "scan.ply", pose


def run(*words: str) -> tuple[int, str]:
    result = CliRunner().invoke(app, ["fit", *words])
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result.exit_code, result.stdout


def test_json_and_both_kinds_of_file(files: tuple[Path, Path, Rigid], tmp_path: Path) -> None:
    design, scan, _ = files
    code, text = run(str(design), str(scan), "--json", "--out", str(tmp_path / "d.csv"))
    answer = json.loads(text)
    assert code == 0
    matrix = np.array(answer["scan_to_design"])
    assert matrix.shape == (4, 4)
    assert np.linalg.det(matrix[:3, :3]) == pytest.approx(1.0)
    assert {"rms_um", "p95_um", "bias_um", "deviation_file"} <= set(answer)
    rows = np.loadtxt(tmp_path / "d.csv", delimiter=",", skiprows=1)
    assert len(rows) == len(read_mesh(scan).vertices) == answer["count"]
    assert rows[:, 3].mean() == pytest.approx(answer["bias_um"], abs=1e-2)
    moved = read_mesh(scan).vertices @ matrix[:3, :3].T + matrix[:3, 3]
    assert np.abs(rows[:, :3] - moved).max() < 1e-5
    code, _ = run(str(design), str(scan), "--out", str(tmp_path / "d.ply"))
    assert b"property double deviation_um" in (tmp_path / "d.ply").read_bytes()[:300]
    assert len(read_mesh(tmp_path / "d.ply").vertices) == answer["count"]


def test_areas_are_reported_by_name(files: tuple[Path, Path, Rigid], tmp_path: Path) -> None:
    design, scan, _ = files
    areas = tmp_path / "areas.toml"
    areas.write_text(
        '[[area]]\nname = "tip"\nat_mm = [4, 8.4, 0]\nradius_mm = 2\n'
        '[[area]]\nname = "unseen"\nat_mm = [-9, 0, 0]\nradius_mm = 1\n'
    )
    _, text = run(
        str(design), str(scan), "--json", "--areas", str(areas), "--out", str(tmp_path / "d.csv")
    )
    answer = json.loads(text)
    tip, unseen = answer["areas"]
    assert tip["name"] == "tip"
    assert tip["count"] > 10
    assert "count" not in unseen
    assert any(f["rule"] == "fit.area_unseen" for f in answer["findings"])


def test_bad_files_are_refused(files: tuple[Path, Path, Rigid], tmp_path: Path) -> None:
    design, scan, _ = files
    with pytest.raises(InputError, match="cannot be written"):
        run(str(design), str(scan), "--out", str(tmp_path / "d.xyz"))
    small = tmp_path / "metres.ply"
    mesh = read_mesh(scan)
    write_ply(Mesh(mesh.vertices / 1000.0, mesh.faces), small)
    with pytest.raises(InputError, match="times as large"):
        run(str(design), str(small), "--out", str(tmp_path / "d.csv"))
    broken = tmp_path / "areas.toml"
    broken.write_text("[[area]]\nname = 3\n")
    with pytest.raises(InputError, match="malformed areas"):
        run(str(design), str(scan), "--areas", str(broken), "--out", str(tmp_path / "d.csv"))


def test_regions_and_sides_are_told_and_faces_may_look_inwards(
    files: tuple[Path, Path, Rigid], tmp_path: Path
) -> None:
    design, scan, _ = files
    looked = tmp_path / "looked.toml"
    regions = (
        Region("lump", "rests", np.array([[4.0, 0.0, 0.0]]), np.array([6.0])),
        Region("bar", "major connector", np.array([[-5.0, 0.0, 1.0]]), np.array([2.0])),
    )
    looked.write_text(looked_text((), regions, (0.0, 0.0, 1.0)))
    for name, file in (("design", design), ("scan", scan)):
        mesh = read_mesh(file)
        write_ply(Mesh(mesh.vertices, mesh.faces[:, ::-1].copy()), tmp_path / f"{name}.ply")
    words = ["--json", "--areas", str(looked), "--out", str(tmp_path / "d.csv")]
    straight = json.loads(run(str(design), str(scan), *words)[1])
    turned = json.loads(run(str(tmp_path / "design.ply"), str(tmp_path / "scan.ply"), *words)[1])
    rules = {f["rule"] for f in turned["findings"]}
    assert rules == {"fit.design_turned", "fit.scan_turned"}
    assert turned["bias_um"] == pytest.approx(straight["bias_um"], abs=0.5)
    told = {one["name"]: one for one in straight["regions"]}
    assert list(told) == ["rests", "major connector", "tissue side", "polished side", "lump", "bar"]
    assert told["lump"]["count"] + told["bar"].get("count", 0) == straight["count"]
