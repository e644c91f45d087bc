"""Logger files of a furnace, CSV of several shapes, to a value.

Recognised: comma, semicolon, tab or bar between columns; a decimal comma where the columns are
not split by commas; lines of text before the header; time as seconds, minutes, hours, h:mm:ss, or
date and time; temperature in degC, degF or K; one or several temperatures, of which the
thermocouple on the platform counts.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

import numpy as np

from claspwright.base import Floats, InputError
from claspwright.process import FurnaceLog

MAX_BYTES = 50_000_000
_TIME = re.compile(r"\b(time|date|elapsed|zeit|timestamp)", re.IGNORECASE)
_PLATFORM = re.compile(r"platform|plate|part|load|sample|thermocouple|\btc", re.IGNORECASE)
_TEMPERATURE = re.compile(r"temp|thermocouple|\btc|°|\bdeg|platform|chamber|\bpv\b", re.IGNORECASE)
_SETPOINT = re.compile(r"set|target|\bsp\b|program", re.IGNORECASE)
_GAS = re.compile(r"gas|argon|flow|nitrogen", re.IGNORECASE)
_OXYGEN = re.compile(r"oxygen|\bo2\b", re.IGNORECASE)
_STAMPS = ("%d.%m.%Y %H:%M:%S", "%d.%m.%Y %H:%M", "%d/%m/%Y %H:%M:%S", "%Y/%m/%d %H:%M:%S")
REMEDY = "The header must name a time and a temperature, with units, such as time_s, platform_degC."


def read_furnace_log(path: Path | str) -> FurnaceLog:
    """Read a logger's CSV file.

    Raises:
        InputError: the file is missing, has no header or no column that is needed, or a reading
            is no number; says which line.
    """
    path = Path(path)
    if not path.is_file():
        raise InputError("there is no such file", place=str(path), remedy="Check the name.")
    if path.stat().st_size > MAX_BYTES:
        raise InputError("the file is too large for a furnace log", place=path.name)
    lines = _text(path).splitlines()
    number, split = _header(lines, path.name)
    header = [word.strip() for word in next(csv.reader([lines[number]], delimiter=split))]
    body = [line for line in lines[number + 1 :] if line.strip().strip(split)]
    rows = list(csv.reader(body, delimiter=split))
    whole = [row for row in rows if len(row) >= len(header)]
    short = [n for n, row in enumerate(rows[:-1]) if len(row) < len(header)]
    if short:  # the last line alone may be cut off
        bad = short[0]
        raise InputError(
            f"{len(rows[bad])} columns where the header has {len(header)}",
            place=f"{path.name}, line {number + 2 + bad}",
        )
    columns = list(zip(*whole, strict=False))
    if not columns:
        raise InputError("no readings follow the header", place=path.name)
    place = _Place(path.name, number + 2, split)
    return _log(header, columns, place)


class _Place:
    """Where a reading stands, for messages, and how it is written."""

    def __init__(self, name: str, first: int, split: str) -> None:
        self.name, self.first, self.split = name, first, split

    def number(self, word: str, row: int) -> float:
        word = word.strip().strip('"')
        if self.split != ",":
            word = word.replace(",", ".")
        try:
            return float(word)
        except ValueError as error:
            raise InputError(
                f"{word!r} is not a number", place=f"{self.name}, line {self.first + row}"
            ) from error


def _text(path: Path) -> str:
    data = path.read_bytes()
    for encoding in ("utf-8-sig", "utf-16") if data[:2] in (b"\xff\xfe", b"\xfe\xff") else (
        "utf-8-sig", "latin-1",
    ):  # fmt: skip
        try:
            return data.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise InputError("this is no text", place=path.name)


def _header(lines: Sequence[str], name: str) -> tuple[int, str]:
    """The line of the header and what splits its columns."""
    for number, line in enumerate(lines[:200]):
        for split in ("\t", ";", "|", ","):
            words = line.split(split)
            if (
                len(words) >= 2
                and any(_TIME.search(word) for word in words)
                and any(_TEMPERATURE.search(word) for word in words)
            ):
                return number, split
    raise InputError("no header with a time and a temperature", place=name, remedy=REMEDY)


def _log(header: list[str], columns: list[tuple[str, ...]], place: _Place) -> FurnaceLog:
    times = [n for n, word in enumerate(header) if _TIME.search(word)]
    temperatures = [
        n for n, word in enumerate(header)
        if _TEMPERATURE.search(word) and n not in times
        and not (_OXYGEN.search(word) or _GAS.search(word))
    ]  # fmt: skip
    wanted = [n for n in temperatures if not _SETPOINT.search(header[n])]
    ranked = [n for n in wanted if _PLATFORM.search(header[n])] or wanted
    if not times or not ranked:
        raise InputError("no column with a measured temperature", place=place.name, remedy=REMEDY)
    setpoint = next((n for n in temperatures if _SETPOINT.search(header[n])), None)
    oxygen = next((n for n, w in enumerate(header) if _OXYGEN.search(w)), None)
    gas = next((n for n, w in enumerate(header) if _GAS.search(w) and n != oxygen), None)

    def numbers(n: int | None) -> Floats | None:
        if n is None:
            return None
        return np.array([place.number(word, row) for row, word in enumerate(columns[n])])

    platform = numbers(ranked[0])
    assert platform is not None
    target = numbers(setpoint)
    share = _oxygen_factor(header[oxygen]) if oxygen is not None else 1.0
    measured = numbers(oxygen)
    return FurnaceLog(
        _seconds(header, times, columns, place),
        _celsius(platform, header[ranked[0]]),
        numbers(gas),
        None if measured is None else measured * share,
        None if target is None or setpoint is None else _celsius(target, header[setpoint]),
    )


def _oxygen_factor(word: str) -> float:
    """To ppm by volume."""
    return 1e4 if "%" in word or "percent" in word.lower() else 1.0


def _celsius(values: Floats, word: str) -> Floats:
    plain = word.lower().replace("°", " ").replace("_", " ").replace("[", " ").replace("(", " ")
    if re.search(r"\b(deg ?f|f|fahrenheit)\b", plain):
        return np.asarray((values - 32.0) / 1.8)
    if re.search(r"\b(k|kelvin)\b", plain):
        return np.asarray(values - 273.15)
    return values


def _seconds(
    header: list[str], times: list[int], columns: list[tuple[str, ...]], place: _Place
) -> Floats:
    """Seconds from the first reading; a date and a time in two columns are joined."""
    words = [" ".join(parts) for parts in zip(*(columns[n] for n in times[:2]), strict=True)]
    single = [word.strip().strip('"') for word in columns[times[0]]]
    stamps = _stamps(words) or _stamps(single)
    if stamps is not None:
        return np.array([(stamp - stamps[0]).total_seconds() for stamp in stamps])
    if ":" in single[0]:
        clock = [_clock(word, place, row) for row, word in enumerate(single)]
        values = np.array(clock)
        midnight = np.cumsum(np.concatenate([[0], np.diff(values) < -43_200.0]))
        return np.asarray(values + 86_400.0 * midnight - values[0])
    values = np.array([place.number(word, row) for row, word in enumerate(single)])
    return np.asarray((values - values[0]) * _time_factor(header[times[0]]))


def _stamps(words: Sequence[str]) -> list[datetime] | None:
    if not re.match(r"\s*\d+[-./]\d+[-./]\d+", words[0]):
        return None
    for form in ("", *_STAMPS):
        try:
            return [
                datetime.strptime(w.strip(), form) if form else datetime.fromisoformat(w.strip())
                for w in words
            ]
        except ValueError:
            continue
    return None


def _clock(word: str, place: _Place, row: int) -> float:
    parts = word.replace(",", ".").split(":")
    try:
        values = [float(part) for part in parts]
    except ValueError as error:
        raise InputError(
            f"{word!r} is not a time", place=f"{place.name}, line {place.first + row}"
        ) from error
    hours, minutes, seconds = (*values, 0.0)[:3]
    return 3600.0 * hours + 60.0 * minutes + seconds


def _time_factor(word: str) -> float:
    plain = re.sub(r"[_\[\](){}]", " ", word.lower())
    if re.search(r"\b(h|hours?|std)\b", plain):
        return 3600.0
    return 60.0 if re.search(r"\b(min|minutes?)\b", plain) else 1.0
