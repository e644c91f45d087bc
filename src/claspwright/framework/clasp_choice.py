"""Where and in what form a clasp finds its undercut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from claspwright.arch import DentalArch, kind_of
from claspwright.base import Finding, Point
from claspwright.framework.courses import KEEP, Bench, Course, courses_of
from claspwright.framework.design import Clasp, ClaspForm, End, Reason, Retainer, Side
from claspwright.framework.reach import approach_room
from claspwright.framework.roles import rigid_origin
from claspwright.framework.rulebook import proposal_rules
from claspwright.limits import limit
from claspwright.survey import Survey

Tried = list[tuple[ClaspForm, Side, End | None]]


@dataclass(frozen=True, slots=True)
class ClaspChoice:
    """The clasp of one tooth, or none, with the reason and what a person must know."""

    clasp: Clasp | None
    reason: Reason
    findings: tuple[Finding, ...] = ()
    sound: bool = True  # nothing is known that speaks against it


def chosen_clasp(
    arch: DentalArch,
    survey: Survey,
    retainer: Retainer,
    forms: Sequence[ClaspForm],
    bench: Bench | None = None,
) -> ClaspChoice:
    """The course of least cost that finds its undercut, has room and is not bent for good.

    The costs stand in the table of the proposal. Bar clasps stay buccal and need a vestibule.
    Where no course is sound, the least strained one that finds its undercut and has room, which
    is marked as unsound; where there is none either, no clasp.
    """
    tried, objection = _tried(arch, survey, retainer, forms)
    courses = list(courses_of(arch, survey, bench, retainer, tried))
    sound = [course for course in courses if course.sound]
    if sound:
        best = min(sound, key=lambda course: _cost(course, forms, retainer.tooth))
        return _made(retainer, best, courses, objection)
    there = [course for course in courses if course.reaches and course.kept >= KEEP]
    if there:
        return _made(retainer, min(there, key=lambda c: c.strain), courses, objection)
    return _none(retainer, courses)


def _cost(course: Course, forms: Sequence[ClaspForm], tooth: int) -> float:
    numbers, clasp, rule = proposal_rules().numbers, course.clasp, limit("clasp.undercut")
    place = forms.index(clasp.form) if clasp.form in forms else len(forms)
    cost = place * numbers["cost_second_form"]
    if clasp.form == "I-bar" and kind_of(tooth) == "molar":
        cost += numbers["cost_bar_on_molar"]
    if clasp.side == "lingual":
        cost += numbers["cost_lingual"]
    if clasp.origin is not None:
        cost += numbers["cost_other_end"]
    if clasp.undercut_mm < (rule.look_below or 0.0):
        cost += numbers["cost_short_undercut"]
    elif clasp.undercut_mm < rule.value:
        cost += numbers["cost_least_undercut"]
    return cost


def _tried(
    arch: DentalArch, survey: Survey, retainer: Retainer, forms: Sequence[ClaspForm]
) -> tuple[Tried, str]:
    """Forms, faces and ends that may be tried, and why a bar clasp may not."""
    objection = approach_room(arch, survey, arch.teeth[retainer.tooth]).objection
    tried: Tried = [(f, "buccal", None) for f in forms if f != "I-bar" or not objection]
    if "circumferential" not in forms and objection:
        tried.append(("circumferential", "buccal", None))  # an arm from above is the way out
    elif "circumferential" in forms:
        if not _beam_beside(retainer):
            tried.append(("circumferential", "lingual", None))
        tried += [("circumferential", "buccal", end) for end in _other_ends(retainer)]
    return tried, objection if "I-bar" in forms else ""


def _other_ends(retainer: Retainer) -> list[End]:
    """Ends with a rest from which an arm could run back towards the plate."""
    both: tuple[End, End] = ("mesial", "distal")
    own = rigid_origin(retainer)
    return [end for end in both if f"{end} occlusal" in retainer.rests and end != own]


def _beam_beside(retainer: Retainer) -> bool:
    """Whether a rest's minor connector runs up the lingual face, where no arm could spring."""
    return any(rest.split()[0] not in retainer.proximal_plates for rest in retainer.rests)


