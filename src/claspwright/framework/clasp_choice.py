"""Where and in what form a clasp finds its undercut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from claspwright.arch import DentalArch, Tooth
from claspwright.base import Finding, Point
from claspwright.framework.design import Clasp, ClaspForm, Reason, Retainer, Side
from claspwright.framework.reach import Reach, approach_room, available_undercut
from claspwright.framework.roles import arm_origin
from claspwright.framework.rulebook import default_clasp, proposal_rules
from claspwright.limits import limit
from claspwright.survey import Survey


@dataclass(frozen=True, slots=True)
class ClaspChoice:
    """The clasp of one tooth, or none, with the reason and what a person must know."""

    clasp: Clasp | None
    reason: Reason
    findings: tuple[Finding, ...] = ()


def chosen_clasp(
    arch: DentalArch, survey: Survey, retainer: Retainer, forms: Sequence[ClaspForm]
) -> ClaspChoice:
    """The first form and face, in order of preference, that reaches an undercut and can bear it.

    Where none does, the deepest of at least the least useful undercut; below that no clasp.
    Bar clasps stay buccal and need a vestibule; the lingual face is taken last. A short arm is
    thinned, then set to less undercut, until a straight tapered beam of its length stays within
    the proof strain.
    """
    full = limit("clasp.undercut").value
    least = limit("clasp.undercut").look_below or 0.0
    options, objection = _options(arch, survey, retainer, forms)
    tooth = arch.teeth[retainer.tooth]
    found = next(
        (
            (option, clasp)
            for option in options
            for depth in (full, least)
            if option[2].undercut_mm >= depth
            and (clasp := sized_clasp(tooth, retainer, option[0], option[1], depth)) is not None
        ),
        None,
    )
    if found is None:
        return _second_best(retainer, options, objection)
    (form, side, reach), clasp = found
    return _made(retainer, clasp, reach, objection)


def sized_clasp(
    tooth: Tooth, retainer: Retainer, form: ClaspForm, side: Side, undercut_mm: float
) -> Clasp | None:
    """A clasp whose root is thin enough for its length; None where it would be too thin to make.

    Source:
        Peak strain of a straight half-round beam tapered to half: 1.7778 x 0.57559 b d / L^2.
    """
    clasp = default_clasp(retainer.tooth, form, side, undercut_mm)
    if form == "I-bar":
        return clasp
    numbers = proposal_rules().numbers
    length = arm_length_estimate(tooth, plated=bool(retainer.proximal_plates))
    thickest = numbers["allowed_strain"] * length**2 / (1.7778 * 0.57559 * undercut_mm)
    if thickest < numbers["least_root_mm"]:
        return None
    thickness = min(clasp.thickness_mm, float(np.floor(thickest * 20) / 20))
    return replace(clasp, thickness_mm=max(thickness, numbers["least_root_mm"]))


def arm_length_estimate(tooth: Tooth, *, plated: bool) -> float:
    """About how long a circumferential arm on this tooth will be [mm]."""
    numbers = proposal_rules().numbers
    sweep = numbers["sweep_plate_deg" if plated else "sweep_rest_deg"]
    girth = np.pi / 2 * (tooth.mesiodistal_mm + tooth.buccolingual_mm) / 2
    return float(numbers["girth_share"] * girth * sweep / 180.0)


def _second_best(
    retainer: Retainer, options: Sequence[tuple[ClaspForm, Side, Reach]], objection: str
) -> ClaspChoice:
    """The deepest undercut there is, with the thinnest arm; no clasp where that is too little."""
    least = limit("clasp.undercut").look_below or 0.0
    best = max(options, key=lambda o: o[2].undercut_mm) if options else None
    if best is None or best[2].undercut_mm < least:
        return _none(retainer, best[2] if best else None, least)
    clasp = default_clasp(retainer.tooth, best[0], best[1], least)
    if clasp.form == "circumferential":
        clasp = replace(clasp, thickness_mm=proposal_rules().numbers["least_root_mm"])
    return _made(retainer, clasp, best[2], objection)


def _made(retainer: Retainer, clasp: Clasp, reach: Reach, objection: str) -> ClaspChoice:
    full = limit("clasp.undercut").value
    text = (
        f"{clasp.form} on the {clasp.side} face, where the survey shows {reach.undercut_mm:.2f} mm"
    )
    if clasp.undercut_mm < full <= reach.undercut_mm:
        text += f"; set to {clasp.undercut_mm:.2f} mm, since the arm is short and stiff"
    text += f"; no bar clasp, since {objection}" if objection and clasp.form != "I-bar" else ""
    reason = Reason(f"clasp.{retainer.tooth}.{clasp.side}", text, limit("clasp.undercut").cited)
    return ClaspChoice(clasp, reason, _doubts(retainer, clasp, reach))


def _options(
    arch: DentalArch, survey: Survey, retainer: Retainer, forms: Sequence[ClaspForm]
) -> tuple[list[tuple[ClaspForm, Side, Reach]], str]:
    tooth = arch.teeth[retainer.tooth]
    objection = approach_room(arch, survey, tooth).objection
    tried: list[tuple[ClaspForm, Side]] = [
        (form, "buccal") for form in forms if form != "I-bar" or not objection
    ]
    if "circumferential" in forms and not _beam_beside(retainer):
        tried.append(("circumferential", "lingual"))
    elif objection:  # only a bar was wanted: an arm from above is the way out
        tried.append(("circumferential", "buccal"))
    origin = arm_origin(retainer)
    return [
        (form, side, available_undercut(arch, survey, tooth, side, form, origin=origin))
        for form, side in tried
    ], objection if "I-bar" in forms else ""


def _beam_beside(retainer: Retainer) -> bool:
    """Whether a rest's minor connector runs up the lingual face, where no arm could spring."""
    return any(rest.split()[0] not in retainer.proximal_plates for rest in retainer.rests)


