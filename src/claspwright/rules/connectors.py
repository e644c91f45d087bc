"""Rules on major and minor connectors."""

from __future__ import annotations

from itertools import combinations

import numpy as np
from shapely.geometry import Point, Polygon

from claspwright.arch import Tooth
from claspwright.base import Finding, Floats
from claspwright.framework import Component, jaw_of_form
from claspwright.geometry import distance_to_line
from claspwright.limits import limit
from claspwright.rules.columns import Columns
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged

BAR = "lingual bar"
LABIAL = "labial bar"
FLOOR_BARS = ("lingual bar", "lingual plate", "sublingual bar")  # over the floor of the mouth
JOINED = 0.2  # mm between two minor connectors that have grown together
FULL = 0.97  # of its height: where less, the bar turns up into what it joins
STRIP = 1.0  # mm beside the midline over which straps are measured


def bar_section(context: Finished) -> tuple[Finding, ...]:
    """Height and thickness of a lingual bar."""
    connector = context.design.connector
    if connector.form not in (*FLOOR_BARS, LABIAL):
        return ()
    name = connector.form if "bar" in connector.form else f"bar of the {connector.form}"
    remedy = "A thinner bar bends; ask for room, or choose another connector."
    height = judged(
        "bar.height", "bar.height", connector.height_mm,
        f"The {name} is {connector.height_mm:.1f} mm high", remedy=remedy,
        component="major_connector",
    )  # fmt: skip
    thickness = judged(
        "bar.thickness", "bar.thickness", connector.thickness_mm,
        f"The {name} is {connector.thickness_mm:.1f} mm thick", remedy=remedy,
        component="major_connector",
    )  # fmt: skip
    return height, thickness


_ASKS = {
    "lingual plate": "It covers gingival margins: the patient must keep them clean, and teeth "
    "that may be lost can be added to it. Confirm it with the prescriber.",
    "sublingual bar": "The floor of the mouth must have been recorded in function; a scan at rest "
    "does not show it. Confirm it with the prescriber.",
    "cingulum bar": "It needs sound front teeth and is felt by the tongue. Confirm it with the "
    "prescriber.",
    "labial bar": "It is longer than a bar behind the teeth and is felt by the lip. Take it only "
    "where teeth or tissue lean so far towards the tongue that they cannot be corrected, and look "
    "at the frenum and the depth of the vestibule in the mouth.",
    "U-shaped palatal connector": "It bends more than any other palatal connector. Take it only "
    "where a torus or the patient leaves no room behind.",
    "full palatal plate": "It covers the whole palate. Check its rear border against the soft "
    "palate in the mouth.",
}


def connector_form(context: Finished) -> tuple[Finding, ...]:
    """What a person must judge about the form of the major connector."""
    form = context.design.connector.form
    if form not in _ASKS:
        return ()
    return (
        *_bar_clasps_beside_it(context),
        Finding(
            "connector.form",
            "look",
            f"The major connector is a {form}. {_ASKS[form]}",
            "usual forms first [common practice]",
            measured=form,
            limit="lingual bar" if jaw_of_form(form) == "mandible" else "palatal strap",
            component="major_connector",
        ),
    )


def _bar_clasps_beside_it(context: Finished) -> tuple[Finding, ...]:
    """Bar clasps whose approach arms lie where a labial bar runs."""
    if context.design.connector.form != LABIAL:
        return ()
    teeth = [c.tooth for c in context.parts("approach arm") if c.tooth is not None]
    if not teeth:
        return ()
    named = ", ".join(map(str, sorted(set(teeth))))
    return (
        Finding(
            "connector.form",
            "look",
            f"The approach arm of the bar clasp on {named} runs where the labial bar lies and "
            "grows into it, so that it hardly springs. Ask for clasps from above there.",
            "a bar clasp springs along its approach arm [common practice]",
            measured=named,
            limit="circumferential",
            component="major_connector",
        ),
    )


