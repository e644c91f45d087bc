"""Compile the numba kernels into their cache, so that the first case does not pay for it.

Run as `python -m claspwright.app.warm_up`; set-up does so once for each state of the kernels.
Those of the main job and of a build are compiled for the types that `kernel_types.toml` lists,
in as many processes as there are cores: the compiler lets one thread work at a time. No case is
worked out. Kernels of the distortion are left for the first prediction, which takes a minute
itself.
"""

from __future__ import annotations

import os
from concurrent.futures import as_completed
from importlib.resources import files
from multiprocessing import freeze_support

from claspwright.app.kernel_types import Kernels, compile_module, listed
from claspwright.app.processes import hushed, pool_of
from claspwright.base import Progress, silent

# Kernels of the second are part of those of the first. A cache file is written by one process
# only: of two that write at the same time, one would undo what the other has noted.
TOGETHER = (
    ("build._island_kernels", "build._nest_kernels"),
    ("survey._reading_kernels", "survey._shadow_kernels"),
)
MOST = 6  # processes: more would only wait for the longest share, a sixth of the whole

Share = tuple[tuple[str, Kernels], ...]  # modules with their kernels, for one process


def warm_up(*, processes: int | None = None, progress: Progress = silent) -> int:
    """Compile what the table lists; what lies in the cache already is only read.

    Args:
        processes: how many work side by side; where None, as many as there are cores, six at most.
        progress: told how far the work is.

    Returns:
        How many kernels had to be compiled.

    Raises:
        InputError: the table names a kernel that is not there.
    """
    waiting = shares()
    count = processes or min(os.cpu_count() or 1, MOST)
    with pool_of(count) as pool:
        with hushed():
            at_work = [pool.submit(_compiled, share) for share in waiting]
        compiled = 0
        for done, work in enumerate(as_completed(at_work), start=1):
            compiled += work.result()
            progress(done / len(at_work), "kernels")
    return compiled


def shares() -> list[Share]:
    """The table in parts that processes can work on side by side, the long ones first."""
    table = listed()
    groups = [list(group) for group in TOGETHER]
    known = {module for group in groups for module in group}
    groups += [[module] for module in table if module not in known]
    groups.sort(key=lambda group: -sum(map(_length, group)))
    return [tuple((module, table.get(module, {})) for module in group) for group in groups]


def _length(module: str) -> int:
    """Bytes of a module's source, after which the time that it takes goes roughly."""
    file = files("claspwright").joinpath(*module.split(".")[:-1], module.split(".")[-1] + ".py")
    return len(file.read_bytes())


def _compiled(share: Share) -> int:
    """Compile one share in a process that does nothing else."""
    return sum(compile_module(module, kernels) for module, kernels in share)


if __name__ == "__main__":
    freeze_support()
    warm_up()
