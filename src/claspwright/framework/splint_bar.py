"""Splinting bars: rigid bars that hold named teeth together, asked for in the sheet alone.

Across a space without a base a bar runs straight from plate to plate, round towards the ridge and
clear of it, so that it can be cleaned. Along standing teeth it lies on their cingula, over the
survey line, from one rest or minor connector to another.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from shapely.geometry import MultiPoint, Point

from claspwright.arch import ARCH_ORDER, Span
from claspwright.base import Finding, Floats, InfeasibleError, Severity
from claspwright.framework.apron import tooth_rows
from claspwright.framework.areas import Area
from claspwright.framework.bar import STEP, BarLine, bridged, crown_bar_line, lay_bar
from claspwright.framework.canvas import Section, section_sweep
from claspwright.framework.connectors import Connector
from claspwright.framework.design import Design, MajorConnector, SplintBar
from claspwright.framework.ground import Ground, Piece, steady_normals
from claspwright.framework.minor import beam
from claspwright.framework.model import Component
from claspwright.framework.roof import OPEN, roof_over
from claspwright.framework.routes import splint_feet, splint_way
from claspwright.framework.slits import without_blades
from claspwright.framework.stations import lingual_margin
from claspwright.geometry import resampled, smoothed, tangents
from claspwright.limits import Limit, limit

INTO = 1.5  # mm that a bar across a space reaches into each tooth before it is cut
BESIDE = 2.6  # mm from a tooth over which the foot of its plate lies under the bar, not ridge
TIE_WIDTH = 2.6  # mm of the minor connectors from its plates
JOINT = 1.0  # mm of its height over which a bar must meet a plate
EDGE = 0.4  # mm radius of its upper edges
FILLET = 0.8  # mm radius of its joints
REACH = 7.0  # mm from the middle of the last tooth to what a bar along teeth is joined to
TOUCH = 0.1  # mm off the enamel, over which a bar no longer touches a tooth
HOLD = ("rest", "minor connector", "proximal plate")


@dataclass(slots=True)
class Splinted:
    """Bars as laid, and what could not be laid."""

    pieces: list[Piece] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)


def lay_splints(
    ground: Ground, design: Design, connector: Connector, laid: Sequence[Piece]
) -> Splinted:
    """Lay every bar that the design asks for, or say why one has no place.

    Args:
        ground: surfaces; the bars lie on the relieved one.
        design: with its splinting bars.
        connector: the major connector as laid out.
        laid: rests, plates and minor connectors, which the bars are joined to.
    """
    out = Splinted()
    for wanted in design.splints:
        name = f"splint.{wanted.teeth[0]}-{wanted.teeth[-1]}"
        try:
            span = _space(ground, design, wanted)
            if span is not None:
                out.pieces.extend(_tied(ground, design, connector, wanted))
                bar = _across(ground, name, wanted, laid)
            else:
                bar = _along(ground, name, wanted, connector, laid)
        except InfeasibleError as error:
            out.findings.append(_refused(ground, name, wanted, error))
            continue
        out.pieces.append(bar)
    return out


def splint_section(height: float, thickness: float) -> Section:
    """Section of a bar across a space: half-round below, flat with rounded edges above.

    Args:
        height: along the path, up positive [mm].
        thickness: from cheek to tongue [mm].

    Source:
        convex towards the ridge, so that it can be cleaned: common practice, no source.
    """
    half = thickness / 2
    edge = min(EDGE, 0.4 * half)
    low = -height / 2 + min(half, 0.8 * height)
    turn = np.linspace(np.pi, 2 * np.pi, 33)
    round_ = np.column_stack([half * np.cos(turn), low + (low + height / 2) * np.sin(turn)])
    corners = [
        spot
        for side in (-1.0, 1.0)
        for spot in Point(side * (half - edge), height / 2 - edge).buffer(edge, 16).exterior.coords
    ]
    outline = MultiPoint([*map(tuple, round_), *corners]).convex_hull
    return Section.of(np.asarray(outline.exterior.coords, np.float64)[:-1])


def _space(ground: Ground, design: Design, wanted: SplintBar) -> Span | None:
    """The space that a bar crosses; None for one along standing teeth.

    Raises:
        InfeasibleError: neither is meant, or a base or the major connector is there already.
    """
    arch, teeth = ground.arch, wanted.teeth
    absent = [code for code in teeth if code not in arch.teeth]
    if absent:
        raise InfeasibleError(
            f"tooth {absent[0]} does not stand on the scan",
            place="splint.place",
            remedy="Name standing teeth only",
        )
    for span in arch.spans:
        if len(teeth) == 2 and set(span.ends) == set(teeth):
            if any(set(base.teeth) & set(span.missing) for base in design.bases):
                raise InfeasibleError(
                    "a base with its teeth fills that space",
                    place="splint.place",
                    remedy="Leave the base away (not_replaced), or the bar: a base joins them too",
                )
            return span
    if len(tooth_rows(arch, teeth)) > 1 or _between(ground, teeth) != len(teeth):
        raise InfeasibleError(
            "the teeth are neither the two neighbours of one space nor an unbroken row",
            place="splint.place",
            remedy="Name the two teeth beside a space, or every tooth of a row side by side",
        )
    if design.connector.form in ("lingual plate", "cingulum bar"):
        raise InfeasibleError(
            f"the {design.connector.form} lies on the tongue side of these teeth already",
            place="splint.place",
            remedy="Leave the bar away, or ask for another major connector",
        )
    return None


def _between(ground: Ground, teeth: Sequence[int]) -> int:
    """How many teeth stand from the first to the last of these."""
    order = ARCH_ORDER[ground.arch.scan.jaw]
    first, last = order.index(teeth[0]), order.index(teeth[-1])
    return sum(1 for code in order[first : last + 1] if code in ground.arch.teeth)


def _across(ground: Ground, name: str, wanted: SplintBar, laid: Sequence[Piece]) -> Piece:
    """A straight bar from plate to plate over the ridge."""
    one, other = (_plate(ground, wanted, code, laid) for code in wanted.teeth)
    height, thickness = sizes(wanted, across=True)
    reach = other[1][:2] - one[1][:2]
    length = float(np.hypot(*reach))
    ahead = np.array([*(reach / length), 0.0])
    t = np.arange(0.0, length + 1e-9, 0.15)
    gap = limit("splint.gap").value
    margin = np.interp(t, [0.0, length], [one[2][2], other[2][2]])
    under = margin + gap
    tops = _tops(ground, one[1], ahead, t, thickness)
    beside = min(BESIDE, 0.3 * length)
    free = (t >= beside) & (t <= length - beside)
    under = under + max(float((tops + gap - under)[free].max()), 0.0)
    middle = one[1] + t[:, None] * ahead
    middle[:, 2] = under + height / 2
    kept, finding = _under_roof(ground, name, middle, under, height, "splint.height", thickness)
    middle[:, 2] = under + kept / 2
    for plate, low in ((one, under[0]), (other, under[-1])):
        if min(plate[0][2], low + kept) - low < JOINT:
            raise InfeasibleError(
                "over the ridge it would pass above the plates that it must be joined to",
                place="splint.joined",
                remedy="Ask for higher plates and rests on both teeth, or leave the bar away",
            )
    line = np.vstack([middle[0] - INTO * ahead, middle, middle[-1] + INTO * ahead])
    line[0, 2], line[-1, 2] = middle[0, 2], middle[-1, 2]
    up = np.tile([0.0, 0.0, 1.0], (len(line), 1))
    shape = section_sweep(ground.grid, line, up, splint_section(kept, thickness))
    clear = float((under - tops)[free].min())
    figures = {"length_mm": length, "height_mm": kept, "gap_mm": clear, "across": 1.0}
    component = Component(
        name, "splinting bar", ground.back(middle), np.array([kept]), np.array([thickness]),
        None, figures,
    )  # fmt: skip
    return Piece(component, shape, FILLET, None, finding)


def _plate(ground: Ground, wanted: SplintBar, tooth: int, laid: Sequence[Piece]) -> Floats:
    """(3, 3) top, middle and foot of the plate that a tooth has towards the space; grid frame.

    Raises:
        InfeasibleError: it has none.
    """
    span = next(s for s in ground.arch.spans if set(s.ends) == set(wanted.teeth))
    end = Area(0, span.missing, span.ends).gap_of(tooth)
    for piece in laid:
        if piece.component.id == f"plate.{tooth}.{end}":
            return ground.here(piece.component.line)
    raise InfeasibleError(
        f"tooth {tooth} has no proximal plate towards the space",
        place="splint.joined",
        remedy=f'Give tooth {tooth} a [[retainer]] with a rest and proximal_plate = "{end}"',
    )


def _tied(ground: Ground, design: Design, connector: Connector, wanted: SplintBar) -> list[Piece]:
    """Minor connectors from the plates at both ends of a bar to the major connector.

    Raises:
        InfeasibleError: the major connector does not pass there.
    """
    out = []
    for tooth, foot in splint_feet(ground, replace(design, splints=(wanted,))):
        route = splint_way(ground, design, tooth, foot)
        if len(route) < 4 or not connector.reached_by(route):
            route = ground.laid.profile(foot, connector.direction_from(foot), 30.0)
        if len(route) < 4 or not connector.reached_by(route):
            raise InfeasibleError(
                f"the major connector does not pass by the plate of {tooth}",
                place="splint.joined",
                remedy="Ask for another form of major connector, or leave the bar away",
            )
        out.append(
            beam(
                ground, f"minor.{tooth}.splint", connector.cut(route), tooth,
                width_mm=TIE_WIDTH, thickness_mm=limit("minor.thickness").value,
            )
        )  # fmt: skip
    return out


def _tops(ground: Ground, start: Floats, ahead: Floats, t: Floats, thickness: float) -> Floats:
    """(N,) highest ground under the width of a straight bar at distances along it [mm]."""
    across = np.array([-ahead[1], ahead[0]])
    aside = np.linspace(-thickness / 2, thickness / 2, 9)
    spots = start[:2] + t[:, None, None] * ahead[:2] + aside[None, :, None] * across
    flat = spots.reshape(-1, 2)
    high = np.fmax(ground.laid.height(flat), ground.scan.height(flat))
    return np.asarray(np.nan_to_num(high, nan=-99.0).reshape(len(t), -1).max(axis=1))


def _under_roof(
    ground: Ground, name: str, line: Floats, under: Floats, height: float, key: str, wide: float
) -> tuple[float, tuple[Finding, ...]]:
    """The height that the opposing teeth leave to a bar over its under side, and a word on it.

    Raises:
        InfeasibleError: they leave less than the least.
    """
    roof = roof_over(ground.arch, ground.grid)
    if roof is None:
        return height, ()
    step = tangents(line)
    across = np.column_stack([-step[:, 1], step[:, 0], np.zeros(len(step))])
    across /= np.linalg.norm(across, axis=1, keepdims=True) + 1e-12
    over = np.min([roof.at(line + s * wide / 2 * across) for s in (-1.0, 0.0, 1.0)], axis=0)
    room = np.where(over < OPEN, over - under, OPEN)
    n = int(np.argmin(room))
    rule = limit(key)
    if room[n] >= height:
        return height, ()
    if room[n] < (rule.stop_below or 0.0):
        raise InfeasibleError(
            f"the opposing teeth leave {max(room[n], 0.0):.2f} mm for it",
            place="splint.room",
            remedy="Ask the dentist for room there, or leave the bar away",
        )
    text = (
        f"{name} is lowered from {height:.2f} to {room[n]:.2f} mm of height for want of room under "
        "the opposing teeth; look whether it is still stiff enough."
    )
    at = ground.back(line[n][None])[0]
    return float(room[n]), (_finding("splint.room", "look", text, rule, name, at, room[n]),)


def _along(
    ground: Ground, name: str, wanted: SplintBar, connector: Connector, laid: Sequence[Piece]
) -> Piece:
    """A bar over the cingula of standing teeth, from one holding part to another."""
    height, thickness = sizes(wanted, across=False)
    placed = crown_bar_line(ground, connector.stations, wanted.teeth)
    line = placed.line
    for last in (False, True):
        line = _reaching(ground, wanted, line, laid, last)
    line = bridged(ground.blocked, smoothed(resampled(line, STEP), 1.0))
    normal = steady_normals(ground.laid, line, 1.5)
    up = np.cross(tangents(line), normal)
    up *= np.sign(up[:, 2:3] + 1e-9)
    outer = line + thickness * normal
    under = outer[:, 2] - height / 2 * up[:, 2]
    kept, finding = _under_roof(
        ground, name, outer, under, height, "splint.continuous_height", thickness
    )
    placed = BarLine(line, np.ones(len(line)), np.ones(len(line)))
    size = MajorConnector("cingulum bar", height_mm=kept, thickness_mm=thickness)
    piece = lay_bar(ground, placed, size)
    figures = {**piece.component.figures, "across": 0.0}
    told = replace(piece.component, id=name, kind="splinting bar", figures=figures)
    finding += _off_teeth(ground, name, wanted, line)
    shape = without_blades(ground.laid, piece.shape)
    return replace(piece, component=told, shape=shape, fillet=FILLET, findings=finding)


def _reaching(
    ground: Ground, wanted: SplintBar, line: Floats, laid: Sequence[Piece], last: bool
) -> Floats:
    """A line drawn out at one end to the rest, plate or minor connector that holds it.

    Raises:
        InfeasibleError: nothing is within reach.
    """
    tooth = wanted.teeth[-1 if last else 0]
    order = [c for c in ARCH_ORDER[ground.arch.scan.jaw] if c in ground.arch.teeth]
    at = order.index(tooth) + (1 if last else -1)
    near = {tooth, order[at]} if 0 <= at < len(order) else {tooth}
    line = line if last else line[::-1]
    end, ahead = line[-1], tangents(line)[-1]
    spots = [
        ground.here(c.line.mean(axis=0, keepdims=True) if c.kind == "rest" else c.line)
        for c in (piece.component for piece in laid)
        if c.kind in HOLD and c.tooth in near
    ]
    if spots:
        points = np.vstack(spots)
        gaps = np.linalg.norm(points - end, axis=1)
        n = int(np.argmin(gaps))
        if gaps[n] <= REACH:
            if (points[n] - end) @ ahead > 0.5:
                more = resampled(np.vstack([end, points[n]]), STEP)
                line = np.vstack([line, ground.blocked.settle(more[1:])])
            return line if last else line[::-1]
    raise InfeasibleError(
        f"beside tooth {tooth} there is no rest, plate or minor connector to join it to",
        place="splint.joined",
        remedy=f"Give tooth {tooth}, or the one beyond it, a [[retainer]] with a rest",
    )


def _off_teeth(ground: Ground, name: str, wanted: SplintBar, line: Floats) -> tuple[Finding, ...]:
    """A word on the teeth that a bar runs past below their survey line, so that it stands off."""
    out = []
    for code in wanted.teeth:
        middle = lingual_margin(ground, ground.tooth(code))
        near = line[int(np.argmin(np.hypot(*(line - middle)[:, :2].T)))]
        off = float(ground.scan.distance(ground.laid.settle(near[None]))[0])
        if off > TOUCH:
            text = (
                f"{name} runs below the survey line of {code} and stands {off:.2f} mm off it: it "
                "does not hold that tooth, and food lodges there. Ask for another tilt, or leave "
                "the tooth out."
            )
            at = ground.back(near[None])[0]
            out.append(_finding("splint.contact", "look", text, limit("splint.gap"), name, at, off))
    return tuple(out)


def sizes(wanted: SplintBar, *, across: bool) -> tuple[float, float]:
    """Height and thickness of a bar, those of its form where the sheet gives none [mm]."""
    head = "splint" if across else "splint.continuous"
    mark = "." if across else "_"
    height = limit(f"{head}{mark}height").value if wanted.height_mm is None else wanted.height_mm
    thick = wanted.thickness_mm
    return height, limit(f"{head}{mark}thickness").value if thick is None else thick


def _refused(ground: Ground, name: str, wanted: SplintBar, error: InfeasibleError) -> Finding:
    """A stop for a bar that has no place; it is left off."""
    teeth = ", ".join(map(str, wanted.teeth))
    text = f"The splinting bar on {teeth} is left off: {error.what}. {error.remedy}."
    known = [ground.tooth(code).centre for code in wanted.teeth if code in ground.arch.teeth]
    at = np.mean(known, axis=0) if known else None
    rule = error.place if error.place.startswith("splint.") else "splint.place"
    return _finding(rule, "stop", text, limit("splint.height"), name, at, None)


def _finding(
    rule: str,
    severity: Severity,
    text: str,
    source: Limit,
    name: str,
    at: Floats | None,
    measured: float | None,
) -> Finding:
    x, y, z = (float(v) for v in at) if at is not None else (0.0, 0.0, 0.0)
    return Finding(
        rule,
        severity,
        text,
        source.cited,
        measured=None if measured is None else round(float(measured), 2),
        unit="" if measured is None else "mm",
        at_mm=(x, y, z) if at is not None else None,
        component=name,
    )
