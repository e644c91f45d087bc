"""Compile the numba kernels into the cache, so that the first case does not pay for it.

Run as `python -m claspwright.app.compile_kernels`; set-up does so once for each state of the code.
"""

from __future__ import annotations

import importlib
import pkgutil

import claspwright


def compile_kernels() -> list[str]:
    """Call `warm()` of every kernel module that has one; returns the names of those modules."""
    warmed = []
    for module in pkgutil.walk_packages(claspwright.__path__, "claspwright."):
        if not module.name.endswith("_kernels") or module.name == __name__:
            continue
        warm = getattr(importlib.import_module(module.name), "warm", None)
        if warm is not None:
            warm()
            warmed.append(module.name)
    return warmed


if __name__ == "__main__":
    compile_kernels()
