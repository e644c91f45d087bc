"""Kill `build` and `slice` at random moments and look whether a half-written file bears a name.

    python tools/kill_build.py --times 100

Each round starts the work over what an earlier one left, kills it outright, and then reads every
file under its final name: all of a build must have the hashes that its build.json tells, and a
layer file must be wholly the earlier or wholly the new one.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

from claspwright.app.build_platform import BuildWishes, build_platforms
from claspwright.app.hashes import sha256_of
from claspwright.app.slice_solid import SliceWishes, slice_file
from claspwright.formats import write_stl
from claspwright.geometry import box, union


def main() -> int:
    """Kill as often as asked; 1 where anything half-written was found."""
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--times", type=int, default=100)
    ask.add_argument("--seed", type=int, default=1)
    given = ask.parse_args()
    folder = Path(tempfile.mkdtemp(prefix="claspwright-kill-"))
    try:
        faults, hit = killed(folder, given.times, given.seed)
    finally:
        shutil.rmtree(folder, ignore_errors=True)
    print(f"{2 * given.times} kills, {hit} before the work was done, {len(faults)} faults")
    for fault in faults[:20]:
        print(fault)
    return 1 if faults else 0


def killed(folder: Path, times: int, seed: int) -> tuple[list[str], int]:
    """Faults after that many kills of each, and how many came before the work was done."""
    choose = random.Random(seed)
    solids = [folder / "small.stl", folder / "large.stl"]
    for solid, size in zip(solids, (5.0, 7.0), strict=True):
        slab = box(np.zeros(3), np.array([size, 3.0, 1.2]))
        write_stl(union(slab, box(np.zeros(3), np.array([1.2, 3.0, 3.0]))), solid)
    layers, out = folder / "part.cli", folder / "out"
    whole = []
    for solid in solids:
        _slice(solid, layers)
        whole.append(layers.read_bytes())
    began = time.monotonic()
    _build(solids[0], out)
    long = time.monotonic() - began
    began = time.monotonic()
    _slice(solids[0], layers)
    short = time.monotonic() - began
    faults, hit = [], 0
    for n in range(times):
        solid = solids[n % 2]
        hit += _kill(lambda solid=solid: _slice(solid, layers), choose.uniform(0.0, 2.0 * short))  # type: ignore[misc]
        if layers.read_bytes() not in whole:
            faults.append(f"round {n}: the layer file is neither the earlier nor the new one")
        hit += _kill(lambda solid=solid: _build(solid, out), choose.uniform(0.0, 2.0 * long))  # type: ignore[misc]
        faults += [f"round {n}: {fault}" for fault in _faults(out)]
    return faults, hit


def _slice(solid: Path, out: Path) -> None:
    slice_file(solid, out, SliceWishes(25.0, 80.0, binary=True))


def _build(solid: Path, out: Path) -> None:
    build_platforms([solid], out, BuildWishes("round-100", processes=1))


def _faults(out: Path) -> list[str]:
    """What is half-written in a build; a build that is not there at all is none."""
    if not out.exists():
        return []
    if not (out / "build.json").is_file():
        return ["a build without its build.json"]
    told = json.loads((out / "build.json").read_text(encoding="utf-8"))["files"]
    there = {f.relative_to(out).as_posix() for f in out.rglob("*") if f.is_file()}
    wrong = [name for name in told if name not in there or sha256_of(out / name) != told[name]]
    return [f"{name} is not whole" for name in wrong] + [
        f"{name} is not told of" for name in there - set(told) - {"build.json"}
    ]


def _kill(work: Callable[[], None], after: float) -> bool:
    """Start the work in a child and kill it; whether it was still at work."""
    child = os.fork()
    if child == 0:
        try:
            work()
        finally:
            os._exit(0)
    time.sleep(after)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    return os.WIFSIGNALED(status)


if __name__ == "__main__":
    sys.exit(main())
