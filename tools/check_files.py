"""Checks that no other tool makes: length of the files, and what the locks may hold."""

from __future__ import annotations

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
CEILING = 600  # lines; tables live in TOML or CSV
FOLDERS = ("src", "tests", "tools", "benchmarks")


def main() -> int:
    """Print what is wrong; 1 if anything is."""
    complaints = [*_long_files(ROOT), *_addresses(ROOT)]
    for complaint in complaints:
        print(complaint)
    return 1 if complaints else 0


def _long_files(root: Path) -> list[str]:
    """Python files above the ceiling."""
    files = [root / "run.py", *(f for name in FOLDERS for f in sorted((root / name).rglob("*.py")))]
    counted = [(file, len(file.read_text(encoding="utf-8").splitlines())) for file in files]
    return [
        f"{file.relative_to(root).as_posix()}: {lines} lines, the ceiling is {CEILING}; split it"
        for file, lines in counted
        if lines > CEILING
    ]


def _addresses(root: Path) -> list[str]:
    """Lines of the locks that name an index or a path, and requirements without a hash."""
    complaints = []
    for lock in sorted((root / "requirements").glob("*.txt")):
        entries = lock.read_text(encoding="utf-8").replace("\\\n", " ").splitlines()
        for entry in entries:
            if "://" in entry or entry.startswith("-") or " @ " in entry:
                complaints.append(f"{lock.name}: names an address: {entry[:60]}")
            elif entry and not entry.startswith("#") and "--hash=sha256:" not in entry:
                complaints.append(f"{lock.name}: no hash: {entry[:60]}")
    return complaints


if __name__ == "__main__":
    sys.exit(main())
