"""The rules of build preparation: what is held, how grave it is, where it comes from."""

from __future__ import annotations

from dataclasses import dataclass

from claspwright.base import Finding, Point, Severity


@dataclass(frozen=True, slots=True)
class BuildRule:
    """One rule of build preparation."""

    id: str
    severity: Severity
    title: str
    source: str  # with its honesty mark


BUILD_RULES: tuple[BuildRule, ...] = (
    BuildRule(
        "build.island",
        "stop",
        "No area of a layer begins over loose powder",
        "metal cannot be laid on loose powder [own check, layer by layer]",
    ),
    BuildRule(
        "build.spacing",
        "stop",
        "Parts keep the spacing of the process record from each other, the margin from the edge, "
        "and clear of keep-outs",
        "spacing of the process record, exact distance between outlines [own check]",
    ),
    BuildRule(
        "build.protected-contact",
        "look",
        "No support touches the tissue side, rest undersides, inner faces of clasps or guiding "
        "faces",
        "no support on tissue side, rest undersides, inner faces of clasps and guiding faces "
        "[common practice, check-values F27]",
    ),
    BuildRule(
        "build.support-on-part",
        "look",
        "Supports stand on the platform, not on the part",
        "supports reach the platform where they can [common practice, no source]",
    ),
    BuildRule(
        "build.no-label",
        "look",
        "Every part carries a tag, so that no two patients are mixed up",
        "every part carries its number [common practice, no source]",
    ),
    BuildRule(
        "build.distortion",
        "look",
        "Rests and clasp tips stay within the process record's limit after stress relief and "
        "cutting free, by the model",
        "limit set by this project; gaps of 0.05 to 0.31 mm under rests are quoted as acceptable "
        "on finished frameworks [own]",
    ),
    BuildRule(
        "build.distortion-uncalibrated",
        "look",
        "A prediction of distortion rests on a coupon of the laboratory's own machine and alloy",
        "inherent strain differs with machine and alloy: calibrate with a cantilever, never take "
        "a default for true [check-values F18, from memory]",
    ),
    BuildRule(
        "build.compensated",
        "look",
        "A shape compensated in advance is told and measured after printing",
        "it corrects only what the model knows [own]",
    ),
)
_BY_ID = {rule.id: rule for rule in BUILD_RULES}


def finding(
    rule: str,
    text: str,
    *,
    measured: float | None = None,
    limit: float | None = None,
    unit: str = "",
    at_mm: Point | None = None,
    component: str = "",
) -> Finding:
    """What a rule of the book found, with its severity and source."""
    found = _BY_ID[rule]
    return Finding(
        found.id, found.severity, text, found.source, measured, limit, unit, at_mm, component
    )
