"""Embrasure clasps on sides without a space, ring clasps on lone molars: where they are sound."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from claspwright.arch import DentalArch, is_third_molar, kind_of, position_of, side_of
from claspwright.framework.areas import Area
from claspwright.framework.arm_plans import arm_section
from claspwright.framework.clasp_kinds import objections
from claspwright.framework.courses import (
    KEEP,
    Bench,
    courses_of,
    kept_under,
    rest_fits,
    undercuts,
)
from claspwright.framework.design import Clasp, End, Reason, RestForm, Retainer, Side
from claspwright.framework.embrasure import saddle_of
from claspwright.framework.ring_clasp import ring_line
from claspwright.framework.roles import neighbour_at, opposite, rigid_origin
from claspwright.framework.rulebook import default_clasp, proposal_rules
from claspwright.framework.spring import peak_strain
from claspwright.framework.wishes import Wishes
from claspwright.geometry import arc_lengths
from claspwright.limits import limit
from claspwright.survey import Survey

MCCRACKEN = "McCracken's Removable Partial Prosthodontics, chapter on direct retainers [memory]"
PAIRS = ((6, 7), (5, 6), (4, 5))  # positions in the arch, in the order in which they are tried
REST: dict[End, RestForm] = {"mesial": "mesial occlusal", "distal": "distal occlusal"}


@dataclass(frozen=True, slots=True)
class Special:
    """Retainers with such clasps in place, and why."""

    retainers: tuple[Retainer, ...]
    reasons: tuple[Reason, ...]


def with_special_forms(
    arch: DentalArch,
    survey: Survey,
    wishes: Wishes,
    retainers: Sequence[Retainer],
    areas: Sequence[Area],
    bench: Bench | None,
) -> Special:
    """Take an embrasure or a ring clasp where its indication is met and it can be laid soundly.

    Args:
        arch: the arch.
        survey: its survey.
        wishes: what the sheet decides; teeth that it names stay as they are.
        retainers: of the design so far.
        areas: what is replaced.
        bench: charts and seats; without it nothing changes.
    """
    here, reasons = tuple(retainers), []
    if bench is None:
        return Special(here, ())
    gapped = {side_of(tooth) for area in areas for tooth in area.teeth}
    for side in ("right", "left"):
        clasped = [r for r in here if r.clasp and side_of(r.tooth) == side]
        if side in gapped or any(wishes.named(r.tooth) for r in clasped):
            continue
        pair = _pair(arch, survey, wishes, here, side, bench)
        # seats that the dentist has prepared for another clasp say what is meant
        if pair is not None and (_seated(pair, bench) or not _seated(clasped, bench)):
            here = _with_pair(here, pair, side)
            reasons.append(_pair_reason(pair))
    ends = {end for area in areas for end in area.ends if end is not None}
    for retainer in here:
        if retainer.tooth not in ends or retainer.clasp or wishes.named(retainer.tooth):
            continue
        ring = _ring(arch, here, retainer, bench)
        if ring is not None:
            here = tuple(ring if r.tooth == ring.tooth else r for r in here)
            reasons.append(_ring_reason(ring))
    return Special(here, tuple(reasons))


def _pair(
    arch: DentalArch,
    survey: Survey,
    wishes: Wishes,
    retainers: Sequence[Retainer],
    side: str,
    bench: Bench,
) -> tuple[Retainer, Retainer] | None:
    """The first two neighbours on a side that can share an embrasure clasp."""
    others = sum(1 for r in retainers if r.clasp and side_of(r.tooth) != side)
    if others + 2 > proposal_rules().numbers["clasps_max"]:
        return None
    for front, hind in _neighbours(arch, wishes, side):
        ends: tuple[End, End] = ("distal", "mesial")
        made = [
            _half(arch, survey, retainers, code, end, bench)
            for code, end in zip((front, hind), ends, strict=True)
        ]
        one, two = made
        if one is None or two is None:
            continue
        trial = _with_pair(retainers, (one, two), side)
        stops = [f for r in (one, two) for f in objections(arch, trial, r) if f.severity == "stop"]
        if not stops and _body_room(bench, one) >= (limit("minor.thickness").look_below or 0.0):
            return one, two
    return None


def _seated(retainers: Sequence[Retainer], bench: Bench) -> bool:
    """Whether every clasp of these begins at a prepared seat, and there is one."""
    seats = [bench.ground.seats[r.tooth, r.rests[0]] for r in retainers if r.rests]
    return bool(seats) and all(seat.prepared for seat in seats)


def _neighbours(arch: DentalArch, wishes: Wishes, side: str) -> Iterator[tuple[int, int]]:
    free = {
        position_of(code): code
        for code in arch.teeth
        if side_of(code) == side and not wishes.named(code) and not is_third_molar(code)
    }
    for front, hind in PAIRS:
        if front in free and hind in free:
            yield free[front], free[hind]


def _half(
    arch: DentalArch,
    survey: Survey,
    retainers: Sequence[Retainer],
    tooth: int,
    end: End,
    bench: Bench,
) -> Retainer | None:
    """One tooth of an embrasure clasp; None where its arms or its rest are not sound."""
    there = next((r for r in retainers if r.tooth == tooth), Retainer(tooth))
    if not rest_fits(bench, tooth, REST[end]):
        return None
    bare = replace(there, rests=(REST[end],), proximal_plates=(), clasp=None)
    tried = courses_of(arch, survey, bench, bare, [("circumferential", "buccal", end)])
    course = next((c for c in tried if c.sound), None)
    if course is None:
        return None
    # a rest that only carried the old clasp goes with it
    kept = there.rests if there.indirect or not there.clasp else ()
    rests = tuple(dict.fromkeys((REST[end], *kept)))
    return replace(bare, rests=rests, clasp=replace(course.clasp, form="embrasure", origin=end))


def _body_room(bench: Bench, retainer: Retainer) -> float:
    """What the opposing teeth leave over the embrasure for the body of the clasp [mm]."""
    if bench.roof is None:
        return np.inf
    line = saddle_of(bench.ground, retainer).line
    return float((bench.roof.at(line) - line[:, 2]).min())


def _with_pair(
    retainers: Sequence[Retainer], pair: tuple[Retainer, Retainer], side: str
) -> tuple[Retainer, ...]:
    """The pair in place of the clasps that stood on its side."""
    teeth = {r.tooth for r in pair}
    kept = [
        replace(r, clasp=None) if r.clasp and side_of(r.tooth) == side else r
        for r in retainers
        if r.tooth not in teeth
    ]
    return (*kept, *pair)


def _ring(
    arch: DentalArch, retainers: Sequence[Retainer], retainer: Retainer, bench: Bench
) -> Retainer | None:
    """A ring on a lone molar that holds no other clasp; None where it is not sound."""
    tooth = retainer.tooth
    side: Side = "lingual" if arch.scan.jaw == "mandible" else "buccal"
    far = opposite(rigid_origin(retainer))
    if kind_of(tooth) != "molar" or neighbour_at(tooth, far) in arch.teeth:
        return None
    if not rest_fits(bench, tooth, REST[far]):
        return None
    rests = tuple(dict.fromkeys((*retainer.rests, REST[far])))
    for depth in undercuts():
        asked = replace(retainer, rests=rests, clasp=default_clasp(tooth, "ring", side, depth))
        if any(f.severity == "stop" for f in objections(arch, retainers, asked)):
            return None
        if _ring_holds(bench, asked, asked.clasp):
            return asked
    return None


def _ring_holds(bench: Bench, retainer: Retainer, clasp: Clasp | None) -> bool:
    assert clasp is not None
    line, share, reached = ring_line(bench.ground, retainer)
    half, thick = arm_section(clasp, np.clip(share, 0.0, 1.0))
    length = float(arc_lengths(line[share >= 0])[-1])
    section = arm_section(clasp, np.linspace(0.0, 1.0, 41))
    strain = peak_strain(length, *section, clasp.undercut_mm)
    kept = kept_under(bench.roof, bench.ground, line, half, thick)
    borne = strain <= proposal_rules().numbers["allowed_strain"]
    return borne and kept >= KEEP and reached >= clasp.undercut_mm - 0.006


def _pair_reason(pair: tuple[Retainer, Retainer]) -> Reason:
    one, two = sorted(r.tooth for r in pair)
    depths = " and ".join(f"{r.clasp.undercut_mm:.2f} mm on {r.tooth}" for r in pair if r.clasp)
    text = (
        f"an embrasure clasp on {one} and {two}, since no tooth is replaced on their side and no "
        f"arm could come from a space: {depths}; each has a rest, so that the teeth are not wedged "
        "apart"
    )
    return Reason(f"retainer.{one}", text, f"class II or III without a space there: {MCCRACKEN}")


def _ring_reason(ring: Retainer) -> Reason:
    depth = ring.clasp.undercut_mm if ring.clasp is not None else 0.0
    text = (
        f"a ring clasp on the lone molar {ring.tooth}, whose only undercut within reach, "
        f"{depth:.2f} mm, lies beside the space; a second rest and a strut carry the long arm"
    )
    return Reason(f"clasp.{ring.tooth}", text, f"a tipped molar without a neighbour: {MCCRACKEN}")
