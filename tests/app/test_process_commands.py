"""`claspwright furnace`, `certificate` and `acrylic` from the command line."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from typer.testing import CliRunner

from claspwright.base import InputError
from claspwright.cli.commands import app


def run(*words: str, code: int = 0) -> str:
    result = CliRunner().invoke(app, list(words))
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    assert result.exit_code == code, result.output
    return result.stdout


def test_a_short_soak_ends_with_one(tmp_path: Path) -> None:
    minutes = np.arange(0.0, 300.0)
    platform = np.interp(minutes, [0, 30, 130, 135, 250, 290], [20, 20, 800, 800, 150, 60])
    rows = "\n".join(f"{m},{t:.1f},8.0" for m, t in zip(minutes, platform, strict=True))
    (tmp_path / "log.csv").write_text("time_min,platform_degC,argon_l_min\n" + rows)
    text = run("furnace", str(tmp_path / "log.csv"), "--schedule", "stress-relief-800", "--json",
               "--plot", str(tmp_path / "plot.png"), code=1)  # fmt: skip
    answer = json.loads(text)
    assert not answer["passed"]
    assert [f["rule"] for f in answer["findings"]] == ["furnace.soak"]
    assert (tmp_path / "plot.png").read_bytes().startswith(b"\x89PNG")


def test_a_certificate_with_too_much_nickel_ends_with_one(tmp_path: Path) -> None:
    good = {"Co": 63.0, "Cr": 28.5, "Mo": 6.0, "Mn": 0.5, "Si": 0.5, "Fe": 0.3, "Ni": 0.05,
            "C": 0.1, "N": 0.1, "W": 0.1, "Al": 0.02, "Ti": 0.02, "P": 0.01, "S": 0.005,
            "B": 0.001}  # fmt: skip
    for nickel, code in ((0.05, 0), (0.9, 1)):
        rows = "\n".join(f"{name} = {v}" for name, v in {**good, "Ni": nickel}.items())
        head = 'lot = "L-7"\nsize_um = [16, 44]\napparent_density_g_cm3 = 4.4\n'
        head += 'shown = ["flow", "moisture"]\n'
        (tmp_path / "c.toml").write_text(f"{head}[percent]\n{rows}\n")
        text = run("certificate", str(tmp_path / "c.toml"), "--json", code=code)
        assert bool(json.loads(text)["findings"]) == bool(code)
    (tmp_path / "bad.toml").write_text("lot = 3\n")
    with pytest.raises(InputError, match="cannot be read"):
        run("certificate", str(tmp_path / "bad.toml"))


def test_acrylic_is_weighed() -> None:
    assert "powder 10.6 g" in run("acrylic", "--base-cm3", "10")
