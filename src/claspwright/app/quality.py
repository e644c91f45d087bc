"""How well the frameworks come out, over builds, machines, lots and places, and what drives it.

Readings are those of the register: inspections, and the adjustments at the try-in, which are the
only truth about the fit.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from statistics import mean, stdev
from typing import Any

import numpy as np

from claspwright.base import InputError
from claspwright.inspection import (
    Capability,
    ControlChart,
    Driver,
    GroupedPrecision,
    acceptance_limits,
    capability,
    control_chart,
    drivers,
    grouped_precision,
)
from claspwright.records import Register, made_from, trace

LEAST = 3  # readings for a chart
READ = ("bias_um", "rest_gap_um", "p95_um")


@dataclass(frozen=True, slots=True)
class Reading:
    """One framework with all that may have to do with its fit."""

    part: str
    on: str  # day of its build
    build: str
    machine: str
    lots: str
    place: str  # quarter of the platform; empty where unknown
    values: Mapping[str, float]  # bias_um, rest_gap_um, p95_um, adjusted_um
    causes: Mapping[str, float]  # for the regression


@dataclass(frozen=True, slots=True)
class Group:
    """The readings of one build, machine, lot or place."""

    name: str
    count: int
    mean: float
    sd: float | None  # None for a single reading


@dataclass(frozen=True, slots=True)
class Measure:
    """One quantity over time and by group; unit of its name."""

    name: str
    chart: ControlChart
    capability: Capability | None
    groups: Mapping[str, tuple[Group, ...]]
    precision: Mapping[str, GroupedPrecision]  # within and between the groups, ISO 5725-2
    drivers: tuple[Driver, ...]  # empty where too little is known


@dataclass(frozen=True, slots=True)
class Quality:
    """What the register tells of the fit between two days."""

    readings: tuple[Reading, ...]
    measures: tuple[Measure, ...]
    seated_share: float | None  # of the frameworks tried in, without any metal taken away


def quality_of(register: Register, first: str, last: str) -> Quality:
    """Charts, capability, groups and drivers of all frameworks built between two days.

    Raises:
        InputError: the days are in the wrong order.
    """
    if first > last:
        raise InputError(f"{first} lies after {last}")
    found = [row for row in _readings(register) if first <= row.on <= last]
    tried = [row.values["adjusted_um"] for row in found if "adjusted_um" in row.values]
    names = (*READ, "adjusted_um")
    measures = [_measure(name, found) for name in names]
    return Quality(
        tuple(found),
        tuple(one for one in measures if one is not None),
        sum(1 for um in tried if um == 0.0) / len(tried) if tried else None,
    )


def _readings(register: Register) -> list[Reading]:
    builds = dict(register.all_of("build"))
    out = []
    for part, body in register.all_of("part"):
        build = builds[body["build"]]
        up = trace(register, f"part:{part}")
        values: dict[str, float] = {}
        for _, seen in made_from(register, f"part:{part}", "inspection"):
            values |= {name: float(seen[name]) for name in READ if name in seen}
        tried = [row for _, row in made_from(register, f"part:{part}", "adjustment")]
        if tried:
            values["adjusted_um"] = float(sum(row["amount_um"] for row in tried))
        causes: dict[str, float] = {"earlier_builds_of_powder": float(len(up.ids("build")) - 1)}
        place = ""
        if "x_mm" in body and "y_mm" in body:
            x, y = float(body["x_mm"]), float(body["y_mm"])
            place = f"{'front' if y < 0 else 'back'} {'left' if x < 0 else 'right'}"
            off = float(np.hypot(x, y))
            causes |= {"x_cm": x / 10.0, "y_cm": y / 10.0, "off_centre_cm": off / 10.0}
        if "mass_g" in body:
            causes["mass_g"] = float(body["mass_g"])
        out.append(Reading(part, str(build.get("started", ""))[:10], body["build"],
                           build["machine"], " + ".join(up.ids("lot")), place, values,
                           causes))  # fmt: skip
    return sorted(out, key=lambda row: (row.on, row.build, row.part))


GROUPED: Mapping[str, Callable[[Reading], str]] = {
    "build": lambda row: row.build,
    "machine": lambda row: row.machine,
    "lot": lambda row: row.lots,
    "place": lambda row: row.place,
}


def _measure(name: str, found: Sequence[Reading]) -> Measure | None:
    rows = [row for row in found if name in row.values]
    values = [row.values[name] for row in rows]
    if len(values) < LEAST:
        return None
    groups, precision = {}, {}
    for by, key in GROUPED.items():
        split: dict[str, list[float]] = {}
        for row in rows:
            if key(row):
                split.setdefault(key(row), []).append(row.values[name])
        groups[by] = tuple(
            Group(one, len(v), mean(v), stdev(v) if len(v) > 1 else None)
            for one, v in sorted(split.items())
        )
        several = [v for v in split.values() if len(v) > 1]
        if len(several) > 1:
            precision[by] = grouped_precision(several)
    return Measure(name, control_chart(values), _capability(name, values), groups, precision,
                   _drivers(name, rows))  # fmt: skip


def _capability(name: str, values: Sequence[float]) -> Capability | None:
    """Against the limit at which a framework must not go on, where there is one."""
    keys = {"bias_um": "fit.surface_bias", "rest_gap_um": "fit.rest_gap",
            "p95_um": "fit.surface_p95"}  # fmt: skip
    if name not in keys or len(set(values)) < 2:
        return None
    upper = 1000.0 * float(acceptance_limits()[keys[name]].stop_above or 0.0)
    return capability(values, upper=upper, lower=-upper if name == "bias_um" else None)


def _drivers(name: str, rows: Sequence[Reading]) -> tuple[Driver, ...]:
    """Regression on every cause that all rows know and that differs between them."""
    known = set.intersection(*(set(row.causes) for row in rows))
    columns: dict[str, list[float]] = {}
    for cause in sorted(known):
        column = [row.causes[cause] for row in rows]
        if np.ptp(column) > 0:
            columns[cause] = column
    machines = sorted({row.machine for row in rows})
    for machine in machines[1:]:
        columns[f"machine {machine}"] = [float(row.machine == machine) for row in rows]
    if name == "adjusted_um" and all("bias_um" in row.values for row in rows):
        columns["inspected_bias_um"] = [row.values["bias_um"] for row in rows]
    if len(rows) < 3 * (len(columns) + 1):
        return ()
    try:
        return drivers([row.values[name] for row in rows], dict(columns))
    except InputError:  # two causes that always go together: nothing can be told
        return ()


def told(found: Quality) -> dict[str, Any]:  # Any: a JSON object
    """The same as one JSON object."""
    from dataclasses import asdict

    measures = []
    for one in found.measures:
        row = {"name": one.name, "chart": asdict(one.chart),
               "capability": asdict(one.capability) if one.capability else None,
               "groups": {by: [asdict(g) for g in rows] for by, rows in one.groups.items()},
               "precision": {by: asdict(p) for by, p in one.precision.items()},
               "drivers": [{**asdict(d), "clear": d.clear} for d in one.drivers]}  # fmt: skip
        measures.append(row)
    return {
        "frameworks": len(found.readings),
        "seated_without_adjustment_share": found.seated_share,
        "measures": measures,
        "note": "an interval that leaves zero out shows that things go together, no more",
    }
