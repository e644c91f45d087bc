"""Two laboratories in one PostgreSQL database, ten processes at once: nothing is lost or mixed."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from claspwright.base import InputError
from claspwright.records import Signed, init_register, open_register, recall, verify

WORKERS = 10
CHANGES = 4
WORKER = """
import sys
from claspwright.base import StaleRecordError
from claspwright.records import Signed, open_register

name, files, *addresses = sys.argv[1:]
labs = [open_register(address, files=files) for address in addresses]
print("ready", flush=True)
sys.stdin.readline()
stale = 0
for n in range({changes}):
    for lab in labs:
        signed = Signed(name, "2026-11-25")
        lab.add("lot", f"{name}-{n}", dict(alloy="a", mass_g=1.0, received="2026-11-01"), signed)
        while True:
            seq, body = lab.current("lot", "shared")
            try:
                more = dict(body, mass_g=body["mass_g"] + 1.0)
                lab.add("lot", "shared", more, signed, supersedes=seq)
                break
            except StaleRecordError:
                stale += 1
print(stale, flush=True)
""".replace("{changes}", str(CHANGES))


def test_ten_workers_on_two_laboratories_lose_no_update(
    another_laboratory: Callable[[], str], tmp_path: Path, me: Signed
) -> None:
    addresses = [another_laboratory(), another_laboratory()]
    files = str(tmp_path / "files")
    lot = {"alloy": "a", "mass_g": 0.0, "received": "2026-11-01"}
    for address in addresses:
        with init_register(address, files=files) as opened:
            opened.add("lot", "shared", lot, me)
    workers = [
        subprocess.Popen(
            [sys.executable, "-c", WORKER, f"W{n}", files, *addresses],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
        )
        for n in range(WORKERS)
    ]  # fmt: skip
    for one in workers:
        assert one.stdout is not None
        assert one.stdout.readline() == "ready\n"
    stale = 0
    for one in workers:  # all at once, when all are there
        assert one.stdin is not None
        one.stdin.write("\n")
        one.stdin.flush()
    for one in workers:
        stale += int(one.communicate(timeout=300)[0])
        assert one.returncode == 0
    assert stale > 0  # they did meet
    for address in addresses:
        with open_register(address, files=files) as opened:
            shared = opened.current("lot", "shared")
            assert shared is not None
            assert shared[1]["mass_g"] == WORKERS * CHANGES
            assert len(opened.history("lot", "shared")) == 1 + WORKERS * CHANGES
            verdict = verify(opened)
            assert verdict.whole
            assert verdict.entries == 1 + 2 * WORKERS * CHANGES


def test_a_laboratory_sees_nothing_of_another(
    another_laboratory: Callable[[], str], tmp_path: Path, me: Signed
) -> None:
    one, two = another_laboratory(), another_laboratory()
    files = str(tmp_path / "files")
    lot = {"alloy": "a", "mass_g": 1.0, "received": "2026-11-01"}
    with init_register(one, files=files) as opened:
        opened.add("lot", "L-1", lot, me)
    with pytest.raises(InputError, match="revision none"):
        open_register(two, files=files)
    with init_register(two, files=files) as opened:
        assert opened.head()[0] == 0
        with pytest.raises(InputError, match="not in the register"):
            recall(opened, "lot:L-1")
