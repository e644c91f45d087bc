"""The survey as a document: the path and its reasons, maps, readings, and how to carry it over."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

import numpy as np

from claspwright.arch import DentalArch, Jaw
from claspwright.base import Finding, Floats, Progress, silent
from claspwright.report.cone_maps import as_svg, cone_maps, panels_of
from claspwright.report.gather import degrees
from claspwright.report.render import Stage, png, render
from claspwright.report.scene import INK, STONE, Item, Label, Line, Scene
from claspwright.report.survey_plots import ArmSize, tooth_section, undercut_histogram
from claspwright.report.typesetting import typeset
from claspwright.report.views import View, view
from claspwright.report.words import figure, jaw_words, path_words
from claspwright.survey import (
    Fill,
    PathChoice,
    PathScore,
    RetainerReading,
    Survey,
    Tripod,
    score_parts,
)

MARKS = ("A", "B", "C")
TRUE_PIXELS_PER_MM = 8
MARK_COLOUR = (155, 28, 49)


@dataclass(frozen=True, slots=True, eq=False)
class SurveyContent:
    """What the survey found; places in the arch frame."""

    case_id: str
    jaw: Jaw
    kennedy: str
    version: str
    arch: DentalArch
    survey: Survey
    choice: PathChoice
    readings: tuple[RetainerReading, ...]
    fills: tuple[Fill, ...]
    tripod: Tripod | None
    findings: tuple[Finding, ...] = ()
    arms: Mapping[int, ArmSize] = field(default_factory=dict)  # tip of each arm, by tooth
    date: str = ""


def write_survey_sheet(content: SurveyContent, pictures: Mapping[str, bytes]) -> bytes:
    """The survey as PDF/A-2a and PDF/UA-1; the same content gives the same bytes.

    Args:
        content: what was found.
        pictures: by file name, as `survey_pictures` makes them; what is missing is left out.
    """
    words = {**_words(content), "pictures": sorted(pictures)}
    return typeset("survey.typ", words, pictures)


def survey_pictures(content: SurveyContent, progress: Progress = silent) -> dict[str, bytes]:
    """Every picture of the document by file name."""
    progress(0.0, "maps of the cone")
    found: dict[str, bytes] = {}
    if content.choice.cone is not None:
        found["cone.svg"] = as_svg(cone_maps(content.choice, panels_of(content.choice.cone)))
    progress(0.4, "undercut by tooth")
    clasped = [reading.tooth for reading in content.readings]
    found["undercut.svg"] = as_svg(undercut_histogram(content.arch, content.survey, clasped))
    for n, reading in enumerate(content.readings):
        progress(0.5 + 0.3 * n / len(content.readings), f"section {reading.tooth}")
        arm = content.arms.get(reading.tooth)
        drawn = tooth_section(content.arch, content.survey.path, reading, arm=arm)
        found[f"section_{reading.tooth}_{reading.side}.svg"] = as_svg(drawn)
    progress(0.8, "transfer of the path")
    if content.tripod is not None:
        found |= _transfer(content, content.tripod)
    progress(1.0, "transfer of the path")
    return found


def score_table(choice: PathChoice) -> list[list[str]]:
    """Rows of part, and of points with their amount for the chosen, untilted and second path."""
    rows = []
    for n, row in enumerate(score_parts()):
        cells = [row.title]
        for score in (choice.score, choice.untilted, choice.second):
            cells.append("" if score is None else _points(score.points[n], row.points, row.unit))
        rows.append([*cells, row.source])
    total = [f"{s.total:.2f}" if s else "" for s in (choice.score, choice.untilted, choice.second)]
    rows.append(["all points; fewer are better", *total, "the points are an own choice, no source"])
    return rows


def score_heads(choice: PathChoice) -> list[str]:
    """Heads of the columns of the table of scores."""
    second = "best found" if choice.named else "second best"
    names = ("named path" if choice.named else "chosen path", "zero tilt", second)
    scores = (choice.score, choice.untilted, choice.second)
    return [f"{name}\n{_tilts(score)}" for name, score in zip(names, scores, strict=True)]


def _tilts(score: PathScore | None) -> str:
    if score is None:
        return ""
    a, b = score.path.anterior_tilt_deg + 0.0, score.path.right_lateral_tilt_deg + 0.0
    return f"({a:.1f}, {b:.1f})".replace("-", "\N{MINUS SIGN}")


def _points(points: float, each: float, unit: str) -> str:
    short = {"clasps": "", "faces": "", "crowns": "", "mm3": "mm³", "deg": "°"}
    amount = points / each
    digits = 0 if unit == "mm3" and amount >= 100 else 1 if unit in ("mm3", "deg") else 2
    return f"{points:.2f} ({amount:.{digits}f}{' ' if unit == 'mm3' else ''}{short[unit]})"


def _words(content: SurveyContent) -> dict[str, Any]:
    choice = content.choice
    return {
        "id": content.case_id,
        "jaw": jaw_words(content.jaw),
        "kennedy": content.kennedy,
        "version": content.version,
        "date": content.date,
        "path": path_words(content.survey.path),
        "reasons": [degrees(reason) for reason in choice.reasons],
        "score_heads": score_heads(choice),
        "score": score_table(choice),
        "readings": [
            [
                f"{r.tooth} {r.side}", f"{r.wanted_mm:.2f}", f"{r.at_path_mm:.2f}",
                f"{r.across_mm:.2f}", f"{r.usable_mm:.2f}",
                f"{max(r.at_path_mm - r.usable_mm, 0.0):.2f}",
            ]
            for r in content.readings
        ],
        "sections": [f"section_{r.tooth}_{r.side}.svg" for r in content.readings],
        "section_alts": [
            f"Section through {r.tooth} with the gauge on its {r.side} face"
            for r in content.readings
        ],
        "guiding": [
            [
                f"{face.tooth} {face.where}", "free end" if face.free_end else "between teeth",
                f"{face.deviation_deg:.1f}", f"{face.height_mm:.1f}", f"{face.area_mm2:.1f}",
            ]
            for face in choice.score.guiding
        ],
        "fills": [[fill.region, f"{fill.volume_mm3:.1f}"] for fill in content.fills],
        "findings": [
            [f.text, figure(f.measured, f.unit), figure(f.limit, f.unit), f.source]
            for f in content.findings
        ],
        "tripod": None if content.tripod is None else _tripod_words(content, content.tripod),
    }  # fmt: skip


def _tripod_words(content: SurveyContent, found: Tripod) -> dict[str, Any]:
    back = content.arch.scan.scan_to_arch.inverse()
    sides = [
        (f"{a} to {b}", float(np.linalg.norm(found.marks[i] - found.marks[j])))
        for (a, i), (b, j) in [*pairwise(zip(MARKS, range(3), strict=True)), (("C", 2), ("A", 0))]
    ]
    path = back.turn(content.survey.path.direction)
    return {
        "marks": [
            [name, *(f"{v:.2f}" for v in back.apply(at))]
            for name, at in zip(MARKS, found.marks, strict=True)
        ],
        "sides": [[words, f"{length:.1f}"] for words, length in sides],
        "lines": [
            [name, *(f"{v:.2f}" for v in back.apply(line[0])),
             *(f"{v:.2f}" for v in back.apply(line[1]))]
            for name, line in zip(("right", "front", "left"), found.base_lines, strict=True)
        ],
        "path": [f"{v:.5f}" for v in path],
        "below_top": f"{found.below_top_mm:.1f}",
        "spread": f"{found.spread_mm:.1f}",
        "where": "tissue beside connector and bases" if found.on_tissue else "crowns",
        "width_mm": _true_width(content),
    }  # fmt: skip


def _true_width(content: SurveyContent) -> float:
    """Width of the true-size picture [mm]: the arch and a margin, in whole millimetres."""
    across = content.arch.scan.surface.vertices @ _plan_view(content).axes()[0]
    return float(min(np.ceil(across.max() - across.min()) + 12.0, 174.0))


def _plan_view(content: SurveyContent) -> View:
    """Along the path, the patient's right on the left of the picture."""
    level = view("occlusal", content.jaw)
    surface = content.arch.scan.surface
    middle = surface.bounds.mean(axis=0)
    return View("along the path", content.survey.path.direction, level.up, middle, None)


