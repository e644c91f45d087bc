"""Stress relief: the schedule, and whether a furnace followed it by its own log."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np

from claspwright.base import Bools, Finding, Floats, InputError, Severity, frozen_floats
from claspwright.process.tables import table

RATE_WINDOW_S = 600.0  # rates are judged over ten minutes, so that noise of a reading is none
RATE_SLACK = 1.10  # a rate may be exceeded by a tenth
GAP_S = 300.0  # longest pause between readings


@dataclass(frozen=True, slots=True)
class Schedule:
    """What the loaded platform must go through; rates in K/h, temperatures in degC."""

    name: str
    title: str
    alloys: tuple[str, ...]
    gas: str
    purge_min: float
    purge_before_c: float  # the purge is over before the platform is this hot
    gas_above_c: float  # gas without a break above
    oxygen_ppm: float  # greatest content where it is measured
    ramp_c_per_h: float
    soak_c: float
    tolerance_c: float
    soak_min: float
    soak_min_most: float
    slow_to_c: float  # the cooling rate holds down to here
    cooling_c_per_h: float
    unload_c: float  # not opened above
    source: str


@dataclass(frozen=True, slots=True, eq=False)
class FurnaceLog:
    """What a logger wrote: the thermocouple on the platform, and gas where it was logged."""

    time_s: Floats  # (N,) increasing
    platform_c: Floats  # (N,)
    gas_l_min: Floats | None = None  # (N,) flow
    oxygen_ppm: Floats | None = None  # (N,)
    setpoint_c: Floats | None = None  # (N,)

    def __post_init__(self) -> None:
        count = len(self.time_s)
        for name in ("time_s", "platform_c", "gas_l_min", "oxygen_ppm", "setpoint_c"):
            values = getattr(self, name)
            if values is not None:
                object.__setattr__(self, name, frozen_floats(values, (count,), name))
        if count < 10 or not (np.diff(self.time_s) > 0).all():
            raise InputError(
                f"a log needs ten or more readings at increasing times, got {count}",
                remedy="Export the whole log again.",
            )


@dataclass(frozen=True, slots=True)
class FurnaceRun:
    """What a log shows, against its schedule."""

    schedule: Schedule
    purge_min: float | None  # None: no gas was logged
    ramp_c_per_h: float  # greatest
    highest_c: float
    soak_min: float  # longest time on end within the tolerance
    soak_mean_c: float | None
    cooling_c_per_h: float  # greatest, from the soak to `slow_to_c`
    last_c: float  # when the log ends: unloading
    findings: tuple[Finding, ...] = field(default=())

    @property
    def passed(self) -> bool:
        """Whether nothing stops the frameworks of this run."""
        return not any(finding.severity == "stop" for finding in self.findings)


def schedule_names() -> tuple[str, ...]:
    """Names of the schedules that come along."""
    return tuple(table("schedules.toml"))


def schedule(name: str) -> Schedule:
    """A schedule by its name, or the one for an alloy.

    Raises:
        InputError: there is none.
    """
    for key, row in table("schedules.toml").items():
        if name == key or name in row["alloys"]:
            return Schedule(name=key, **{**row, "alloys": tuple(row["alloys"])})
    known = ", ".join(table("schedules.toml"))
    raise InputError(f"no furnace schedule {name!r}", remedy=f"Known ones: {known}.")


def judge_run(log: FurnaceLog, wanted: Schedule) -> FurnaceRun:
    """Hold a log against its schedule: purge, ramp, soak, cooling, unloading, gas.

    The platform's own thermocouple is the proof; a setpoint proves nothing.
    """
    at_soak = np.abs(log.platform_c - wanted.soak_c) <= wanted.tolerance_c
    first, last = longest(log.time_s, at_soak)
    soak_min = (log.time_s[last] - log.time_s[first]) / 60.0 if at_soak.any() else 0.0
    rates = _rates(log)
    rising = rates[: first + 1] if at_soak.any() else rates
    falling = np.zeros(0)
    if at_soak.any():
        falling = -rates[last:][log.platform_c[last:] > wanted.slow_to_c]
    run = FurnaceRun(
        schedule=wanted,
        purge_min=_purge(log, wanted),
        ramp_c_per_h=float(np.max(rising, initial=0.0)),
        highest_c=float(log.platform_c.max()),
        soak_min=float(soak_min),
        soak_mean_c=float(log.platform_c[first : last + 1].mean()) if at_soak.any() else None,
        cooling_c_per_h=float(np.max(falling, initial=0.0)),
        last_c=float(log.platform_c[-1]),
    )
    found = [*_thermal(run), *_gas(log, run), *_record(log)]
    return replace(run, findings=tuple(found))


def longest(time_s: Floats, inside: Bools) -> tuple[int, int]:
    """First and last index of the longest run of True."""
    edges = np.diff(np.concatenate([[0], inside.astype(np.int8), [0]]))
    starts, ends = np.flatnonzero(edges == 1), np.flatnonzero(edges == -1) - 1
    if not len(starts):
        return 0, 0
    best = int(np.argmax(time_s[ends] - time_s[starts]))
    return int(starts[best]), int(ends[best])


def _rates(log: FurnaceLog) -> Floats:
    """(N,) K/h over the window that is centred on each reading; shorter at the ends."""
    half = RATE_WINDOW_S / 2.0
    begin = np.clip(log.time_s - half, log.time_s[0], None)
    end = np.clip(log.time_s + half, None, log.time_s[-1])
    change = np.interp(end, log.time_s, log.platform_c)
    change -= np.interp(begin, log.time_s, log.platform_c)
    return np.asarray(3600.0 * change / np.maximum(end - begin, half))


def _flowing(log: FurnaceLog, wanted: Schedule) -> Bools | None:
    if log.oxygen_ppm is not None:
        return np.asarray(log.oxygen_ppm <= wanted.oxygen_ppm)
    return None if log.gas_l_min is None else np.asarray(log.gas_l_min > 0.1)


def _purge(log: FurnaceLog, wanted: Schedule) -> float | None:
    """Minutes of gas on end before the platform gets warm."""
    flowing = _flowing(log, wanted)
    if log.gas_l_min is not None:
        flowing = np.asarray(log.gas_l_min > 0.1)
    if flowing is None:
        return None
    warm = np.flatnonzero(log.platform_c >= wanted.purge_before_c)
    until = int(warm[0]) if len(warm) else len(log.time_s) - 1
    on = np.flatnonzero(~flowing[: until + 1])
    since = int(on[-1]) + 1 if len(on) else 0
    return float(log.time_s[until] - log.time_s[since]) / 60.0 if since <= until else 0.0


def _thermal(run: FurnaceRun) -> list[Finding]:
    w = run.schedule
    rows = (
        ("furnace.ramp", run.ramp_c_per_h > RATE_SLACK * w.ramp_c_per_h, "look", run.ramp_c_per_h,
         w.ramp_c_per_h, "K/h", "The platform was heated faster than the schedule allows."),
        ("furnace.too_hot", run.highest_c > w.soak_c + w.tolerance_c, "stop", run.highest_c,
         w.soak_c + w.tolerance_c, "degC", "The platform became hotter than the schedule allows."),
        ("furnace.soak", run.soak_min < w.soak_min, "stop", run.soak_min, w.soak_min, "min",
         "The platform was not at temperature for long enough; relieve again before cutting."),
        ("furnace.long_soak", run.soak_min > w.soak_min_most, "look", run.soak_min,
         w.soak_min_most, "min", "The platform was at temperature for longer than planned."),
        ("furnace.cooling", run.cooling_c_per_h > RATE_SLACK * w.cooling_c_per_h, "stop",
         run.cooling_c_per_h, w.cooling_c_per_h, "K/h",
         "The platform cooled faster than the schedule allows, which brings stress back."),
        ("furnace.unloading", run.last_c > w.unload_c, "stop", run.last_c, w.unload_c, "degC",
         "The log ends while the platform is still hot: unloaded early, or the log was cut off."),
    )  # fmt: skip
    return [_finding(rule, severity, text, w.source, round(value, 1), limit, unit)
            for rule, broken, severity, value, limit, unit, text in rows if broken]  # fmt: skip


def _gas(log: FurnaceLog, run: FurnaceRun) -> list[Finding]:
    w, out = run.schedule, []
    flowing = _flowing(log, w)
    if run.purge_min is None or flowing is None:
        text = f"No gas was logged; show by other means that {w.gas} flowed."
        return [_finding("furnace.gas_unknown", "look", text, w.source)]
    if run.purge_min < w.purge_min:
        text = f"The chamber was not purged with {w.gas} for long enough before heating."
        out.append(_finding("furnace.purge", "stop", text, w.source, round(run.purge_min, 1),
                            w.purge_min, "min"))  # fmt: skip
    hot = log.platform_c > w.gas_above_c
    if (hot & ~flowing).any():
        hottest = round(float(log.platform_c[hot & ~flowing].max()), 1)
        text = f"{w.gas.capitalize()} failed while the platform was hot: look for oxide."
        out.append(_finding("furnace.gas", "stop", text, w.source, hottest, w.gas_above_c, "degC"))
    return out


def _record(log: FurnaceLog) -> list[Finding]:
    pause = float(np.diff(log.time_s).max())
    if pause <= GAP_S:
        return []
    text = "The log pauses; what happened in between is not proven."
    source = "own proposal: a reading every five minutes at least"
    return [_finding("furnace.pause", "look", text, source, pause, GAP_S, "s")]


def _finding(
    rule: str, severity: str, text: str, source: str, measured: float | None = None,
    limit: float | None = None, unit: str = "",
) -> Finding:  # fmt: skip
    kinds: dict[str, Severity] = {"stop": "stop", "look": "look", "note": "note"}
    return Finding(rule, kinds[severity], text, source, measured, limit, unit)
