"""`claspwright register` from the command line: a small laboratory, start to recall."""

from __future__ import annotations

import json
import sqlite3
from pathlib import Path

import pytest
from typer.testing import CliRunner

from claspwright.base import InputError
from claspwright.cli.commands import app


def test_a_small_laboratory(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("CLASPWRIGHT_REGISTER", str(tmp_path / "lab"))

    def run(*words: str, code: int = 0) -> str:
        result = CliRunner().invoke(app, ["register", *words])
        if result.exception and not isinstance(result.exception, SystemExit):
            raise result.exception
        assert result.exit_code == code, result.output
        return result.stdout

    def add(kind: str, id_: str, body: object) -> str:
        (tmp_path / "body.json").write_text(json.dumps(body))
        sign = ["--by", "A. Technician", "--on", "2026-11-25"]
        return run("add", kind, id_, str(tmp_path / "body.json"), *sign)

    assert "revision" in run("init")
    add("lot", "L-1", {"alloy": "a", "mass_g": 5000, "received": "2026-11-01"})
    add("build", "B-1", {"machine": "one", "feedstock": [{"id": "L-1", "mass_g": 1000}]})
    add("case", "C-1", {"arch": "maxilla", "patient": "P-1", "prescriber": "Dr. Invented"})
    assert add("part", "F-1", {"case": "C-1", "build": "B-1"}).strip() == "4"
    assert json.loads(run("trace", "part:F-1", "--json"))["came_from"]["lot"] == ["L-1"]
    found = json.loads(run("recall", "lot:L-1", "--json"))["frameworks"]
    assert [one["patient"] for one in found] == ["P-1"]
    (tmp_path / "person.json").write_text('{"name": "Jane Invented"}')
    assert "Jane" in run("person", "P-1", "--keep", str(tmp_path / "person.json"))
    head = run("backup", str(tmp_path / "all.zip")).strip()
    assert "whole" in run("verify", "--head", head)
    assert "4 rows" in run("export", str(tmp_path / "tables.zip"))
    run("erase", "P-1", "--by", "A. Technician", "--on", "2026-11-26")
    assert "nothing is kept" in run("person", "P-1")
    assert "F-1" in run("show", "part")
    assert run("restore", str(tmp_path / "all.zip"), "-r", str(tmp_path / "new")).strip() == head
    with sqlite3.connect(tmp_path / "lab" / "register.sqlite") as behind:
        behind.execute("UPDATE entry SET made_by = 'X' WHERE seq = 2")
    behind.close()
    assert "entry 2" in run("verify", code=1)
    with pytest.raises(InputError, match="no register here"):
        run("verify", "-r", str(tmp_path / "nowhere"))
