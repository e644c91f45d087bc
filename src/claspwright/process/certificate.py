"""The certificate of a lot of feedstock against the alloy's specification."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from claspwright.base import Finding, InputError, Severity
from claspwright.process.tables import table

ROUNDING_PERCENT = 1e-9
SIZE_SOURCE = "size fraction 15 to 45, at most 10 to 63 um [common practice]"
DENSITY_SOURCE = "gas-atomised cobalt-chromium, 4.2 to 4.6 g/cm3 [memory]"


@dataclass(frozen=True, slots=True)
class Certificate:
    """What the maker certifies of a lot."""

    lot: str
    percent: Mapping[str, float]  # element: percent by mass
    size_um: tuple[float, float] | None = None  # D10, D90
    apparent_density_g_cm3: float | None = None
    shown: frozenset[str] = field(default_factory=frozenset)  # further items that it shows


@dataclass(frozen=True, slots=True)
class CertificateRow:
    """One value of a certificate against one limit, or an item that it must show."""

    rule: str
    item: str  # an element, D10, D90, apparent density, or what must be shown
    value: float | None  # None: not shown, or an item without a value
    low: float | None  # None: no limit below
    high: float | None  # None: no limit above; with `low` None: no limit is kept
    unit: str
    shown: bool
    severity: Severity | None  # None: it holds
    source: str


def certificate_rows(certificate: Certificate, alloy: str) -> tuple[CertificateRow, ...]:
    """Every value of a certificate against its limit, and every item that it must show.

    Raises:
        InputError: no specification is kept for the alloy.

    Source:
        check-values D02, D10, D50, D54, D55; the table carries its sources.
    """
    spec = _specification(alloy)
    cited = f"{spec['source']} [{spec['mark']}]"
    out = []
    for element, limit in spec["percent"].items():
        value = certificate.percent.get(element)
        if value is None and element != "Co":  # the balance
            lacking: Severity = "stop" if limit["low"] > 0 else "look"
            out.append(CertificateRow("certificate.missing", element, None, limit["low"],
                                      limit["high"], "%", False, lacking, cited))  # fmt: skip
        else:
            out.append(_row("certificate.chemistry", element, value, limit, "%", cited, "stop"))
    out += _hazardous(certificate)
    limited = {row.item for row in out}
    out += [
        CertificateRow("certificate.chemistry", element, value, None, None, "%", True, None, "")
        for element, value in certificate.percent.items() if element not in limited
    ]  # fmt: skip
    for word, value in zip(("D10", "D90"), certificate.size_um or (None, None), strict=True):
        out.append(
            _row("certificate.size", word, value, spec["size_um"], "um", SIZE_SOURCE, "look")
        )
    density = certificate.apparent_density_g_cm3
    out.append(_row("certificate.density", "apparent density", density,
                    spec["apparent_density_g_cm3"], "g/cm3", DENSITY_SOURCE, "look"))  # fmt: skip
    return tuple(out + _items(certificate, spec))


def judge_certificate(certificate: Certificate, alloy: str) -> tuple[Finding, ...]:
    """Everything in a certificate that breaks the specification of an alloy; see the rows.

    Raises:
        InputError: no specification is kept for the alloy.
    """
    rows = certificate_rows(certificate, alloy)
    lot = certificate.lot
    out = []
    for rule in ("certificate.chemistry", "certificate.missing", "certificate.hazardous",
                 "certificate.declare", "certificate.size", "certificate.density",
                 "certificate.items"):  # fmt: skip
        broken = [row for row in rows if row.rule == rule and row.severity is not None]
        if rule == "certificate.missing":
            for severity in ("stop", "look"):
                named = ", ".join(row.item for row in broken if row.severity == severity)
                if named:
                    text = f"The certificate of lot {lot} shows no {named}; ask its maker."
                    out.append(Finding(rule, severity, text, broken[0].source))
        elif rule == "certificate.items" and broken:
            named = ", ".join(row.item for row in broken)
            text = f"The certificate of lot {lot} does not show: {named}."
            out.append(Finding(rule, "look", text, broken[0].source))
        else:
            out += [_finding(row, lot) for row in broken]
    return tuple(out)


def _finding(row: CertificateRow, lot: str) -> Finding:
    assert row.value is not None and row.severity is not None
    held = f"Lot {lot} holds {row.value:g} % {row.item}"
    if row.rule == "certificate.hazardous":
        text, edge = f"{held}, a hazardous element.", row.high
    elif row.rule == "certificate.declare":
        text, edge = f"{held}: declare it, with warning.", row.high
    else:
        assert row.low is not None and row.high is not None
        span = f"{row.low:g} to {row.high:g} {row.unit}"
        text = f"{row.item} of lot {lot} is {row.value:g} {row.unit}, outside {span}."
        edge = row.low if row.value < row.low else row.high
    return Finding(row.rule, row.severity, text, row.source, row.value, edge, row.unit)


def _items(certificate: Certificate, spec: dict[str, Any]) -> list[CertificateRow]:
    have = set(certificate.shown) | {"lot"} | ({"chemistry"} if certificate.percent else set())
    have |= {"size"} if certificate.size_um else set()
    have |= {"density"} if certificate.apparent_density_g_cm3 is not None else set()
    source = f"{spec['required_source']} [{spec['required_mark']}]"
    return [
        CertificateRow("certificate.items", item, None, None, None, "", item in have,
                       None if item in have else "look", source)
        for item in spec["required"]
    ]  # fmt: skip


def _hazardous(certificate: Certificate) -> list[CertificateRow]:
    rules = table("specification.toml")["hazardous"]
    cited = f"{rules['source']} [{rules['mark']}]"
    limits: tuple[tuple[str, str, Severity], ...] = (
        ("certificate.hazardous", "stop_above", "stop"),
        ("certificate.declare", "declare_above", "look"),
    )
    return [
        CertificateRow(rule, element, certificate.percent.get(element), None, limit, "%",
                       element in certificate.percent,
                       severity if certificate.percent.get(element, 0.0) > limit else None, cited)
        for rule, key, severity in limits
        for element, limit in rules[key].items()
    ]  # fmt: skip


def _row(
    rule: str, item: str, value: float | None, limit: Mapping[str, float], unit: str,
    source: str, severity: Severity,
) -> CertificateRow:  # fmt: skip
    low, high = limit["low"], limit["high"]
    holds = value is None or low - ROUNDING_PERCENT <= value <= high + ROUNDING_PERCENT
    return CertificateRow(
        rule, item, value, low, high, unit, value is not None, None if holds else severity, source
    )


def feedstocks() -> dict[str, tuple[str, ...]]:
    """Title of each specification that is kept, with the names that it goes by."""
    rows = {name: spec for name, spec in table("specification.toml").items() if name != "hazardous"}
    return {str(spec["title"]): (*spec["alloys"], name) for name, spec in rows.items()}


def _specification(alloy: str) -> dict[str, Any]:  # Any: as TOML gives it
    for name, spec in table("specification.toml").items():
        if name != "hazardous" and alloy in (name, *spec["alloys"]):
            return dict(spec)
    known = [n for n in table("specification.toml") if n != "hazardous"]
    raise InputError(
        f"no feedstock specification for the alloy {alloy!r}",
        remedy=f"Kept are: {', '.join(known)}.",
    )
