"""The laboratory's month: what was made, what it took, what went wrong, out of the register."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from statistics import mean, median
from typing import Any

from claspwright.base import InputError
from claspwright.inspection import (
    Capability,
    ControlChart,
    acceptance_limits,
    capability,
    control_chart,
)
from claspwright.records import Register


@dataclass(frozen=True, slots=True)
class Rates:
    """What things cost in this laboratory; its own figures."""

    currency: str = "EUR"
    powder_per_g: float = 0.25
    machine_per_build: float = 180.0
    furnace_per_hour: float = 9.0
    labour_per_framework: float = 140.0
    casting_per_framework: float = 0.0  # lost-wax, by the laboratory's own numbers; 0: not given
    casting: Casting | None = None  # the same by its shares
    given: bool = False  # by the laboratory; else those of an example


@dataclass(frozen=True, slots=True)
class Casting:
    """What one lost-wax framework costs in this laboratory; its own figures, none is assumed."""

    alloy_g: float  # melted for one, sprues too
    alloy_per_g: float
    materials: float  # wax, duplicating mass, investment, gas
    labour: float
    remake_share: float = 0.0  # of castings that are made again

    def __post_init__(self) -> None:
        if not 0.0 <= self.remake_share < 1.0:
            raise InputError(f"a share of remakes of {self.remake_share} is none",
                             remedy="Give 0.05 for five of a hundred.")  # fmt: skip

    def shares(self) -> dict[str, float]:
        """Cost of one good framework by share."""
        good = 1.0 - self.remake_share
        return {
            "alloy": self.alloy_g * self.alloy_per_g / good,
            "materials": self.materials / good,
            "labour": self.labour / good,
        }


@dataclass(frozen=True, slots=True)
class Month:
    """Figures of a month."""

    cases: int
    frameworks: int
    sent: int
    turnaround_days: float | None  # median, received to sent
    late: int
    remakes: Mapping[str, int]  # by cause
    builds: int
    powder_melted_g: float
    powder_lost_g: float
    furnace_hours: float
    furnace_failed: int
    cost_per_framework: float | None  # of those that were good
    casting_per_framework: float
    currency: str
    gaps: ControlChart | None
    gap_capability: Capability | None
    bias_by_place_um: Mapping[str, float]  # mean deviation by place on the platform
    cost_by_share: Mapping[str, float]  # of a good framework; empty where there was none
    casting_by_share: Mapping[str, float]  # empty where it was not given
    adjusted_um: float | None  # metal taken away at the try-in, mean of those tried in
    complaints: int
    rates_given: bool  # costs rest on the laboratory's own prices; else on those of an example


def month_of(register: Register, first: str, last: str, rates: Rates) -> Month:
    """Figures over everything made from one day to another, both included.

    Raises:
        InputError: the days are in the wrong order.
    """
    if first > last:
        raise InputError(f"{first} lies after {last}")
    parts = dict(register.all_of("part"))
    builds = {
        id_: body for id_, body in register.all_of("build")
        if first <= body.get("started", first)[:10] <= last
    }  # fmt: skip
    mine = {id_: body for id_, body in parts.items() if body["build"] in builds}
    cases = {id_: body for id_, body in register.all_of("case")
             if id_ in {body["case"] for body in mine.values()}}  # fmt: skip
    sent = {i: b for i, b in register.all_of("dispatch") if first <= b.get("sent", "")[:10] <= last}
    runs = [b for _, b in register.all_of("furnace_run") if set(b["builds"]) & set(builds)]
    checks = [(i, b) for i, b in register.all_of("inspection") if b["part"] in mine]
    melted = sum(b.get("parts_g", 0.0) + b.get("supports_g", 0.0) for b in builds.values())
    hours = sum(b.get("hours", 0.0) for b in runs)
    gaps = [b["rest_gap_um"] for _, b in checks if "rest_gap_um" in b]
    good = sum(1 for _, b in checks if b["passed"])
    most = 1000.0 * float(acceptance_limits()["fit.rest_gap"].stop_above or 0.0)
    used = sum(_used(b) for b in builds.values())
    shares = _cost(rates, used, len(builds), hours, len(mine), good)
    cast = {} if rates.casting is None else rates.casting.shares()
    return Month(
        cases=len(cases),
        frameworks=len(mine),
        sent=len(sent),
        turnaround_days=_turnaround(sent, cases),
        late=sum(1 for i, b in sent.items() if b["sent"][:10] > cases.get(i, b).get("due", "9")),
        remakes=_remakes(register, mine),
        builds=len(builds),
        powder_melted_g=melted,
        powder_lost_g=sum(_lost(b) for b in builds.values()),
        furnace_hours=hours,
        furnace_failed=sum(1 for b in runs if not b["passed"]),
        cost_per_framework=sum(shares.values()) if shares else None,
        casting_per_framework=sum(cast.values()) or rates.casting_per_framework,
        currency=rates.currency,
        gaps=control_chart(gaps) if len(gaps) > 2 else None,
        gap_capability=capability(gaps, upper=most) if len(set(gaps)) > 2 else None,
        bias_by_place_um=_by_place(mine, checks),
        cost_by_share=shares,
        casting_by_share=cast,
        adjusted_um=_adjusted(register, mine),
        complaints=sum(1 for _, b in register.all_of("complaint") if b["case"] in cases),
        rates_given=rates.given,
    )


def _turnaround(sent: Mapping[str, Any], cases: Mapping[str, Any]) -> float | None:
    days = [
        (date.fromisoformat(b["sent"][:10]) - date.fromisoformat(cases[i]["received"][:10])).days
        for i, b in sent.items()
        if i in cases and cases[i].get("received")
    ]
    return float(median(days)) if days else None


def _remakes(register: Register, parts: Mapping[str, Any]) -> dict[str, int]:
    """Non-conformities of the parts by the cause that was first entered."""
    causes: Counter[str] = Counter()
    for id_, body in register.all_of("nonconformity"):
        if body["about"].removeprefix("part:") in parts:
            first = register.history("nonconformity", id_)[0]
            causes[_cause(first.body)] += 1
    return dict(causes.most_common())


def _cause(body: str) -> str:
    import json

    return str(json.loads(body)["cause"])


def _lost(build: Mapping[str, Any]) -> float:
    if "recovered_g" not in build or "loaded_g" not in build:
        return 0.0
    out = ("parts_g", "supports_g", "sieved_out_g", "recovered_g")
    return float(build["loaded_g"] - sum(build.get(name, 0.0) for name in out))


def _used(build: Mapping[str, Any]) -> float:
    """Powder that a build took out of stock [g]: melted, sieved out and lost."""
    if "recovered_g" in build and "loaded_g" in build:
        return float(build["loaded_g"] - build["recovered_g"])
    return float(build.get("parts_g", 0.0) + build.get("supports_g", 0.0))


def _cost(
    rates: Rates, used: float, builds: int, hours: float, made: int, good: int
) -> dict[str, float]:
    """Cost of a good framework by share; what was spoilt is borne by the good ones."""
    if not good:
        return {}
    return {
        "powder": rates.powder_per_g * used / good,
        "machine": rates.machine_per_build * builds / good,
        "furnace": rates.furnace_per_hour * hours / good,
        "labour": rates.labour_per_framework * made / good,
    }


def _adjusted(register: Register, parts: Mapping[str, Any]) -> float | None:
    """Metal taken away at the try-in of each framework, as the mean of those tried in [um]."""
    taken: Counter[str] = Counter()
    for _, body in register.all_of("adjustment"):
        if body["part"] in parts:
            taken[body["part"]] += body["amount_um"]
    return float(mean(taken.values())) if taken else None


def _by_place(parts: Mapping[str, Any], checks: list[tuple[str, Any]]) -> dict[str, float]:
    """Mean deviation in the four quarters of the platform."""
    found: dict[str, list[float]] = {}
    for _, body in checks:
        part = parts[body["part"]]
        if "x_mm" in part and "y_mm" in part and "bias_um" in body:
            side = "left" if part["x_mm"] < 0 else "right"
            half = "front" if part["y_mm"] < 0 else "back"
            found.setdefault(f"{half} {side}", []).append(body["bias_um"])
    return {place: round(mean(values), 2) for place, values in sorted(found.items())}
