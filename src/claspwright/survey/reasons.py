"""Why a path of placement was chosen, in sentences, and what no path gives, as findings."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Bools, Finding, Floats
from claspwright.limits import limit
from claspwright.survey.judge import GUIDING_HEIGHT_MM, PathJudge
from claspwright.survey.model import PathOfPlacement
from claspwright.survey.scored import Cone, GuidingFace, PathScore
from claspwright.survey.scores import WIDEST_USUAL_DEG, score_parts

ENOUGH_SHARE = 0.9  # of the undercut wanted that counts as having it
FALSE_MM = 0.05  # undercut along the path alone that is worth a word
HALF = 0.5  # of the height wanted of a guiding plane, below which a finding says so
LEAST_POINTS = 0.02  # differences below are not spoken of
SOURCE = (
    "guiding planes, undercuts, interference and looks weighed (check-values B11 to B13); "
    "the points are an own choice, no source"
)


@dataclass(frozen=True, slots=True)
class Rivals:
    """The chosen path and what it is held against."""

    chosen: PathScore
    untilted: PathScore
    second: PathScore | None
    named: bool  # the prescription names the path; `second` is then the best that was found


def reasons_of(judge: PathJudge, rivals: Rivals) -> tuple[str, ...]:
    """The choice in sentences, the first of which stands alone."""
    chosen, untilted, second = rivals.chosen, rivals.untilted, rivals.second
    first = _named(chosen) if rivals.named else _opening(chosen, untilted)
    out = [first, *_retention(judge, chosen), *_guiding(chosen), _volumes(chosen)]
    if rivals.named:
        out.append(
            f"Zero tilt has {untilted.total:.2f} points, this path {chosen.total:.2f}: "
            f"{_differences(chosen, untilted)}."
        )
    if chosen.tilt_deg > WIDEST_USUAL_DEG:
        out.append(
            f"The path is tilted by {chosen.tilt_deg:.1f} degrees, more than the usual "
            f"{WIDEST_USUAL_DEG:.0f}; it pays for that in points."
        )
    if second is not None and rivals.named:
        out.append(
            f"Fewest points: {tilt_words(second.path)}, with {second.total:.2f}; against it the "
            f"named path has {_differences(chosen, second)}."
        )
    elif second is not None:
        words = "Second best distinct path"
        if second.total < chosen.total:
            words = "A tilt that would win too little to be taken"
        out.append(
            f"{words}: {tilt_words(second.path)}, with {second.total:.2f} points; against it the "
            f"chosen path has {_differences(chosen, second)}."
        )
    return tuple(out)


def findings_of(
    judge: PathJudge, chosen: PathScore, cone: Cone, reasons: tuple[str, ...]
) -> tuple[Finding, ...]:
    """The choice as a note, and what the prescription asks that the path or no path gives."""
    why = Finding(
        rule="path.search",
        severity="note",
        text=reasons[0],
        source=SOURCE,
        measured=round(chosen.tilt_deg, 2),
        limit=WIDEST_USUAL_DEG,
        unit="deg",
    )
    return (why, *_undercuts(judge, chosen, cone), *_guides(judge, chosen, cone))


def tilt_words(path: PathOfPlacement) -> str:
    """Both tilts in words."""
    return (
        f"anterior tilt {path.anterior_tilt_deg + 0.0:.1f}, "
        f"right lateral tilt {path.right_lateral_tilt_deg + 0.0:.1f} degrees"
    )


def _named(chosen: PathScore) -> str:
    return f"The path of placement is the one that the case sheet names: {tilt_words(chosen.path)}."


def _opening(chosen: PathScore, untilted: PathScore) -> str:
    if chosen is untilted:
        return (
            "The path of placement stands across the occlusal plane: no tilt up to 20 degrees "
            "serves the clasps, guiding faces and tissue enough better to be worth it."
        )
    return (
        f"The path of placement is tilted, {tilt_words(chosen.path)}: against zero tilt it has "
        f"{_differences(chosen, untilted)}."
    )


def _differences(now: PathScore, other: PathScore) -> str:
    """Where one path has fewer points than another, and where more; the largest first."""
    rows = score_parts()
    gains = np.array(other.points) - np.array(now.points)
    order = np.argsort(-np.abs(gains), kind="stable")
    said = [
        f"{abs(gains[n]):.2f} points {'fewer' if gains[n] > 0 else 'more'} for {rows[n].title}"
        for n in order
        if abs(gains[n]) >= LEAST_POINTS
    ]
    return "; ".join(said[:4]) or "the same by all parts, within 0.02 points"


def _retention(judge: PathJudge, chosen: PathScore) -> list[str]:
    out, full = [], []
    for n, (tooth, side, wanted) in enumerate(judge.zones):
        usable, along, across = (
            row[n] for row in (chosen.undercut_mm, chosen.at_path_mm, chosen.across_mm)
        )
        if usable >= ENOUGH_SHARE * wanted:
            full.append(f"{tooth} {side}")
            continue
        text = (
            f"{tooth} has {usable:.2f} mm of usable undercut on its {side} face for {wanted:.2f} "
            f"mm asked: {along:.2f} mm along the path, {across:.2f} mm across the occlusal plane."
        )
        if along - usable >= FALSE_MM:
            text += " What the tilt alone wins would not hold against sticky food: not counted."
        out.append(text)
    if full:
        out.insert(
            0,
            "The undercut asked for exists along the path and across the occlusal plane on "
            f"{', '.join(full)}.",
        )
    return out


def _guiding(chosen: PathScore) -> list[str]:
    if not chosen.guiding:
        return []
    said = [
        f"{face.tooth} {face.where} {face.height_mm:.1f} mm high, {face.area_mm2:.1f} mm2"
        for face in chosen.guiding
    ]
    return [f"Guiding planes, graded up to 5 degrees off the path: {'; '.join(said)}."]


def _volumes(chosen: PathScore) -> str:
    return (
        f"Undercut to block out: {chosen.proximal_mm3:.1f} mm3 on proximal faces, "
        f"{chosen.opposite_mm3:.1f} mm3 across from the clasps, {chosen.tissue_mm3:.0f} mm3 on "
        "tissue under connector and bases."
    )


def _undercuts(judge: PathJudge, chosen: PathScore, cone: Cone) -> list[Finding]:
    rule = limit("clasp.undercut")
    found = []
    for n, ((tooth, side, wanted), usable) in enumerate(
        zip(judge.zones, chosen.undercut_mm, strict=True)
    ):
        if usable >= ENOUGH_SHARE * wanted:
            continue
        best, where = _best(cone, cone.usable_mm[n], _usual(cone))
        if best >= ENOUGH_SHARE * wanted:
            more = f"a path with {where} would give it {best:.2f} mm, and costs more elsewhere; "
            more += "clasp another face or tooth, or name that path."
        else:
            more = "no path gives it; clasp another face or tooth, or ask the dentist to shape it."
        text = (
            f"The {side} face of {tooth} has {usable:.2f} mm of undercut that holds across the "
            f"occlusal plane too, for {wanted:.2f} mm wanted: {more}"
        )
        found.append(
            Finding(
                "path.undercut",
                "note",
                text,
                rule.cited,
                round(usable, 3),
                wanted,
                "mm",
                judge.place_of(n),
                f"clasp.{tooth}.{side}",
            )  # fmt: skip
        )
    return found


def _guides(judge: PathJudge, chosen: PathScore, cone: Cone) -> list[Finding]:
    found = []
    for n, face in enumerate(chosen.guiding):
        wanted = GUIDING_HEIGHT_MM[face.free_end]
        if face.height_mm >= HALF * wanted:
            continue
        best, where = _best(cone, cone.guiding_height_mm[n], _usual(cone))
        more = (
            f"a path with {where} would give it {best:.1f} mm, and costs more elsewhere"
            if best >= HALF * wanted
            else f"no tilt of up to 10 degrees gives more than {best:.1f} mm"
        )
        x, y, z = judge.arch.teeth[face.tooth].centre.tolist()
        found.append(
            Finding(
                "path.guiding",
                "note",
                f"The {face.where} face of {face.tooth} guides over {face.height_mm:.1f} mm, for "
                f"{wanted:.1f} mm wanted: {more}; ask the dentist to prepare a guiding plane.",
                _guide_source(face),
                round(face.height_mm, 2),
                wanted,
                "mm",
                (x, y, z),
                f"retainer.{face.tooth}",
            )  # fmt: skip
        )
    return found


def _guide_source(face: GuidingFace) -> str:
    if face.free_end:
        return "1.5 to 2.0 mm beside a free end (check-values B17) [seen C]"
    return "3.0 to 4.0 mm, tooth supported (check-values B16) [seen C]"


def _usual(cone: Cone) -> Bools:
    return np.asarray(np.hypot(*cone.tilts_deg.T) <= WIDEST_USUAL_DEG + 1e-9, np.bool_)


def _best(cone: Cone, values: Floats, among: Bools) -> tuple[float, str]:
    """The greatest value among some tilts, the least tilted of equals, and its tilts in words."""
    some = np.flatnonzero(among)
    n = some[int(np.argmax(np.round(values[some], 3)))]
    a, b = cone.tilts_deg[n].tolist()
    return float(values[n]), f"anterior tilt {a:.0f}, right lateral tilt {b:.0f} degrees"
