"""Giving out the parts: abutments, braces, clasps across the arch, indirect retainers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from claspwright.arch import (
    DentalArch,
    KennedyClass,
    Tooth,
    is_third_molar,
    kind_of,
    position_of,
    side_of,
)
from claspwright.base import Finding, Floats
from claspwright.framework.areas import Area, strength
from claspwright.framework.design import RestForm, Retainer
from claspwright.framework.fulcrum import distance_to_fulcrum, fulcrum_line, rest_point, rests_of
from claspwright.framework.roles import Cast, brace_beside, bracing_tooth, cross_arch_tooth
from claspwright.framework.rulebook import Role, proposal_rules
from claspwright.limits import limit

NO_SOURCE = "common practice, no source"


def give_ends(cast: Cast, areas: tuple[Area, ...]) -> None:
    """Every tooth that bounds an area becomes an abutment."""
    for area in areas:
        role: Role = "bounded"
        if area.free_end:
            role = "free end"
        elif area.anterior:
            role = "anterior"
        for end in area.ends:
            if end is not None:
                cast.give(end, role, area.gap_of(end))


def give_braces(cast: Cast, areas: tuple[Area, ...]) -> None:
    """Where an incisor bounds an area, the next stronger tooth carries for it.

    A rest beside a bounded area, a clasp as well beside one that ends free.
    """
    for area in areas:
        for end in area.ends:
            if end is None or kind_of(end) != "incisor":
                continue
            brace = brace_beside(cast.arch, area, end)
            if brace is None:
                continue
            if area.free_end:
                cast.give(brace, "cross arch")
            elif not cast.has_rest(brace):
                cast.give(brace, "bracing")


def give_cross_arch(cast: Cast, kennedy: KennedyClass) -> None:
    """A clasp on each side, two in all; a rest in front on a side of class III with no span."""
    for side in ("right", "left"):
        tooth = cross_arch_tooth(cast, side)
        clasped = [r.tooth for r in cast.retainers() if r.clasp and side_of(r.tooth) == side]
        far_back = any(kind_of(code) == "molar" for code in clasped)
        wanted = not clasped or (kennedy.kennedy_class == "IV" and not far_back)
        if tooth is None or not wanted or tooth in clasped:
            continue
        if not cast.give(tooth, "cross arch"):
            continue
        if kennedy.kennedy_class == "III" and not clasped:
            brace = bracing_tooth(cast, side)
            if brace is not None:
                cast.give(brace, "bracing")
    clasped = [r.tooth for r in cast.retainers() if r.clasp]
    if len(clasped) == 1:
        tooth = _far_from(cast, clasped[0])
        if tooth is not None:
            cast.give(tooth, "cross arch")


def _far_from(cast: Cast, clasped: int) -> int | None:
    """The tooth farthest from the only clasp that may carry a second one."""
    teeth = cast.arch.teeth
    free = [
        code
        for code in sorted(teeth)
        if code != clasped
        and kind_of(code) != "incisor"
        and not cast.wishes.named(code)
        and (not is_third_molar(code) or code in cast.wishes.present_abutments)
    ]
    reach = {c: float(np.linalg.norm(teeth[c].centre - teeth[clasped].centre)) for c in free}
    return max(free, key=lambda c: (round(reach[c], 3), c)) if free else None


def give_last_resort(cast: Cast) -> list[Finding]:
    """Incisors carry clasps only where no other tooth of the arch can: one on each side."""
    if any(r.clasp for r in cast.retainers()):
        return []
    findings = []
    for side in ("right", "left"):
        ends = [
            tooth
            for tooth, parts in cast.parts.items()
            if side_of(tooth) == side and any(p.gap for p in parts)
        ]
        if not ends:
            continue
        tooth = min(ends, key=lambda code: (strength(code), -position_of(code)))
        part = cast.parts[tooth][0]
        cast.parts[tooth][0] = replace(part, rule=replace(part.rule, clasps=("I-bar",)))
        findings.append(_last_resort(tooth))
    return findings


def one_sided(arch: DentalArch, retainers: Sequence[Retainer]) -> list[Finding]:
    """A look for each side of the arch on which no clasp stands."""
    findings = []
    for side in ("right", "left"):
        if any(r.clasp and side_of(r.tooth) == side for r in retainers):
            continue
        standing = any(side_of(code) == side for code in arch.teeth)
        why = "no tooth there gets one" if standing else "no tooth stands there"
        findings.append(unheld_side(side, why))
    return findings


def unheld_side(side: str, why: str) -> Finding:
    """That no clasp stands on a side of the arch, and why."""
    return Finding(
        "proposal.one_sided",
        "look",
        f"No clasp on the patient's {side} side: {why}. The denture is held on the other "
        "side only; ask the prescriber whether that is meant.",
        "two to four clasps on both sides [common practice]",
    )


def give_indirect(cast: Cast, kennedy: KennedyClass, areas: Sequence[Area]) -> list[Finding]:
    """A rest in front of the fulcrum line of every base that ends free (class I and II)."""
    if kennedy.kennedy_class not in ("I", "II"):
        return []
    teeth = dict(cast.arch.teeth)
    retainers = cast.retainers()
    rests = rests_of(retainers, teeth)
    line = fulcrum_line(rests)
    if line is None:
        return [_no_indirect("the rests do not stand apart far enough for a fulcrum line")]
    bases = [_base_centre(cast.arch, area) for area in areas if area.free_end]
    reaches = indirect_reaches(line, bases, teeth, retainers)
    if not reaches:
        return [_no_indirect("no tooth stands in front of the fulcrum line")]
    best = max(reaches.values())
    share = proposal_rules().numbers["best_share_existing"]
    serving = [_in_front(line, bases, p) for _, p in rests]
    if any(r.indirect for r in retainers) or max(serving, default=0.0) >= share * best:
        return []
    seated = {c: r for c, r in reaches.items() if cast.prepared.get(c) and r >= best / 2}
    roomy = {c: r for c, r in reaches.items() if not _crowds(cast.arch, c, retainers)}
    for tooth in _chosen(seated or roomy or reaches, kennedy):
        cast.give(tooth, "indirect")
    return []


def indirect_reaches(
    line: tuple[Floats, Floats],
    bases: Sequence[Floats],
    teeth: Mapping[int, Tooth],
    retainers: Sequence[Retainer],
) -> dict[int, float]:
    """Distance in front of the fulcrum line that a rest on each free tooth would have [mm].

    Premolars and canines; upper incisors only where none of those stands in front.
    """
    taken = {r.tooth for r in retainers if r.rests}
    found: dict[int, float] = {}
    for kinds in (("premolar", "canine"), ("incisor",)):
        for code, tooth in teeth.items():
            weak = kind_of(code) == "incisor" and code > 30
            if kind_of(code) in kinds and code not in taken and not weak:
                form: RestForm = "mesial occlusal" if kind_of(code) == "premolar" else "cingulum"
                reach = _in_front(line, bases, rest_point(tooth, form))
                if reach > 1.0:
                    found[code] = reach
        if found:
            break
    return found


def _crowds(arch: DentalArch, code: int, retainers: Sequence[Retainer]) -> bool:
    """Whether a premolar's mesial rest would put two minor connectors too near to each other."""
    if kind_of(code) != "premolar":
        return False
    room = arch.teeth[code].mesiodistal_mm - limit("minor.width").value
    if room >= limit("minor.spacing").value:
        return False
    behind = {r.tooth for r in retainers if "mesial occlusal" in r.rests}
    return any(abs(tooth - code) == 1 and tooth > code for tooth in behind)


