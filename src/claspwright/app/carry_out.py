"""The main job as far as it can go: from a sound sheet to a framework, or to what stops it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Literal, TypeVar

import numpy as np

from claspwright.app.hashes import known_sha256
from claspwright.app.judge import judge, out_of_scope
from claspwright.app.memory import Forgetful, Memory
from claspwright.app.rest_places import seats_of
from claspwright.app.watch import Watch
from claspwright.app.waxing import wax_in_arch, waxed
from claspwright.app.work import Work
from claspwright.arch import (
    KennedyClass,
    MasterScan,
    align_opposing,
    bite_findings,
    classify,
    find_teeth,
    is_third_molar,
    read_bite,
    take_in,
)
from claspwright.base import Cancelled, ClaspwrightError, Finding, InputError, Progress, part
from claspwright.case import CaseSheet
from claspwright.formats import read_mesh
from claspwright.framework import (
    build,
    plan_design,
    propose_design,
    retention_zones,
    room_for_teeth,
)
from claspwright.geometry import DistanceTree, Mesh
from claspwright.survey import path_from_tilts, search_path, survey

MM_PER_UNIT = {"mm": 1.0, "um": 0.001, "cm": 10.0, "m": 1000.0, "inch": 25.4}


Stage = Literal["intake", "teeth", "survey", "framework"]
STAGES: tuple[Stage, ...] = ("intake", "teeth", "survey", "framework")


def carry_out(
    sheet: CaseSheet,
    watch: Watch,
    progress: Progress,
    *,
    until: Stage = "framework",
    memory: Memory | None = None,
) -> Work:
    """Do every stage that can be done, then hold the result against the rules.

    What makes a later stage impossible becomes a `stop`, and the work ends there; a file or a
    sheet that cannot be used is an InputError. With `until` the work ends after that stage, and
    the rules, which judge a finished design, are asked only after the last one. Of a `memory`
    each stage asks whether it has done the same before.
    """
    known = memory or Forgetful()
    work = Work(sheet, kennedy_of(sheet), findings=list(sheet.findings))
    if not out_of_scope(work):
        steps = (_take_in, _find_teeth, _survey, _build)
        begins = (0.0, 0.2, 0.35, 0.55, 0.9)
        try:
            for at, step in enumerate(steps[: STAGES.index(until) + 1]):
                step(work, watch, known, part(progress, begins[at], begins[at + 1]))
        except (InputError, Cancelled):
            raise
        except ClaspwrightError as error:
            work.findings.append(as_stop(error))
    if until != STAGES[-1]:
        return work
    with watch.stage("rules"):
        work.findings += judge(work, progress=part(progress, 0.9, 1.0))
    return work


def kennedy_of(sheet: CaseSheet) -> KennedyClass:
    """Kennedy class of the prescription; a third molar counts if a base replaces it."""
    asked = sheet.prescription
    based = [tooth for base in sheet.wishes.bases for tooth in base.teeth]
    carrying = [r.tooth for r in sheet.wishes.retainers if is_third_molar(r.tooth)]
    return classify(
        asked.jaw,
        asked.missing,
        not_replaced=asked.not_replaced,
        present_abutments=[*asked.present_abutments, *carrying],
        replaced=[tooth for tooth in based if is_third_molar(tooth)],
    )


def as_stop(error: ClaspwrightError) -> Finding:
    """An error of a stage as a finding, so that report and findings come all the same."""
    text = f"{error.what}. {error.remedy}" if error.remedy else f"{error.what}."
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
    return take_in(mesh, jaw=asked.jaw, progress=progress)


def _scan_inputs(sheet: CaseSheet) -> tuple[object, ...]:
    """All that intake depends on."""
    asked, scans = sheet.prescription, sheet.scans
    return known_sha256(scans.master), scans.unit, asked.jaw, asked.missing


def _arch_inputs(sheet: CaseSheet) -> tuple[object, ...]:
    """All that the arch with its teeth and its opposing arch depends on."""
    others = [
        None if f is None else known_sha256(f) for f in (sheet.scans.opposing, sheet.scans.bite)
    ]
    return _scan_inputs(sheet), sorted(sheet.marks.items()), others


def _take_in(work: Work, watch: Watch, known: Memory, progress: Progress) -> None:
    with watch.stage("intake"):
        progress(0.0, "reading the scan")
        work.scan = known.recall(
            "intake", lambda: _scan_inputs(work.sheet), lambda: take_in_master(work.sheet, progress)
        )
        work.findings += work.scan.findings


def _find_teeth(work: Work, watch: Watch, known: Memory, progress: Progress) -> None:
    sheet, scan = work.sheet, _there(work.scan)
    with watch.stage("teeth"):
        marks = {tooth: scan.scan_to_arch.apply(np.array(at)) for tooth, at in sheet.marks.items()}
        missing = sheet.prescription.missing
        work.arch = known.recall(
            "teeth",
            lambda: (_scan_inputs(sheet), sorted(sheet.marks.items())),
            lambda: find_teeth(scan, marks, missing, progress=part(progress, 0.0, 0.7)),
        )
        work.findings += work.arch.findings
    if sheet.scans.opposing is None:
        return
    with watch.stage("opposing arch"):
        progress(0.7, "opposing arch")
        opposing = scaled(read_mesh(sheet.scans.opposing), sheet.scans.unit)
        bite = sheet.scans.bite
        record = None if bite is None else scaled(read_mesh(bite), sheet.scans.unit)
        aligned, found = align_opposing(opposing, record, scan)
        work.arch = replace(work.arch, opposing=aligned)
        work.findings += found


def _survey(work: Work, watch: Watch, known: Memory, progress: Progress) -> None:
    arch, sheet = _there(work.arch), work.sheet
    tree = cache(lambda: DistanceTree(arch.scan.solid))  # for both, where one is worked out
    with watch.stage("path"):
        tilts = sheet.tilts_deg
        named = None if tilts is None else path_from_tilts(arch.scan.jaw, *tilts)
        zones = retention_zones(plan_design(arch, sheet.wishes).retainers)
        choice = known.recall(
            "path",
            lambda: (_arch_inputs(sheet), sheet.wishes, tilts),
            lambda: search_path(
                arch, zones, named=named, tree=tree(), progress=part(progress, 0.0, 0.5)
            ),
        )
        work.zones, work.choice, work.path = zones, choice, choice.path
        work.path_reason = "" if choice.named else choice.reasons[0]
        work.findings += choice.findings
    with watch.stage("survey"):
        path = work.path
        work.surveyed = known.recall(
            "survey",
            lambda: (_arch_inputs(sheet), path.direction.tolist()),
            lambda: survey(arch, path, tree=tree(), progress=part(progress, 0.5, 1.0)),
        )
        work.findings += work.surveyed.findings


def _build(work: Work, watch: Watch, known: Memory, progress: Progress) -> None:
    arch, surveyed = _there(work.arch), _there(work.surveyed)
    with watch.stage("design"):
        work.design = propose_design(arch, surveyed, work.sheet.wishes)
        work.findings += work.design.findings
        if arch.opposing is not None:  # where none was given, a rule of the solid says so
            seats = seats_of(arch, work.design.retainers)
            work.bite = read_bite(arch, surveyed.path.direction)
            work.findings += bite_findings(arch, work.bite, seats)
    with watch.stage("framework"):
        design, path = work.design, surveyed.path
        wax = wax_in_arch(work.sheet.wax, arch.scan.scan_to_arch)
        work.framework = known.recall(
            "framework",
            lambda: (_arch_inputs(work.sheet), path.direction.tolist(), design, wax),
            lambda: waxed(build(arch, surveyed, design, wax, progress=progress), wax, arch),
        )
        work.findings += work.framework.findings
    with watch.stage("artificial teeth"):
        framework = work.framework
        work.room = known.recall(
            "artificial teeth",
            lambda: (_arch_inputs(work.sheet), path.direction.tolist(), design, wax),
            lambda: room_for_teeth(arch, surveyed, framework),
        )
        work.findings += work.room.findings


T = TypeVar("T")


def _there(value: T | None) -> T:
    """A value of an earlier stage, which has run."""
    assert value is not None
    return value
