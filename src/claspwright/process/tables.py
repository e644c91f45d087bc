"""The tables of this package: limits, specifications, schedules."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from claspwright.limits import Limit

Table = Mapping[str, Any]  # Any: as TOML gives it


@cache
def table(name: str) -> Table:
    """A packaged TOML table."""
    text = files("claspwright.process").joinpath(name).read_text(encoding="utf-8")
    return MappingProxyType(tomllib.loads(text))


@cache
def process_limits() -> Mapping[str, Limit]:
    """The limits of powder, furnace and acrylic by key."""
    rows = table("limits.toml")
    return MappingProxyType({key: Limit(key=key, **row) for key, row in rows.items()})
