"""`claspwright gauge`: negative numbers, JSON and bad input."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from claspwright.base import InputError
from claspwright.cli.commands import app
from claspwright.formats import write_stl
from claspwright.geometry import ball

RUN = CliRunner()


@pytest.fixture(scope="module")
def sphere(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("gauge") / "sphere.stl"
    write_stl(ball(4.0, 0.2), file)
    return file


@pytest.mark.reference("check-values W2: a sphere has no preferred axis")
@pytest.mark.parametrize(
    "path", [["--path", "0,0,1"], ["--path", "-0.1,0,1"], ["--path=-0.1,0,-1"]]
)
def test_json_on_stdout(sphere: Path, path: list[str]) -> None:
    asked = RUN.invoke(app, ["gauge", str(sphere), *path, "--at", "-1.0,3.2,-2.2", "--json"])
    assert asked.exit_code == 0
    found = json.loads(asked.stdout)
    along = sum(a * b for a, b in zip(found["path"], found["point_mm"], strict=True))
    true = 4.0 - (16.0 - along**2) ** 0.5 if along < 0 else 0.0
    assert found["undercut_mm"] == pytest.approx(true, abs=0.005)
    assert found["below_survey_line_mm"] == pytest.approx(-along, abs=0.03)
    assert found["mesh"] == "closed solid"
    assert 0 < found["moved_mm"] < 0.2


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (["--at", "1,2"], "not three numbers"),
        (["--at", "0,0,4", "--path", "0,0,0"], "no direction"),
        (["--at", "0,0,90"], "from the mesh"),
    ],
)
def test_bad_input_names_the_remedy(sphere: Path, asked: list[str], words: str) -> None:
    result = RUN.invoke(app, ["gauge", str(sphere), *asked])
    assert isinstance(result.exception, InputError)
    assert words in str(result.exception)
