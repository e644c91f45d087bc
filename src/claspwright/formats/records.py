"""Machine and process records: TOML to values, with messages that name the key."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from importlib.resources import files
from pathlib import Path
from typing import Any, TypeVar, get_type_hints

from pydantic import TypeAdapter, ValidationError

from claspwright.base import InputError
from claspwright.build import Machine, Process

T = TypeVar("T")


def machine_names() -> tuple[str, ...]:
    """Names of the invented machines that come with the program."""
    return _names("machines")


def process_names() -> tuple[str, ...]:
    """Names of the invented processes that come with the program."""
    return _names("processes")


def read_machine(name_or_file: str | Path) -> Machine:
    """A machine record by the name of one that comes along, or by the path of a TOML file.

    Raises:
        InputError: no such record, or one that cannot be used.
    """
    return _read(name_or_file, "machines", Machine)


def read_process(name_or_file: str | Path) -> Process:
    """A process record by the name of one that comes along, or by the path of a TOML file.

    Raises:
        InputError: no such record, or one that cannot be used.
    """
    return _read(name_or_file, "processes", Process)


def _names(folder: str) -> tuple[str, ...]:
    entries = files("claspwright.formats").joinpath(folder).iterdir()
    return tuple(sorted(e.name[:-5] for e in entries if e.name.endswith(".toml")))


def _read(name_or_file: str | Path, folder: str, kind: type[T]) -> T:
    name = str(name_or_file)
    if name in _names(folder):
        text = files("claspwright.formats").joinpath(f"{folder}/{name}.toml").read_text("utf-8")
    else:
        path = Path(name_or_file)
        if not path.is_file():
            raise InputError(
                f"there is no {kind.__name__.lower()} record of this name and no such file",
                place=name,
                remedy=f"Known names: {', '.join(_names(folder))}; or give a TOML file.",
            )
        text, name = path.read_text(encoding="utf-8"), path.stem
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InputError(f"not TOML: {error}", place=str(name_or_file)) from None
    return parsed(table, kind, name, str(name_or_file))


def parsed(table: Mapping[str, Any], kind: type[T], name: str, place: str) -> T:
    """A record from the tables of its file; the file's own name is the record's.

    Raises:
        InputError: a key is missing, unknown or has a value that cannot be used.
    """
    full = {"name": name, **table}
    unknown = _unknown(full, kind, "")
    if unknown:
        raise InputError(
            f"unknown key {unknown[0]!r}", place=place, remedy="See docs/build.md for the keys."
        )
    try:
        return TypeAdapter(kind).validate_python(full)
    except ValidationError as error:
        first = error.errors()[0]
        key = ".".join(str(step) for step in first["loc"]) or kind.__name__.lower()
        what = first["msg"].removeprefix("Value error, ")
        raise InputError(f"{key}: {what}", place=place) from None


def _unknown(table: Mapping[str, Any], kind: Any, prefix: str) -> list[str]:
    """Keys that no field of the record takes, with those of inner tables."""
    known = {field.name for field in fields(kind)}
    types = get_type_hints(kind)
    out = [prefix + key for key in table if key not in known]
    for key, value in table.items():
        if key in known and isinstance(value, dict) and is_dataclass(types[key]):
            out += _unknown(value, types[key], f"{prefix}{key}.")
    return out
