"""Two scans of one arch compared; a new scan taken into a case in place of the old one."""

from __future__ import annotations

import json
import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import tomlkit

from claspwright.app.carry_out import MM_PER_UNIT, scaled, take_in_master
from claspwright.app.folder import whole_folder
from claspwright.arch import (
    Comparison,
    Notation,
    compare_scans,
    find_teeth,
    guess_unit,
    parse_tooth,
)
from claspwright.base import Finding, Floats, InputError, Progress, part, silent
from claspwright.case import SHEET_NAME, CaseSheet, read_sheet, with_mark, with_table
from claspwright.formats import read_mesh, write_ply
from claspwright.geometry import DistanceTree, Mesh, closest_points

MARK_MM = 3.0  # a mark further from the new scan than this has lost its tooth
SNAP_MM = 0.05  # a mark nearer than this stays as it was written


@dataclass(frozen=True, slots=True, eq=False)
class Rescan:
    """A case with its new scan."""

    folder: Path
    comparison: Comparison
    moved_marks: tuple[int, ...]  # put on the new surface
    lost_marks: tuple[int, ...]  # taken out: no surface near them
    findings: tuple[Finding, ...]


def compared(old: Path, new: Path, *, progress: Progress = silent) -> Comparison:
    """Compare a new scan with an old one; places are named where `old` is a case.

    Args:
        old: a mesh file, a case folder or its sheet.
        new: a mesh file in any unit and pose.
        progress: told of each step.
    """
    if old.is_dir() or old.name == SHEET_NAME:
        return _against_case(read_sheet(old), read_mesh(new), progress)
    return compare_scans(read_mesh(old), read_mesh(new), progress=progress)


def rescanned(case: Path, new: Path, out: Path, *, progress: Progress = silent) -> Rescan:
    """The same case with a new master scan, in a new folder; the case itself is not changed.

    The new scan is moved into the frame of the old one, so that the opposing arch, the bite
    record and every place in the sheet stay valid; marks are put on the new surface. The old
    scan stays in the folder.

    Raises:
        InputError: the scans do not show one arch, or a file or place cannot be used.
    """
    sheet = read_sheet(case)
    if out.exists() and (not out.is_dir() or any(out.iterdir())):
        raise InputError("this place is in use", place=out.as_posix(), remedy="Name a new folder.")
    fresh = read_mesh(new)
    found = _against_case(sheet, fresh, part(progress, 0.0, 0.9))
    stops = [finding for finding in found.findings if finding.severity == "stop"]
    if stops:
        raise InputError(stops[0].text, place=new.name, remedy="Give a scan of the same arch.")
    factor = guess_unit(fresh).mm_per_unit
    moved = Mesh(fresh.vertices * factor, fresh.faces).moved(found.new_to_old)
    text, put, lost = _with_marks(sheet, moved)
    name = f"scans/rescan-{new.stem}.ply"
    text = with_table(text, "scans", {"master": name})
    lost_ones = tuple(_lost(code) for code in lost)
    with whole_folder(out) as folder:
        shutil.copytree(sheet.path.parent, folder, dirs_exist_ok=True)
        (folder / "scans").mkdir(exist_ok=True)
        per_mm = 1.0 / MM_PER_UNIT[sheet.scans.unit or "mm"]
        write_ply(Mesh(moved.vertices * per_mm, moved.faces), folder / name)
        (folder / SHEET_NAME).write_bytes(text.encode("utf-8"))
        told = json.dumps(as_json(found), indent=2, ensure_ascii=False) + "\n"
        (folder / "rescan.json").write_bytes(told.encode("utf-8"))
        read_sheet(folder)
    progress(1.0, "rescan")
    return Rescan(out, found, put, lost, (*found.findings, *lost_ones))


def as_json(found: Comparison) -> dict[str, Any]:
    """What `--json` prints; places in the frame of the old scan [mm]. Any: a tree for JSON."""
    return {
        "overlap_share": round(found.overlap, 4),
        "rms_mm": round(found.rms_mm, 4),
        "p95_mm": round(found.p95_mm, 4),
        "change_limit_mm": round(found.limit_mm, 4),
        "changed_teeth": list(found.changed_teeth),
        "new_to_old": [[round(float(v), 9) for v in row] for row in found.new_to_old.matrix()],
        "teeth": [
            {
                "tooth": tooth.tooth,
                "rms_mm": _number(tooth.rms_mm),
                "p95_mm": _number(tooth.p95_mm),
                "greatest_mm": _number(tooth.greatest_mm),
                "changed_mm2": round(tooth.changed_mm2, 2),
            }
            for tooth in found.teeth
        ],
        "changes": [
            {
                "at_mm": [round(float(v), 3) for v in change.at],
                "area_mm2": round(change.area_mm2, 2),
                "greatest_mm": round(change.greatest_mm, 4),
                "tooth": change.tooth or None,
            }
            for change in found.changes
        ],
        "findings": [
            {"rule": f.rule, "severity": f.severity, "text": f.text} for f in found.findings
        ],
    }


def _number(value: float) -> float | None:
    return round(value, 4) if np.isfinite(value) else None


def _against_case(sheet: CaseSheet, fresh: Mesh, progress: Progress) -> Comparison:
    scan = take_in_master(sheet, part(progress, 0.0, 0.4))
    marks = {code: scan.scan_to_arch.apply(np.array(at)) for code, at in sheet.marks.items()}
    arch = find_teeth(scan, marks, sheet.prescription.missing, progress=part(progress, 0.4, 0.5))
    back = scan.scan_to_arch.inverse()
    crowns: dict[int, Floats] = {
        code: back.apply(scan.surface.corners[tooth.faces].mean(axis=1))
        for code, tooth in arch.teeth.items()
    }
    old = scaled(read_mesh(sheet.scans.master), sheet.scans.unit)
    return compare_scans(old, fresh, crowns, progress=part(progress, 0.5, 1.0))


def _with_marks(sheet: CaseSheet, moved: Mesh) -> tuple[str, tuple[int, ...], tuple[int, ...]]:
    """The sheet with its marks on the new surface, and which were put and which have lost it."""
    text = sheet.text
    put: list[int] = []
    lost: list[int] = []
    tree = DistanceTree(moved)
    for code, at in sheet.marks.items():
        near = closest_points(tree, np.array([at])).points[0]
        gap = float(np.linalg.norm(near - np.array(at)))
        if gap > MARK_MM:
            lost.append(code)
        elif gap > SNAP_MM:
            text = with_mark(text, sheet.notation, code, [float(v) for v in near])
            put.append(code)
    if lost:
        text = _without_marks(text, sheet.notation, lost)
    return text, tuple(put), tuple(lost)


def _without_marks(text: str, notation: Notation, codes: list[int]) -> str:
    document: Any = tomlkit.parse(text)  # Any: tomlkit types its items loosely
    entries = document.get("mark", [])
    for place in reversed(range(len(entries))):
        if parse_tooth(str(entries[place]["tooth"]), notation) in codes:
            del entries[place]
    return tomlkit.dumps(document)


def _lost(code: int) -> Finding:
    text = (
        f"The mark of tooth {code} finds no surface within {MARK_MM:.0f} mm on the new scan and "
        "was taken out. List the tooth as missing where it is gone, or set its mark again."
    )
    return Finding("scans.mark", "look", text, "own choice", limit=MARK_MM, unit="mm",
                   component=f"tooth.{code}")  # fmt: skip