def _doubts(retainer: Retainer, clasp: Clasp, reach: Reach) -> tuple[Finding, ...]:
    rule = limit("clasp.undercut")
    out = []
    if reach.undercut_mm < rule.value:
        out.append(
            Finding(
                "proposal.shallow_undercut",
                "look",
                f"Tooth {retainer.tooth} offers only {reach.undercut_mm:.2f} mm; the clasp is set "
                f"to {clasp.undercut_mm:.2f} mm and holds less. Ask whether the tooth may be "
                "recontoured, or tilt the path.",
                rule.cited,
                measured=round(reach.undercut_mm, 3),
                limit=rule.value,
                unit="mm",
                at_mm=_point(reach),
                component=f"clasp.{retainer.tooth}.{clasp.side}",
            )
        )
    if clasp.side == "lingual":
        out.append(
            Finding(
                "proposal.lingual_retention",
                "look",
                f"The retentive arm on {retainer.tooth} lies on the tongue or palate side, since "
                "the buccal face offers no undercut; a buccal arm reciprocates it.",
                rule.cited,
                at_mm=_point(reach),
                component=f"clasp.{retainer.tooth}.lingual",
            )
        )
    return tuple(out)


def _none(retainer: Retainer, reach: Reach | None, least: float) -> ClaspChoice:
    rule = limit("clasp.undercut")
    found = reach.undercut_mm if reach else 0.0
    finding = Finding(
        "proposal.no_undercut",
        "look",
        f"Tooth {retainer.tooth} offers no undercut of {least:.2f} mm that a clasp can reach, so "
        "it gets none. Tilt the path, ask the dentist to recontour the tooth, or clasp another.",
        rule.cited,
        measured=round(found, 3),
        limit=least,
        unit="mm",
        at_mm=_point(reach) if reach else None,
        component=f"retainer.{retainer.tooth}",
    )
    text = f"no clasp: the survey shows {found:.2f} mm at most"
    return ClaspChoice(None, Reason(f"retainer.{retainer.tooth}", text, rule.cited), (finding,))


def _point(reach: Reach) -> Point:
    x, y, z = (float(v) for v in reach.at)
    return (x, y, z)
