"""Lay every component of a design, in the order in which they lean on each other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from shapely import contains_xy

from claspwright.arch import DentalArch
from claspwright.base import Finding, Floats, InfeasibleError
from claspwright.framework.chart import crown_chart
from claspwright.framework.connectors import (
    Connector,
    lay_connector,
    palatal_border,
)
from claspwright.framework.design import Design, End, RestForm, Retainer
from claspwright.framework.finish import finish_line, finish_on_beam
from claspwright.framework.ground import Ground, Piece
from claspwright.framework.lattice import BasePlan, cross_bar, lay_lattice, plan_base
from claspwright.framework.lay_clasps import embrasure_route, lay_clasp
from claspwright.framework.metal_base import lay_metal_base, nail_heads
from claspwright.framework.minor import beam, cingulum_shelf
from claspwright.framework.plates import proximal_plate
from claspwright.framework.rest_kinds import lay_rests, seats_for
from claspwright.framework.roof import roof_over
from claspwright.framework.routes import (
    beamed_rests,
    connector_side,
    crossing_finding,
    inward,
    is_labial,
    rest_profile,
    rest_start,
)
from claspwright.framework.splint_bar import lay_splints
from claspwright.framework.terrain import Terrain
from claspwright.geometry import arc_lengths, point_at
from claspwright.survey import Survey

BEAM_THICKNESS = 1.5  # mm, of the beam that ties a base to the major connector
CLOSER = 0.9  # mm by which a base's beam is drawn to the plate beside it
PAD_LEAD = 3.2  # mm over which a minor connector thins out into a cingulum or incisal rest
ASLANT = 0.75  # of a straight beam's length, below which one runs aslant
CLOSE_OVER = 6.0  # mm along the beam over which that fades
BEFORE_FINISH = ("lattice", "minor connector")  # what of a base acrylic lies on beside it
FINISH_PAST = 1.2  # mm past the edge of the relief at which the finish line of a strap stands


@dataclass(slots=True)
class Laid:
    """Pieces laid so far, and what could not be laid."""

    pieces: list[Piece] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    starts: list[int] = field(default_factory=list)  # of each retainer's pieces
    clasps: list[int] = field(default_factory=list)  # where its clasp begins among them


def survey_ground(
    arch: DentalArch, survey: Survey, design: Design, scan: Terrain, blocked: Terrain
) -> Ground:
    """Chart the teeth that carry something and find the seats that the design asks for."""
    for retainer in design.retainers:
        if retainer.tooth not in arch.teeth:
            raise InfeasibleError(
                f"a retainer is planned on tooth {retainer.tooth}, which is not on the scan",
                place=f"retainer.{retainer.tooth}",
                remedy="Mark the tooth, or plan the retainer on another one",
            )
    roof = roof_over(arch, scan.grid)
    charts = {
        r.tooth: crown_chart(arch, arch.teeth[r.tooth], scan, blocked, roof)
        for r in design.retainers
    }
    seats = seats_for(arch, design.retainers)
    return Ground(arch, survey, scan, blocked, blocked, charts, seats)


def plan_bases(ground: Ground, design: Design) -> list[BasePlan]:
    """Find the span of each base and plan its lattice."""
    plans = []
    for base in design.bases:
        spans = [s for s in ground.arch.spans if set(base.teeth) & set(s.missing)]
        if not spans:
            raise InfeasibleError(
                f"the base for {', '.join(map(str, base.teeth))} lies over no edentulous span",
                place="denture_base",
                remedy="List only missing teeth under [[denture_base]]",
            )
        plans.append(plan_base(ground, base, spans[0]))
    return plans


def lay_all(ground: Ground, design: Design, connector: Connector, bases: list[BasePlan]) -> Laid:
    """Lay all components on the relieved ground."""
    laid = Laid()
    laid.pieces.extend(lay_connector(ground, connector, design))
    for plan in bases:
        lay_base(ground, design, connector, plan, laid)
    lay_beam_finishes(ground, design, connector, bases, None, laid)
    for retainer in design.retainers:
        laid.starts.append(len(laid.pieces))
        lay_retainer(ground, design, connector, bases, retainer, laid)
    if design.splints:
        splinted = lay_splints(ground, design, connector, laid.pieces)
        laid.pieces.extend(splinted.pieces)
        laid.findings.extend(splinted.findings)
    for piece in laid.pieces:
        laid.findings.extend(piece.findings)
    return laid


def lay_base(
    ground: Ground, design: Design, connector: Connector, plan: BasePlan, laid: Laid
) -> None:
    """Lattice, the beams that tie it to the major connector, and the finish line of a strap."""
    if plan.base.metal:
        laid.pieces.extend(lay_metal_base(ground, plan))
    else:
        laid.pieces.extend(lay_lattice(ground, plan))
    if plan.base.nail_heads and not plan.base.metal:
        bars = [cross_bar(ground, plan, float(s)) for s in plan.bars]
        laid.pieces.extend(nail_heads(ground, plan, [line for line in bars if len(line)]))
    for n, route in _beam_routes(ground, design, connector, plan):
        laid.pieces.append(
            beam(
                ground,
                f"{plan.id}.beam.{n + 1}",
                route,
                plan.span.ends[n],
                width_mm=2.6,
                thickness_mm=BEAM_THICKNESS,
            )
        )
    if connector.outline is not None:
        border = palatal_border(ground, plan, FINISH_PAST)
        within = connector.outline.buffer(-1.5)
        border = border[contains_xy(within, border[:, 0], border[:, 1])] if len(border) else border
        towards = ground.aim(-plan.buccal[len(plan.buccal) // 2])
        if len(border) > 6:
            laid.pieces.append(
                finish_line(
                    ground, f"{plan.id}.finish", border, towards, design.connector.thickness_mm
                )
            )


def lay_beam_finishes(
    ground: Ground,
    design: Design,
    connector: Connector,
    bases: Sequence[BasePlan],
    tooth: int | None,
    laid: Laid,
) -> None:
    """Finish lines on the beams beside a tooth, or beside all that carry nothing for None.

    They are laid after the foot of the tooth's plate, so that no fillet of it fills their walls.
    """
    if connector.bar is None:
        return
    carriers = {retainer.tooth for retainer in design.retainers}
    beside = laid.pieces
    if laid.starts:  # connector and bases, and what the tooth itself carries
        beside = [*beside[: laid.starts[0]], *beside[laid.starts[-1] :]]
    for plan in bases:
        if tooth is not None and tooth not in plan.span.ends:
            continue
        own = [
            p for p in laid.pieces
            if p.component.id.startswith(f"{plan.id}.") and p.component.kind in BEFORE_FINISH
        ]  # fmt: skip
        for n, route in _beam_routes(ground, design, connector, plan):
            end = plan.span.ends[n]
            if end != tooth if tooth is not None else end in carriers:
                continue
            towards = (plan.crest[0] - plan.crest[-1]) * (1.0 if n == 0 else -1.0)
            name = f"{plan.id}.finish.{n + 1}"
            laid.pieces.append(
                finish_on_beam(ground, name, route, towards, BEAM_THICKNESS, own, beside)
            )


def _beam_routes(
    ground: Ground, design: Design, connector: Connector, plan: BasePlan
) -> list[tuple[int, Floats]]:
    """Routes of the beams of a base, with the end of its crest that each begins at."""
    found = []
    for n, at in enumerate((0.0, float(arc_lengths(plan.crest)[-1]))):
        if plan.span.ends[n] is None:
            continue
        route = _beam_route(ground, design, connector, plan, at)
        if route is None:
            continue
        if connector.bar is not None:
            route = _towards_abutment(plan, n, route)
        found.append((n, route))
    return found


def _beam_route(
    ground: Ground, design: Design, connector: Connector, plan: BasePlan, at: float
) -> Floats | None:
    """From a base's end to the major connector: straight inwards, or aslant where much shorter.

    Straight inwards a beam may run along the border of a strap, with a slit between them.
    """
    profiles = [inward(ground, plan, at, labial=is_labial(design))]
    if connector.outline is not None:
        foot = point_at(plan.crest, at)
        profiles.append(ground.laid.profile(foot, connector.direction_from(foot), 22.0))
    routes = [connector.cut(p) for p in profiles if len(p) >= 4 and connector.reached_by(p)]
    if len(routes) > 1 and len(routes[1]) < ASLANT * len(routes[0]):
        return routes[1]
    return routes[0] if routes else None


def _towards_abutment(plan: BasePlan, n: int, route: Floats) -> Floats:
    """A route from a base's end, drawn to the plate at its top so that no slit stays there."""
    crest = plan.crest if n == 0 else plan.crest[::-1]
    ahead = crest[0] - crest[min(4, len(crest) - 1)]
    ahead = ahead * np.array([1.0, 1.0, 0.0]) / max(float(np.hypot(*ahead[:2])), 1e-9)
    share = np.clip(1.0 - arc_lengths(route) / CLOSE_OVER, 0.0, 1.0)
    return np.asarray(route + CLOSER * share[:, None] * ahead)


