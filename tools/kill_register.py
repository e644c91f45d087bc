"""Kill a writer of a register at random moments and look whether a record was lost or halved.

    python tools/kill_register.py --times 500

Each round starts a writer that enters records as fast as it can and tells the number of each
one after it was entered, kills it outright, and then checks that every number told is in the
register, that the chain is whole, and that the calls of two entries were kept together.
"""

from __future__ import annotations

import argparse
import os
import random
import shutil
import signal
import sys
import tempfile
import time
from pathlib import Path

from claspwright.records import Proposed, Signed, init_register, open_register, verify


def main() -> int:
    """Kill as often as asked; 1 where anything was lost."""
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--times", type=int, default=500)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--where", help="folder or database URL; a temporary folder if absent")
    given = ask.parse_args()
    folder = Path(tempfile.mkdtemp(prefix="claspwright-kill-"))
    where = given.where or str(folder / "lab")
    try:
        faults, entered = killed(where, str(folder / "files"), given.times, given.seed)
    finally:
        shutil.rmtree(folder, ignore_errors=True)
    print(f"{given.times} kills, {entered} entries, {len(faults)} faults")
    for fault in faults[:20]:
        print(fault)
    return 1 if faults else 0


def killed(where: str, files: str, times: int, seed: int) -> tuple[list[str], int]:
    """Faults after that many kills, and the number of entries."""
    choose = random.Random(seed)
    init_register(where, files=files).close()
    faults: list[str] = []
    told = 0
    for round_ in range(times):
        told = max(told, _one_kill(where, files, round_, choose.uniform(0.0, 0.08)))
        with open_register(where, files=files) as register:
            seq = register.head()[0]
            if seq < told:
                faults.append(f"round {round_}: entry {told} was told, the chain ends at {seq}")
            if seq % 2:
                faults.append(f"round {round_}: half a call was kept, entry {seq}")
            if round_ % 25 == 24 or round_ == times - 1:
                faults += [f"round {round_}: {fault}" for fault in verify(register).faults]
    return faults, seq


def _one_kill(where: str, files: str, round_: int, after: float) -> int:
    """Start a writer, kill it that many seconds after its first entry; the last number told."""
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(read)
        _write_on(where, files, round_, write)
    os.close(write)
    with os.fdopen(read, "rb") as pipe:
        first = pipe.readline()
        time.sleep(after)
        os.kill(child, signal.SIGKILL)
        rest = first + pipe.read()
    os.waitpid(child, 0)
    numbers = rest.split(b"\n")[:-1]  # what follows the last line end was cut off
    return int(numbers[-1]) if numbers else 0


def _write_on(where: str, files: str, round_: int, write: int) -> None:
    register = open_register(where, files=files)
    body = {"alloy": "a", "mass_g": 1.0, "received": "2026-11-25"}
    signed = Signed("A. Writer", "2026-11-25")
    for n in range(10**6):
        pair = [Proposed("lot", f"L-{round_}-{n}-{half}", body) for half in "ab"]
        seq = register.enter(pair, signed)[-1]
        os.write(write, b"%d\n" % seq)


if __name__ == "__main__":
    sys.exit(main())
