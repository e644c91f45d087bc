"""The TOML file that names what an inspection looks at: areas, regions, the path of placement."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from claspwright.base import Floats, InputError, Point
from claspwright.inspection import Area, Region


@dataclass(frozen=True, slots=True, eq=False)
class Looked:
    """What an inspection looks at; frame of the design file."""

    areas: tuple[Area, ...] = ()
    regions: tuple[Region, ...] = ()
    path: Floats | None = None  # (3,) unit vector out of the mouth


def read_looked(path: Path) -> Looked:
    """A file of `[[area]]` and `[[region]]` tables and a `path`.

    An area has name, at_mm, radius_mm and, if wanted, reference and springs; a region has name,
    group, points_mm and reach_mm.

    Raises:
        InputError: the file cannot be used, or holds neither an area nor a region.
    """
    try:
        rows = tomllib.loads(text_of(path))
        found = Looked(
            tuple(_area(row) for row in rows.get("area", [])),
            tuple(_region(row) for row in rows.get("region", [])),
            _unit(rows["path"]) if "path" in rows else None,
        )
    except (tomllib.TOMLDecodeError, KeyError, TypeError, ValueError) as error:
        raise InputError(
            f"malformed areas: {error}",
            place=path.name,
            remedy='Each [[area]] has name = "...", at_mm = [x, y, z], radius_mm = r; each '
            "[[region]] name, group, points_mm = [[x, y, z], ...], reach_mm = [r, ...].",
        ) from error
    if not found.areas and not found.regions:
        raise InputError("the file holds no [[area]]", place=path.name)
    return found


def read_areas(path: Path) -> tuple[Area, ...]:
    """The areas alone.

    Raises:
        InputError: the file cannot be used, or holds none.
    """
    found = read_looked(path).areas
    if not found:
        raise InputError("the file holds no [[area]]", place=path.name)
    return found


def looked_text(
    areas: Iterable[Area], regions: Sequence[Region], path: tuple[float, float, float]
) -> str:
    """The same as the text of such a file."""
    lines = ["# Frame of the scan file, mm. Path: out of the mouth.",
             f"path = [{path[0]}, {path[1]}, {path[2]}]"]  # fmt: skip
    for area in areas:
        x, y, z = area.at_mm
        lines += ["", "[[area]]", f'name = "{area.name}"', f"at_mm = [{x}, {y}, {z}]",
                  f"radius_mm = {area.radius_mm}"]  # fmt: skip
        lines += ["springs = true"] if area.springs else []
    for region in regions:
        points = ", ".join(str(np.round(p, 3).tolist()) for p in region.points)
        reach = np.round(region.reach_mm, 3).tolist()
        lines += ["", "[[region]]", f'name = "{region.name}"', f'group = "{region.group}"',
                  f"points_mm = [{points}]", f"reach_mm = {reach}"]  # fmt: skip
    return "\n".join(lines) + "\n"


def text_of(path: Path) -> str:
    """The text of a file.

    Raises:
        InputError: there is no such file.
    """
    if not path.is_file():
        raise InputError("there is no such file", place=str(path), remedy="Check the name.")
    return path.read_text(encoding="utf-8")


def _area(row: Any) -> Area:  # Any: a TOML table
    return Area(
        str(row["name"]), _point(row["at_mm"]), float(row["radius_mm"]),
        bool(row.get("reference", False)), bool(row.get("springs", False)),
    )  # fmt: skip


def _region(row: Any) -> Region:  # Any: a TOML table
    points = np.array([_point(one) for one in row["points_mm"]]).reshape(-1, 3)
    reach = np.array([float(one) for one in row["reach_mm"]])
    return Region(str(row["name"]), str(row["group"]), points, reach)


def _point(values: Any) -> Point:  # Any: as TOML gives it
    x, y, z = (float(value) for value in values)
    return (x, y, z)


def _unit(values: Any) -> Floats:  # Any: as TOML gives it
    vector = np.array(_point(values))
    return np.asarray(vector / np.linalg.norm(vector))
