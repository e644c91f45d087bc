"""What a result was computed from, and what it consists of, as SHA-256."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

from claspwright.case import CaseSheet


def sha256_of(path: Path) -> str:
    """SHA-256 of a file, as hexadecimal text."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def known_sha256(path: Path) -> str:
    """The same, read again only where the file's time or size has changed."""
    state = path.stat()
    return _sha256_of_state(path, state.st_mtime_ns, state.st_size)


@lru_cache(maxsize=512)
def _sha256_of_state(path: Path, changed_ns: int, size: int) -> str:
    return sha256_of(path)


def input_hashes(sheet: CaseSheet, *, hash_of: Callable[[Path], str] = sha256_of) -> dict[str, str]:
    """Hash of the sheet and of each scan, by the name the sheet has for it."""
    files = [sheet.path, sheet.scans.master, sheet.scans.opposing, sheet.scans.bite]
    folder = sheet.path.parent
    return {_named(file, folder): hash_of(file) for file in files if file is not None}


def _named(file: Path, folder: Path) -> str:
    """The name from the folder of the sheet; of a file elsewhere, its own name alone."""
    return file.relative_to(folder).as_posix() if file.is_relative_to(folder) else file.name
