"""Adds lines to a sheet and leaves everything of the user as it is."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

import tomlkit
from tomlkit.items import InlineTable

from claspwright.arch import to_universal
from claspwright.case.places import Key, Lines, lines_of
from claspwright.case.sheet import CaseSheet

Value = bool | float | str | tuple[float | str, ...]
Whys = Mapping[str, str]  # by key: why it is as it is; "" stands for the table itself
ITSELF = "proposed"


class Raw(str):
    """Text that is TOML already."""

    __slots__ = ()


class Writer:
    """Collects what is added to one sheet; the order of the calls does not matter."""

    def __init__(self, sheet: CaseSheet) -> None:
        self.notation = sheet.notation
        self._text = sheet.text if sheet.text.endswith("\n") else sheet.text + "\n"
        self._tables = tomllib.loads(self._text)
        self._below: list[tuple[int, list[str]]] = []  # line number, lines to add below it
        self._instead: dict[Lines, Any] = {}  # statements with inline tables, as tomlkit has them
        self._appended: list[str] = []

    def table(self, *path: Key) -> Mapping[str, Any]:
        """The user's table at a path; empty where there is none."""
        holder: Any = self._tables
        for key in path:
            try:
                holder = holder[key]
            except (KeyError, IndexError):
                return {}
        return dict(holder)

    def entries(self, name: str) -> list[Mapping[str, Any]]:
        """The user's tables of a list of tables."""
        return list(self._tables.get(name, []))

    def code(self, tooth: int) -> int:
        """A tooth as this sheet writes it."""
        return to_universal(tooth) if self.notation == "universal" else tooth

    def into(self, path: tuple[Key, ...], values: Mapping[str, Value], whys: Whys) -> None:
        """Add keys to a table of the user."""
        place = lines_of(self._text, path)
        if not values or place is None:
            return
        if self._is_header(place):
            self._below.append((place.last, _lines(values, whys)))
            return
        statement = self._statement(place)
        holder: Any = statement
        for key in path[_depth_of_header(path, statement) :]:
            holder = holder[key]
        if not isinstance(holder, InlineTable):  # written with dots: case.alloy = "..."
            dotted = {".".join(map(str, (*path, key))): value for key, value in values.items()}
            self._below.append((place.last, _lines(dotted, whys)))
            return
        for key, value in values.items():
            holder[key] = _item(value)
        _remark(statement, f"{', '.join(values)} {ITSELF}: {_why(whys)}")

    def append(self, name: str, values: Mapping[str, Value], whys: Whys, *, many: bool) -> None:
        """Add a table of the program's own; `many` where there may be several."""
        place = lines_of(self._text, (name,))
        if many and place is not None and not self._is_header(place):
            statement = self._statement(place)
            entry = tomlkit.inline_table()
            entry.update({key: _item(value) for key, value in values.items()})
            statement[name].append(entry)
            _remark(statement, f"{ITSELF}: {_why(whys)}")
            return
        header = f"[[{name}]]" if many else f"[{name}]"
        words = f"  # {ITSELF}: {_why(whys)}"
        self._appended += ["", header + words, *_lines(values, whys)]

    def text(self) -> str:
        """The user's text with everything added."""
        changes = [(number + 1, number, added) for number, added in self._below]
        changes += [
            (place.first, place.last, tomlkit.dumps(statement).splitlines())
            for place, statement in self._instead.items()
        ]
        lines = self._text.splitlines()
        for first, last, new in sorted(changes, key=lambda change: change[:2], reverse=True):
            lines[first - 1 : last] = new
        return "\n".join(lines) + "\n" + self.added()

    def added(self) -> str:
        """The tables of the program's own."""
        return "".join(f"{line}\n" for line in self._appended)

    def _is_header(self, place: Lines) -> bool:
        return self._text.splitlines()[place.last - 1].lstrip().startswith("[")

    def _statement(self, place: Lines) -> Any:  # Any: tomlkit types its items loosely
        """Some lines of the user as a document of their own, to be changed."""
        if place not in self._instead:
            lines = self._text.splitlines()[place.first - 1 : place.last]
            self._instead[place] = tomlkit.parse("\n".join(lines) + "\n")
        return self._instead[place]


def _depth_of_header(path: tuple[Key, ...], statement: Mapping[str, Any]) -> int:
    """How many keys of a path belong to the header above the statement."""
    return next(i for i, key in enumerate(path) if isinstance(key, str) and key in statement)


def _remark(statement: Any, words: str) -> None:
    """Put a comment behind the last value of a statement, unless the user has one there."""
    item = next(reversed(list(statement.values())))
    if not item.trivia.comment:
        item.comment(words)


def _lines(values: Mapping[str, Value], whys: Whys) -> list[str]:
    """Lines `key = value  # proposed: why`."""
    return [
        f"{key} = {toml_text(value)}  # {ITSELF}: {_why(whys, key)}"
        for key, value in values.items()
    ]


def _why(whys: Whys, key: str = "") -> str:
    """The reason of one key, else of the table, on one line."""
    words = whys.get(key.rpartition(".")[2]) or whys.get("") or "the usual figure; confirm"
    return " ".join(words.split())


def toml_text(value: Value) -> str:
    """A value as TOML."""
    return str(value) if isinstance(value, Raw) else str(_item(value).as_string())


def _item(value: Value) -> Any:  # Any: tomlkit types its items loosely
    if isinstance(value, Raw):
        return tomlkit.value(value)
    if isinstance(value, tuple):
        return tomlkit.item([_rounded(part) for part in value])
    return tomlkit.item(_rounded(value))


def _rounded(value: Any) -> Any:
    return round(value, 4) if isinstance(value, float) else value
