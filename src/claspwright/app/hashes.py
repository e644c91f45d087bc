"""What a result was computed from, and what it consists of, as SHA-256."""

from __future__ import annotations

import hashlib
from pathlib import Path

from claspwright.case import CaseSheet


def sha256_of(path: Path) -> str:
    """SHA-256 of a file, as hexadecimal text."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def input_hashes(sheet: CaseSheet) -> dict[str, str]:
    """Hash of the sheet and of each scan, by the name the sheet has for it."""
    files = [sheet.path, sheet.scans.master, sheet.scans.opposing, sheet.scans.bite]
    folder = sheet.path.parent
    return {_named(file, folder): sha256_of(file) for file in files if file is not None}


def _named(file: Path, folder: Path) -> str:
    """The name from the folder of the sheet; of a file elsewhere, its own name alone."""
    return file.relative_to(folder).as_posix() if file.is_relative_to(folder) else file.name
