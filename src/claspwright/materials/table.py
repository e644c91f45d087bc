"""Alloys and the ISO 22674 types, read from their tables."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from claspwright.base import InputError

_PROPERTIES = (
    "density", "modulus", "poisson", "proof", "tensile", "elongation", "fatigue", "expansion",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Property:
    """One material figure with its range and its source."""

    nominal: float
    low: float  # what a check counts on
    high: float
    source: str
    mark: str  # honesty mark: how far the source can be trusted

    def __post_init__(self) -> None:
        if not 0 < self.low <= self.nominal <= self.high:
            raise InputError(f"needs 0 < low <= nominal <= high, got {self}")

    @property
    def cited(self) -> str:
        """The source with its honesty mark, as findings print it."""
        return f"{self.source} [{self.mark}]"


@dataclass(frozen=True, slots=True)
class Material:
    """An alloy in the state in which it leaves the furnace."""

    name: str  # as in the case sheet
    title: str
    process: str
    iso22674_type: int
    elements: tuple[str, ...]  # above 1 % by mass
    traces: tuple[str, ...]  # allergens that may be present below that
    density: Property  # g/cm3
    modulus: Property  # MPa
    poisson: Property  # 1
    proof: Property  # 0.2 % proof stress, MPa; low is the class minimum
    tensile: Property  # MPa
    elongation: Property  # %
    fatigue: Property  # strength at 1e7 cycles, MPa
    expansion: Property  # 1e-6 per kelvin

    def mass_g(self, volume_mm3: float) -> float:
        """Mass of a volume at the nominal density [g]."""
        return self.density.nominal * volume_mm3 / 1000.0


@dataclass(frozen=True, slots=True)
class TypeLimits:
    """Least figures of one ISO 22674 type; zero where there is none."""

    type: int
    proof_mpa: float
    elongation_percent: float
    modulus_mpa: float
    source: str
    mark: str


@cache
def materials() -> Mapping[str, Material]:
    """Every alloy by its name."""
    return MappingProxyType({name: _alloy(name, row) for name, row in _table("alloys").items()})


@cache
def wires() -> Mapping[str, Material]:
    """Every wrought wire by its name."""
    return MappingProxyType({name: _alloy(name, row) for name, row in _table("wires").items()})


def material(name: str) -> Material:
    """The alloy of this name.

    Raises:
        InputError: no such alloy.
    """
    try:
        return materials()[name]
    except KeyError:
        raise InputError(
            f"no alloy {name!r} in the tables", remedy=f"Known ones: {', '.join(materials())}"
        ) from None


@cache
def iso22674(kind: int) -> TypeLimits:
    """The least figures of an ISO 22674 type (0 to 5).

    Raises:
        InputError: no such type.
    """
    row = _table("iso22674").get(str(kind))
    if row is None:
        raise InputError(f"ISO 22674 has types 0 to 5, got {kind}")
    return TypeLimits(type=kind, **row)


@dataclass(frozen=True, slots=True)
class Condition:
    """What a proof assumes beside the alloy: a figure with its range."""

    key: str  # such as "friction"
    title: str
    unit: str
    value: Property


@cache
def conditions() -> Mapping[str, Condition]:
    """Every assumption of a proof by its key."""
    found = {}
    for key, row in _table("conditions").items():
        title, unit = row.pop("title"), row.pop("unit")
        found[key] = Condition(key, title, unit, Property(**row))
    return MappingProxyType(found)


def condition(key: str) -> Property:
    """An assumption of a proof with its range.

    Raises:
        InputError: no such assumption.
    """
    try:
        return conditions()[key].value
    except KeyError:
        raise InputError(
            f"no condition {key!r} in the tables", remedy=f"Known ones: {', '.join(conditions())}"
        ) from None


@dataclass(frozen=True, slots=True)
class PublishedLife:
    """Published fatigue by direction of building: of clasps, and of bars of the same alloy."""

    clasps: tuple[tuple[str, float, int], ...]  # made, constant deflection [mm], cycles
    bars: tuple[tuple[str, float], ...]  # made, fatigue strength [MPa]
    clasp_source: str
    bar_source: str


@cache
def published_life() -> PublishedLife:
    """The published figures as they are; they disagree on the direction of building."""
    table = _table("clasp_life")
    return PublishedLife(
        tuple((r["made"], r["deflection_mm"], r["cycles"]) for r in _rows(table, "clasp")),
        tuple((r["made"], r["strength_mpa"]) for r in _rows(table, "bar")),
        table["sources"]["clasp"],
        table["sources"]["bar"],
    )


def _rows(table: Mapping[str, Any], key: str) -> list[dict[str, Any]]:
    return list(table[key])


def _alloy(name: str, row: Mapping[str, Any]) -> Material:
    figures = {key: Property(**row[key]) for key in _PROPERTIES}
    return Material(
        name=name,
        title=row["title"],
        process=row["process"],
        iso22674_type=row["iso22674_type"],
        elements=tuple(row["elements"]),
        traces=tuple(row["traces"]),
        **figures,
    )


def _table(name: str) -> dict[str, dict[str, Any]]:
    text = files("claspwright.materials").joinpath(f"{name}.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)
