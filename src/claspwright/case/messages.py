"""What is wrong with a sheet, in words with a remedy."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from claspwright.case.model import Sheet
from claspwright.case.places import Key


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong, and where in the sheet."""

    path: tuple[Key, ...]
    what: str
    remedy: str


def problems_of(error: ValidationError) -> list[Problem]:
    """Each complaint of pydantic in words of the sheet."""
    details = error.errors()
    unknown = {
        (detail["loc"][:-1], nearest(str(detail["loc"][-1]), _keys_at(detail["loc"][:-1])))
        for detail in details
        if detail["type"] == "extra_forbidden"
    }
    # A key that is missing because it is misspelt is one problem, not two.
    return [
        _problem(detail)
        for detail in details
        if not (detail["type"] == "missing" and (detail["loc"][:-1], detail["loc"][-1]) in unknown)
    ]


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that looks most like the given one, if any does."""
    by_lower = {name.lower(): name for name in known}
    close = difflib.get_close_matches(word.lower(), list(by_lower), n=1, cutoff=0.55)
    return by_lower[close[0]] if close else None


def _problem(detail: ErrorDetails) -> Problem:
    path = tuple(detail["loc"])
    name = named(path)
    given = detail.get("input")
    kind = detail["type"]
    if kind == "extra_forbidden":
        return Problem(path, f"unknown key {name}", _known_keys(path))
    if kind == "missing":
        return Problem(path, f"{name} is missing", _example(path))
    if kind == "literal_error":
        return _not_among(path, given, detail)
    if kind in _BOUNDS:
        limit = next(iter(detail.get("ctx", {}).values()))
        what = f"{name} = {given} is out of range"
        return Problem(path, what, f"It must be {_BOUNDS[kind]} {limit}.")
    if kind in ("list_type", "tuple_type", "model_type", "model_attributes_type", "dict_type"):
        return Problem(path, f"{name} has the wrong shape", _shape(path))
    wanted = _WANTED.get(kind, detail["msg"].lower())
    return Problem(path, f"{name} = {given!r} cannot be read", f"It must be {wanted}.")


_BOUNDS = {
    "greater_than": "above",
    "greater_than_equal": "at least",
    "less_than": "below",
    "less_than_equal": "at most",
}
_WANTED = {
    "float_type": "a number, without quotes",
    "finite_number": "a finite number",
    "int_type": "a whole number",
    "string_type": 'text in quotes, "like this"',
    "string_too_short": "text that is not empty",
    "bool_type": "true or false, without quotes",
    "date_from_datetime_parsing": "a date such as 2026-12-04",
    "date_parsing": "a date such as 2026-12-04",
    "date_type": "a date such as 2026-12-04",
    "too_short": "a list with at least one entry",
}
_EXAMPLES = {
    ("case",): 'Add a table [case] with alloy = "cocr-lpbf-stress-relieved".',
    ("case", "alloy"): 'Add alloy = "cocr-lpbf-stress-relieved" to [case].',
    ("scans",): 'Add a table [scans] with master = "scans/lower.stl".',
    ("scans", "master"): 'Add master = "scans/lower.stl" to [scans].',
    ("teeth",): "Add a table [teeth] with missing = [36, 37, 46].",
    ("teeth", "missing"): "Add missing = [36, 37, 46], with every absent tooth, to [teeth].",
}


def named(path: tuple[Key, ...]) -> str:
    """A key path as a person would say it: `undercut_mm` in [[retainer]] 2, clasp."""
    if len(path) == 1:
        return f"[{path[0]}]" if path[0] in _TABLES else f"`{path[0]}`"
    head, *rest = path
    where = f"[{head}]"
    if rest and isinstance(rest[0], int):
        where = f"[[{head}]] {rest[0] + 1}"
        rest = rest[1:]
    if not rest:
        return where
    words = [str(key + 1) if isinstance(key, int) else str(key) for key in rest]
    if isinstance(rest[-1], int):
        return f"entry {words[-1]} of `{'.'.join(words[:-1])}` in {where}"
    inner = f", {'.'.join(words[:-1])}" if words[:-1] else ""
    return f"`{words[-1]}` in {where}{inner}"


def _example(path: tuple[Key, ...]) -> str:
    if isinstance(path[-1], int):
        return "Give three numbers in mm: at_mm = [24.1, -3.2, 6.8]."
    return _EXAMPLES.get(tuple(map(str, path)), f"Add a line `{path[-1]} = ...`.")


def _shape(path: tuple[Key, ...]) -> str:
    head = str(path[0])
    if len(path) == 1 and head in _REPEATED:
        return f"Write it as [[{head}]], once for each."
    if head in _TABLES and (len(path) == 1 or isinstance(path[-1], int) and len(path) == 2):
        return f"Write it as a table [{head}] with its keys below."
    return "Write a list in square brackets, such as [36, 37]."


def _not_among(path: tuple[Key, ...], given: Any, detail: ErrorDetails) -> Problem:
    allowed = [a or b for a, b in re.findall(r"'([^']*)'|(\d+)", detail["ctx"]["expected"])]
    if path == ("claspwright",):
        return Problem(
            path,
            f"the sheet is of version {given!r}; this program reads version {allowed[0]}",
            f"Write claspwright = {allowed[0]}, or use a newer program.",
        )
    close = nearest(str(given), allowed)
    hint = f'Did you mean "{close}"? ' if close else ""
    choice = ", ".join(f'"{word}"' for word in allowed)
    return Problem(path, f"{named(path)} = {given!r} is not known", f"{hint}Known: {choice}.")


def _known_keys(path: tuple[Key, ...]) -> str:
    """Which key was meant, where it belongs, or which there are."""
    known = _keys_at(path[:-1])
    word = str(path[-1])
    elsewhere = [table for table, fields in _KEYS.items() if word in fields]
    if elsewhere and word not in known:
        return f"`{word}` belongs into {' or '.join(elsewhere)}."
    close = nearest(word, known)
    if close:
        return f"Did you mean `{close}`?"
    close = nearest(word, [key for fields in _KEYS.values() for key in fields])
    if close:
        tables = [table for table, fields in _KEYS.items() if close in fields]
        return f"Did you mean `{close}` in {' or '.join(tables)}?"
    return f"Known here: {', '.join(known)}."


def _keys_at(path: tuple[Key, ...]) -> list[str]:
    model = _model_at(path)
    return list(model.model_fields) if model else []


def _model_at(path: tuple[Key, ...]) -> type[BaseModel] | None:
    """The model that a key path leads to."""
    model: type[BaseModel] = Sheet
    for key in path:
        if isinstance(key, int):
            continue
        field = model.model_fields.get(key)
        inner = _inner_model(field.annotation) if field is not None else None
        if inner is None:
            return None
        model = inner
    return model


def _inner_model(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for part in get_args(annotation):
        inner = _inner_model(part)
        if inner is not None:
            return inner
    return None


def _is_repeated(annotation: Any) -> bool:
    return getattr(annotation, "__origin__", None) is list


_TABLES = tuple(
    name for name, field in Sheet.model_fields.items() if _inner_model(field.annotation)
)
_REPEATED = tuple(name for name in _TABLES if _is_repeated(Sheet.model_fields[name].annotation))
_KEYS = {
    (f"[[{name}]]" if name in _REPEATED else f"[{name}]"): list(model.model_fields)
    for name in _TABLES
    if (model := _inner_model(Sheet.model_fields[name].annotation)) is not None
}
