"""The one-page proof sheet for the dentist, set by typst."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from claspwright.base import Finding
from claspwright.mechanics import ArmProof, DentureProof
from claspwright.report.content import Picture
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


def write_proof_sheet(
    facts: SheetFacts,
    arms: Sequence[ArmProof],
    denture: DentureProof | None,
    findings: Sequence[Finding],
    pictures: Sequence[Picture],
) -> bytes:
    """One page as PDF/UA-1; the same arguments give the same bytes."""
    shown = [
        {"file": f"picture{index}.png", "caption": picture.caption, "alt": picture.alt}
        for index, picture in enumerate(pictures)
    ]
    words = {**_words(facts, arms, denture, findings), "pictures": shown}
    inside = {f"picture{index}.png": picture.png for index, picture in enumerate(pictures)}
    return typeset("proof.typ", words, inside)


def _words(
    facts: SheetFacts,
    arms: Sequence[ArmProof],
    denture: DentureProof | None,
    findings: Sequence[Finding],
) -> dict[str, Any]:
    """All words of the sheet, figures already written out; Any: a tree for JSON."""
    return {
        "id": facts.case_id,
        "jaw": facts.jaw,
        "kennedy": facts.kennedy,
        "alloy": facts.alloy,
        "version": facts.version,
        "date": facts.date,
        "arms": [_arm(one) for one in arms],
        "swings": [_swing_row(one) for one in arms],
        "denture": _denture(denture),
        "findings": [
            {"severity": f.severity, "text": f.text, "component": f.component}
            for f in findings
            if f.severity != "note"
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
