"""`claspwright frame`: a case to its solid and the list of what it is made of, without a report."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np

from claspwright import __version__
from claspwright.app.carry_out import carry_out
from claspwright.app.folder import check_target, whole_folder
from claspwright.app.hashes import input_hashes
from claspwright.app.results import (
    hashes_in,
    write_findings,
    write_geometry,
    write_json,
    write_proposed_sheet,
)
from claspwright.app.run_case import RunResult
from claspwright.app.to_scan import findings_in_scan, point_of
from claspwright.app.watch import Watch
from claspwright.app.work import Work
from claspwright.base import Progress, part, silent
from claspwright.case import read_sheet
from claspwright.framework import Component
from claspwright.geometry import Rigid, check_solid
from claspwright.materials import material

FRAME_NAMES = frozenset(
    (
        "components.json",
        "timings.json",
        "case.proposed.toml",
        "findings.json",
        "blocked_out.ply",
        "framework.stl",
        "framework.3mf",
        "framework_to_build.stl",
        "areas.toml",
        "wires.stl",
    )
)


def frame_case(case: Path, out: Path, *, progress: Progress = silent) -> RunResult:
    """Work a case out to its framework and write the solid with its components.

    The case folder is never changed; the result folder appears whole or not at all.

    Args:
        case: a folder with `case.toml`, or that file.
        out: folder for the results.
        progress: told of each stage.

    Raises:
        InputError: the sheet, a scan or the place for the results cannot be used.
        Cancelled: `progress` stopped the work; nothing is left behind.
    """
    sheet = read_sheet(case)
    check_target(out, sheet.path.parent, FRAME_NAMES)
    watch = Watch()
    work = carry_out(sheet, watch, part(progress, 0.0, 0.97))
    findings = findings_in_scan(work.findings, work.scan.scan_to_arch if work.scan else None)
    with whole_folder(out) as folder:
        with watch.stage("files"):
            write_geometry(folder, work)
            write_proposed_sheet(folder, work)
            write_findings(folder, findings)
        told = components_of(work) | {
            "input_hashes": input_hashes(sheet),
            "files": hashes_in(folder),
        }
        write_json(folder / "components.json", told)
        write_json(folder / "timings.json", watch.report())
    progress(1.0, "framework")
    return RunResult(out, tuple(findings), made=work.framework is not None)


def components_of(work: Work) -> dict[str, Any]:
    """What `components.json` holds: the solid and its components; scan frame, mm. Any: JSON."""
    told: dict[str, Any] = {
        "version": __version__,
        "case_id": work.sheet.prescription.case_id,
        "arch": work.sheet.prescription.jaw,
        "kennedy_class": work.kennedy.kennedy_class,
        "modifications": work.kennedy.modifications,
        "framework": None,
        "components": [],
    }
    if work.framework is None or work.scan is None or work.design is None:
        return told
    solid = check_solid(work.framework.solid)
    alloy = material(work.sheet.prescription.alloy)
    back = work.scan.scan_to_arch.inverse()
    told["framework"] = {
        "major_connector": work.design.connector.form,
        "status": solid.status,
        "watertight": solid.watertight,
        "bodies": solid.bodies,
        "volume_mm3": round(solid.volume_mm3, 3),
        "area_mm2": round(solid.area_mm2, 3),
        "mass_g": round(alloy.mass_g(solid.volume_mm3), 3),
        "blockout_mm3": round(work.framework.blocked_out.blockout_mm3, 3),
        "relief_mm3": round(work.framework.blocked_out.relief_mm3, 3),
    }
    told["components"] = [component_of(part, back) for part in work.framework.components]
    return told


def component_of(part: Component, back: Rigid) -> dict[str, Any]:
    """One component: id, kind, sizes, place in the scan frame. Any: JSON.

    The volume is that of the component alone: where components meet, both count the joint.
    """
    line = back.apply(part.line)
    figures = {key: round(float(value), 4) for key, value in sorted(part.figures.items())}
    return {
        "id": part.id,
        "kind": part.kind,
        "tooth": part.tooth,
        "width_mm": sizes(part.width_mm),
        "thickness_mm": sizes(part.thickness_mm),
        **figures,
        "start_mm": point_of(line[0]),
        "end_mm": point_of(line[-1]),
        "low_mm": point_of(line.min(axis=0)),
        "high_mm": point_of(line.max(axis=0)),
    }


def sizes(values: Any) -> list[float]:
    """Least and greatest of a size along a component [mm]."""
    return [round(float(np.min(values)), 3), round(float(np.max(values)), 3)]
