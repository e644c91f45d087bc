"""The areas of a case's framework that an inspection asks for: rests, and tips that spring."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

import numpy as np

from claspwright.app.carry_out import carry_out
from claspwright.app.to_scan import point_of
from claspwright.app.watch import Watch
from claspwright.base import Floats, InfeasibleError, Progress, silent
from claspwright.case import read_sheet
from claspwright.framework import Component
from claspwright.geometry import Rigid
from claspwright.inspection import Area

RETENTIVE = 1.0 / 3.0  # the part of an arm that lies in the undercut, check-values C17
AROUND_MM = 0.6  # how far an area of an arm reaches beyond half its width


def case_areas(
    case: Path, *, progress: Progress = silent
) -> tuple[tuple[Area, ...], tuple[float, float, float]]:
    """Work a case out and name its rests and retentive thirds, in the frame of the scan file.

    Returns:
        The areas, and the path of placement as a unit vector out of the mouth.

    Raises:
        InputError: the case cannot be used.
        InfeasibleError: no framework comes of it.
    """
    work = carry_out(read_sheet(case), Watch(), progress)
    if work.framework is None or work.scan is None or work.path is None:
        stops = [finding.text for finding in work.findings if finding.severity == "stop"]
        raise InfeasibleError("no framework comes of this case: " + " ".join(stops[:3]))
    back = work.scan.scan_to_arch.inverse()
    return tuple(areas_of(work.framework.components, back)), point_of(
        back.turn(work.path.direction), 6
    )


def areas_of(components: Iterable[Component], to_scan: Rigid) -> Iterator[Area]:
    """One area a rest; balls along the terminal third of each retentive arm."""
    for component in components:
        line = np.asarray(component.line)
        if component.kind == "rest":
            middle = line.mean(axis=0)
            reach = float(np.linalg.norm(line - middle, axis=1).max())
            yield _area(component.id, middle, max(reach, 0.8), to_scan)
        elif component.kind == "retentive arm":
            first = int(len(line) * (1.0 - RETENTIVE))
            radius = float(np.max(component.width_mm)) / 2.0 + AROUND_MM
            step = max(1, len(line[first:]) // 6)
            for n, at in enumerate(line[first:][::step]):
                yield _area(f"{component.id}.{n + 1}", at, radius, to_scan, springs=True)


def _area(name: str, at: Floats, radius: float, to_scan: Rigid, *, springs: bool = False) -> Area:
    return Area(name, point_of(to_scan.apply(at)), round(radius, 3), springs=springs)


def areas_text(areas: Iterable[Area], path: tuple[float, float, float]) -> str:
    """The areas as the TOML file that `fit` and `seat` read."""
    lines = [f"# Frame of the scan file, mm. Path out of the mouth: {path[0]} {path[1]} {path[2]}"]
    for area in areas:
        x, y, z = area.at_mm
        lines += ["", "[[area]]", f'name = "{area.name}"', f"at_mm = [{x}, {y}, {z}]",
                  f"radius_mm = {area.radius_mm}"]  # fmt: skip
        lines += ["springs = true"] if area.springs else []
    return "\n".join(lines) + "\n"
