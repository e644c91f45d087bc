"""Changes to a sheet, one decision at a time; comments and everything else stay as they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import tomlkit
from tomlkit.items import AoT, InlineTable, Table

from claspwright.arch import Notation, parse_tooth, to_universal
from claspwright.base import InputError

Given = bool | float | int | str | Sequence[int | float | str] | Sequence[Mapping[str, float]]
Values = Mapping[str, Given | None | Mapping[str, Given | None]]  # None takes a key out


def with_table(text: str, name: str, values: Values) -> str:
    """The sheet with keys of a table set, such as `[path]` or `[major_connector]`.

    Args:
        text: a sound sheet.
        name: the table; made where the sheet has none.
        values: by key; None takes the key out.
    """
    document = tomlkit.parse(text)
    if name not in document:
        _end_with_gap(document)
        document.add(name, tomlkit.table())
    _fill(document[name], values)
    return tomlkit.dumps(document)


def without_table(text: str, name: str) -> str:
    """The sheet without a table, so that it is proposed or searched again."""
    document = tomlkit.parse(text)
    if name in document:
        document.remove(name)
    return tomlkit.dumps(document)


def with_retainer(text: str, notation: Notation, tooth: int, values: Values) -> str:
    """The sheet with keys of one tooth's `[[retainer]]` set; the entry is made if need be."""
    return _with_entry(text, "retainer", notation, tooth, values)


def with_mark(text: str, notation: Notation, tooth: int, at_mm: Sequence[float]) -> str:
    """The sheet with the mark of a tooth at a point in the frame of the scan file."""
    point = [round(float(value), 3) for value in at_mm]
    return _with_entry(text, "mark", notation, tooth, {"at_mm": point})


def with_base(text: str, notation: Notation, teeth: Sequence[int], values: Values) -> str:
    """The sheet with keys of the `[[denture_base]]` over these teeth set; made if need be."""
    document = tomlkit.parse(text)
    if "denture_base" not in document:
        _end_with_gap(document)
        document.add("denture_base", tomlkit.aot())
    entries: Any = document["denture_base"]  # Any: tomlkit types its items loosely
    codes = [to_universal(tooth) if notation == "universal" else tooth for tooth in teeth]
    wanted = {str(code) for code in codes}
    entry = next((e for e in entries if {str(c) for c in e.get("teeth", [])} == wanted), None)
    if entry is None:
        entry = tomlkit.table() if isinstance(entries, AoT) else tomlkit.inline_table()
        entry["teeth"] = codes
        entries.append(entry)
        entry = entries[-1]
    _fill(entry, values)
    return tomlkit.dumps(document)


def without_retainer(text: str, notation: Notation, tooth: int) -> str:
    """The sheet without what it says of a retainer on this tooth.

    Raises:
        InputError: the sheet has none there.
    """
    document = tomlkit.parse(text)
    entries = document.get("retainer", [])
    place = _entry_of(entries, notation, tooth)
    if place is None:
        raise InputError(
            f"the sheet has no retainer on {tooth}", place=f"retainer.{tooth}",
            remedy="Choose a tooth that carries one.",
        )  # fmt: skip
    del entries[place]
    if not entries:
        document.remove("retainer")
    return tomlkit.dumps(document)


def _with_entry(text: str, name: str, notation: Notation, tooth: int, values: Values) -> str:
    document = tomlkit.parse(text)
    if name not in document:
        _end_with_gap(document)
        document.add(name, tomlkit.aot())
    entries: Any = document[name]  # Any: tomlkit types its items loosely
    place = _entry_of(entries, notation, tooth)
    if place is None:
        entry: Table | InlineTable = (
            tomlkit.table() if isinstance(entries, AoT) else tomlkit.inline_table()
        )
        entry["tooth"] = to_universal(tooth) if notation == "universal" else tooth
        entries.append(entry)
        place = len(entries) - 1
    _fill(entries[place], values)
    return tomlkit.dumps(document)


def _entry_of(entries: Any, notation: Notation, tooth: int) -> int | None:
    for place, entry in enumerate(entries):
        if parse_tooth(str(entry["tooth"]), notation) == tooth:
            return place
    return None


def _fill(table: Any, values: Values) -> None:
    for key, value in values.items():
        if value is None:
            if key in table:
                table.remove(key)
        elif isinstance(value, Mapping):
            if key not in table:
                table[key] = tomlkit.inline_table()
            _fill(table[key], value)
        elif isinstance(value, list) and value and isinstance(value[0], Mapping):
            table[key] = _tables(value)
        else:
            table[key] = list(value) if isinstance(value, tuple) else value


def _tables(rows: Sequence[Any]) -> Any:  # Any: tomlkit types its items loosely
    """Small tables in one row, as they may stand within another one."""
    array = tomlkit.array()
    for row in rows:
        table = tomlkit.inline_table()
        table.update(row)
        array.append(table)
    return array


def _end_with_gap(document: tomlkit.TOMLDocument) -> None:
    if not tomlkit.dumps(document).endswith("\n\n"):
        document.add(tomlkit.nl())
