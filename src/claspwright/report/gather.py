"""Findings that say the same of several places, told once."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from claspwright.base import Finding

LEAST = 3  # so many that differ in figures alone are told together
_FIGURES = re.compile(r"\d+(?:\.\d+)?")


@dataclass(frozen=True, slots=True)
class Gathered:
    """A finding, and the others that say the same of other places."""

    first: Finding
    others: tuple[Finding, ...] = ()


def gathered(findings: tuple[Finding, ...]) -> tuple[Gathered, ...]:
    """Findings of one rule whose sentences differ in figures alone, gathered; a stop never is.

    Each group stands where its first finding stood.
    """
    groups: dict[tuple[str, ...], list[Finding]] = {}
    for index, finding in enumerate(findings):
        sentence = _FIGURES.sub("#", finding.text.replace(finding.component or "\n", "#"))
        key = (finding.rule, finding.severity, finding.source, finding.unit, sentence)
        alone = finding.severity == "stop"
        groups.setdefault((*key, str(index)) if alone else key, []).append(finding)
    out: list[tuple[int, Gathered]] = []
    place = {id(finding): index for index, finding in enumerate(findings)}
    for group in groups.values():
        if len(group) < LEAST:
            out += [(place[id(f)], Gathered(f)) for f in group]
        else:
            out.append((place[id(group[0])], Gathered(group[0], tuple(group[1:]))))
    return tuple(one for _, one in sorted(out, key=lambda pair: pair[0]))


def with_signs(finding: Finding) -> Finding:
    """The finding with degree signs where its words spell them out."""
    return replace(finding, text=degrees(finding.text), source=degrees(finding.source))


def degrees(text: str) -> str:
    """800 degC as 800 °C, 3 deg (or 3 degrees) as 3°, and 5 mm2 as 5 mm²."""
    text = re.sub(r"(\d) ?degC\b", "\\1\N{NO-BREAK SPACE}°C", text)
    text = re.sub(r"(\d) mm([23])\b", lambda m: f"{m[1]} mm{'²³'[int(m[2]) - 2]}", text)
    return re.sub(r"(\d) ?(?:deg|degrees)\b", r"\1°", text)
