"""Which tooth plays which part, and the retainer that follows from its parts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from claspwright.arch import (
    ARCH_ORDER,
    DentalArch,
    is_third_molar,
    kind_of,
    neighbours,
    position_of,
    side_of,
)
from claspwright.framework.areas import Area
from claspwright.framework.design import End, RestForm, Retainer
from claspwright.framework.rulebook import Role, RoleRule, default_clasp, proposal_rules
from claspwright.framework.wishes import Wishes

Prepared = Mapping[int, tuple[RestForm, ...]]
"""Rest seats that the scan shows, by tooth."""

_CLASP_ORDER: tuple[Role, ...] = (
    "free end", "bounded", "anterior", "cross arch", "bracing", "indirect",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Part:
    """One part that a tooth plays; `gap` is the side of the tooth on which its area lies."""

    rule: RoleRule
    gap: End | None = None


@dataclass(slots=True)
class Cast:
    """Parts given out so far, by tooth; local to one proposal."""

    arch: DentalArch
    wishes: Wishes
    prepared: Prepared
    parts: dict[int, list[Part]] = field(default_factory=dict)

    def give(self, tooth: int, role: Role, gap: End | None = None) -> bool:
        """Give a part to a tooth; False where the sheet speaks for it or no rule covers it."""
        rule = proposal_rules().roles.get((role, kind_of(tooth)))
        if rule is None or self.wishes.named(tooth):
            return False
        part = Part(rule, gap)
        if part not in self.parts.setdefault(tooth, []):
            self.parts[tooth].append(part)
        return True

    def retainers(self) -> tuple[Retainer, ...]:
        """What the sheet names and what the parts ask for, patient's right to left."""
        found = {r.tooth: r for r in self.wishes.retainers}
        found |= {t: self._assembled(t, parts) for t, parts in self.parts.items()}
        return tuple(found[code] for code in ARCH_ORDER[self.arch.scan.jaw] if code in found)

    def has_rest(self, tooth: int) -> bool:
        """Whether the parts of this tooth already bring a rest."""
        return any(part.rule.rest != "none" for part in self.parts.get(tooth, []))

    def _assembled(self, tooth: int, parts: Sequence[Part]) -> Retainer:
        return assembled(self.arch, tooth, parts, self.prepared.get(tooth, ()))


def assembled(
    arch: DentalArch, tooth: int, parts: Sequence[Part], prepared: Sequence[RestForm] = ()
) -> Retainer:
    """The retainer of a tooth that plays these parts; rests go where seats are prepared."""
    rests: list[RestForm] = []
    for part in parts:
        rest = _rest(arch, tooth, part, prepared)
        if rest is not None and rest not in rests:
            rests.append(rest)
    plates: list[End] = []
    for part in parts:
        if part.rule.plate and part.gap is not None and part.gap not in plates:
            plates.append(part.gap)
    ranked = sorted(parts, key=lambda p: _CLASP_ORDER.index(p.rule.role))
    forms = next((p.rule.clasps for p in ranked if p.rule.clasps), ())
    return Retainer(
        tooth,
        rests=tuple(rests),
        proximal_plates=tuple(plates),
        clasp=default_clasp(tooth, forms[0]) if forms else None,
        indirect=any(p.rule.role == "indirect" for p in parts),
    )


def clasp_forms(parts: Sequence[Part]) -> RoleRule | None:
    """The rule that decides the clasp of a tooth: its first part that has one."""
    ranked = sorted(parts, key=lambda p: _CLASP_ORDER.index(p.rule.role))
    return next((p.rule for p in ranked if p.rule.clasps), None)


def arm_origin(retainer: Retainer) -> End:
    """The end of the tooth at which its retentive arm leaves the body of the retainer."""
    clasp = retainer.clasp
    if clasp is not None and clasp.origin is not None:
        return clasp.origin
    if clasp is not None and clasp.form == "back-action" and len(retainer.rests) == 1:
        return "mesial" if retainer.rests[0].startswith("distal") else "distal"
    return rigid_origin(retainer)


def rigid_origin(retainer: Retainer) -> End:
    """The end at which what is rigid begins: the plate, else the rest, else distal."""
    if retainer.proximal_plates:
        return retainer.proximal_plates[0]
    return "mesial" if any(r.startswith("mesial") for r in retainer.rests) else "distal"


def open_end(arch: DentalArch, tooth: int) -> End | None:
    """The side of a tooth on which no tooth stands, distal first; None where both stand."""
    for end in ("distal", "mesial"):
        if neighbour_at(tooth, end) not in arch.teeth:
            return end
    return None


def opposite(end: End) -> End:
    """The other side of the tooth."""
    return "distal" if end == "mesial" else "mesial"


def cross_arch_tooth(cast: Cast, side: str) -> int | None:
    """The hindmost tooth of a side that may carry a stabilising clasp; canine if none is behind.

    A molar with a prepared seat comes before one without. Third molars only where the sheet
    names them as abutments.
    """
    standing = [
        code
        for code in cast.arch.teeth
        if side_of(code) == side
        and kind_of(code) != "incisor"
        and (not is_third_molar(code) or code in cast.wishes.present_abutments)
    ]
    seated = [code for code in standing if kind_of(code) == "molar" and cast.prepared.get(code)]
    return max(seated or standing, key=position_of) if standing else None


def brace_beside(arch: DentalArch, area: Area, tooth: int) -> int | None:
    """The next standing tooth on the same side, away from the area, that is no incisor."""
    away = opposite(area.gap_of(tooth))
    code = neighbour_at(tooth, away)
    while code is not None and side_of(code) == side_of(tooth):
        if code in arch.teeth and kind_of(code) != "incisor":
            return code
        code = neighbour_at(code, away)
    return None


def bracing_tooth(cast: Cast, side: str) -> int | None:
    """The foremost premolar of a side, else its canine; one with a prepared seat first."""
    free = [c for c in cast.arch.teeth if side_of(c) == side and c not in cast.parts]
    candidates = [c for c in free if kind_of(c) == "premolar"]
    candidates = sorted(candidates, key=position_of) + [c for c in free if kind_of(c) == "canine"]
    seated = [c for c in candidates if cast.prepared.get(c)]
    return next(iter(seated or candidates), None)


def _rest(
    arch: DentalArch, tooth: int, part: Part, prepared: Sequence[RestForm]
) -> RestForm | None:
    if part.rule.rest == "none":
        return None
    usual = _usual_rest(arch, tooth, part)
    return usual if usual in prepared or not prepared else prepared[0]


def _usual_rest(arch: DentalArch, tooth: int, part: Part) -> RestForm:
    place = part.rule.rest
    if place == "cingulum":
        return "cingulum"
    if place == "open":
        end = open_end(arch, tooth) or "mesial"
    elif place == "mesial" or part.gap is None:
        end = "mesial"
    else:
        end = part.gap if place == "gap" else opposite(part.gap)
    return "mesial occlusal" if end == "mesial" else "distal occlusal"


def neighbour_at(tooth: int, end: End) -> int | None:
    """The code next to a tooth's code at one end, whether it stands or not; None past the last."""
    right, left = neighbours(tooth)
    towards_left = (end == "mesial") == (side_of(tooth) == "right")
    return left if towards_left else right


def end_facing(tooth: int, other: int) -> End:
    """The end of a tooth at which the code next to it stands."""
    return "mesial" if neighbour_at(tooth, "mesial") == other else "distal"
