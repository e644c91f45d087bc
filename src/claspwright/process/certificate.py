"""The certificate of a lot of feedstock against the alloy's specification."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from claspwright.base import Finding, InputError, Severity
from claspwright.process.tables import table

ROUNDING_PERCENT = 1e-9


@dataclass(frozen=True, slots=True)
class Certificate:
    """What the maker certifies of a lot."""

    lot: str
    percent: Mapping[str, float]  # element: percent by mass
    size_um: tuple[float, float] | None = None  # D10, D90
    apparent_density_g_cm3: float | None = None
    shown: frozenset[str] = field(default_factory=frozenset)  # further items that it shows


def judge_certificate(certificate: Certificate, alloy: str) -> tuple[Finding, ...]:
    """Everything in a certificate that breaks the specification of an alloy.

    Raises:
        InputError: no specification is kept for the alloy.

    Source:
        check-values D02, D10, D50, D54, D55; the table carries its sources.
    """
    spec = _specification(alloy)
    cited = f"{spec['source']} [{spec['mark']}]"
    out = []
    missing: dict[Severity, list[str]] = {"stop": [], "look": []}
    for element, limit in spec["percent"].items():
        percent = certificate.percent.get(element)
        if percent is None:
            if element != "Co":  # the balance
                missing["stop" if limit["low"] > 0 else "look"].append(element)
            continue
        out += _range("certificate.chemistry", f"{element} of lot {certificate.lot}", percent,
                      limit, "%", cited, "stop")  # fmt: skip
    for severity, elements in missing.items():
        if elements:
            text = f"The certificate of lot {certificate.lot} shows no {', '.join(elements)}; "
            text += "ask its maker."
            out.append(Finding("certificate.missing", severity, text, cited))
    out += _hazardous(certificate)
    if certificate.size_um is not None:
        for word, value in zip(("D10", "D90"), certificate.size_um, strict=True):
            out += _range("certificate.size", f"{word} of lot {certificate.lot}", value,
                          spec["size_um"], "um", "size fraction 15 to 45, at most 10 to 63 um "
                          "[common practice]", "look")  # fmt: skip
    if certificate.apparent_density_g_cm3 is not None:
        out += _range("certificate.density", f"apparent density of lot {certificate.lot}",
                      certificate.apparent_density_g_cm3, spec["apparent_density_g_cm3"],
                      "g/cm3", "gas-atomised cobalt-chromium, 4.2 to 4.6 g/cm3 [memory]",
                      "look")  # fmt: skip
    return tuple(out + _items(certificate, spec))


def _items(certificate: Certificate, spec: dict[str, Any]) -> list[Finding]:
    have = set(certificate.shown) | {"lot"} | ({"chemistry"} if certificate.percent else set())
    have |= {"size"} if certificate.size_um else set()
    have |= {"density"} if certificate.apparent_density_g_cm3 is not None else set()
    missing = [item for item in spec["required"] if item not in have]
    if not missing:
        return []
    text = f"The certificate of lot {certificate.lot} does not show: {', '.join(missing)}."
    source = f"{spec['required_source']} [{spec['required_mark']}]"
    return [Finding("certificate.items", "look", text, source)]


def _hazardous(certificate: Certificate) -> list[Finding]:
    rules = table("specification.toml")["hazardous"]
    cited = f"{rules['source']} [{rules['mark']}]"
    out = []
    for element, limit in rules["stop_above"].items():
        percent = certificate.percent.get(element, 0.0)
        if percent > limit:
            text = f"Lot {certificate.lot} holds {percent:g} % {element}, a hazardous element."
            out.append(Finding("certificate.hazardous", "stop", text, cited, percent, limit, "%"))
    for element, limit in rules["declare_above"].items():
        percent = certificate.percent.get(element, 0.0)
        if percent > limit:
            text = f"Lot {certificate.lot} holds {percent:g} % {element}: declare it, with warning."
            out.append(Finding("certificate.declare", "look", text, cited, percent, limit, "%"))
    return out


def _range(
    rule: str, words: str, value: float, limit: Mapping[str, float], unit: str, source: str,
    severity: Severity,
) -> list[Finding]:  # fmt: skip
    low, high = limit["low"], limit["high"]
    if low - ROUNDING_PERCENT <= value <= high + ROUNDING_PERCENT:
        return []
    text = f"{words} is {value:g} {unit}, outside {low:g} to {high:g} {unit}."
    edge = low if value < low else high
    return [Finding(rule, severity, text, source, value, edge, unit)]


def _specification(alloy: str) -> dict[str, Any]:  # Any: as TOML gives it
    for name, spec in table("specification.toml").items():
        if name != "hazardous" and alloy in (name, *spec["alloys"]):
            return dict(spec)
    known = [n for n in table("specification.toml") if n != "hazardous"]
    raise InputError(
        f"no feedstock specification for the alloy {alloy!r}",
        remedy=f"Kept are: {', '.join(known)}.",
    )
