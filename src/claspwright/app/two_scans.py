"""Two scans of one arch compared; a new scan taken into a case in place of the old one."""

from __future__ import annotations

import hashlib
import json
import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import tomlkit

from claspwright.app.carry_out import MM_PER_UNIT, scaled, take_in_master
from claspwright.app.folder import whole_folder
from claspwright.app.hashes import sha256_of
from claspwright.app.whole_file import write_whole, write_whole_text
from claspwright.arch import (
    Comparison,
    Notation,
    compare_scans,
    find_teeth,
    guess_unit,
    parse_tooth,
)
from claspwright.base import Finding, Floats, InputError, Progress, part, silent
from claspwright.case import SHEET_NAME, CaseSheet, parse_sheet, read_sheet, with_mark, with_table
from claspwright.formats import read_mesh, write_ply
from claspwright.geometry import DistanceTree, Mesh, Rigid, closest_points

MARK_MM = 3.0  # a mark further from the new scan than this has lost its tooth
HASH_DIGITS = 12
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
        return against_case(read_sheet(old), read_mesh(new), progress=progress)[0]
    return compare_scans(read_mesh(old), read_mesh(new), progress=progress)


def rescanned(case: Path, new: Path, out: Path | None, *, progress: Progress = silent) -> Rescan:
    """The same case with a new master scan: in a new folder, or in the case itself.

    The new scan is moved into the frame of the old one, so that the opposing arch, the bite
    record and every place in the sheet stay valid; marks are put on the new surface. The old
    scan stays in the folder. In the case itself, the sheet as it was stays beside it, named by
    its hash, and the new sheet takes its place last, in one step: whatever interrupts it before,
    the case is as it was.

    Args:
        case: a case folder or its sheet.
        new: a mesh file of the same arch, any unit and pose.
        out: a new folder for the case as it is now; None: the case itself.
        progress: told of each step.

    Raises:
        InputError: the scans do not show one arch, or a file or place cannot be used.
    """
    sheet = read_sheet(case)
    if out is not None and out.exists() and (not out.is_dir() or any(out.iterdir())):
        raise InputError("this place is in use", place=out.as_posix(), remedy="Name a new folder.")
    fresh = read_mesh(new)
    found, _ = against_case(sheet, fresh, progress=part(progress, 0.0, 0.9))
    stops = [finding for finding in found.findings if finding.severity == "stop"]
    if stops:
        raise InputError(stops[0].text, place=new.name, remedy="Give a scan of the same arch.")
    factor = guess_unit(fresh).mm_per_unit
    moved = Mesh(fresh.vertices * factor, fresh.faces).moved(found.new_to_old)
    text, put, lost = _with_marks(sheet, moved)
    per_mm = 1.0 / MM_PER_UNIT[sheet.scans.unit or "mm"]
    filed = Mesh(moved.vertices * per_mm, moved.faces)
    folder = sheet.path.parent if out is None else out
    if out is None:
        _replace_scan(sheet, text, filed, found)
    else:
        with whole_folder(out) as whole:
            shutil.copytree(sheet.path.parent, whole, dirs_exist_ok=True)
            name = f"scans/rescan-{new.stem}.ply"
            (whole / "scans").mkdir(exist_ok=True)
            write_ply(filed, whole / name)
            text = with_table(text, "scans", {"master": name})
            (whole / SHEET_NAME).write_bytes(text.encode("utf-8"))
            (whole / "rescan.json").write_bytes(_told(found).encode("utf-8"))
            read_sheet(whole)
    progress(1.0, "rescan")
    return Rescan(folder, found, put, lost, (*found.findings, *(_lost(code) for code in lost)))


def _replace_scan(sheet: CaseSheet, text: str, filed: Mesh, found: Comparison) -> None:
    """Write the scan and the sheet as it was beside the sheet, then the sheet itself."""
    folder = sheet.path.parent
    (folder / "scans").mkdir(exist_ok=True)
    first = folder / "scans" / "rescan.ply"
    write_whole(first, lambda file: write_ply(filed, file))
    mark = sha256_of(first)[:HASH_DIGITS]
    name = f"scans/master-{mark}.ply"
    first.replace(folder / name)
    text = with_table(text, "scans", {"master": name})
    parse_sheet(text, sheet.path)
    was = sheet.path.read_bytes()
    earlier = f"case.earlier-{hashlib.sha256(was).hexdigest()[:HASH_DIGITS]}.toml"
    write_whole(folder / earlier, lambda file: file.write_bytes(was))
    told = as_json(found) | {
        "earlier_sheet": earlier,
        "earlier_master": sheet.scans.master.relative_to(folder).as_posix()
        if sheet.scans.master.is_relative_to(folder)
        else sheet.scans.master.name,
        "earlier_master_sha256": sha256_of(sheet.scans.master),
        "master": name,
        "master_sha256": sha256_of(folder / name),
    }
    write_whole_text(folder / f"rescan-{mark}.json", _dumped(told))
    write_whole_text(sheet.path, text)


def _told(found: Comparison) -> str:
    return _dumped(as_json(found))


def _dumped(tree: dict[str, Any]) -> str:
    return json.dumps(tree, indent=2, ensure_ascii=False) + "\n"


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
            {
                "rule": f.rule,
                "severity": f.severity,
                "text": f.text,
                "source": f.source,
                "component": f.component,
            }
            for f in found.findings
        ],
    }


def _number(value: float) -> float | None:
    return round(value, 4) if np.isfinite(value) else None


def against_case(
    sheet: CaseSheet, fresh: Mesh, *, progress: Progress = silent
) -> tuple[Comparison, Rigid]:
    """Compare a new scan with a case's master, teeth named.

    Args:
        sheet: the case.
        fresh: the new scan in any unit and pose.
        progress: told of each step.

    Returns:
        What differs, in the frame of the master's file in mm, and the motion from there into the
        frame of the arch.
    """
    scan = take_in_master(sheet, part(progress, 0.0, 0.4))
    marks = {code: scan.scan_to_arch.apply(np.array(at)) for code, at in sheet.marks.items()}
    arch = find_teeth(scan, marks, sheet.prescription.missing, progress=part(progress, 0.4, 0.5))
    back = scan.scan_to_arch.inverse()
    crowns: dict[int, Floats] = {
        code: back.apply(scan.surface.corners[tooth.faces].mean(axis=1))
        for code, tooth in arch.teeth.items()
    }
    old = scaled(read_mesh(sheet.scans.master), sheet.scans.unit)
    found = compare_scans(old, fresh, crowns, progress=part(progress, 0.5, 1.0))
    return found, scan.scan_to_arch


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
