"""The main job as far as it can go: from a sound sheet to a framework, or to what stops it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from claspwright.app.scope import refused
from claspwright.app.watch import Watch
from claspwright.arch import (
    DentalArch,
    KennedyClass,
    MasterScan,
    align_opposing,
    classify,
    find_teeth,
    is_third_molar,
    present_teeth,
    propose_marks,
    take_in,
)
from claspwright.base import ClaspwrightError, Finding, Floats, InputError, Progress, part
from claspwright.case import CaseSheet
from claspwright.formats import read_mesh
from claspwright.framework import (
    Design,
    Framework,
    build,
    plan_design,
    propose_design,
    retention_zones,
)
from claspwright.geometry import Mesh
from claspwright.survey import PathOfPlacement, Survey, path_from_tilts, search_path, survey

MM_PER_UNIT = {"mm": 1.0, "um": 0.001, "cm": 10.0, "m": 1000.0, "inch": 25.4}


@dataclass(slots=True)
class Work:
    """What is known of a case so far; filled stage by stage, arch frame."""

    sheet: CaseSheet
    kennedy: KennedyClass
    scan: MasterScan | None = None
    marks: Mapping[int, Floats] = field(default_factory=dict)
    arch: DentalArch | None = None
    path: PathOfPlacement | None = None
    surveyed: Survey | None = None
    design: Design | None = None
    framework: Framework | None = None
    findings: list[Finding] = field(default_factory=list)


def carry_out(sheet: CaseSheet, watch: Watch, progress: Progress) -> Work:
    """Do every stage that can be done.

    What makes a later stage impossible becomes a `stop`, and the work ends there; a file or a
    sheet that cannot be used is an InputError.
    """
    work = Work(sheet, kennedy_of(sheet), findings=list(sheet.findings))
    out_of_scope = refused(sheet.prescription)
    if out_of_scope:
        work.findings += out_of_scope
        return work
    try:
        _take_in(work, watch, part(progress, 0.0, 0.25))
        _find_teeth(work, watch, part(progress, 0.25, 0.35))
        _survey(work, watch, part(progress, 0.35, 0.6))
        _build(work, watch, part(progress, 0.6, 1.0))
    except InputError:
        raise
    except ClaspwrightError as error:
        work.findings.append(as_stop(error))
    return work


def kennedy_of(sheet: CaseSheet) -> KennedyClass:
    """Kennedy class of the prescription; a third molar counts if a base replaces it."""
    asked = sheet.prescription
    based = [tooth for base in sheet.wishes.bases for tooth in base.teeth]
    return classify(
        asked.jaw,
        asked.missing,
        not_replaced=asked.not_replaced,
        present_abutments=asked.present_abutments,
        replaced=[tooth for tooth in based if is_third_molar(tooth)],
    )


def as_stop(error: ClaspwrightError) -> Finding:
    """An error of a stage as a finding, so that report and findings come all the same."""
    text = f"{error.what}. {error.remedy}" if error.remedy else error.what
    kind = type(error).__name__.removesuffix("Error").lower()
    return Finding(f"run.{kind}", "stop", text, source="this run", component=error.place)


def scaled(mesh: Mesh, unit: str | None) -> Mesh:
    """The mesh in mm where the sheet names its unit, else as it is."""
    factor = MM_PER_UNIT[unit or "mm"]
    return mesh if factor == 1.0 else Mesh(mesh.vertices * factor, mesh.faces)


def take_in_master(sheet: CaseSheet, progress: Progress) -> MasterScan:
    """Read the master file and take it in."""
    mesh = scaled(read_mesh(sheet.scans.master), sheet.scans.unit)
    asked = sheet.prescription
    return take_in(mesh, jaw=asked.jaw, missing=asked.missing, progress=progress)


def marks_of(sheet: CaseSheet, scan: MasterScan, present: tuple[int, ...]) -> dict[int, Floats]:
    """One mark a tooth, arch frame: the sheet's own, and proposals for the others."""
    own = {tooth: scan.scan_to_arch.apply(_point(at)) for tooth, at in sheet.marks.items()}
    if all(tooth in own for tooth in present):
        return own
    return {**propose_marks(scan, present), **own}


def present_of(sheet: CaseSheet) -> tuple[int, ...]:
    """Teeth that are taken to stand: a third molar only where the sheet speaks of it."""
    asked = sheet.prescription
    named = {*asked.present_abutments, *sheet.marks, *(r.tooth for r in sheet.wishes.retainers)}
    present = present_teeth(asked.jaw, asked.missing)
    return tuple(tooth for tooth in present if not is_third_molar(tooth) or tooth in named)


def _take_in(work: Work, watch: Watch, progress: Progress) -> None:
    with watch.stage("intake"):
        work.scan = take_in_master(work.sheet, progress)
        work.findings += work.scan.findings


def _find_teeth(work: Work, watch: Watch, progress: Progress) -> None:
    assert work.scan is not None
    present = present_of(work.sheet)
    with watch.stage("teeth"):
        progress(0.0, "teeth")
        work.marks = marks_of(work.sheet, work.scan, present)
        proposed = [tooth for tooth in present if tooth not in work.sheet.marks]
        if proposed:
            work.findings.append(_marks_proposed(proposed))
        absent = [tooth for tooth in present_teeth(work.scan.jaw, ()) if tooth not in present]
        work.arch = find_teeth(work.scan, work.marks, absent)
        work.findings += work.arch.findings
    opposing, bite = work.sheet.scans.opposing, work.sheet.scans.bite
    if opposing is not None:
        with watch.stage("opposing arch"):
            progress(0.5, "opposing arch")
            unit = work.sheet.scans.unit
            other = scaled(read_mesh(opposing), unit)
            record = scaled(read_mesh(bite), unit) if bite is not None else None
            aligned, found = align_opposing(other, record, work.scan)
            work.arch = replace(work.arch, opposing=aligned)
            work.findings += found
    progress(1.0, "teeth")


def _survey(work: Work, watch: Watch, progress: Progress) -> None:
    assert work.arch is not None
    plan = plan_design(work.arch, work.sheet.wishes)
    with watch.stage("path"):
        if work.sheet.tilts_deg is not None:
            work.path = path_from_tilts(work.arch.scan.jaw, *work.sheet.tilts_deg)
        else:
            zones = retention_zones(plan.retainers)
            choice = search_path(work.arch, zones, progress=part(progress, 0.0, 0.5))
            work.path = choice.path
            work.findings += choice.findings
    with watch.stage("survey"):
        work.surveyed = survey(work.arch, work.path, progress=part(progress, 0.5, 1.0))
        work.findings += work.surveyed.findings


def _build(work: Work, watch: Watch, progress: Progress) -> None:
    assert work.arch is not None and work.surveyed is not None
    with watch.stage("design"):
        work.design = propose_design(work.arch, work.surveyed, work.sheet.wishes)
        work.findings += work.design.findings
    with watch.stage("framework"):
        work.framework = build(work.arch, work.surveyed, work.design, progress=progress)
        work.findings += work.framework.findings


def _marks_proposed(teeth: list[int]) -> Finding:
    return Finding(
        "teeth.marks",
        "look",
        f"The marks of {', '.join(map(str, teeth))} were found by the program; see that each "
        "lies on its tooth, and take them over into the sheet.",
        source="this run",
        measured=float(len(teeth)),
        unit="marks",
    )


def _point(at: tuple[float, float, float]) -> Floats:
    import numpy as np

    return np.array(at, dtype=np.float64)
