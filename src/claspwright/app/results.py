"""The files of a run: JSON, the proposed sheet, meshes, report and review page."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

import numpy as np

from claspwright import __version__
from claspwright.app.as_built import TO_BUILD, as_built
from claspwright.app.build_places import places_to_tell
from claspwright.app.case_areas import areas_of, areas_text, regions_of
from claspwright.app.hashes import sha256_of
from claspwright.app.to_scan import point_of
from claspwright.app.work import Work
from claspwright.base import Finding, InputError, Progress, part
from claspwright.case import Proposed, write_proposed
from claspwright.formats import write_3mf, write_ply, write_stl
from claspwright.geometry import beside, merged, volume
from claspwright.materials import material
from claspwright.report import (
    CaseFacts,
    Measure,
    ReportContent,
    compose,
    write_report,
    write_review,
)

ACRYLIC_SOURCE = "between tissue, artificial teeth as blocks and a flange of 2 mm, less the metal"
_UNHASHED = ("summary.json", "timings.json")


def write_geometry(folder: Path, work: Work) -> None:
    """Blocked-out model and framework, scan frame; nothing where none could be made."""
    if work.framework is None or work.scan is None:
        return
    back = work.scan.scan_to_arch.inverse()
    write_ply(work.framework.blocked_out.model.moved(back), folder / "blocked_out.ply")
    solid = work.framework.solid.moved(back)
    write_stl(solid, folder / "framework.stl")
    write_3mf(solid, folder / "framework.3mf")
    if work.path is not None:
        parts = work.framework.components
        path = point_of(back.turn(work.path.direction), 6)
        write_text(folder / "areas.toml", areas_text(areas_of(parts, back), path,
                                                     regions_of(parts, back)))  # fmt: skip
    if work.sheet.finishing.steps:  # the same with what finishing takes off
        write_stl(as_built(work.framework, work.sheet.finishing).moved(back), folder / TO_BUILD)
    wires = [wire.solid.moved(back) for wire in work.framework.wires]
    if wires:  # not printed: bent by hand, for comparison
        write_stl(merged(*wires), folder / "wires.stl")


def write_proposed_sheet(folder: Path, work: Work) -> None:
    """The sheet with all that the run settled."""
    marks = {}
    if work.scan is not None:
        back = work.scan.scan_to_arch.inverse()
        marks = {tooth: point_of(back.apply(at), 3) for tooth, at in sorted(work.marks.items())}
    tilts = None
    if work.path is not None:
        tilts = (work.path.anterior_tilt_deg, work.path.right_lateral_tilt_deg)
    proposed = Proposed(work.design, marks, tilts, path_reason=work.path_reason)
    write_text(folder / "case.proposed.toml", write_proposed(work.sheet, proposed))


def write_findings(folder: Path, findings: Sequence[Finding]) -> None:
    """Every finding; places in the frame of the master scan file [mm]."""
    write_json(folder / "findings.json", [asdict(finding) for finding in findings])


def write_documents(
    folder: Path, work: Work, facts: CaseFacts, findings: Sequence[Finding], progress: Progress
) -> ReportContent:
    """Print report and review page, and return what they say; `findings` in the arch frame."""
    content = compose(
        facts,
        work.arch,
        work.surveyed,
        work.framework,
        tuple(findings),
        measures=_measures(work),
        choice=work.choice,
        room=work.room,
        bite=work.bite,
        progress=part(progress, 0.0, 0.8),
    )
    progress(0.8, "report")
    # the one is set while the other is packed
    printed, page = beside(lambda: write_report(content), lambda: write_review(content))
    (folder / "report.pdf").write_bytes(printed)
    progress(0.9, "review page")
    write_text(folder / "review.html", page)
    progress(1.0, "report")
    return content


def facts_of(work: Work, date: str, hashes: dict[str, str], outputs: dict[str, str]) -> CaseFacts:
    """The case in the words of the report."""
    asked = work.sheet.prescription
    return CaseFacts(
        id=asked.case_id,
        jaw=asked.jaw,
        kennedy=str(work.kennedy),
        missing=asked.missing,
        not_replaced=asked.not_replaced,
        prescription=_sentences(work, date),
        alloy=material(asked.alloy).title,
        prescribed=asked.prescribed.isoformat() if asked.prescribed else "",
        due=asked.due.isoformat() if asked.due else "",
        prescriber=asked.prescriber,
        laboratory=asked.laboratory,
        patient=asked.patient,
        version=__version__,
        input_hashes=tuple(sorted(hashes.items())),
        output_hashes=tuple(sorted(outputs.items())),
    )


def summary_of(work: Work, date: str, hashes: dict[str, str], folder: Path) -> dict[str, Any]:
    """What `summary.json` holds; Any: a tree for JSON."""
    stops = sum(finding.severity == "stop" for finding in work.findings)
    made = None if work.framework is None else volume(work.framework.solid)
    alloy = material(work.sheet.prescription.alloy)
    return {
        "version": __version__,
        "case_id": work.sheet.prescription.case_id,
        "date": date or None,
        "arch": work.sheet.prescription.jaw,
        "input_hashes": hashes,
        "kennedy_class": work.kennedy.kennedy_class,
        "modifications": work.kennedy.modifications,
        **_frames(work),
        "alloy": alloy.name,
        "volume_mm3": None if made is None else round(made, 4),
        "acrylic": _acrylic(work),
        "mass_g": None if made is None else round(alloy.mass_g(made), 4),
        "blocked_out": _bodies(work),
        "places": _places(work),
        "stops": stops,
        "looks": sum(finding.severity == "look" for finding in work.findings),
        "files": hashes_in(folder),
    }


def acrylic_of_run(folder: Path) -> float:
    """Volume of the acrylic of all bases of a run [cm3].

    Raises:
        InputError: no run lies there, or it has no base of acrylic.
    """
    path = folder / "summary.json"
    if not path.is_file():
        raise InputError(
            "no results of a run here", place=folder.as_posix(), remedy="Run the case first."
        )
    rows = json.loads(path.read_text(encoding="utf-8")).get("acrylic", [])
    total = sum(float(row["acrylic_mm3"]) for row in rows) / 1000.0
    if not total > 0:
        raise InputError(
            "this run has no base of acrylic", place=path.as_posix(), remedy="Give --base-cm3."
        )
    return total


def _acrylic(work: Work) -> list[dict[str, Any]]:
    """Teeth and acrylic of each base; Any: a row for JSON."""
    return [
        {
            "teeth": list(base.teeth),
            "acrylic_mm3": round(base.acrylic_mm3, 1),
            "tooth_height_mm": {str(b.tooth): round(b.height_mm, 2) for b in base.blocks},
        }
        for base in (() if work.room is None else work.room.bases)
    ]


def hashes_in(folder: Path) -> dict[str, str]:
    """Hash of every file but the summary itself and the timings."""
    files = sorted(file for file in folder.iterdir() if file.name not in _UNHASHED)
    return {file.name: sha256_of(file) for file in files}


def write_json(path: Path, value: Any) -> None:
    """JSON with one form for one value."""
    write_text(path, json.dumps(value, indent=2, ensure_ascii=False) + "\n")


def write_text(path: Path, text: str) -> None:
    """UTF-8 with plain line ends on every platform."""
    path.write_bytes(text.encode("utf-8"))


def _frames(work: Work) -> dict[str, Any]:
    """The path with its tilts, and the two frames; null where the work did not come so far."""
    scan, path = work.scan, work.path
    in_scan = in_arch = None
    if scan is not None and path is not None:
        in_scan = point_of(scan.scan_to_arch.inverse().turn(path.direction), 9)
        in_arch = point_of(path.direction, 9)
    return {
        "path": in_scan,
        "path_arch_frame": in_arch,
        "anterior_tilt_deg": None if path is None else round(path.anterior_tilt_deg, 6),
        "right_lateral_tilt_deg": None if path is None else round(path.right_lateral_tilt_deg, 6),
        "frame": "scan: the frame of the master file, in mm",
        "scan_to_arch": (
            None
            if scan is None
            else [[round(float(v), 9) + 0.0 for v in row] for row in scan.scan_to_arch.matrix()]
        ),
    }


def _bodies(work: Work) -> list[dict[str, Any]]:
    """What was added to the model or cut from it, by name; places in the scan's frame."""
    if work.framework is None or work.scan is None:
        return []
    back = work.scan.scan_to_arch.inverse()
    return [
        {
            "name": body.name,
            "kind": body.kind,
            "volume_mm3": round(body.volume_mm3, 3),
            "at_mm": point_of(back.apply(np.array(body.at_mm)), 3),
        }
        for body in work.framework.blocked_out.bodies
    ]


