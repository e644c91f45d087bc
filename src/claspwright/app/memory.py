"""Results of stages kept by the hash of what they were computed from.

A stage whose inputs and whose program are the same gives the same value, so it may be recalled
in place of being worked out again. Files hold pickles: a folder of the memory must be writable
by its owner alone, as it is made here.
"""

from __future__ import annotations

import hashlib
import os
import pickle
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any, Protocol, TypeVar

T = TypeVar("T")


class Memory(Protocol):
    """Asked by each stage before it works."""

    def recall(self, stage: str, inputs: Callable[[], object], make: Callable[[], T]) -> T:
        """The stage's value for these inputs; `make` works it out where it is not known.

        `inputs` is asked where something is kept; what it gives must have a `repr` that tells all
        that the value depends on.
        """


class Forgetful:
    """Knows nothing and keeps nothing."""

    def recall(self, stage: str, inputs: Callable[[], object], make: Callable[[], T]) -> T:
        """Work it out."""
        return make()


class FolderMemory:
    """Keeps the values in a folder, and drops those not used for longest beyond a size."""

    def __init__(self, folder: Path, *, most_bytes: int = 4 << 30) -> None:
        self._folder = folder
        self._most_bytes = most_bytes
        self.used: dict[str, Path] = {}  # by stage: the file that holds what was asked for last
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)

    def recall(self, stage: str, inputs: Callable[[], object], make: Callable[[], T]) -> T:
        """The kept value, or a new one that is then kept."""
        key = hashlib.sha256(f"{program_hash()} {inputs()!r}".encode()).hexdigest()[:32]
        path = self._folder / f"{stage}-{key}.pickle"
        self.used[stage] = path
        kept = unpickled(path)
        if kept is not None:
            os.utime(path)
            value: T = kept[0]
            return value
        value = make()
        fresh = path.with_name(f".{path.name}.{os.getpid()}")
        try:
            with fresh.open("wb") as file:
                pickle.dump((value,), file, protocol=pickle.HIGHEST_PROTOCOL)
            fresh.replace(path)
        finally:
            fresh.unlink(missing_ok=True)
        self._drop_old(path)
        return value

    def _drop_old(self, newest: Path) -> None:
        kept = sorted(self._folder.glob("*.pickle"), key=lambda p: p.stat().st_mtime, reverse=True)
        total = 0
        for path in kept:
            total += path.stat().st_size
            if total > self._most_bytes and path != newest:
                path.unlink(missing_ok=True)


def unpickled(path: Path) -> tuple[Any] | None:  # Any: whatever was kept there
    """What a file holds in a tuple, or None where there is no sound file."""
    try:
        with path.open("rb") as file:
            kept: tuple[Any] = pickle.load(file)
            return kept
    except (OSError, EOFError, pickle.UnpicklingError, AttributeError, ImportError):
        return None


@cache
def program_hash() -> str:
    """Hash of every source file and table of the package: another program, another memory."""
    package = Path(__file__).resolve().parents[1]
    total = hashlib.sha256()
    for path in sorted(p for p in package.rglob("*") if p.suffix in (".py", ".toml", ".typ")):
        total.update(path.relative_to(package).as_posix().encode())
        total.update(path.read_bytes())
    return total.hexdigest()
