"""One dimension rule, and the tables they are read from."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from claspwright.base import InputError, Severity

MARKS = ("seen A", "seen B", "seen C", "memory", "common practice", "derived", "own")
_TABLES = ("rests.toml", "clasps.toml", "connectors.toml", "bases.toml", "proof.toml")
_ORDER: tuple[Severity, ...] = ("stop", "look", "note")


@dataclass(frozen=True, slots=True)
class Limit:
    """A dimension with its default, its thresholds and where they come from.

    `value` is what a design takes when nothing else is asked for. A measured figure strictly
    below a `*_below` or strictly above a `*_above` threshold is due a finding of that severity.
    """

    key: str  # such as "rest.thickness"
    title: str
    unit: str
    value: float
    source: str
    mark: str  # one of MARKS: how far the source can be trusted
    stop_below: float | None = None
    look_below: float | None = None
    note_below: float | None = None
    stop_above: float | None = None
    look_above: float | None = None
    note_above: float | None = None

    def __post_init__(self) -> None:
        if self.mark not in MARKS:
            raise InputError(f"unknown honesty mark {self.mark!r}", place=self.key)
        for word, sign in (("below", 1.0), ("above", -1.0)):
            ladder = [self._threshold(severity, word) for severity in _ORDER]
            given = [sign * step for step in ladder if step is not None]
            if given != sorted(given):
                raise InputError(f"thresholds {ladder} are out of order", place=self.key)

    @property
    def cited(self) -> str:
        """The source with its honesty mark, as findings print it."""
        return f"{self.source} [{self.mark}]"

    def judge(self, measured: float) -> tuple[Severity, float] | None:
        """The severity of a measured figure and the threshold it breaks; None when it holds."""
        for severity in _ORDER:
            low = self._threshold(severity, "below")
            if low is not None and measured < low:
                return severity, low
            high = self._threshold(severity, "above")
            if high is not None and measured > high:
                return severity, high
        return None

    def _threshold(self, severity: Severity, word: str) -> float | None:
        found: float | None = getattr(self, f"{severity}_{word}")
        return found


@cache
def limits() -> Mapping[str, Limit]:
    """Every dimension rule by its key, in the order of the tables.

    Raises:
        InputError: a table is malformed or two rules share a key.
    """
    found: dict[str, Limit] = {}
    for name in _TABLES:
        text = files("claspwright.limits").joinpath(name).read_text(encoding="utf-8")
        for key, row in tomllib.loads(text).items():
            if key in found:
                raise InputError(f"dimension rule {key!r} is listed twice", place=name)
            found[key] = _row(key, row, name)
    return MappingProxyType(found)


def limit(key: str) -> Limit:
    """The dimension rule of this key.

    Raises:
        InputError: no such rule.
    """
    try:
        return limits()[key]
    except KeyError:
        known = ", ".join(limits())
        raise InputError(f"no dimension rule {key!r}", remedy=f"Known ones: {known}") from None


def _row(key: str, row: Mapping[str, Any], table: str) -> Limit:
    try:
        return Limit(key=key, **row)
    except TypeError as error:
        raise InputError(f"malformed dimension rule: {error}", place=f"{table}, {key}") from error
