"""What each form of clasp asks of its tooth, and what speaks against it there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from claspwright.arch import DentalArch, kind_of
from claspwright.base import Finding, Severity
from claspwright.framework.design import Clasp, End, Retainer
from claspwright.framework.embrasure import partner_of
from claspwright.framework.reach import approach_room
from claspwright.framework.roles import arm_origin, end_facing, neighbour_at, opposite
from claspwright.survey import Survey

MCCRACKEN = "McCracken's Removable Partial Prosthodontics, chapter on direct retainers [memory]"
WORDS = {
    "ring": "a ring clasp",
    "back-action": "a back-action clasp",
    "half-and-half": "a half-and-half clasp",
    "embrasure": "an embrasure clasp",
    "I-bar": "an I-bar",
    "T-bar": "a T-bar",
    "modified T-bar": "a modified T-bar",
    "Y-bar": "a Y-bar",
    "wrought wire": "a wrought-wire arm",
}


def objections(
    arch: DentalArch, retainers: Sequence[Retainer], retainer: Retainer
) -> tuple[Finding, ...]:
    """What speaks against a form of clasp on this tooth: a stop where it cannot be laid there.

    Args:
        arch: the arch with its teeth.
        retainers: all retainers of the design.
        retainer: the one whose clasp is looked at.
    """
    clasp = retainer.clasp
    if clasp is None or retainer.tooth not in arch.teeth or clasp.form not in WORDS:
        return ()
    if clasp.is_bar:
        found = _bar(arch, retainer)
    elif clasp.form == "wrought wire":
        found = _wire(retainer)
    elif clasp.form == "embrasure":
        found = _embrasure(arch, retainers, retainer)
    elif clasp.form == "half-and-half":
        found = _half_and_half(retainer)
    else:
        found = _ring(arch, retainer, clasp)
    return tuple(_finding(arch, retainer, clasp, *one) for one in found)


def admitted(
    arch: DentalArch, survey: Survey, retainers: Sequence[Retainer]
) -> tuple[list[Retainer], list[Finding]]:
    """Retainers whose clasps can be laid, the others without, and what speaks against each.

    A clasp that cannot be laid as it is asked for is left off under a stop; nothing stands in.
    """
    kept, findings = [], []
    for retainer in retainers:
        found = [*objections(arch, retainers, retainer)]
        stopped = any(finding.severity == "stop" for finding in found)
        if retainer.clasp is not None and retainer.clasp.is_bar and not stopped:
            found += _approach(arch, survey, retainer, retainer.clasp)
        findings += found
        kept.append(replace(retainer, clasp=None) if stopped else retainer)
    return kept, findings


def _approach(arch: DentalArch, survey: Survey, retainer: Retainer, clasp: Clasp) -> list[Finding]:
    why = approach_room(arch, survey, arch.teeth[retainer.tooth]).objection
    text = f"finds no good way for its approach arm, since {why}"
    return [_finding(arch, retainer, clasp, "look", text)] if why else []


def _bar(arch: DentalArch, retainer: Retainer) -> Iterator[tuple[Severity, str]]:
    if not any(retainer.tooth in span.ends for span in arch.spans):
        yield "stop", "has no base beside it from which its approach arm could come"
    elif retainer.clasp is not None and retainer.clasp.side == "lingual":
        yield "stop", "comes from the cheek side of the base and cannot reach the tongue side"


def _wire(retainer: Retainer) -> Iterator[tuple[Severity, str]]:
    origin = arm_origin(retainer)
    if origin not in retainer.proximal_plates:
        yield "stop", f"needs a plate on the {origin} side: its socket stands there"


def carried_at(retainer: Retainer, end: End) -> bool:
    """Whether a rest or a plate stands at this end of the tooth."""
    return end in retainer.proximal_plates or any(r.startswith(end) for r in retainer.rests)


def _embrasure(
    arch: DentalArch, retainers: Sequence[Retainer], retainer: Retainer
) -> Iterator[tuple[Severity, str]]:
    end = arm_origin(retainer)
    code = neighbour_at(retainer.tooth, end)
    if kind_of(retainer.tooth) in ("incisor", "canine"):
        yield "stop", "stands on a front tooth, which has no marginal ridge for its rest"
    elif code is None or code not in arch.teeth:
        yield "stop", f"has no tooth on the {end} side to share its body with"
    elif partner_of(retainer, retainers) is None:
        begins = end_facing(code, retainer.tooth)
        yield (
            "stop",
            f"shares its body with {code}, which has no embrasure clasp that begins there: give "
            f'{code} one with origin = "{begins}" and a rest on that side',
        )
    elif not any(rest.startswith(end) for rest in retainer.rests):
        yield "stop", f"needs a {end} rest: without it the clasp would wedge the teeth apart"


def _half_and_half(retainer: Retainer) -> Iterator[tuple[Severity, str]]:
    if not retainer.clasp or not retainer.clasp.reciprocal:
        yield "stop", "is asked for without a reciprocal arm, of which it is made"
    for end in ("mesial", "distal"):
        if not carried_at(retainer, end):
            yield (
                "stop",
                f"has neither rest nor plate on the {end} side, where one of its arms begins",
            )


def _ring(arch: DentalArch, retainer: Retainer, clasp: Clasp) -> Iterator[tuple[Severity, str]]:
    origin = arm_origin(retainer)
    far = opposite(origin)
    beyond = neighbour_at(retainer.tooth, far)
    if kind_of(retainer.tooth) in ("incisor", "canine"):
        yield "stop", "stands on a front tooth, round whose edge it cannot run"
    if beyond is not None and beyond in arch.teeth:
        yield "stop", f"cannot pass {beyond}, which stands on the {far} side"
    if far in retainer.proximal_plates:
        yield "stop", f"cannot spring past the plate on the {far} side"
    if clasp.form == "ring" and not carried_at(retainer, origin):
        yield "stop", f"has neither rest nor plate on the {origin} side, where it begins"
    if not any(rest.startswith(far) for rest in retainer.rests):
        severity: Severity = "look" if clasp.form == "ring" else "stop"
        yield severity, f"has no rest on the {far} side: the long arm would sink and tip the tooth"
    if clasp.form == "back-action" and clasp.side == "lingual":
        yield "stop", "begins at a minor connector on the tongue side; its tip lies buccal"
    if clasp.form == "ring" and kind_of(retainer.tooth) != "molar":
        yield "look", "stands on a premolar; it is meant for a lone tipped molar"


def _finding(
    arch: DentalArch, retainer: Retainer, clasp: Clasp, severity: Severity, why: str
) -> Finding:
    x, y, z = (float(v) for v in arch.teeth[retainer.tooth].centre)
    return Finding(
        "clasp.form",
        severity,
        f"On tooth {retainer.tooth}, {WORDS[clasp.form]} {why}.",
        MCCRACKEN,
        at_mm=(x, y, z),
        component=f"clasp.{retainer.tooth}.{clasp.side}",
    )
