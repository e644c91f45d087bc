"""Killed at any moment, `build` and `slice` leave no half-written file under its final name."""

from __future__ import annotations

import runpy
from pathlib import Path

TOOL = Path(__file__).resolve().parents[2] / "tools" / "kill_build.py"


def test_nothing_half_written_bears_a_name(tmp_path: Path) -> None:
    tool = runpy.run_path(str(TOOL))
    faults, hit = tool["killed"](tmp_path, 4, 5)
    assert not faults
    assert hit >= 2  # most of the kills came while the work was going on
    out = tmp_path / "out"
    assert not tool["_faults"](out)
    (out / "platform-1" / "platform.stl").write_bytes(b"solid half")
    assert tool["_faults"](out) == ["platform-1/platform.stl is not whole"]
