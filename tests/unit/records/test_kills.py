"""A writer killed outright at random moments loses nothing, on either database."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

TOOL = Path(__file__).resolve().parents[3] / "tools" / "kill_register.py"
TIMES = 10


def test_nothing_is_lost_or_halved(place: tuple[str, str]) -> None:
    """Few kills here; the whole number is for the tool."""
    done = subprocess.run(
        [sys.executable, str(TOOL), "--times", str(TIMES), "--seed", "7", "--where", place[0]],
        capture_output=True, text=True, timeout=300,
    )  # fmt: skip
    said = re.match(r"(\d+) kills, (\d+) entries, (\d+) faults", done.stdout)
    assert said is not None, done.stderr
    kills, entries, faults = map(int, said.groups())
    assert (done.returncode, kills, faults) == (0, TIMES, 0), done.stdout
    assert entries >= 2 * TIMES
