"""Processes that work for another: an interrupt ends all without a word, and none outlives it."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

pytestmark = pytest.mark.skipif(os.name != "posix", reason="signals of POSIX")

BOSS = """
import sys, time
from pathlib import Path
from claspwright.app.processes import begin_loading, end, hushed, manager, pool_of
from tests.app.test_processes import at_work

if __name__ == "__main__":
    program = sys.argv[2]
    if program:
        begin_loading(program)
    pool, holder = pool_of(1, program=program), manager()
    with hushed():
        work = pool.submit(at_work, sys.argv[1])
    try:
        work.result()
    except KeyboardInterrupt:
        end(pool, patience_s=0.2)
        holder.shutdown()
"""


def at_work(note: str) -> None:
    """Say who is at work, and be so for long."""
    fresh = Path(note + ".part")
    fresh.write_text(str(os.getpid()), "utf-8")
    fresh.rename(note)
    time.sleep(600)


@pytest.mark.parametrize("program", ["", "claspwright.base"])
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGKILL])
def test_none_outlives_the_one_that_started_it(
    tmp_path: Path, how: signal.Signals, program: str
) -> None:
    script, note = tmp_path / "boss.py", tmp_path / "worker"
    script.write_text(BOSS, "utf-8")
    root = Path(__file__).resolve().parents[2]
    boss = subprocess.Popen(
        [sys.executable, str(script), str(note), program], stderr=subprocess.PIPE, text=True,
        cwd=root, env={**os.environ, "PYTHONPATH": str(root)}, start_new_session=True,
    )  # fmt: skip
    _until(note.exists)
    worker = int(note.read_text("utf-8"))
    if how == signal.SIGINT:
        os.killpg(boss.pid, how)  # as a terminal does
    else:
        boss.kill()
    _, said = boss.communicate(timeout=60)
    assert how != signal.SIGINT or not said
    _until(lambda: not _lives(worker))


def _until(holds: Callable[[], bool]) -> None:
    last = time.monotonic() + 60
    while not holds():
        assert time.monotonic() < last
        time.sleep(0.05)


def _lives(pid: int) -> bool:
    state = Path(f"/proc/{pid}/stat")
    if not state.exists():
        try:
            os.kill(pid, 0)
        except ProcessLookupError:
            return False
        return not Path("/proc/self").exists()
    return state.read_text("utf-8").rsplit(") ", 1)[1][0] != "Z"  # ended, not yet taken note of
