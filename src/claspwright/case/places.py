"""Where a key of the sheet stands: its lines.

The sheet is read line by line further and further; a key stands where it first appears in what
the TOML reader of the standard library understands.
"""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

Key = str | int
KeyPath = Sequence[Key]


@dataclass(frozen=True, slots=True)
class Lines:
    """First and last line of a key with its value, or of the header of a table; from 1."""

    first: int
    last: int


def lines_of(text: str, path: KeyPath) -> Lines | None:
    """Lines of a key path such as ("retainer", 0, "clasp", "form").

    Of a path that leads nowhere, the lines of the deepest part that exists. None where nothing
    of it exists, or where the text is not TOML.
    """
    try:
        whole = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return None
    depth = next((n for n in range(len(path), 0, -1) if _holds(whole, path[:n])), 0)
    return _lines_of_existing(text, path[:depth]) if depth else None


def line_of(text: str, path: KeyPath) -> int | None:
    """First line of a key path, from 1."""
    found = lines_of(text, path)
    return found.first if found is not None else None


def _lines_of_existing(text: str, path: KeyPath) -> Lines | None:
    lines = text.splitlines(keepends=True)
    complete = 0  # lines read that are TOML by themselves
    for count in range(1, len(lines) + 1):
        try:
            table = tomllib.loads("".join(lines[:count]))
        except tomllib.TOMLDecodeError:
            continue  # in the midst of a value of several lines
        if _holds(table, path):
            return Lines(complete + 1, count)
        complete = count
    return None


def _holds(table: Any, path: KeyPath) -> bool:  # Any: whatever TOML holds
    for key in path:
        try:
            table = table[key]
        except (KeyError, IndexError, TypeError):
            return False
    return True
