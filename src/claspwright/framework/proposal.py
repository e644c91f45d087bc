"""The rule-based proposal of a design, in two steps round the survey.

Before the survey: which teeth carry the denture and what each gets. After it: on which side
and in what form each clasp finds its undercut. What the sheet decides is taken as it stands.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from claspwright.arch import (
    ARCH_ORDER,
    DentalArch,
    KennedyClass,
    SeatPlace,
    find_rest_seat,
    is_third_molar,
    kind_of,
    position_of,
    side_of,
)
from claspwright.base import Finding, InfeasibleError, Point
from claspwright.framework.alternatives import alternatives
from claspwright.framework.areas import Area, areas_to_replace, classified
from claspwright.framework.casting import (
    NO_SOURCE,
    give_braces,
    give_cross_arch,
    give_ends,
    give_indirect,
    give_last_resort,
    one_sided,
)
from claspwright.framework.clasp_choice import ClaspChoice, chosen_clasp
from claspwright.framework.clasp_kinds import admitted
from claspwright.framework.connector_choice import proposed_connector
from claspwright.framework.courses import bench_for
from claspwright.framework.design import (
    DentureBase,
    Design,
    Reason,
    RestForm,
    Retainer,
    Side,
)
from claspwright.framework.rescue import rescued_sides
from claspwright.framework.roles import Cast, Part, Prepared, clasp_forms, open_end
from claspwright.framework.rulebook import proposal_rules
from claspwright.framework.spare import spare_findings
from claspwright.framework.special_forms import with_special_forms
from claspwright.framework.tooth_shaping import shaping_findings
from claspwright.framework.wire_depth import settled_wires
from claspwright.framework.wishes import Wishes
from claspwright.limits import limit
from claspwright.survey import Survey

Zone = tuple[int, Side, float]

_SEATS_IN_FRONT: tuple[tuple[RestForm, SeatPlace], ...] = (("cingulum", "cingulum"),)
_SEATS_BEHIND: tuple[tuple[RestForm, SeatPlace], ...] = (
    ("mesial occlusal", "mesial"),
    ("distal occlusal", "distal"),
)


@dataclass(frozen=True, slots=True)
class Plan:
    """The design before the survey: who carries what, and why."""

    kennedy: KennedyClass
    areas: tuple[Area, ...]
    retainers: tuple[Retainer, ...]
    parts: Mapping[int, tuple[Part, ...]]  # of the teeth that the sheet does not name
    reasons: tuple[Reason, ...]
    findings: tuple[Finding, ...]


@lru_cache(maxsize=1)  # the plan and the design of one arch both ask
def prepared_seats(arch: DentalArch) -> Prepared:
    """The rest seats that the dentist prepared, as the scan shows them."""
    found: dict[int, tuple[RestForm, ...]] = {}
    for code in sorted(arch.teeth):
        front = kind_of(code) in ("incisor", "canine")
        for form, place in _SEATS_IN_FRONT if front else _SEATS_BEHIND:
            if find_rest_seat(arch, code, place).prepared:
                found[code] = (*found.get(code, ()), form)
    return found


def propose_retainers(arch: DentalArch, wishes: Wishes) -> tuple[Retainer, ...]:
    """The retainers of a design before the survey; `plan_design` gives the reasons as well."""
    return plan_design(arch, wishes).retainers


def retention_zones(retainers: Iterable[Retainer]) -> tuple[Zone, ...]:
    """(tooth, side, undercut in mm) of each clasp, for the search of the path."""
    return tuple((r.tooth, r.clasp.side, r.clasp.undercut_mm) for r in retainers if r.clasp)


def plan_design(arch: DentalArch, wishes: Wishes, prepared: Prepared | None = None) -> Plan:
    """Choose the abutments and what each gets, before the survey.

    Args:
        arch: the arch with its teeth and spans.
        wishes: what the sheet decides.
        prepared: rest seats by tooth; left out, those that the scan shows. Rests go where
            seats are prepared, as far as the design allows.

    Raises:
        InputError: nothing is to be replaced, or no tooth stands.
        InfeasibleError: the sheet asks for retainers or bases where they cannot be.
    """
    areas = areas_to_replace(arch, wishes)
    kennedy = classified(arch, wishes, areas)
    if not areas:
        raise InfeasibleError(
            "no missing tooth is to be replaced: no base is left to carry",
            remedy="Take the teeth to be replaced off not_replaced, or name a denture base.",
        )
    cast = Cast(arch, wishes, prepared_seats(arch) if prepared is None else prepared)
    give_ends(cast, areas)
    give_braces(cast, areas)
    give_cross_arch(cast, kennedy)
    findings = give_last_resort(cast)
    findings += give_indirect(cast, kennedy, areas)
    retainers = _thinned(cast)
    findings += one_sided(arch, retainers) + _doubts(arch, wishes, areas)
    parts = {tooth: tuple(given) for tooth, given in sorted(cast.parts.items())}
    return Plan(kennedy, areas, retainers, parts, _reasons(parts), tuple(findings))


def propose_design(
    arch: DentalArch, survey: Survey, wishes: Wishes, prepared: Prepared | None = None
) -> Design:
    """The whole design: the plan, with each clasp where the survey shows an undercut.

    Raises:
        InputError, InfeasibleError: as `plan_design`.
    """
    plan = plan_design(arch, wishes, prepared)
    bench = bench_for(arch, survey)
    retainers, reasons, findings = [], list(plan.reasons), list(plan.findings)
    choices: dict[int, ClaspChoice] = {}
    for retainer in plan.retainers:
        rule = clasp_forms(plan.parts.get(retainer.tooth, ()))
        if retainer.clasp is None or rule is None:
            retainers.append(retainer)
            continue
        choice = chosen_clasp(arch, survey, retainer, rule.clasps, bench)
        choices[retainer.tooth] = choice
        retainers.append(replace(retainer, clasp=choice.clasp))
    rescued = rescued_sides(arch, survey, plan.retainers, retainers, wishes, choices, bench)
    retainers = list(rescued.retainers)
    for choice in rescued.choices:
        reasons.append(choice.reason)
        findings += choice.findings
    reasons += rescued.reasons
    findings += rescued.findings
    special = with_special_forms(arch, survey, wishes, retainers, plan.areas, bench)
    reasons += special.reasons
    order = ARCH_ORDER[arch.scan.jaw]
    retainers = sorted(special.retainers, key=lambda r: order.index(r.tooth))
    retainers, against = admitted(arch, survey, retainers)
    retainers, wired = settled_wires(retainers, wishes.open_wires, bench)
    findings += against + wired + _embrasures(arch, retainers)
    findings += shaping_findings(arch, survey, wishes, plan.retainers, retainers, bench)
    findings += alternatives(arch, survey, retainers, plan.areas, bench)
    connector, why = proposed_connector(arch.scan.jaw, plan.areas, wishes)
    findings += spare_findings(arch, retainers, connector, wishes.doubtful)
    bases, base_reasons = _bases(plan.areas, wishes)
    reasons += [*([why] if why else []), *base_reasons]
    findings += [_as_finding(arch, reason) for reason in reasons]
    return Design(
        tuple(retainers),
        connector,
        bases,
        tuple(reasons),
        tuple(findings),
        wishes.fit,
        wishes.splints,
    )


def _thinned(cast: Cast) -> tuple[Retainer, ...]:
    """Take clasps off until no more than four are left, the middle ones of a side first."""
    retainers = list(cast.retainers())
    most = int(proposal_rules().numbers["clasps_max"])
    for side in ("right", "left"):
        row = [r for r in retainers if r.clasp and side_of(r.tooth) == side]
        row.sort(key=lambda r: position_of(r.tooth))
        for middle in row[1:-1]:
            if sum(1 for r in retainers if r.clasp) <= most or cast.wishes.named(middle.tooth):
                continue
            retainers[retainers.index(middle)] = replace(middle, clasp=None)
    return tuple(retainers)


def _bases(areas: tuple[Area, ...], wishes: Wishes) -> tuple[tuple[DentureBase, ...], list[Reason]]:
    bases, reasons = list(wishes.bases), []
    named = {code for base in wishes.bases for code in base.teeth}
    relief, strut = limit("lattice.relief"), limit("lattice.strut_thickness")
    for area in areas:
        if named & set(area.teeth):
            continue
        base = DentureBase(area.teeth, relief_mm=relief.value, thickness_mm=strut.value)
        bases.append(base)
        kind = "that ends free" if area.free_end else "between teeth"
        text = f"a base {kind} over {', '.join(map(str, area.teeth))}: lattice with relief"
        reasons.append(Reason(f"denture_base.{area.teeth[0]}", text, relief.cited))
    return tuple(bases), reasons


def _reasons(parts: Mapping[int, tuple[Part, ...]]) -> tuple[Reason, ...]:
    return tuple(
        Reason(f"retainer.{tooth}", part.rule.text, part.rule.source)
        for tooth, given in parts.items()
        for part in given
    )


def _doubts(arch: DentalArch, wishes: Wishes, areas: tuple[Area, ...]) -> list[Finding]:
    """What a person must look at before the design is made."""
    out = []
    ends = {end for area in areas for end in area.ends if end is not None}
    for code in sorted(c for c in ends if is_third_molar(c)):
        if code not in wishes.present_abutments and not wishes.named(code):
            text = (
                f"Third molar {code} stands behind a span and is taken as its abutment; "
                "confirm it under present_abutments, or list it as missing."
            )
            out.append(_look("proposal.third_molar", text, code, arch))
    if len(arch.teeth) == 1:
        code = next(iter(arch.teeth))
        text = (
            f"Only tooth {code} stands: one abutment cannot steady a framework. Ask the "
            "prescriber whether a framework is meant."
        )
        out.append(_look("proposal.single_tooth", text, code, arch))
    return out


def _embrasures(arch: DentalArch, retainers: Iterable[Retainer]) -> list[Finding]:
    """Clasps whose arms cross between standing teeth."""
    out = []
    for retainer in retainers:
        bare = retainer.clasp and not retainer.proximal_plates and "cingulum" not in retainer.rests
        if bare and open_end(arch, retainer.tooth) is None:
            text = (
                f"The arms of {retainer.tooth} cross the occlusal embrasure between standing "
                "teeth; ask the dentist for room there."
            )
            out.append(_look("proposal.embrasure", text, retainer.tooth, arch))
    return out


def _look(rule: str, text: str, tooth: int, arch: DentalArch) -> Finding:
    component = f"retainer.{tooth}"
    return Finding(rule, "look", text, NO_SOURCE, at_mm=_place(arch, tooth), component=component)


def _as_finding(arch: DentalArch, reason: Reason) -> Finding:
    """A proposal as a note, so that nothing is decided in silence."""
    digits = [int(word) for word in reason.component.split(".") if word.isdigit()]
    at = _place(arch, digits[0]) if digits and digits[0] in arch.teeth else None
    text = f"Proposed for {reason.component}: {reason.text}."
    return Finding("proposal", "note", text, reason.source, at_mm=at, component=reason.component)


def _place(arch: DentalArch, tooth: int) -> Point:
    x, y, z = (float(v) for v in arch.teeth[tooth].centre)
    return (x, y, z)
