"""Files on an S3-compatible server on loopback (s3fs, moto).

Client and server want another python-dateutil than the project, so `run.py test` puts them into a
folder of their own (requirements/object-store.txt) and the test runs in a process of its own.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

BESIDE = Path(sys.prefix) / "object-store"
REQUIRED = os.environ.get("CLASPWRIGHT_SCANS_REQUIRED", "") not in ("", "0")


def test_files_on_an_object_store(tmp_path: Path) -> None:
    if not BESIDE.is_dir():
        say = "no client and server of an object store are installed; `run.py test` does that"
        if REQUIRED:
            pytest.fail(f"{say}, and they are required here")
        pytest.skip(say)
    there = Path(__file__).with_name("object_storage.py")
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider",
         "--basetemp", str(tmp_path / "run"), str(there)],
        env={**os.environ, "PYTHONPATH": str(BESIDE)}, capture_output=True, text=True, timeout=300,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout + done.stderr
    assert "1 passed" in done.stdout
