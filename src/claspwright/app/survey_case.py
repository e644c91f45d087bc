"""Survey a case: the path of placement with its reasons, readings, maps and transfer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from claspwright import __version__
from claspwright.app.carry_out import carry_out
from claspwright.app.folder import check_target, whole_folder
from claspwright.app.hashes import input_hashes
from claspwright.app.results import write_findings, write_json
from claspwright.app.to_scan import findings_in_scan, point_of
from claspwright.app.watch import Watch
from claspwright.app.work import Work
from claspwright.base import Finding, Progress, part, silent
from claspwright.case import read_sheet
from claspwright.framework import plan_design
from claspwright.geometry import Rigid
from claspwright.report import (
    ArmSize,
    SurveyContent,
    as_png,
    cone_maps,
    panels_of,
    survey_pictures,
    write_survey_sheet,
)
from claspwright.survey import (
    GuidingFace,
    PathChoice,
    PathScore,
    RetainerReading,
    Tripod,
    fills,
    read_retainers,
    score_parts,
    tripod,
)

SURVEY_NAMES = frozenset(("survey.json", "survey.pdf", "findings.json", "cone.png"))
TIP_SHARE = 0.5  # of a half-round arm's root that is left at its tip


@dataclass(frozen=True, slots=True)
class SurveyResult:
    """Where the survey lies and what it says; `told` is what survey.json holds."""

    folder: Path | None
    told: Mapping[str, Any]  # a tree for JSON
    findings: tuple[Finding, ...]  # places in the frame of the scan

    @property
    def stopped(self) -> bool:
        """A finding says that the case must not go on."""
        return any(finding.severity == "stop" for finding in self.findings)


def survey_case(
    case: Path, out: Path | None = None, *, date: str = "", progress: Progress = silent
) -> SurveyResult:
    """Survey a case; with `out` the survey is also written as a folder.

    The folder appears whole or not at all. It holds survey.json, survey.pdf, findings.json and
    the maps and plots as PNG and SVG.

    Args:
        case: a folder with `case.toml`, or that file.
        out: folder for the results; None writes nothing.
        date: date of the work as it shall print; no clock is asked.
        progress: told of each stage.

    Raises:
        InputError: the sheet, its scans or `out` cannot be used.
        Cancelled: by the progress callback.
    """
    sheet = read_sheet(case)
    if out is not None:
        check_target(out, sheet.path.parent, _names(out))
    hashes = input_hashes(sheet)
    watch = Watch()
    work = carry_out(sheet, watch, part(progress, 0.0, 0.7), until="survey")
    back = work.scan.scan_to_arch.inverse() if work.scan else None
    findings = findings_in_scan(work.findings, work.scan.scan_to_arch if work.scan else None)
    content = _content(work, date, part(progress, 0.7, 0.75))
    told = _told(work, content, back, hashes)
    if out is not None:
        with whole_folder(out) as folder:
            write_json(folder / "survey.json", told)
            write_findings(folder, findings)
            if content is not None:
                _write_pictures(folder, content, part(progress, 0.75, 1.0))
    progress(1.0, "survey")
    return SurveyResult(out, told, tuple(findings))


def _names(out: Path) -> frozenset[str]:
    """What a survey writes, with the pictures of an earlier one."""
    plots = out.glob("*.svg") if out.is_dir() else ()
    return SURVEY_NAMES | {
        file.name
        for file in plots
        if file.name in ("cone.svg", "undercut.svg") or file.name.startswith("section_")
    } | {"transfer_plan.png", "transfer_front.png"}  # fmt: skip


def _content(work: Work, date: str, progress: Progress) -> SurveyContent | None:
    """All that the document shows; None where the work did not come so far."""
    arch, seen, choice = work.arch, work.surveyed, work.choice
    if arch is None or seen is None or choice is None or work.scan is None:
        return None
    progress(0.0, "readings")
    readings = read_retainers(arch, seen, work.zones)
    progress(0.4, "volumes to block out")
    volumes = fills(arch, seen, progress=part(progress, 0.4, 0.8))
    shadow = seen.solid_and_shadow()[1]
    arms = {
        retainer.tooth: ArmSize(
            TIP_SHARE * retainer.clasp.width_mm, TIP_SHARE * retainer.clasp.thickness_mm
        )
        for retainer in plan_design(arch, work.sheet.wishes).retainers
        if retainer.clasp is not None
    }
    return SurveyContent(
        case_id=work.sheet.prescription.case_id,
        jaw=arch.scan.jaw,
        kennedy=str(work.kennedy),
        version=__version__,
        arch=arch,
        survey=seen,
        choice=choice,
        readings=readings,
        fills=volumes,
        tripod=tripod(arch, seen.path, shadow),
        findings=tuple(f for f in work.findings if f.rule in ("path.undercut", "path.guiding")),
        arms=arms,
        date=date,
    )


def _write_pictures(folder: Path, content: SurveyContent, progress: Progress) -> None:
    found = survey_pictures(content, part(progress, 0.0, 0.7))
    if content.choice.cone is not None:
        drawn = cone_maps(content.choice, panels_of(content.choice.cone))
        (folder / "cone.png").write_bytes(as_png(drawn))
    for name, data in found.items():
        (folder / name).write_bytes(data)
    (folder / "survey.pdf").write_bytes(write_survey_sheet(content, found))
    progress(1.0, "survey sheet")


def _told(
    work: Work, content: SurveyContent | None, back: Rigid | None, hashes: dict[str, str]
) -> dict[str, Any]:
    told: dict[str, Any] = {
        "version": __version__,
        "case_id": work.sheet.prescription.case_id,
        "arch": work.sheet.prescription.jaw,
        "input_hashes": hashes,
        "frame": "scan: the frame of the master file, in mm",
        "stops": sum(finding.severity == "stop" for finding in work.findings),
    }
    if content is None or back is None:
        return {**told, "path": None}
    choice = content.choice
    return {
        **told,
        "path": point_of(back.turn(choice.path.direction), 9),
        "path_named_by_the_sheet": choice.named,
        "reasons": list(choice.reasons),
        "score": _score(choice.score, back),
        "score_at_zero_tilt": _score(choice.untilted, back),
        "second_best": None if choice.second is None else _score(choice.second, back),
        "score_parts": [
            {"key": p.key, "title": p.title, "amount": p.amount, "unit": p.unit,
             "points_each": p.points, "source": p.source}
            for p in score_parts()
        ],
        "retainers": [_retainer(reading, back) for reading in content.readings],
        "guiding_planes": [_guiding(face) for face in choice.score.guiding],
        "blockout_mm3": {fill.region: round(fill.volume_mm3, 2) for fill in content.fills},
        "tripod": None if content.tripod is None else _tripod(content.tripod, back),
        "cone": _cone(choice),
    }  # fmt: skip


def _score(score: PathScore, back: Rigid) -> dict[str, Any]:
    keys = [row.key for row in score_parts()]
    return {
        "path": point_of(back.turn(score.path.direction), 9),
        "anterior_tilt_deg": round(score.path.anterior_tilt_deg, 4) + 0.0,
        "right_lateral_tilt_deg": round(score.path.right_lateral_tilt_deg, 4) + 0.0,
        "tilt_deg": round(score.tilt_deg, 4),
        "points": round(score.total, 4),
        "points_by_part": dict(
            zip(keys, (round(p, 4) for p in score.points), strict=True)
        ),
        "usable_undercut_mm": [round(u, 4) for u in score.undercut_mm],
        "tissue_undercut_mm3": round(score.tissue_mm3, 2),
        "proximal_undercut_mm3": round(score.proximal_mm3, 2),
        "opposite_undercut_mm3": round(score.opposite_mm3, 2),
        "guiding_mm2": round(score.guiding_mm2, 2),
    }  # fmt: skip


def _retainer(reading: RetainerReading, back: Rigid) -> dict[str, Any]:
    return {
        "tooth": reading.tooth,
        "side": reading.side,
        "asked_mm": reading.wanted_mm,
        "along_the_path_mm": round(reading.at_path_mm, 4),
        "across_the_occlusal_plane_mm": round(reading.across_mm, 4),
        "usable_mm": round(reading.usable_mm, 4),
        "tip_at_mm": point_of(back.apply(reading.tip), 4),
        "tip_undercut_mm": round(reading.tip_undercut_mm, 4),
    }


def _guiding(face: GuidingFace) -> dict[str, Any]:
    return {
        "tooth": face.tooth,
        "where": face.where,
        "free_end": face.free_end,
        "height_mm": round(face.height_mm, 3),
        "area_mm2": round(face.area_mm2, 3),
        "deviation_deg": round(face.deviation_deg, 3),
    }


def _tripod(found: Tripod, back: Rigid) -> dict[str, Any]:
    return {
        "marks_mm": [point_of(back.apply(at), 4) for at in found.marks],
        "order": "counter-clockwise seen from out of the mouth, from the patient's right",
        "below_highest_point_mm": round(found.below_top_mm, 3),
        "spread_mm": round(found.spread_mm, 3),
        "on": "tissue" if found.on_tissue else "crowns",
        "base_lines_mm": [
            [point_of(back.apply(end), 4) for end in line] for line in found.base_lines
        ],
    }


def _cone(choice: PathChoice) -> dict[str, Any] | None:
    cone = choice.cone
    if cone is None:
        return None
    keys = [row.key for row in score_parts()]
    return {
        "step_deg": cone.step_deg,
        "anterior_tilt_deg": cone.tilts_deg[:, 0].tolist(),
        "right_lateral_tilt_deg": cone.tilts_deg[:, 1].tolist(),
        "points": [round(float(v), 4) for v in cone.totals],
        "points_by_part": {
            key: [round(float(v), 4) for v in row]
            for key, row in zip(keys, cone.points, strict=True)
        },
    }
