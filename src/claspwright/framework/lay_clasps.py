"""The arms of each form of clasp, laid on their tooth."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from claspwright.base import Floats, InfeasibleError
from claspwright.framework.arm_ways import ArmWay, arm_way, other_side
from claspwright.framework.arms import circumferential_arm, reciprocal_arm
from claspwright.framework.bar_clasp import bar_clasp
from claspwright.framework.clasp_kinds import objections
from claspwright.framework.connectors import Connector
from claspwright.framework.design import Design, End, Retainer, Side
from claspwright.framework.embrasure import partner_of, saddle_of, shared_body
from claspwright.framework.ground import Ground, Piece
from claspwright.framework.lattice import BasePlan, rail
from claspwright.framework.ring_clasp import ring_clasp
from claspwright.framework.roles import arm_origin, opposite, rigid_origin
from claspwright.framework.wire_clasp import wire_clasp
from claspwright.geometry import arc_lengths, point_at

RUN_UP = 6.0  # mm along the rail from its end beside the tooth to the root of an approach arm


def lay_clasp(
    ground: Ground, design: Design, connector: Connector, bases: list[BasePlan], retainer: Retainer
) -> list[Piece]:
    """The clasp of one retainer: its retentive arm, and what reciprocates it.

    Raises:
        InfeasibleError: this form of clasp cannot be laid on this tooth.
    """
    clasp = retainer.clasp
    if clasp is None:
        return []
    for finding in objections(ground.arch, design.retainers, retainer):
        if finding.severity == "stop":
            raise InfeasibleError(
                finding.text,
                place=f"clasp.{retainer.tooth}",
                remedy="Ask for another form of clasp",
            )
    if clasp.form in ("ring", "back-action"):
        beside = _rail_beside(ground, bases, retainer, needed=False)
        return ring_clasp(ground, connector, retainer, None if beside is None else beside[1])
    if clasp.form == "wrought wire":
        pieces = wire_clasp(ground, retainer)
    elif clasp.is_bar:
        beside = _rail_beside(ground, bases, retainer)
        assert beside is not None
        pieces = bar_clasp(ground, retainer, clasp, *beside)
    else:
        way = _way(ground, retainer, arm_origin(retainer), clasp.side)
        pieces = [
            circumferential_arm(ground, retainer.tooth, clasp, way.origin, way.root, way.start)
        ]
    if clasp.reciprocal:
        across = other_side(clasp.side)
        way = _way(ground, retainer, reciprocal_origin(retainer), across)
        rigid = reciprocal_arm(ground, retainer.tooth, clasp, way.origin, way.root, way.start)
        if isinstance(rigid, Piece):
            pieces.append(rigid)
        else:
            pieces[0] = replace(pieces[0], findings=(*pieces[0].findings, rigid))
    partner = partner_of(retainer, design.retainers)
    if partner is not None and arm_origin(retainer) == "mesial":
        pieces.append(shared_body(ground, retainer, partner))
    return pieces


def embrasure_route(
    ground: Ground, connector: Connector, retainer: Retainer, towards: Floats
) -> Floats | None:
    """From the body of an embrasure clasp down its lingual opening to the major connector."""
    lead = saddle_of(ground, retainer).half("lingual")
    for aim in (towards, connector.direction_from(lead[-1])):
        profile = ground.laid.profile(lead[-1], aim, 30.0)
        if len(profile) >= 4 and connector.reached_by(profile):
            return np.vstack([lead[:-1], connector.cut(profile)])
    return None


def reciprocal_origin(retainer: Retainer) -> End:
    """The end at which the reciprocal arm begins: across from a half-and-half clasp's own."""
    clasp = retainer.clasp
    if clasp is not None and clasp.form == "half-and-half":
        return opposite(arm_origin(retainer))
    if clasp is not None and clasp.form == "embrasure":
        return arm_origin(retainer)
    return rigid_origin(retainer)


def _way(ground: Ground, retainer: Retainer, origin: End, side: Side) -> ArmWay:
    """How an arm leaves the retainer; those of an embrasure clasp leave the shared body."""
    way = arm_way(ground, retainer, origin, side)
    if retainer.clasp is None or retainer.clasp.form != "embrasure":
        return way
    return replace(way, root=saddle_of(ground, retainer).half(side))


def _rail_beside(
    ground: Ground, bases: list[BasePlan], retainer: Retainer, *, needed: bool = True
) -> tuple[End, Floats] | None:
    """The outer rail's point nearest to the tooth, among the bases beside it."""
    beside = [plan for plan in bases if retainer.tooth in plan.span.ends]
    if not beside:
        if not needed:
            return None
        assert retainer.clasp is not None
        raise InfeasibleError(
            f"a clasp of the form {retainer.clasp.form} is planned on tooth {retainer.tooth}, "
            "which has no base beside it",
            place=f"clasp.{retainer.tooth}",
            remedy="Plan a circumferential clasp there",
        )
    plan = beside[0]
    line = rail(ground, plan, "buccal")
    centre = ground.here(ground.tooth(retainer.tooth).centre)
    if np.linalg.norm(line[-1] - centre) < np.linalg.norm(line[0] - centre):
        line = line[::-1]
    # far enough back for the arm to sweep down and forward in one curve
    near = point_at(line, min(RUN_UP, 0.6 * float(arc_lengths(line)[-1])))
    mesial = ground.aim(ground.tooth(retainer.tooth).mesial)
    gap: End = "mesial" if (near - centre) @ mesial > 0 else "distal"
    return gap, near
