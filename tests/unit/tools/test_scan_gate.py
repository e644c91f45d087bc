"""A skipped test that needs the real scans has failed where they are required."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[3]
TESTS = """
import pytest

@pytest.mark.scans
def test_needs_scans():
    pytest.skip("none here")

def test_needs_something_else():
    pytest.skip("no matter")
"""


@pytest.mark.parametrize(("required", "code"), [("", 0), ("1", 1)])
def test_the_gate(tmp_path: Path, required: str, code: int) -> None:
    (tmp_path / "conftest.py").write_bytes((ROOT / "tests" / "conftest.py").read_bytes())
    (tmp_path / "pytest.ini").write_text("[pytest]\nmarkers = scans: needs them\n")
    (tmp_path / "test_it.py").write_text(TESTS)
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", str(tmp_path)],
        env={**os.environ, "CLASPWRIGHT_SCANS_REQUIRED": required},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == code, done.stdout
    assert ("required here" in done.stdout) == (code == 1)
    assert ("1 failed, 1 skipped" in done.stdout) == (code == 1)
