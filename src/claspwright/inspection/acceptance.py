"""Acceptance of a finished framework: limits with their sources, and findings."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from claspwright.base import Finding, InputError, Point
from claspwright.inspection.deviation import DeviationFigures
from claspwright.limits import Limit


@cache
def acceptance_limits() -> Mapping[str, Limit]:
    """The limits as shipped, by key."""
    text = files("claspwright.inspection").joinpath("acceptance.toml").read_text(encoding="utf-8")
    return limits_from(text, place="acceptance.toml")


def limits_from(text: str, *, place: str) -> Mapping[str, Limit]:
    """Limits from a TOML text: the shipped ones, replaced or joined by the laboratory's own.

    Raises:
        InputError: the text is not TOML, or a row is malformed.
    """
    try:
        rows = tomllib.loads(text)
        found = {key: Limit(key=key, **row) for key, row in rows.items()}
    except (tomllib.TOMLDecodeError, TypeError) as error:
        raise InputError(f"malformed limits: {error}", place=place) from error
    return MappingProxyType(found)


def judge_surface(
    figures: DeviationFigures,
    limits: Mapping[str, Limit],
    *,
    component: str = "",
    at_mm: Point | None = None,
) -> tuple[Finding, ...]:
    """Bias and 95th percentile of the deviation against their limits; empty where they hold."""
    out = []
    for key, value, words in (
        ("fit.surface_bias", abs(figures.bias_um) / 1000.0, "mean deviation"),
        ("fit.surface_p95", figures.p95_um / 1000.0, "95th percentile of the deviation"),
    ):
        found = judged(key, value, limits, words, component=component, at_mm=at_mm)
        out += [found] if found else []
    return tuple(out)


def judged(
    key: str,
    value: float,
    limits: Mapping[str, Limit],
    words: str,
    *,
    component: str = "",
    at_mm: Point | None = None,
) -> Finding | None:
    """A finding where a value breaks its limit."""
    limit = limits[key]
    broken = limit.judge(value)
    if broken is None:
        return None
    severity, threshold = broken
    return Finding(
        rule=key,
        severity=severity,
        text=f"The {words} is {value:.3f} {limit.unit}; adjust, or make the framework anew.",
        source=limit.cited,
        measured=round(value, 4),
        limit=threshold,
        unit=limit.unit,
        at_mm=at_mm,
        component=component,
    )
