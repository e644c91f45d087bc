"""The printed report, set by typst."""

from __future__ import annotations

from typing import Any

from claspwright.report.cautions import CAUTIONS
from claspwright.report.content import SEVERITIES, SEVERITY_WORDS, Measure, ReportContent
from claspwright.report.gather import Gathered, gathered
from claspwright.report.typesetting import typeset
from claspwright.report.words import compared, figure, jaw_words, room_cells


def write_report(content: ReportContent) -> bytes:
    """The report as PDF/A-2a and PDF/UA-1; the same content gives the same bytes."""
    pictures: dict[str, bytes] = {}
    shown = []
    for index, picture in enumerate(content.pictures):
        pictures[f"picture{index}.png"] = picture.png
        shown.append(
            {
                "file": f"picture{index}.png",
                "group": picture.group,
                "caption": picture.caption,
                "alt": picture.alt,
            }
        )
    if content.plan_svg:
        pictures["plan.svg"] = content.plan_svg.encode()
    if content.cone_svg:
        pictures["cone.svg"] = content.cone_svg
    words = {
        **printed(content),
        "pictures": shown,
        "plan": bool(content.plan_svg),
        "cone": bool(content.cone_svg),
    }
    return typeset("report.typ", words, pictures)


def printed(content: ReportContent) -> dict[str, Any]:
    """All words of the report, figures already written out with their units."""
    facts = content.facts
    return {
        "id": facts.id,
        "jaw": jaw_words(facts.jaw),
        "kennedy": facts.kennedy,
        "identity": _identity(content),
        "prescription": [*facts.prescription],
        "missing": [str(t) for t in facts.missing],
        "not_replaced": [str(t) for t in facts.not_replaced],
        "path": content.path_words,
        "path_reasons": list(content.path_reasons),
        "path_heads": list(content.path_heads),
        "path_scores": [list(row) for row in content.path_scores],
        "design": list(content.design_words),
        "measures": [_measure(m) for m in content.measures],
        "components": [
            {"id": row.id, "words": row.words, "measures": [_measure(m) for m in row.measures]}
            for row in content.components
            if row.measures
        ],
        "bodies": [[row.kind, row.words, figure(row.volume_mm3, "mm3")] for row in content.bodies],
        "rooms": [room_cells(row) for row in content.rooms],
        "rooms_words": content.rooms_words,
        "severities": [
            {
                "key": s,
                "words": SEVERITY_WORDS[s],
                "count": len(content.of(s)),
                "findings": [_finding(one) for one in gathered(content.of(s))],
            }
            for s in SEVERITIES
        ],
        "inputs": [list(pair) for pair in facts.input_hashes],
        "outputs": [list(pair) for pair in facts.output_hashes],
        "cautions": [[c.heading, c.text] for c in CAUTIONS],
        "version": facts.version,
        "plan_alt": content.plan_alt,
    }


def _identity(content: ReportContent) -> list[list[str]]:
    facts = content.facts
    pairs = [
        ["patient", facts.patient],
        ["prescriber", facts.prescriber],
        ["laboratory", facts.laboratory],
        ["prescribed", facts.prescribed],
        ["due", facts.due],
        ["alloy", facts.alloy],
    ]
    return [pair for pair in pairs if pair[1]]


def _measure(measure: Measure) -> dict[str, str]:
    return {
        "name": measure.name,
        "value": figure(measure.value, measure.unit),
        "source": measure.source,
    }


def _finding(one: Gathered) -> dict[str, str]:
    finding = one.first
    measured, limit = compared(finding.measured, finding.limit, finding.unit)
    likewise = [
        other.component + (f" ({figure(other.measured)})" if other.measured is not None else "")
        for other in one.others
    ]
    return {
        "rule": finding.rule,
        "text": finding.text,
        "source": finding.source,
        "measured": measured,
        "limit": limit,
        "component": finding.component,
        "likewise": ", ".join(likewise),
    }
