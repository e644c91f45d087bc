"""The one-page proof sheet for the dentist, set by typst."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from claspwright.base import Finding
from claspwright.materials import condition, published_life
from claspwright.mechanics import ArmForm, ArmProof, Choice, DentureProof, FrameworkFe
from claspwright.report.content import Picture
from claspwright.report.gather import degrees
from claspwright.report.typesetting import typeset
from claspwright.rules import WORDS

CAUTION = (
    "A computed aid, not a clinical guarantee. It supports, and does not replace, the prescription "
    "and the judgement of the licensed dentist, nor a test of the printed alloy on the "
    "laboratory's own coupons. Local codes and the makers' instructions come first."
)


@dataclass(frozen=True, slots=True, eq=False)
class SheetFacts:
    """What heads the sheet."""

    case_id: str
    jaw: str
    kennedy: str
    alloy: str
    version: str
    date: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Proved:
    """What the sheet says."""

    arms: Sequence[ArmProof]
    denture: DentureProof | None
    findings: Sequence[Finding]
    choices: Mapping[str, Choice]  # by the arm's id
    solid: FrameworkFe | None = None


def write_proof_sheet(facts: SheetFacts, proved: Proved, pictures: Sequence[Picture]) -> bytes:
    """One page as PDF/A-2a and PDF/UA-1; the same arguments give the same bytes."""
    shown = [
        {"file": f"picture{index}.png", "caption": picture.caption, "alt": picture.alt}
        for index, picture in enumerate(pictures)
    ]
    words = {**_words(facts, proved), "pictures": shown}
    inside = {f"picture{index}.png": picture.png for index, picture in enumerate(pictures)}
    return typeset("proof.typ", words, inside)


def _words(facts: SheetFacts, proved: Proved) -> dict[str, Any]:
    """All words of the sheet, figures already written out; Any: a tree for JSON."""
    return {
        "id": facts.case_id,
        "jaw": facts.jaw,
        "kennedy": facts.kennedy,
        "alloy": degrees(facts.alloy),
        "version": facts.version,
        "date": facts.date,
        "arms": [_arm(one) for one in proved.arms],
        "swings": [_swing_row(one) for one in proved.arms],
        "wanted": next((f"{c.wanted_n:g}" for c in proved.choices.values()), ""),
        "choices": [_choice_row(name, choice) for name, choice in proved.choices.items()],
        "denture": [*_denture(proved.denture), *_solid(proved.solid)],
        "lives": _lives() if proved.arms else "",
        "findings": [
            {"severity": f.severity, "text": degrees(f.text), "component": f.component}
            for f in proved.findings
            if f.severity != "note" and not (f.rule == "proof.choice" and proved.choices)
        ],
        "caution": CAUTION,
    }


def _arm(one: ArmProof) -> list[str]:
    low, high = one.withdrawal_range_n
    return [
        one.arm.id,
        f"{one.length_mm:.1f}",
        f"{one.ride.withdrawal_n:.1f} ({low:.1f}–{high:.1f})",
        f"{one.unfinished.withdrawal_n:.1f}",
        f"{one.ride.side_n.max():.1f}",
        f"{one.ride.peak_stress_mpa:.0f}–{one.rigid.peak_stress_mpa:.0f}",
        f"{one.goodman:.2f}",
    ]


def _choice_row(name: str, choice: Choice) -> list[str]:
    """Nearest half-oval and wire to the wanted force, and what would reach it."""
    needs = []
    if choice.best is None:
        needs = ["a longer way, a bar clasp or another tooth"]
    elif not choice.reached:
        if choice.needed_slope is not None:
            now, then = (np.degrees(np.arctan(t)) for t in (choice.best.slope, choice.needed_slope))
            needs.append(f"a slope of {then:.0f}° (now {now:.0f}°)")
        if choice.needed_mm is not None:
            needs.append(f"a way of {choice.needed_mm:.0f} mm (now {choice.length_mm:.0f})")
        needs.append("another tooth or one more clasp")
    return [name, _form(choice.strongest), _form(choice.wire), ", or ".join(needs) or "reached"]


def _form(form: ArmForm | None) -> str:
    if form is None:
        return "none below its stress"
    size = f"{form.width_mm:.1f} × {form.thickness_mm:.1f} mm, tip {form.taper:g}"
    if form.form == "round wire":
        size = f"{form.width_mm:.1f} mm"
    return f"{size}, {form.undercut_mm:.2f} mm deep: {form.withdrawal_n:.1f} N"


def _lives() -> str:
    """Published fatigue, both data sets as they are."""
    life, a_day = published_life(), condition("seatings.a_day").nominal
    clasps = "; ".join(f"{made} {n / (365 * a_day):.0f} years" for made, _, n in life.clasps)
    bars = "; ".join(f"{made} {strength:.0f} MPa" for made, strength in life.bars)
    return (
        f"Published fatigue, which disagrees on the direction of building. Clasps sprung by 0.5 mm "
        f"{a_day:.0f} times a day: {clasps}. Bars at 10 million cycles: {bars}."
    )


def _solid(solid: FrameworkFe | None) -> list[str]:
    if solid is None:
        return []
    worst = solid.worst
    lines = [
        f"Under a {solid.bites[worst]} of {condition('bite.base').nominal:.0f} N the framework "
        f"reaches {solid.peak_mpa[worst]:.0f} MPa and first yields at "
        f"{solid.yields_at[worst]:.1f} times that (mesh: {100 * solid.peak_moved[worst]:+.1f} %)."
    ]
    if solid.spread_mm is not None and solid.twist_mm is not None:
        lines.append(
            f"Under 10 N the sides give {solid.spread_mm:.2f} mm apart and {solid.twist_mm:.2f} mm "
            "up and down against each other."
        )
    return lines


def _swing_row(one: ArmProof) -> list[str]:
    by_name = {swing.what: swing for swing in one.swings}
    row = [one.arm.id]
    for what in WORDS:
        low, high = by_name[what].withdrawal_n
        row.append(f"{low:.1f}–{high:.1f}")
    return [*row, WORDS[one.decides]]


def _denture(proof: DentureProof | None) -> list[str]:
    if proof is None:
        return ["No denture base lies over a span: nothing to lift."]
    weak = proof.weakest
    about = " and ".join(weak.about[:2]) if weak.line is not None else "no line (straight off)"
    lines = [
        f"Least force that lifts the denture: {weak.load_n:.1f} N, about {about}; first to give "
        f"way: {', '.join(weak.yielding) or 'no clasp'}.",
    ]
    if proof.without_indirect_n is not None:
        gain = weak.load_n - proof.without_indirect_n
        lines.append(f"The indirect retainers add {gain:.1f} N there.")
    tipping = [b for b in proof.bites if np.isfinite(b.tips_at_n)]
    free = {tooth for base in proof.bases if base.free for tooth in base.teeth}
    for bite in tipping:
        if bite.tooth not in free:
            lines.append(f"A bite on {bite.tooth} tips the denture at {bite.tips_at_n:.0f} N.")
    for bite in proof.bites:
        if bite.tooth in free:
            lines.append(
                f"A bite on {bite.tooth} goes to the ridge by {100 * bite.ridge[0]:.0f} % "
                f"({100 * bite.ridge[1]:.0f}–{100 * bite.ridge[2]:.0f} %); the base sinks "
                f"{bite.deepest_mm[0]:.2f} mm ({bite.deepest_mm[1]:.2f}–{bite.deepest_mm[2]:.2f})."
            )
    return lines


DECIDER_HEADS = tuple(WORDS.values())
