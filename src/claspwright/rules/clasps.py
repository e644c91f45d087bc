"""Rules on the shape of clasps and on where they touch the tooth."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from claspwright.arch import Tooth
from claspwright.base import Bools, Finding, Floats
from claspwright.framework import Component
from claspwright.geometry import arc_lengths, closest_points, distance_to_line
from claspwright.limits import limit
from claspwright.mechanics import is_wire
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged, point
from claspwright.survey import gauge

CONTACTS = 3  # kinds of contact that hold a tooth without 180 degrees
STEEP = 0.6  # rise of a step from which an approach arm runs up, not along
OBLIQUE = 0.5  # cosine to the margin: a run that crosses it makes at least 60 degrees with it
BELOW = 0.03  # mm of undercut from which a point counts as below the survey line


def undercut_along(context: Finished, points: Floats) -> Floats:
    """(N,) undercut of the tooth nearest to each point, as the gauge reads it [mm].

    Interpolated over the master surface; zero where the nearest face was not scanned.
    """
    nearest = closest_points(context.scan_tree, points)
    surface = context.arch.scan.surface
    scanned = (nearest.faces >= 0) & (nearest.faces < len(surface.faces))
    faces = surface.faces[np.where(scanned, nearest.faces, 0)]
    values = np.einsum("nc,nc->n", nearest.weights, context.survey.undercut[faces])
    return np.where(scanned, values, 0.0)


def tip_reading(context: Finished, tip: Floats) -> float:
    """What the gauge reads at a clasp tip [mm]; interpolated where the survey keeps no solid."""
    if context.survey.tree is None:
        return float(undercut_along(context, tip[None])[0])
    return float(gauge(context.survey, tip[None]).undercut_mm[0])


def tip_undercut(context: Finished) -> tuple[Finding, ...]:
    """Each clasp tip lies in its prescribed undercut."""
    found = []
    for arm, wanted in prescribed(context):
        reads = tip_reading(context, arm.line[-1])
        error = abs(reads - wanted)
        text = f"The tip of {arm.id} lies in {reads:.2f} mm of undercut, prescribed {wanted:.2f} mm"
        remedy = "Move the tip, tilt the path, or prescribe what the tooth offers."
        finding = judged(
            "clasp.tip_undercut", "clasp.undercut_tolerance", error, text,
            remedy=remedy, at=arm.line[-1], component=arm.id,
        )  # fmt: skip
        found.append(finding)
    return tuple(found)


def prescribed_undercut(context: Finished) -> tuple[Finding, ...]:
    """No clasp is asked to enter more undercut than its alloy and the enamel bear."""
    found = []
    for arm, wanted in prescribed(context):
        deep = limit("clasp.undercut_max").judge(wanted)
        key = "clasp.undercut_max" if deep else "clasp.undercut"
        text = f"{arm.id} is prescribed {wanted:.2f} mm of undercut"
        remedy = "Clasp another tooth rather than deepen the undercut; 0.25 mm suits this alloy."
        if is_wire(arm):
            key = "clasp.undercut_max" if deep else "clasp.wire_undercut"
            remedy = "Clasp another tooth rather than deepen the undercut; 0.50 mm suits a wire."
        found.append(
            judged("clasp.undercut", key, wanted, text, remedy=remedy, component=arm.id,
                   at=arm.line[-1])
        )  # fmt: skip
    return tuple(found)


def retentive_third(context: Finished) -> tuple[Finding, ...]:
    """Only the last third of an arm from above lies below the survey line."""
    found = []
    for arm in context.parts("retentive arm"):
        if arm.figures.get("approach"):
            continue
        arc = arc_lengths(arm.line)
        above = undercut_along(context, arm.line) <= BELOW
        last = arc[above][-1] if above.any() else 0.0
        share = float(1.0 - last / arc[-1])
        text = f"{100 * share:.0f} % of {arm.id}, from its tip, lies below the survey line"
        remedy = "Lay the arm higher, or ask the dentist to lower the survey line."
        found.append(
            judged("clasp.retentive_share", "clasp.retentive_share", share, text, remedy=remedy,
                   at=arm.line[-1], component=arm.id)
        )  # fmt: skip
    return tuple(found)


def tip_to_margin(context: Finished) -> tuple[Finding, ...]:
    """No clasp tip comes near the gingival margin."""
    found = []
    for arm in context.parts("retentive arm"):
        if arm.tooth is None or arm.figures.get("approach"):  # an approach arm crosses it
            continue
        gap = _to_margin(context.arch.teeth[arm.tooth], arm.line[-1:])[0]
        gap -= float(arm.width_mm[-1]) / 2
        text = f"The tip of {arm.id} keeps {gap:.1f} mm from the gingival margin"
        remedy = "Move the tip towards the occlusal; it would irritate the margin."
        found.append(
            judged("clasp.tip_margin", "clasp.tip_margin", gap, text, remedy=remedy,
                   at=arm.line[-1], component=arm.id)
        )  # fmt: skip
    return tuple(found)


def approach_to_margin(context: Finished) -> tuple[Finding, ...]:
    """The part of an approach arm that runs along the margins keeps away from them.

    Its last run, which crosses the margin at about a right angle, does not count: on flaring
    tissue that run lies nearly level too.
    """
    found = []
    margins = [tooth.margin for tooth in context.arch.teeth.values()]
    for arm in context.parts("retentive arm", "approach arm"):
        if not arm.figures.get("approach") and arm.kind != "approach arm":
            continue
        if arm.figures.get("finger"):  # it lies on the tooth
            continue
        arc = arc_lengths(arm.line)
        foot = arm.figures.get("foot_mm", arc[-1])  # beyond it lie the fingers, on the tooth
        along = runs_along(arm.line, margins) & (arc < 0.8 * min(foot, arc[-1]))
        if not along.any():
            continue
        points = arm.line[along]
        gaps = np.min([distance_to_line(_closed(m), points)[0] for m in margins], axis=0)
        gaps = gaps - np.broadcast_to(arm.width_mm, len(arm.line))[along] / 2
        worst = int(np.argmin(gaps))
        text = f"{arm.id} runs {gaps[worst]:.1f} mm from a gingival margin"
        remedy = "Lay the approach arm lower, or choose a circumferential clasp."
        found.append(
            judged("clasp.approach_margin", "clasp.approach_margin", float(gaps[worst]), text,
                   remedy=remedy, at=points[worst], component=arm.id)
        )  # fmt: skip
    return tuple(found)


def runs_along(line: Floats, margins: list[Floats]) -> Bools:
    """(N,) where an approach arm runs along the margins, before it turns to cross one.

    Args:
        line: (N, 3) from the base to the tooth [mm].
        margins: the gingival margins, (M, 3) each [mm].
    """
    steps = np.gradient(line, axis=0)
    steps /= np.maximum(np.linalg.norm(steps, axis=1, keepdims=True), 1e-12)
    steep = np.abs(steps[:, 2]) >= STEEP
    gaps = np.array([distance_to_line(_closed(m), line)[0] for m in margins])
    crossed, at = np.unravel_index(int(np.argmin(gaps)), gaps.shape)
    margin = _closed(margins[int(crossed)])
    near = int(np.argmin(np.linalg.norm(margin[:-1] - line[at], axis=1)))
    tangent = margin[near + 1] - margin[near - 1 if near else -2]
    tangent /= max(float(np.linalg.norm(tangent)), 1e-12)
    sideways = np.flatnonzero(~steep[: at + 1] & (np.abs(steps[: at + 1] @ tangent) > OBLIQUE))
    turn = int(sideways[-1]) + 1 if sideways.size else 0
    return np.asarray(~steep & (np.arange(len(line)) < turn))


def arm_length(context: Finished) -> tuple[Finding, ...]:
    """A retentive arm is long enough to flex over its undercut."""
    found = []
    for arm in context.parts("retentive arm"):
        length = float(arc_lengths(arm.line)[-1])
        key, begins = "clasp.arm_length", "the beginning of its taper"
        if is_wire(arm):
            key, begins = "clasp.wire_length", "the mouth of its socket"
        text = f"{arm.id} is {length:.1f} mm long from {begins} to its tip"
        remedy = (
            "A short arm is stiff: see its stress; thin it, take less undercut, or a longer way."
        )
        found.append(
            judged("clasp.arm_length", key, length, text, remedy=remedy,
                   at=arm.line[0], component=arm.id)
        )  # fmt: skip
    return tuple(found)


def arm_section(context: Finished) -> tuple[Finding, ...]:
    """Root and tip of a retentive arm have the usual sizes, and it tapers evenly."""
    found = []
    for arm in context.parts("retentive arm"):
        if arm.figures.get("approach"):
            continue
        width = np.broadcast_to(arm.width_mm, len(arm.line))
        thick = np.broadcast_to(arm.thickness_mm, len(arm.line))
        sizes = [
            ("clasp.root_width", width[0], 0),
            ("clasp.root_thickness", thick[0], 0),
            ("clasp.taper", thick[-1] / thick[0], -1),
        ]
        for key, size, at in [("clasp.wire_diameter", width[0], 0)] if is_wire(arm) else sizes:
            name = limit(key).title
            text = f"{name}: {size:.2f} on {arm.id}"
            finding = judged(
                "clasp.section", key, round(float(size), 6), text,
                remedy="Change the clasp's width or thickness in the sheet.",
                at=arm.line[at], component=arm.id,
            )  # fmt: skip
            if finding.severity != "note":
                found.append(finding)
    return tuple(found)


def encirclement(context: Finished) -> tuple[Finding, ...]:
    """Every clasped tooth is held over more than half its circumference, or at three places."""
    found = []
    for retainer in context.design.retainers:
        if retainer.clasp is None or retainer.tooth not in context.arch.teeth:
            continue
        tooth = context.arch.teeth[retainer.tooth]
        parts = [c for c in context.framework.components if c.tooth == retainer.tooth]
        held = held_degrees(tooth, parts)
        areas = {c.kind for c in parts} - {"lattice", "finish line", "major connector"}
        text = (
            f"Tooth {retainer.tooth} is held over {held:.0f} degrees of its circumference, at "
            f"{len(areas)} kinds of contact"
        )
        remedy = "The tooth could move out of the retainer; lengthen an arm or add a plate or arm."
        finding = judged(
            "clasp.encirclement", "clasp.encirclement", held, text, remedy=remedy,
            at=tooth.centre, component=f"retainer.{retainer.tooth}",
        )  # fmt: skip
        enough = len(areas) >= CONTACTS and finding.severity == "look"
        found.append(replace(finding, severity="note", text=f"{text}.") if enough else finding)
    return tuple(found)


def held_degrees(tooth: Tooth, parts: list[Component]) -> float:
    """Angle round a tooth, seen from above, between the outermost contacts of its retainer."""
    points = np.concatenate([part.line for part in parts]) if parts else np.zeros((0, 3))
    offset = points - tooth.centre
    reach = 0.75 * max(tooth.mesiodistal_mm, tooth.buccolingual_mm)
    offset = offset[np.linalg.norm(offset[:, :2], axis=1) < reach]
    if len(offset) < 2:
        return 0.0
    angle = np.sort(np.arctan2(offset @ tooth.buccal, offset @ tooth.mesial))
    gaps = np.diff(np.append(angle, angle[0] + 2 * np.pi))
    return float(360.0 - np.degrees(gaps.max()))


def reciprocation(context: Finished) -> tuple[Finding, ...]:
    """What stands against a retentive arm is stiffer than the arm."""
    found = []
    arms = {c.tooth: c for c in context.parts("reciprocal arm")}
    for arm in context.parts("retentive arm"):
        other = arms.get(arm.tooth)
        if other is None:
            braced = context.parts("proximal plate", "minor connector")
            if any(c.tooth == arm.tooth for c in braced):
                continue
            found.append(
                Finding(
                    "clasp.reciprocation",
                    "stop",
                    f"Nothing stands against {arm.id}: the tooth would be moved at each insertion. "
                    "Add a reciprocal arm or a proximal plate.",
                    limit("clasp.reciprocal_ratio").cited,
                    measured="none",
                    limit="reciprocal arm, plate or minor connector",
                    at_mm=point(arm.line[-1]),
                    component=arm.id,
                )
            )
            continue
        ratio = float(np.mean(other.thickness_mm) / np.mean(arm.thickness_mm))
        text = f"{other.id} is {ratio:.2f} times as thick on average as {arm.id}"
        remedy = "Thicken the reciprocal arm or thin the retentive one."
        found.append(
            judged("clasp.reciprocation", "clasp.reciprocal_ratio", ratio, text, remedy=remedy,
                   at=other.line[-1], component=other.id)
        )  # fmt: skip
    return tuple(found)


def clasp_count(context: Finished) -> tuple[Finding, ...]:
    """Two to four clasps."""
    count = len(context.parts("retentive arm"))
    text = f"The framework has {count} clasp{'s' if count != 1 else ''}"
    remedy = "Fewer hold badly, more load the teeth and are hard to seat; ask the prescriber."
    finding = judged("clasp.count", "clasp.count", float(count), text, remedy=remedy)
    if count == 0:
        asks = [f.text for f in context.design.findings if f.rule == "proposal.shape_tooth"]
        way = " ".join(asks) or "Tilt the path, or have a tooth shaped."
        why = f"The framework has no clasp: nothing holds it. {way}"
        return (replace(finding, severity="stop", text=why),)
    return (finding,)


def prescribed(context: Finished) -> list[tuple[Component, float]]:
    """Retentive arms with the undercut that the design asks of each."""
    wanted = {r.tooth: r.clasp.undercut_mm for r in context.design.retainers if r.clasp}
    return [
        (arm, wanted[arm.tooth])
        for arm in context.parts("retentive arm")
        if arm.tooth is not None and arm.tooth in wanted
    ]


def _to_margin(tooth: Tooth, points: Floats) -> Floats:
    return distance_to_line(_closed(tooth.margin), points)[0]


def _closed(line: Floats) -> Floats:
    return np.vstack([line, line[:1]])