def _made(
    retainer: Retainer, course: Course, courses: Sequence[Course], objection: str
) -> ClaspChoice:
    full, clasp = limit("clasp.undercut").value, course.clasp
    text = f"{clasp.form} on the {clasp.side} face, its tip in {clasp.undercut_mm:.2f} mm"
    if clasp.origin is not None:
        text += f", from the {clasp.origin} rest back towards the base"
    offers = _offered(course, courses)
    if clasp.undercut_mm < full <= offers + 0.006:
        text += (
            f"; the tooth offers {full:.2f} mm, but the arm is only {course.length_mm:.1f} mm "
            "long and stiff"
        )
    elif clasp.undercut_mm < full:
        text += "; deeper undercut lies out of its reach"
    text += f"; no bar clasp, since {objection}" if objection and clasp.form != "I-bar" else ""
    reason = Reason(f"clasp.{retainer.tooth}.{clasp.side}", text, limit("clasp.undercut").cited)
    return ClaspChoice(clasp, reason, _doubts(retainer, course, offers), course.sound)


def _offered(course: Course, courses: Sequence[Course]) -> float:
    """The deepest undercut that courses of this form, face and end find."""
    mine = course.clasp
    same = [
        c.offers_mm
        for c in courses
        if (c.clasp.form, c.clasp.side, c.clasp.origin) == (mine.form, mine.side, mine.origin)
    ]
    return max(same)


def _doubts(retainer: Retainer, course: Course, offers: float) -> tuple[Finding, ...]:
    rule, clasp = limit("clasp.undercut"), course.clasp
    out = []
    if offers < rule.value - 0.006:
        out.append(
            Finding(
                "proposal.shallow_undercut",
                "look",
                f"Tooth {retainer.tooth} offers only {offers:.2f} mm; the clasp is set "
                f"to {clasp.undercut_mm:.2f} mm and holds less. Ask whether the tooth may be "
                "recontoured, or tilt the path.",
                rule.cited,
                measured=round(offers, 3),
                limit=rule.value,
                unit="mm",
                at_mm=_point(course),
                component=f"clasp.{retainer.tooth}.{clasp.side}",
            )
        )
    if clasp.side == "lingual":
        out.append(
            Finding(
                "proposal.lingual_retention",
                "look",
                f"The retentive arm on {retainer.tooth} lies on the tongue or palate side, since "
                "the buccal face offers less; a buccal arm reciprocates it.",
                rule.cited,
                at_mm=_point(course),
                component=f"clasp.{retainer.tooth}.lingual",
            )
        )
    return tuple(out)


def _none(retainer: Retainer, courses: Sequence[Course]) -> ClaspChoice:
    """No clasp on this tooth, and why."""
    tooth = retainer.tooth
    best = max(courses, key=lambda c: c.offers_mm) if courses else None
    found = best.offers_mm if best else 0.0
    at = _point(best) if best else None
    if any(course.reaches for course in courses):
        kept = max(course.kept for course in courses if course.reaches)
        finding = Finding(
            "proposal.no_room",
            "look",
            f"The opposing teeth leave no room for the arms of a clasp on {tooth}: at the worst "
            f"place {100 * kept:.0f} % of their thickness would be left, so it gets none. Ask the "
            "dentist for room in the embrasure, or clasp another tooth.",
            "an arm keeps three quarters of its thickness under the opposing teeth [own]",
            measured=round(kept, 2),
            limit=KEEP,
            unit="1",
            at_mm=at,
            component=f"retainer.{tooth}",
        )
        text = "no clasp: the opposing teeth leave no room for its arms"
        return ClaspChoice(None, Reason(f"retainer.{tooth}", text, finding.source), (finding,))
    rule, least = limit("clasp.undercut"), limit("clasp.undercut").look_below or 0.0
    finding = Finding(
        "proposal.no_undercut",
        "look",
        f"Tooth {tooth} offers no undercut that a clasp can reach, so it gets none. Tilt the "
        "path, ask the dentist to recontour the tooth, or clasp another.",
        rule.cited,
        measured=round(found, 3),
        limit=least,
        unit="mm",
        at_mm=at,
        component=f"retainer.{tooth}",
    )
    text = f"no clasp: the survey shows {found:.2f} mm at most"
    return ClaspChoice(None, Reason(f"retainer.{tooth}", text, rule.cited), (finding,))


def _point(course: Course) -> Point:
    x, y, z = (float(v) for v in course.at)
    return (x, y, z)
