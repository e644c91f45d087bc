"""The areas to be replaced, their abutments and their Kennedy class."""

from __future__ import annotations

from dataclasses import dataclass

from claspwright.arch import (
    DentalArch,
    KennedyClass,
    Span,
    classify,
    is_third_molar,
    kind_of,
    position_of,
    side_of,
)
from claspwright.base import InfeasibleError
from claspwright.framework.design import End
from claspwright.framework.wishes import Wishes


@dataclass(frozen=True, slots=True)
class Area:
    """Missing teeth of one span that a base replaces; ends as in the span."""

    span: int  # index into the arch's spans
    teeth: tuple[int, ...]  # patient's right to left
    ends: tuple[int | None, int | None]

    @property
    def free_end(self) -> bool:
        """No tooth stands at one end."""
        return None in self.ends

    @property
    def anterior(self) -> bool:
        """Bounded, and of front teeth only."""
        return not self.free_end and all(position_of(code) <= 3 for code in self.teeth)

    def gap_of(self, tooth: int) -> End:
        """On which side of this abutment the area lies."""
        towards_left = tooth == self.ends[0]
        return "mesial" if towards_left == (side_of(tooth) == "right") else "distal"


def areas_to_replace(arch: DentalArch, wishes: Wishes) -> tuple[Area, ...]:
    """The areas that get a base: what the sheet's bases name, else all that is not left out.

    A missing third molar is replaced only where a base names it.

    Raises:
        InfeasibleError: a base names teeth that are not missing, or of more than one span.
    """
    named = {code for base in wishes.bases for code in base.teeth}
    _check_bases(arch, wishes)
    out = []
    for index, span in enumerate(arch.spans):
        teeth = tuple(code for code in span.missing if code in named) or tuple(
            code
            for code in span.missing
            if code not in wishes.not_replaced and not is_third_molar(code)
        )
        if teeth:
            out.append(Area(index, teeth, span.ends))
    return tuple(out)


def classified(arch: DentalArch, wishes: Wishes, areas: tuple[Area, ...]) -> KennedyClass:
    """Kennedy class of the arch as it is to be restored.

    Raises:
        InputError: nothing is to be replaced, or no tooth stands.
    """
    replaced = {code for area in areas for code in area.teeth}
    return classify(
        arch.scan.jaw,
        [code for span in arch.spans for code in span.missing],
        not_replaced=wishes.not_replaced,
        present_abutments=third_molar_abutments(arch, wishes, areas),
        replaced=[code for code in replaced if is_third_molar(code)],
    )


def third_molar_abutments(
    arch: DentalArch, wishes: Wishes, areas: tuple[Area, ...]
) -> tuple[int, ...]:
    """Standing third molars that carry the denture: asked for, or behind an area."""
    asked = set(wishes.present_abutments) | {r.tooth for r in wishes.retainers}
    behind = {end for area in areas for end in area.ends if end is not None}
    return tuple(
        code for code in sorted(arch.teeth) if is_third_molar(code) and code in asked | behind
    )


def strength(tooth: int) -> int:
    """Order of teeth as clasp abutments: molars first, incisors last."""
    return ("molar", "premolar", "canine", "incisor").index(kind_of(tooth))


def span_of(arch: DentalArch, teeth: tuple[int, ...]) -> Span | None:
    """The span that holds all of these missing teeth."""
    return next((span for span in arch.spans if set(teeth) <= set(span.missing)), None)


def _check_bases(arch: DentalArch, wishes: Wishes) -> None:
    for base in wishes.bases:
        if span_of(arch, base.teeth) is None:
            raise InfeasibleError(
                f"the base over {', '.join(map(str, base.teeth))} does not lie in one span",
                remedy="Name teeth that are missing side by side, one base for each span.",
            )
    for retainer in wishes.retainers:
        if retainer.tooth not in arch.teeth:
            raise InfeasibleError(
                f"tooth {retainer.tooth} gets a retainer but does not stand in the arch",
                remedy="Correct the retainer, or the list of missing teeth and the marks.",
            )
