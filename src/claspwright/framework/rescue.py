"""Another place for the clasp where none of those planned on a side can hold one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from claspwright.arch import (
    ARCH_ORDER,
    DentalArch,
    is_third_molar,
    kind_of,
    position_of,
    side_of,
)
from claspwright.base import Finding
from claspwright.framework.areas import strength
from claspwright.framework.clasp_choice import ClaspChoice, chosen_clasp
from claspwright.framework.courses import Bench, rest_fits
from claspwright.framework.design import Reason, RestForm, Retainer
from claspwright.framework.wishes import Wishes
from claspwright.survey import Survey

SOURCE = "clasp another tooth, do not deepen the undercut (Ankara University e-textbook) [seen B]"


@dataclass(frozen=True, slots=True)
class Rescued:
    """All retainers after the rescue, and what was done for it."""

    retainers: tuple[Retainer, ...]
    choices: tuple[ClaspChoice, ...]  # of the planned teeth, as they stand in the end
    reasons: tuple[Reason, ...] = ()
    findings: tuple[Finding, ...] = ()


def rescued_sides(
    arch: DentalArch,
    survey: Survey,
    planned: Sequence[Retainer],
    settled: Sequence[Retainer],
    wishes: Wishes,
    choices: Mapping[int, ClaspChoice],
    bench: Bench | None,
) -> Rescued:
    """Give each side without a sound clasp one on another tooth, or from another rest.

    Molars first, then premolars, then canines, each with the rests it has and with one more or
    one moved; teeth that the sheet names stay as they are. An unsound clasp is taken off where
    a sound one stands on its side, and kept where none can.

    Args:
        arch: the arch.
        survey: its survey.
        planned: retainers before the survey.
        settled: the same after their clasps have sought their undercuts.
        wishes: what the sheet decides.
        choices: how each clasp was chosen, by tooth.
        bench: charts and seats, where the survey allows them.
    """
    by_tooth = {r.tooth: r for r in settled}
    kept = dict(choices)
    reasons: list[Reason] = []
    findings: list[Finding] = []
    for side in ("right", "left"):
        asked = {r.tooth for r in planned if r.clasp and side_of(r.tooth) == side}
        here = [c for c in sorted(asked) if by_tooth[c].clasp]
        sound = [c for c in here if c not in choices or choices[c].sound]
        lost = asked - set(sound)
        if not asked or not lost:
            continue
        freed = set(here) - set(sound)
        if not sound:
            found = _another(arch, survey, wishes, side, lost, by_tooth, bench)
            if found is None:
                continue
            bare, choice = found
            by_tooth[bare.tooth] = replace(bare, clasp=choice.clasp)
            text = f"{_why_here(bare, lost)}; {choice.reason.text}"
            reasons.append(Reason(choice.reason.component, text, SOURCE))
            findings += choice.findings
            kept.pop(bare.tooth, None)
            freed.discard(bare.tooth)
        for tooth in freed:
            by_tooth[tooth] = replace(by_tooth[tooth], clasp=None)
            kept[tooth] = _taken_off(choices[tooth], tooth)
    order = ARCH_ORDER[arch.scan.jaw]
    retainers = tuple(by_tooth[code] for code in order if code in by_tooth)
    last = tuple(kept[code] for code in order if code in kept)
    return Rescued(retainers, last, tuple(reasons), tuple(findings))


def _another(
    arch: DentalArch,
    survey: Survey,
    wishes: Wishes,
    side: str,
    lost: set[int],
    by_tooth: Mapping[int, Retainer],
    bench: Bench | None,
) -> tuple[Retainer, ClaspChoice] | None:
    """The first tooth of a side on which a clasp is sound and a new rest has room.

    A tooth that could hold none as planned is tried with a rest at its other end.
    """
    for bare in candidates(arch, wishes, side, lost, by_tooth, bench):
        there = by_tooth.get(bare.tooth)
        new = set(bare.rests) - set(there.rests if there is not None else ())
        if not all(rest_fits(bench, bare.tooth, rest) for rest in new):
            continue
        choice = chosen_clasp(arch, survey, bare, ("circumferential",), bench)
        if choice.clasp is not None and choice.sound:
            return bare, choice
    return None


def _taken_off(choice: ClaspChoice, tooth: int) -> ClaspChoice:
    """The choice of no clasp where every arm would be bent for good."""
    text = "no clasp: every arm would be so short and stiff that it is bent for good"
    reason = Reason(f"retainer.{tooth}", text, choice.reason.source)
    finding = Finding(
        "proposal.stiff_clasp",
        "look",
        f"Every arm on tooth {tooth} would be so short and stiff that it is bent for good when "
        "the framework is seated, so the tooth gets no clasp; others hold on its side.",
        "proof stress of the alloy; straight tapered half-round beam [derived]",
        component=f"retainer.{tooth}",
    )
    return ClaspChoice(None, reason, (finding,))


def candidates(
    arch: DentalArch,
    wishes: Wishes,
    side: str,
    lost: set[int],
    settled: Mapping[int, Retainer],
    bench: Bench | None,
) -> list[Retainer]:
    """What teeth of a side would get without a clasp, in the order they are tried.

    A new rest comes beside those that the tooth has. Where the tooth has no plate and no
    prepared seat for a rest, the new one takes its place.

    Args:
        arch: the arch.
        wishes: what the sheet decides; teeth that it names are left out.
        side: "right" or "left", the patient's.
        lost: teeth that are not to be tried with the rests that they have.
        settled: retainers by tooth, as far as they stand.
        bench: its seats; without one every rest is taken to have its seat.
    """
    free = [
        code
        for code in arch.teeth
        if side_of(code) == side
        and kind_of(code) != "incisor"
        and not wishes.named(code)
        and (not is_third_molar(code) or code in wishes.present_abutments)
    ]
    found = []
    for tooth in sorted(free, key=lambda code: (strength(code), -position_of(code))):
        there = replace(settled.get(tooth, Retainer(tooth)), clasp=None)
        if there.rests and tooth not in lost:
            found.append(there)
        stay = _staying(bench, there)
        for rest in _rests(tooth):
            if rest not in there.rests:
                found.append(replace(there, rests=(*stay, rest)))
    return found


def _staying(bench: Bench | None, retainer: Retainer) -> tuple[RestForm, ...]:
    """The rests that stay where one is added: all but those that nothing holds to their place."""
    if bench is None or retainer.proximal_plates or retainer.indirect:
        return retainer.rests
    seats = bench.ground.seats
    return tuple(rest for rest in retainer.rests if seats[retainer.tooth, rest].prepared)


def _why_here(bare: Retainer, lost: set[int]) -> str:
    """Why the clasp stands on this tooth."""
    if bare.tooth not in lost:
        return f"a clasp here, since {_listed(lost)} cannot hold one"
    rests = " and ".join(f"{rest} rest" for rest in bare.rests)
    return f"a clasp that begins at the {rests}, since no arm from the usual end can hold"


def _rests(tooth: int) -> tuple[RestForm, ...]:
    """Rests that a clasp on this tooth may start from."""
    if kind_of(tooth) == "canine":
        return ("cingulum",)
    return ("mesial occlusal", "distal occlusal")


def _listed(teeth: set[int]) -> str:
    return " and ".join(map(str, sorted(teeth)))
