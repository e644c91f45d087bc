"""How deep a wrought-wire arm goes where the sheet leaves its undercut open."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from claspwright.base import Finding, Severity
from claspwright.framework.courses import Bench, undercuts
from claspwright.framework.design import Clasp, Retainer
from claspwright.framework.rulebook import proposal_rules
from claspwright.framework.wire_clasp import wire_way
from claspwright.geometry import arc_lengths
from claspwright.limits import limit
from claspwright.materials import wires

SAME = 0.006  # mm
SOURCE = "round cantilever of uniform section: strain 3 r d / l^2 (beam theory) [derived]; "


def borne_undercut(length_mm: float, diameter_mm: float) -> float:
    """The deepest undercut over which a straight round wire springs without being bent for good.

    Args:
        length_mm: from the mouth of its socket to its tip.
        diameter_mm: of the wire.

    Source:
        End-loaded cantilever of uniform round section: the greatest strain is 3 r d / l^2.
    """
    wire = next(iter(wires().values()))
    return wire.proof.low / wire.modulus.nominal * length_mm**2 / (1.5 * diameter_mm)


def settled_wires(
    retainers: Sequence[Retainer], left_open: Sequence[int], bench: Bench | None
) -> tuple[list[Retainer], list[Finding]]:
    """Wires in the deepest undercut that their tooth gives and that they bear.

    Args:
        retainers: of the design.
        left_open: teeth whose wire the sheet gives no undercut; the others stay as they are.
        bench: charts of the crowns; without it nothing changes.
    """
    found: list[Finding] = []
    kept = []
    for retainer in retainers:
        clasp = retainer.clasp
        wire = clasp is not None and clasp.form == "wrought wire"
        if clasp is None or not wire or retainer.tooth not in left_open or bench is None:
            kept.append(retainer)
            continue
        deepest, why = _deepest(retainer, clasp, bench)
        kept.append(replace(retainer, clasp=replace(clasp, undercut_mm=deepest)))
        if deepest < clasp.undercut_mm - SAME:
            found.append(_finding(retainer, clasp, deepest, why))
    return kept, found


def _deepest(retainer: Retainer, clasp: Clasp, bench: Bench) -> tuple[float, str]:
    """The first undercut, in steps from the usual one down, that is reached and borne."""
    step = proposal_rules().numbers["undercut_step_mm"]
    least, why = min(undercuts()), ""
    for depth in np.arange(clasp.undercut_mm, least - SAME, -step):
        way = wire_way(bench.ground, retainer, replace(clasp, undercut_mm=float(depth)))
        length = float(arc_lengths(way.axis[way.share >= 0])[-1])
        short = way.plan.reached_mm < depth - SAME
        if not short and borne_undercut(length, clasp.width_mm) >= depth:
            return round(float(depth), 2), why
        why = why or (
            f"the tooth offers {max(way.plan.reached_mm, 0.0):.2f} mm within its reach"
            if short
            else f"at {length:.1f} mm of free length a deeper one would bend it for good"
        )
    return least, why


def _finding(retainer: Retainer, clasp: Clasp, depth: float, why: str) -> Finding:
    rule = limit("clasp.wire_undercut")
    severity: Severity = "look" if depth < (rule.look_below or 0.0) - SAME else "note"
    return Finding(
        "proposal.wire_undercut",
        severity,
        f"The wire on {retainer.tooth} is set to {depth:.2f} mm of undercut in place of "
        f"{clasp.undercut_mm:.2f} mm: {why}.",
        SOURCE + rule.cited,
        measured=depth,
        limit=clasp.undercut_mm,
        unit="mm",
        component=f"clasp.{retainer.tooth}.{clasp.side}",
    )