def lay_retainer(
    ground: Ground,
    design: Design,
    connector: Connector,
    bases: list[BasePlan],
    retainer: Retainer,
    laid: Laid,
) -> None:
    """Rests with their minor connectors, plates and the clasp of one tooth, onto `laid`."""
    lay_carriers(ground, design, connector, bases, retainer, laid)
    laid.clasps.append(len(laid.pieces))
    laid.pieces.extend(lay_clasp(ground, design, connector, bases, retainer))


def lay_carriers(
    ground: Ground,
    design: Design,
    connector: Connector,
    bases: list[BasePlan],
    retainer: Retainer,
    laid: Laid,
) -> None:
    """What a tooth carries besides the clasp; of that, only form and origin change it."""
    tooth, chart = retainer.tooth, ground.charts[retainer.tooth]
    for rest in retainer.rests:
        there = {piece.component.id for piece in laid.pieces}
        rests = lay_rests(ground, retainer, rest)
        if rests[0].component.id in there:  # an embrasure rest that the tooth beside has asked for
            continue
        laid.pieces.extend(rests)
        if rest in beamed_rests(retainer):
            route = _rest_route(ground, design, connector, retainer, rest)
            if route is not None:
                lead = PAD_LEAD if rest.endswith(("cingulum", "incisal")) else 0.0
                name = f"minor.{tooth}.{rest.split()[0]}"
                minor = beam(ground, name, route, tooth, lead_mm=lead)
                if rest.endswith("occlusal"):
                    start = rest_start(ground, retainer, rest)
                    over = crossing_finding(ground, name, tooth, route, start)
                    minor = replace(minor, findings=over)
                laid.pieces.append(minor)
    for end in retainer.proximal_plates:
        plate = proximal_plate(ground, tooth, end, chart)
        laid.pieces.append(plate)
        laid.pieces.extend(_tie(ground, bases, retainer.tooth, end, plate))
        if "cingulum" in retainer.rests and end == retainer.proximal_plates[0]:
            seat = ground.here(ground.seats[tooth, "cingulum"].point)
            laid.pieces.append(cingulum_shelf(ground, tooth, seat, plate))
    lay_beam_finishes(ground, design, connector, bases, tooth, laid)


