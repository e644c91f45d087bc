"""Where a key of the sheet stands: its line number.

The sheet is parsed by tomlkit, which keeps every character. A value is replaced by a text that
occurs nowhere else, the sheet is written out, and the line that holds the text is the line of
the value; all lines before it are untouched.
"""

from __future__ import annotations

from collections.abc import MutableMapping, MutableSequence, Sequence
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

_FLAG = "\u00a7\u00a7here\u00a7\u00a7"

Key = str | int
KeyPath = Sequence[Key]


def line_of(text: str, path: KeyPath) -> int | None:
    """Line, from 1, of a key path such as ("retainer", 0, "clasp", "form").

    Of a path that leads nowhere, the line of the deepest part that exists; of a table, the line
    of its header. None where nothing of it exists.
    """
    for length in range(len(path), 0, -1):
        line = _line_of_existing(text, path[:length])
        if line is not None:
            return line
    return None


def _line_of_existing(text: str, path: KeyPath) -> int | None:
    document = tomlkit.parse(text)
    holder: Any = document
    try:
        for key in path[:-1]:
            holder = holder[key]
        value = holder[path[-1]]
    except (KeyError, IndexError, TypeError, TOMLKitError):
        return None
    if isinstance(value, MutableMapping):
        return _line_of_table(text, path, value)
    if isinstance(value, MutableSequence) and value and isinstance(value[0], MutableMapping):
        return _line_of_existing(text, (*path, 0))
    holder[path[-1]] = _FLAG
    return _flagged(tomlkit.dumps(document))


def _line_of_table(text: str, path: KeyPath, table: MutableMapping[str, Any]) -> int | None:
    """The header above the first key of a table, or the table's own line if it is inline."""
    first = next(iter(table), None)
    if first is None:
        document = tomlkit.parse(text)
        holder: Any = document
        for key in path:
            holder = holder[key]
        holder[_FLAG] = 0
        line = _flagged(tomlkit.dumps(document))
    else:
        line = _line_of_existing(text, (*path, first))
    if line is None:
        return None
    lines = text.splitlines()
    for number in range(min(line, len(lines)), 0, -1):
        if lines[number - 1].lstrip().startswith("["):
            return number
        if number < line and _is_key(lines[number - 1]):
            break
    return line


def _is_key(line: str) -> bool:
    bare = line.strip()
    return bool(bare) and not bare.startswith("#")


def _flagged(text: str) -> int | None:
    before, found, _ = text.partition(_FLAG)
    return before.count("\n") + 1 if found else None
