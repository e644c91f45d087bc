"""Clasps that would also do, beside those that are proposed, in the order of their worth.

They are notes: what the sheet does not ask for is not made.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from claspwright.arch import DentalArch, kind_of, side_of
from claspwright.base import Finding
from claspwright.framework.areas import Area
from claspwright.framework.clasp_kinds import objections
from claspwright.framework.courses import Bench, undercuts
from claspwright.framework.design import End, RestForm, Retainer, Side
from claspwright.framework.reach import available_undercut
from claspwright.framework.ring_clasp import ring_plan
from claspwright.framework.roles import neighbour_at, open_end, opposite, rigid_origin
from claspwright.framework.rulebook import default_clasp, proposal_rules
from claspwright.survey import Survey


def alternatives(
    arch: DentalArch,
    survey: Survey,
    retainers: Sequence[Retainer],
    areas: Sequence[Area],
    bench: Bench | None,
) -> list[Finding]:
    """Notes on ring clasps of lone molars and embrasure clasps of sides without a span."""
    found = []
    bounded = {end for area in areas for end in area.ends if end is not None}
    gapped = {side_of(tooth) for area in areas for tooth in area.teeth}
    for retainer in retainers:
        if retainer.tooth not in arch.teeth:
            continue
        if retainer.tooth in bounded:
            found += _ring(arch, retainers, retainer, bench)
        elif side_of(retainer.tooth) not in gapped:
            found += _embrasure(arch, survey, retainer)
    return found


def _ring(
    arch: DentalArch, retainers: Sequence[Retainer], retainer: Retainer, bench: Bench | None
) -> list[Finding]:
    """A ring on a lone molar whose clasp finds less than the full undercut, or none."""
    clasp, tooth = retainer.clasp, retainer.tooth
    full = undercuts()[0]
    satisfied = clasp is not None and (clasp.form == "ring" or clasp.undercut_mm >= full - 1e-6)
    if bench is None or satisfied or kind_of(tooth) != "molar":
        return []
    side: Side = "lingual" if arch.scan.jaw == "mandible" else "buccal"
    far = opposite(rigid_origin(retainer))
    rest: RestForm = "mesial occlusal" if far == "mesial" else "distal occlusal"
    asked = replace(
        retainer,
        rests=tuple(dict.fromkeys((*retainer.rests, rest))),
        clasp=default_clasp(tooth, "ring", side, full),
    )
    if any(f.severity == "stop" for f in objections(arch, retainers, asked)):
        return []
    offers = ring_plan(bench.ground, asked).spring.reached_mm
    held = clasp.undercut_mm if clasp is not None else 0.0
    if offers < held + proposal_rules().numbers["undercut_step_mm"] - 1e-6:
        return []
    where = f"{'mesio' if far == 'distal' else 'disto'}-{side}"
    text = (
        f"a ring clasp would find {offers:.2f} mm at the {where} corner of this lone molar, where "
        f"{'no clasp is proposed' if clasp is None else f'the {clasp.form} takes {held:.2f} mm'}"
        f"; it needs a {rest} rest and a strut, and covers more of the tooth"
    )
    return [_note(arch, tooth, text, "ring", side, None)]


def _embrasure(arch: DentalArch, survey: Survey, retainer: Retainer) -> list[Finding]:
    """A double clasp on the two hindmost teeth of a side without a span."""
    clasp, tooth = retainer.clasp, retainer.tooth
    if clasp is None or clasp.form != "circumferential" or kind_of(tooth) != "molar":
        return []
    end: End = "mesial" if open_end(arch, tooth) == "distal" else "distal"
    code = neighbour_at(tooth, end)
    if code is None or code not in arch.teeth or kind_of(code) not in ("molar", "premolar"):
        return []
    facing = opposite(end)
    offers = [
        available_undercut(arch, survey, arch.teeth[one], "buccal", "embrasure", origin=at)
        for one, at in ((tooth, end), (code, facing))
    ]
    least = min(reach.undercut_mm for reach in offers)
    if least < undercuts()[1]:
        return []
    text = (
        f"an embrasure clasp on {code} and {tooth} would hold both, with {least:.2f} mm or more on "
        "each and no arm from behind; it needs a prepared embrasure with a rest seat on either "
        f'tooth (the same on {code}, origin = "{facing}")'
    )
    return [_note(arch, tooth, text, "embrasure", "buccal", end)]


def _note(
    arch: DentalArch, tooth: int, text: str, form: str, side: Side, origin: End | None
) -> Finding:
    x, y, z = (float(v) for v in arch.teeth[tooth].centre)
    begins = f', origin = "{origin}"' if origin else ""
    return Finding(
        "proposal.alternative",
        "note",
        f'Second choice for {tooth}: {text}. To ask for it: clasp = {{ form = "{form}", '
        f'side = "{side}"{begins} }}.',
        "ring for a lone tipped molar, embrasure clasp on a side without a gap (McCracken's "
        "Removable Partial Prosthodontics) [memory]",
        at_mm=(x, y, z),
        component=f"retainer.{tooth}",
    )