def _tie(ground: Ground, bases: list[BasePlan], tooth: int, end: End, plate: Piece) -> list[Piece]:
    """A foot from a plate over the ridge to the lattice beside it."""
    face = ground.here(plate.component.line[1])
    facing = ground.aim(ground.tooth(tooth).mesial) * (1.0 if end == "mesial" else -1.0)
    for plan in bases:
        if tooth not in plan.span.ends:
            continue
        target = plan.crest[0] if plan.span.ends[0] == tooth else plan.crest[-1]
        away = (target - face)[:2]
        if away @ facing[:2] <= 0:
            continue
        profile = ground.laid.profile(face - 0.4 * facing, away, float(np.hypot(*away)) + 0.6)
        low = 0.5 * (face[2] + ground.here(plate.component.line[2])[2])
        profile = profile[profile[:, 2] < low]
        if len(profile) < 6:
            continue
        width = float(plate.component.width_mm[0]) * 0.8
        name = f"{plan.id}.tie.{tooth}"
        return [
            beam(ground, name, profile, tooth, width_mm=width, thickness_mm=1.1, kind="lattice")
        ]
    return []


def _rest_route(
    ground: Ground, design: Design, connector: Connector, retainer: Retainer, rest: RestForm
) -> Floats | None:
    """From a rest through the embrasure beside it to the major connector."""
    seat = ground.here(ground.seats[retainer.tooth, rest].point)
    straight = connector_side(ground, design, retainer.tooth)
    if retainer.clasp is not None and retainer.clasp.form == "embrasure":
        return embrasure_route(ground, connector, retainer, straight)
    profile = rest_profile(ground, retainer, rest, straight)
    if len(profile) < 4 or not connector.reached_by(profile):
        aim = connector.direction_from(rest_start(ground, retainer, rest))
        profile = rest_profile(ground, retainer, rest, aim)
    if len(profile) < 4 or not connector.reached_by(profile):
        return None
    route = connector.cut(profile)
    if rest == "onlay":
        return route
    lead = np.linspace(ground.laid.settle(seat[None])[0], route[0], 8)[:-1]
    return np.vstack([lead, route]) if np.linalg.norm(seat - route[0]) > 0.4 else route