def _chosen(reaches: dict[int, float], kennedy: KennedyClass) -> list[int]:
    """One tooth a side for class I, the best one for class II; a premolar where it nearly does."""
    share = proposal_rules().numbers["indirect_premolar_share"]
    sides = ("right", "left") if kennedy.kennedy_class == "I" else (None,)
    out = []
    for side in sides:
        here = {c: r for c, r in reaches.items() if side is None or side_of(c) == side}
        if not here:
            continue
        best = max(here.values())
        good = [c for c, r in here.items() if r >= share * best]
        out.append(min(good, key=lambda c: (strength(c), -here[c])))
    return out


def _in_front(line: tuple[Floats, Floats], bases: Sequence[Floats], point: Floats) -> float:
    """Distance of a point from the fulcrum line, positive on the side away from the bases."""
    behind = sum(distance_to_fulcrum(line, base) for base in bases)
    return -float(np.sign(behind)) * distance_to_fulcrum(line, point)


def _base_centre(arch: DentalArch, area: Area) -> Floats:
    return np.asarray(arch.spans[area.span].crest.mean(axis=0))


def _last_resort(tooth: int) -> Finding:
    return Finding(
        "proposal.incisor_clasp",
        "look",
        f"No stronger tooth can carry a clasp, so {tooth} gets one; ask the prescriber "
        "whether that tooth can bear it.",
        NO_SOURCE,
        component=f"retainer.{tooth}",
    )


def _no_indirect(why: str) -> Finding:
    return Finding(
        "proposal.no_indirect_retainer",
        "look",
        f"No indirect retainer can be proposed: {why}. The free-end base may lift; ask the "
        "prescriber for a rest seat in front, or accept it.",
        "needed in class I and II (study cards on RPD design) [seen C]",
    )