def _places(work: Work) -> list[dict[str, Any]]:
    """Rests and tips of arms, which must fit after printing; places in the scan's frame."""
    if work.framework is None or work.scan is None:
        return []
    return places_to_tell(work.framework.components, work.scan.scan_to_arch.inverse().apply)


def _measures(work: Work) -> tuple[Measure, ...]:
    if work.framework is None:
        return ()
    alloy = material(work.sheet.prescription.alloy)
    mass = alloy.mass_g(volume(work.framework.solid))
    measures = [Measure("mass of the framework", mass, "g", alloy.density.cited)]
    if work.room is not None and work.room.bases:
        measures.append(
            Measure("acrylic of the bases", work.room.acrylic_mm3 / 1000.0, "cm3", ACRYLIC_SOURCE)
        )
    return tuple(measures)


def _sentences(work: Work, date: str) -> tuple[str, ...]:
    asked = work.sheet.prescription
    out = []
    if asked.functional_depth_mm is not None:
        out.append(f"Functional lingual depth, probed: {asked.functional_depth_mm:g} mm.")
    if asked.present_abutments:
        teeth = ", ".join(map(str, asked.present_abutments))
        out.append(f"Third molars that carry the denture: {teeth}.")
    if asked.allergies:
        cleared = asked.allergies_cleared or "not cleared by the prescriber"
        out.append(f"Allergies: {', '.join(asked.allergies)} ({cleared}).")
    if asked.vertical_dimension:
        out.append(f"Vertical dimension: {asked.vertical_dimension}")
    if asked.notes:
        out.append(asked.notes)
    if date:
        out.append(f"Worked out on {date}.")
    return tuple(out)
