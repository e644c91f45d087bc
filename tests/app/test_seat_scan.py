"""`claspwright seat` on files: a plate on three feet, one of them short."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from scipy.spatial.transform import Rotation
from typer.testing import CliRunner

from claspwright.cli.commands import app
from claspwright.formats import write_ply, write_stl
from claspwright.geometry import Mesh, Rigid, ball, box, union

FEET = np.array([[-8.0, -6.0], [9.0, -5.0], [0.0, 9.0], [7.0, 6.0]])


def stool(short: float) -> Mesh:
    """A plate on balls as feet; the last is shorter."""
    plate = box(np.array([-10.0, -8.0, 1.2]), np.array([11.0, 11.0, 2.5]))
    one = ball(1.0, 0.15)
    feet = [
        Mesh(one.vertices + [x, y, 1.0 + (short if n == 3 else 0.0)], one.faces)
        for n, (x, y) in enumerate(FEET)
    ]
    return union(plate, *feet)


def test_the_short_foot_shows_its_gap_and_rocks(tmp_path: Path) -> None:
    write_stl(stool(0.0), tmp_path / "design.stl")
    pose = Rigid(Rotation.from_rotvec([0.4, 1.1, -2.0]).as_matrix(), np.array([9.0, 8.0, 7.0]))
    made = stool(0.12)
    write_ply(Mesh(pose.apply(made.vertices), made.faces), tmp_path / "scan.ply")
    ground = box(np.array([-30.0, -30.0, -4.0]), np.array([30.0, 30.0, 0.0]))
    write_stl(ground, tmp_path / "master.stl")
    rows = [
        f'[[area]]\nname = "rest {n}"\nat_mm = [{x}, {y}, 0.0]\nradius_mm = 0.35\n'
        for n, (x, y) in enumerate(FEET)
    ]
    (tmp_path / "areas.toml").write_text("".join(rows))
    words = [str(tmp_path / name) for name in ("design.stl", "scan.ply", "master.stl")]
    words += ["--areas", str(tmp_path / "areas.toml"), "--path", "0", "0", "1", "--noise-um", "0"]
    result = CliRunner().invoke(app, ["seat", *words, "--json"])
    assert result.exit_code in (0, 1), result.output
    answer = json.loads(result.stdout)
    assert answer["settled"]
    gaps = {rest["name"]: rest["lowest_gap_um"] for rest in answer["rests"]}
    assert gaps["rest 3"] - min(gaps.values()) == pytest.approx(120.0, abs=25.0)
    assert sum(c["share_of_load"] for c in answer["contacts"]) == pytest.approx(1.0, abs=1e-3)
    assert max(press["play_um"] for press in answer["rocking"]) > 20.0
