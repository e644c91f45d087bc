"""Where and in what form a clasp finds its undercut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from claspwright.arch import DentalArch
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
    """The first form and face, in order of preference, that reaches the full undercut.

    Where none does, the deepest of at least the least useful undercut; below that no clasp.
    Bar clasps stay buccal and need a vestibule; the lingual face is taken last.
    """
    full = limit("clasp.undercut").value
    least = limit("clasp.undercut").look_below or 0.0
    options, objection = _options(arch, survey, retainer, forms)
    best = next((o for o in options if o[2].undercut_mm >= full), None)
    if best is None and options:
        best = max(options, key=lambda o: o[2].undercut_mm)
    if best is None or best[2].undercut_mm < least:
        return _none(retainer, best[2] if best else None, least)
    form, side, reach = best
    step = proposal_rules().numbers["undercut_step_mm"]
    depth = min(full, float(np.floor(reach.undercut_mm / step + 1e-9) * step))
    clasp = default_clasp(retainer.tooth, form, side, round(max(depth, least), 3))
    text = f"{form} on the {side} face, where the survey shows {reach.undercut_mm:.2f} mm"
    text += f"; no bar clasp, since {objection}" if objection and form != "I-bar" else ""
    reason = Reason(f"clasp.{retainer.tooth}.{side}", text, limit("clasp.undercut").cited)
    return ClaspChoice(clasp, reason, _doubts(retainer, clasp, reach))


def _options(
    arch: DentalArch, survey: Survey, retainer: Retainer, forms: Sequence[ClaspForm]
) -> tuple[list[tuple[ClaspForm, Side, Reach]], str]:
    tooth = arch.teeth[retainer.tooth]
    objection = approach_room(arch, survey, tooth).objection
    tried: list[tuple[ClaspForm, Side]] = [
        (form, "buccal") for form in forms if form != "I-bar" or not objection
    ]
    if "circumferential" in forms:
        tried.append(("circumferential", "lingual"))
    elif objection:  # only a bar was wanted: an arm from above is the way out
        tried.append(("circumferential", "buccal"))
    origin = arm_origin(retainer)
    return [
        (form, side, available_undercut(arch, survey, tooth, side, form, origin=origin))
        for form, side in tried
    ], objection if "I-bar" in forms else ""


def _doubts(retainer: Retainer, clasp: Clasp, reach: Reach) -> tuple[Finding, ...]:
    rule = limit("clasp.undercut")
    out = []
    if clasp.undercut_mm < rule.value:
        out.append(
            Finding(
                "proposal.shallow_undercut",
                "look",
                f"Tooth {retainer.tooth} offers only {reach.undercut_mm:.2f} mm; the clasp is set "
                f"to {clasp.undercut_mm:.2f} mm and holds less. Ask whether the tooth may be "
                "recontoured, or tilt the path.",
                rule.cited,
                measured=reach.undercut_mm,
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
        measured=found,
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