def _transfer(content: SurveyContent, found: Tripod) -> dict[str, bytes]:
    """The model seen along the path in true size, and from in front, with marks and lines."""
    look = _plan_view(content)
    path = content.survey.path.direction
    width = _true_width(content)
    tall = content.arch.scan.surface.vertices @ look.axes()[1]
    size = (
        int(width * TRUE_PIXELS_PER_MM),
        int((np.ceil(tall.max() - tall.min()) + 12.0) * TRUE_PIXELS_PER_MM),
    )
    stage = Stage(Scene((Item(content.arch.scan.surface, STONE, shine=0.05),)))
    labels = tuple(
        Label(at, name, MARK_COLOUR, size_px=30, offset_px=(0, -26), dot=True)
        for name, at in zip(MARKS, found.marks, strict=True)
    )
    edge = Line(found.marks, MARK_COLOUR, 2.0, closed=True, lift_mm=60.0, dash_mm=1.5)
    plan = View(look.name, look.toward, look.up, look.centre, width)
    image = render(stage.showing((edge,), labels), plan, size, finish=1)
    lines = tuple(Line(line, INK, 3.0, lift_mm=40.0) for line in found.base_lines)
    plane = _level_line(found.marks, path)
    side = _front_view(content, path)
    front = render(
        stage.showing((*lines, Line(plane, MARK_COLOUR, 2.0, lift_mm=60.0, dash_mm=1.5)), labels),
        side, (900, 560), finish=1,
    )  # fmt: skip
    return {"transfer_plan.png": png(image), "transfer_front.png": png(front)}


def _front_view(content: SurveyContent, path: Floats) -> View:
    """From in front, the path upright on the picture (downwards in the maxilla)."""
    level = view("from the front", content.jaw)
    toward = level.toward - (level.toward @ path) * path
    up = path if content.jaw == "mandible" else -path
    return View("from the front", toward, up)


def _level_line(marks: Floats, path: Floats) -> Floats:
    """The plane of the marks as seen from its edge: from beyond one side to beyond the other."""
    middle = marks.mean(axis=0)
    across = np.cross(path, np.array([0.0, 1.0, 0.0]))
    across /= np.linalg.norm(across)
    return np.stack([middle - 42.0 * across, middle + 42.0 * across])