def apron_thickness(context: Finished) -> tuple[Finding, ...]:
    """Thickness of the apron of a lingual plate."""
    found = []
    for part in context.parts("major connector"):
        if part.id.startswith("major_connector.apron"):
            size = float(np.min(part.thickness_mm))
            text = f"The apron of the lingual plate is {size:.2f} mm thick"
            remedy = "Thicken it: a thin apron bends and breaks at the contacts."
            found.append(
                judged("apron.thickness", "apron.thickness", size, text, remedy=remedy,
                       at=part.line[len(part.line) // 2], component=part.id)
            )  # fmt: skip
    return tuple(found)


def bar_to_margin(context: Finished) -> tuple[Finding, ...]:
    """Upper border of a lingual or labial bar to the gingival margins of all teeth."""
    connector = context.design.connector
    if connector.form not in (BAR, LABIAL):
        return ()
    found = []
    for bar in context.parts("major connector"):
        full = np.broadcast_to(bar.width_mm, len(bar.line)) >= FULL * connector.height_mm
        if not full.any():
            continue
        border = upper_border(context, bar.line[full], connector.height_mm / 2)
        near = nearest_margin(list(context.arch.teeth.values()), border)
        if near is None:
            continue
        gap, at, tooth = near
        text = f"The upper border of the bar keeps {gap:.1f} mm from the margin of {tooth}"
        remedy = "Lower the bar if the floor of the mouth allows it; else a lingual plate is due."
        key = "bar.margin"
        if connector.form == LABIAL:
            key = "bar.margin_labial"
            remedy = "Lower the bar if the vestibule allows it, or choose another connector."
        found.append(judged("bar.margin", key, gap, text, remedy=remedy, at=at, component=bar.id))
    return tuple(found)


def upper_border(context: Finished, line: Floats, up_mm: float) -> Floats:
    """(N, 3) points a distance up the surface, towards the way out, from a line on it [mm]."""
    normal = context.survey.scan_field.gradient(line)
    normal = normal / np.maximum(np.linalg.norm(normal, axis=1, keepdims=True), 1e-9)
    up = context.path - (normal @ context.path)[:, None] * normal
    size = np.linalg.norm(up, axis=1, keepdims=True)
    return np.asarray(line + up_mm * up / np.maximum(size, 1e-9))


def bar_over_floor(context: Finished) -> tuple[Finding, ...]:
    """The lower border of a lingual bar stays above the probed floor of the mouth."""
    depth = context.facts.functional_depth_mm
    if context.design.connector.form not in FLOOR_BARS or depth is None:
        return ()
    connector = context.design.connector
    lower = connector.margin_distance_mm + connector.height_mm
    fits = lower <= depth + 1e-9
    return (
        Finding(
            "bar.floor",
            "note" if fits else "stop",
            f"The lower border of the bar lies {lower:.1f} mm under the margins, the floor of the "
            f"mouth {depth:.1f} mm"
            + (
                "."
                if fits
                else "; it would press on movable tissue. Raise or lower the bar's size."
            ),
            "the bar stays above the functional depth (Stratton & Wiebelt 1988) [seen C]",
            measured=round(lower, 2),
            limit=round(depth, 2),
            unit="mm",
            component="major_connector",
        ),
    )


def strap_width(context: Finished) -> tuple[Finding, ...]:
    """Width of each palatal strap where it crosses the midline, measured on the solid."""
    form = context.design.connector.form
    if jaw_of_form(form) == "mandible":
        return ()
    widths = midline_widths(context)
    expected = 2 if form == "anterior-posterior strap" else 1
    found = []
    for n, (width, at) in enumerate(widths):
        front = expected == 2 and n == 0 and len(widths) > 1
        name = "anterior" if front else "posterior" if expected == 2 else "palatal"
        key = "strap.width_anterior" if front else "strap.width"
        text = f"The {name} strap is {width:.1f} mm wide at the midline"
        remedy = "A narrower strap is a palatal bar and bends; widen it."
        found.append(
            judged("strap.width", key, width, text, remedy=remedy, at=at,
                   component="major_connector")
        )  # fmt: skip
    if not widths:
        found.append(
            Finding(
                "strap.width",
                "stop",
                "No palatal strap crosses the midline: the two sides are not joined.",
                limit("strap.width").cited,
                measured=0.0,
                limit=limit("strap.width").value,
                unit="mm",
                component="major_connector",
            )
        )
    return tuple(found)


def midline_widths(context: Finished) -> list[tuple[float, Floats]]:
    """Width of each band of metal over the midline strip, anterior first, with its middle.

    Where the connector's outline is known, only bands within it: the rail or the cross-bar of
    an anterior base is no strap.
    """
    columns = Columns.of(context.framework.solid, np.array([0.0, 0.0, 1.0]))
    low, high = context.framework.solid.bounds
    ys = np.arange(low[1], high[1], 0.1)
    crossed = []
    for x in np.linspace(-STRIP, STRIP, 5):
        points = np.column_stack([np.full(len(ys), x), ys, np.zeros(len(ys))])
        crossed.append(np.isfinite(columns.thickness(points)))
    metal = np.mean(crossed, axis=0) > 0.5
    edges = np.flatnonzero(np.diff(np.concatenate([[False], metal, [False]]).astype(int)))
    straps = [c for c in context.parts("major connector") if "area_mm2" in c.figures]
    outlines = [Polygon(strap.line[:, :2]).buffer(0) for strap in straps]
    found = []
    for start, stop in zip(edges[::2], edges[1::2], strict=True):
        width = 0.1 * (stop - start)
        if width < 1.0:
            continue
        middle = np.array([0.0, ys[(start + stop - 1) // 2], 0.0])
        if outlines and not any(o.contains(Point(middle[:2])) for o in outlines):
            continue
        middle[2] = float(columns.top.at(middle[None])[0])
        found.append((float(width), middle))
    return found[::-1]


def strap_to_margin(context: Finished) -> tuple[Finding, ...]:
    """Border of a palatal connector to the gingival margins of the teeth it does not cover."""
    if jaw_of_form(context.design.connector.form) == "mandible":
        return ()
    joined = {r.tooth for r in context.design.retainers}
    free = [tooth for code, tooth in context.arch.teeth.items() if code not in joined]
    found = []
    for strap in context.parts("major connector"):
        near = nearest_margin(free, strap.line)
        if near is None:
            continue
        gap, at, tooth = near
        text = f"The border of the palatal connector keeps {gap:.1f} mm from the margin of {tooth}"
        remedy = "Move the border away from the margin, or carry it onto the teeth."
        found.append(
            judged("strap.margin", "strap.margin", gap, text, remedy=remedy, at=at,
                   component=strap.id)
        )  # fmt: skip
    return tuple(found)


def strap_thickness(context: Finished) -> tuple[Finding, ...]:
    """Thickness of a palatal strap."""
    connector = context.design.connector
    if jaw_of_form(connector.form) == "mandible":
        return ()
    text = f"The palatal connector is {connector.thickness_mm:.2f} mm thick"
    remedy = "Thicken it, or widen it and accept more flexure."
    return (
        judged("strap.thickness", "strap.thickness", connector.thickness_mm, text, remedy=remedy,
               component="major_connector"),
    )  # fmt: skip


def minor_spacing(context: Finished) -> tuple[Finding, ...]:
    """Neighbouring minor connectors leave room that can be kept clean, or are joined."""
    worst: tuple[float, Floats, str] | None = None
    minors = context.parts("minor connector")
    for a, b in combinations(minors, 2):
        gaps, _ = distance_to_line(b.line, a.line)
        nearest = int(np.argmin(gaps))
        gap = float(gaps[nearest]) - float(np.mean(a.width_mm) + np.mean(b.width_mm)) / 2
        if gap <= JOINED or _base_of(a) == _base_of(b) != "":
            continue
        if worst is None or gap < worst[0]:
            worst = (gap, a.line[nearest], f"{a.id} and {b.id}")
    if worst is None:
        return ()
    text = f"{worst[2]} leave {worst[0]:.1f} mm between them"
    remedy = "Move a rest or join the two connectors; food stays in a narrow gap."
    return (
        judged("minor.spacing", "minor.spacing", worst[0], text, remedy=remedy, at=worst[1]),
    )  # fmt: skip


def _base_of(minor: Component) -> str:
    """Id of the base that a minor connector belongs to; empty for one of a rest."""
    return minor.id.rsplit(".beam", 1)[0] if minor.id.startswith("base.") else ""


def minor_section(context: Finished) -> tuple[Finding, ...]:
    """Width and thickness of minor connectors."""
    found = []
    for minor in context.parts("minor connector"):
        for key, size in (
            ("minor.width", float(np.min(minor.width_mm))),
            ("minor.thickness", float(np.min(minor.thickness_mm))),
        ):
            text = f"{minor.id}: {limit(key).title.lower()} {size:.2f} mm"
            remedy = "Thicken it: printed frameworks broke at minor connectors in tests."
            finding = judged("minor.section", key, size, text, remedy=remedy,
                             at=minor.line[len(minor.line) // 2], component=minor.id)  # fmt: skip
            if finding.severity != "note":
                found.append(finding)
    return tuple(found)


def nearest_margin(teeth: list[Tooth], line: Floats) -> tuple[float, Floats, int] | None:
    """Least distance of a line to the gingival margins of teeth: mm, place, tooth."""
    best: tuple[float, Floats, int] | None = None
    for tooth in teeth:
        gaps, _ = distance_to_line(np.vstack([tooth.margin, tooth.margin[:1]]), line)
        nearest = int(np.argmin(gaps))
        if best is None or gaps[nearest] < best[0]:
            best = (float(gaps[nearest]), line[nearest], tooth.code)
    return best
