"""The areas of a case, worked out for the purpose."""

from __future__ import annotations

from pathlib import Path

from claspwright.app.carry_out import carry_out
from claspwright.app.case_areas import areas_of, regions_of
from claspwright.app.to_scan import point_of
from claspwright.app.watch import Watch
from claspwright.base import InfeasibleError, Progress, silent
from claspwright.case import read_sheet
from claspwright.inspection import Area, Region


def case_areas(
    case: Path, *, progress: Progress = silent
) -> tuple[tuple[Area, ...], tuple[Region, ...], tuple[float, float, float]]:
    """Work a case out and name its parts, in the frame of the scan file.

    Returns:
        Rests and retentive thirds as areas, every component as a region, and the path of
        placement as a unit vector out of the mouth.

    Raises:
        InputError: the case cannot be used.
        InfeasibleError: no framework comes of it.
    """
    work = carry_out(read_sheet(case), Watch(), progress)
    if work.framework is None or work.scan is None or work.path is None:
        stops = [finding.text for finding in work.findings if finding.severity == "stop"]
        raise InfeasibleError("no framework comes of this case: " + " ".join(stops[:3]))
    back = work.scan.scan_to_arch.inverse()
    parts = work.framework.components
    path = point_of(back.turn(work.path.direction), 6)
    return tuple(areas_of(parts, back)), tuple(regions_of(parts, back)), path
