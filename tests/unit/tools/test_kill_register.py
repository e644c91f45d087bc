"""A writer killed outright loses no record that it was told was kept."""

from __future__ import annotations

import importlib.util
import os
from pathlib import Path

import pytest

TOOL = Path(__file__).resolve().parents[3] / "tools" / "kill_register.py"


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")
@pytest.mark.filterwarnings("ignore:.*multi-threaded.*:DeprecationWarning")
def test_kill_at_random_moments_loses_nothing(tmp_path: Path) -> None:
    spec = importlib.util.spec_from_file_location("kill_register", TOOL)
    assert spec is not None
    assert spec.loader is not None
    tool = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(tool)
    faults, entered = tool.killed(str(tmp_path / "lab"), "", 15, 3)
    assert faults == []
    assert entered > 15
