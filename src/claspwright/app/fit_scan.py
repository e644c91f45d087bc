"""A scan of a finished part against its design: two files in, figures and deviations out."""

from __future__ import annotations

import csv
from dataclasses import asdict, dataclass
from io import StringIO
from pathlib import Path
from typing import Any

import numpy as np

from claspwright.app.areas_file import Looked, read_looked, text_of
from claspwright.app.laid_on import laid_on, outside_out
from claspwright.app.whole_file import write_whole
from claspwright.base import Finding, InputError, Progress, part, silent
from claspwright.formats import read_mesh, write_ply
from claspwright.geometry import DistanceTree, Mesh, Registration
from claspwright.inspection import (
    Area,
    Deviation,
    DeviationFigures,
    RegionFigures,
    acceptance_limits,
    align_by_areas,
    deviation,
    deviation_figures,
    figures_by_area,
    figures_by_region,
    judge_surface,
    judged,
    limits_from,
)


@dataclass(frozen=True, slots=True, eq=False)
class Fit:
    """How a scan lies on its design; design frame."""

    alignment: Registration
    by: str  # "whole surface" or "reference areas"
    deviation: Deviation
    figures: DeviationFigures
    areas: tuple[tuple[Area, DeviationFigures | None], ...]
    findings: tuple[Finding, ...]
    regions: tuple[RegionFigures, ...] = ()

    @property
    def stopped(self) -> bool:
        """Whether a finding says that the part must not go on."""
        return any(finding.severity == "stop" for finding in self.findings)


def fit_scan(
    design: Path,
    scan: Path,
    *,
    areas: Path | None = None,
    limits: Path | None = None,
    progress: Progress = silent,
) -> Fit:
    """Align a scan with its design from any pose and measure the signed deviation.

    Args:
        design: mesh file, mm; normals outside.
        scan: mesh file, mm; may show a part only.
        areas: TOML file of areas; where some are marked as reference, they alone align.
        limits: TOML file of the laboratory's own acceptance limits.
        progress: told of each step.

    Raises:
        InputError: a file cannot be used.
    """
    progress(0.0, "reading")
    wanted, scanned = read_mesh(design), read_mesh(scan)
    _check_sizes(wanted, scanned, scan)
    looked = Looked() if areas is None else read_looked(areas)
    named = looked.areas
    rules = acceptance_limits() if limits is None else {
        **acceptance_limits(), **limits_from(text_of(limits), place=limits.name)
    }  # fmt: skip
    wanted, turned = outside_out(wanted)
    tree = DistanceTree(wanted)
    found, scanned, over = laid_on(scanned, tree, progress=part(progress, 0.2, 0.8))
    by = "whole surface"
    findings = [*turned, *over, _overlap(found, rules)]
    if any(area.reference for area in named):
        found, by = align_by_areas(scanned, tree, found.rigid, named), "reference areas"
    off = deviation(scanned, tree, found.rigid)
    figures = deviation_figures(off.distance_mm)
    by_area = figures_by_area(off, named)
    findings += judge_surface(figures, rules)
    for area, some in by_area:
        findings += _of_area(area, some, rules)
    progress(1.0, "compared")
    regions = figures_by_region(off, tree.mesh, looked.regions, looked.path)
    kept = tuple(finding for finding in findings if finding is not None)
    return Fit(found, by, off, figures, by_area, kept, regions)


def told(fit: Fit, file: Path) -> dict[str, Any]:  # Any: a JSON object
    """The answer as one JSON object; every figure with its unit in the name."""
    matrix = fit.alignment.rigid.matrix()
    return {
        "scan_to_design": matrix.tolist(),
        "unit_of_translation": "mm",
        "aligned_by": fit.by,
        **_rounded(fit.figures),
        "overlap_share": round(fit.alignment.overlap, 4),
        "inlier_share": round(fit.alignment.inlier_share, 4),
        "inlier_rms_um": round(1000.0 * fit.alignment.rms_mm, 3),
        "areas": [
            {"name": area.name, "reference": area.reference, **(_rounded(some) if some else {})}
            for area, some in fit.areas
        ],
        "regions": [
            {"name": one.name, "group": one.group, **(_rounded(one.figures) if one.figures else {})}
            for one in fit.regions
        ],
        "findings": [asdict(finding) for finding in fit.findings],
        "deviation_file": file.as_posix(),
        "sign": "positive: the scan lies outside the design",
    }


def write_deviation(fit: Fit, out: Path) -> None:
    """The scan in the design's frame with the signed deviation at each vertex: PLY or CSV.

    Raises:
        InputError: the name ends otherwise, or nothing can be written there.
    """
    kind = out.suffix.lower()
    um = 1000.0 * fit.deviation.distance_mm
    if kind == ".ply":
        values = {"deviation_um": um}
        write_whole(out, lambda path: write_ply(fit.deviation.scan, path, values=values))
    elif kind == ".csv":
        write_whole(out, lambda path: path.write_text(_table(fit, um), encoding="utf-8"))
    else:
        raise InputError(
            f"deviations cannot be written as {kind or 'a file without ending'}",
            place=out.as_posix(),
            remedy="Give a name that ends in .ply or .csv with --out.",
        )


def _check_sizes(design: Mesh, scan: Mesh, path: Path) -> None:
    ratio = np.linalg.norm(np.ptp(scan.vertices, axis=0)) / np.linalg.norm(
        np.ptp(design.vertices, axis=0)
    )
    if not 1 / 50 < ratio < 5:
        raise InputError(
            f"the scan is {ratio:.3g} times as large as the design",
            place=path.name,
            remedy="Both files must be in mm; export the scan again with the right unit.",
        )


def _overlap(found: Registration, rules: Any) -> Finding | None:  # Any: a mapping of limits
    words = "share of the scan on the design"
    return judged("fit.overlap", found.overlap, rules, words)


def _of_area(area: Area, some: DeviationFigures | None, rules: Any) -> tuple[Finding, ...]:
    if some is None:
        return (
            Finding("fit.area_unseen", "look", "The scan shows nothing of this area.",
                    source="this scan", at_mm=area.at_mm, component=area.name),
        )  # fmt: skip
    return judge_surface(some, rules, component=area.name, at_mm=area.at_mm)


def _rounded(figures: DeviationFigures) -> dict[str, Any]:
    return {
        name: value if name == "count" else round(value, 3)
        for name, value in asdict(figures).items()
    }


def _table(fit: Fit, um: Any) -> str:  # Any: an array
    text = StringIO()
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(["x_mm", "y_mm", "z_mm", "deviation_um"])
    rows.writerows(np.round(np.column_stack([fit.deviation.scan.vertices, um]), 6).tolist())
    return text.getvalue()
