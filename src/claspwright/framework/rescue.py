"""Another tooth for the clasp where none of those planned on a side offers an undercut."""

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
from claspwright.framework.clasp_choice import chosen_clasp
from claspwright.framework.design import Reason, RestForm, Retainer
from claspwright.framework.wishes import Wishes
from claspwright.survey import Survey

SOURCE = "clasp another tooth, do not deepen the undercut (Ankara University e-textbook) [seen B]"


@dataclass(frozen=True, slots=True)
class Rescued:
    """All retainers after the rescue, and what was done for it."""

    retainers: tuple[Retainer, ...]
    reasons: tuple[Reason, ...] = ()
    findings: tuple[Finding, ...] = ()


def rescued_sides(
    arch: DentalArch,
    survey: Survey,
    planned: Sequence[Retainer],
    settled: Sequence[Retainer],
    wishes: Wishes,
) -> Rescued:
    """Give each side that has lost all its planned clasps one on another tooth.

    Molars first, then premolars, then canines; teeth that the sheet names stay as they are.

    Args:
        arch: the arch.
        survey: its survey.
        planned: retainers before the survey.
        settled: the same after their clasps have sought their undercuts.
        wishes: what the sheet decides.
    """
    by_tooth = {r.tooth: r for r in settled}
    reasons: list[Reason] = []
    findings: list[Finding] = []
    for side in ("right", "left"):
        lost = {r.tooth for r in planned if r.clasp and side_of(r.tooth) == side}
        if not lost or any(r.clasp and side_of(r.tooth) == side for r in by_tooth.values()):
            continue
        for bare in _candidates(arch, wishes, side, lost, by_tooth):
            tooth = bare.tooth
            choice = chosen_clasp(arch, survey, bare, ("circumferential",))
            if choice.clasp is None:
                continue
            by_tooth[tooth] = replace(bare, clasp=choice.clasp)
            text = f"a clasp here, since {_listed(lost)} offer no undercut; {choice.reason.text}"
            reasons.append(Reason(f"clasp.{tooth}.{choice.clasp.side}", text, SOURCE))
            findings += choice.findings
            break
    order = ARCH_ORDER[arch.scan.jaw]
    kept = tuple(by_tooth[code] for code in order if code in by_tooth)
    return Rescued(kept, tuple(reasons), tuple(findings))


def _candidates(
    arch: DentalArch,
    wishes: Wishes,
    side: str,
    lost: set[int],
    settled: Mapping[int, Retainer],
) -> list[Retainer]:
    """What other teeth of the side would get without a clasp, in the order they are tried."""
    free = [
        code
        for code in arch.teeth
        if side_of(code) == side
        and code not in lost
        and kind_of(code) != "incisor"
        and not wishes.named(code)
        and (not is_third_molar(code) or code in wishes.present_abutments)
    ]
    found = []
    for tooth in sorted(free, key=lambda code: (strength(code), -position_of(code))):
        there = settled.get(tooth)
        if there is not None and there.rests:
            found.append(there)
            continue
        for rest in _rests(tooth):
            found.append(replace(there or Retainer(tooth), rests=(rest,)))
    return found


def _rests(tooth: int) -> tuple[RestForm, ...]:
    """Rests that a clasp on this tooth may start from."""
    if kind_of(tooth) == "canine":
        return ("cingulum",)
    return ("mesial occlusal", "distal occlusal")


def _listed(teeth: set[int]) -> str:
    return " and ".join(map(str, sorted(teeth)))
