"""The checks of files do complain."""

from __future__ import annotations

import importlib.util
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).resolve().parents[3]


@pytest.fixture
def checks() -> ModuleType:
    spec = importlib.util.spec_from_file_location("check_files", ROOT / "tools" / "check_files.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_a_long_file_is_named(checks: ModuleType, tmp_path: Path) -> None:
    (tmp_path / "src").mkdir()
    (tmp_path / "run.py").touch()
    (tmp_path / "src" / "fits.py").write_text("x = 1\n" * 600)
    assert checks._long_files(tmp_path) == []
    (tmp_path / "src" / "long.py").write_text("x = 1\n" * 601)
    (complaint,) = checks._long_files(tmp_path)
    assert complaint.startswith("src/long.py: 601 lines")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("numpy==2.4.6 \\\n    --hash=sha256:00\n", None),
        ("numpy==2.4.6\n", "no hash"),
        ("--find-links https://somewhere\n", "names an address"),
        ("numpy @ file:///wheels/numpy.whl\n", "names an address"),
    ],
)
def test_locks_hold_hashes_and_no_addresses(
    checks: ModuleType, tmp_path: Path, text: str, words: str | None
) -> None:
    (tmp_path / "requirements").mkdir()
    (tmp_path / "requirements" / "run.txt").write_text(text)
    complaints = checks._addresses(tmp_path)
    assert (words is None and not complaints) or words in complaints[0]


def test_run_py_says_what_it_can_do() -> None:
    line = [sys.executable, str(ROOT / "run.py")]
    asked = subprocess.run([*line, "--help"], capture_output=True, text=True, check=True)
    assert "run.py demo" in asked.stdout and "run.py test" in asked.stdout
    assert subprocess.run(line, capture_output=True, check=False).returncode == 2
