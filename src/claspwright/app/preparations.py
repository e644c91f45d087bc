"""What a dentist would ordinarily prepare for an invented pattern of missing teeth.

Common practice, no source: an abutment beside a gap gets a rest seat and a guiding plane towards
it; before a free end the seat lies at the mesial; a side without a gap, and the teeth in front of a
free end, get a seat each.
"""

from __future__ import annotations

from collections.abc import Iterable

from claspwright.arch import (
    ARCH_ORDER,
    Jaw,
    in_arch_order,
    is_third_molar,
    kind_of,
    neighbours,
    position_of,
    present_teeth,
    side_of,
)
from claspwright.demo import PlaneSide, SeatForm

Seats = dict[int, tuple[SeatForm, ...]]
Planes = dict[int, tuple[PlaneSide, ...]]
_SIDES: tuple[PlaneSide, ...] = ("mesial", "distal")


def ordinary_preparations(jaw: Jaw, missing: Iterable[int]) -> tuple[Seats, Planes]:
    """Rest seats and guiding planes by tooth, for standing teeth only."""
    absent = {*in_arch_order(missing, jaw), *(t for t in ARCH_ORDER[jaw] if is_third_molar(t))}
    present = present_teeth(jaw, absent)
    seats: Seats = {}
    planes: Planes = {}
    for tooth in present:
        gaps = tuple(
            side
            for side in _SIDES
            if _beside(tooth, side) in absent and not _only_third(tooth, side)
        )
        if gaps:
            planes[tooth] = gaps
            free = "distal" in gaps and _last(tooth, present)
            seats[tooth] = (_seat(tooth, "mesial" if free else gaps[0]),)
    for side in ("right", "left"):
        own = [tooth for tooth in present if side_of(tooth) == side]
        beside_gap = [tooth for tooth in own if tooth in planes]
        if all(position_of(tooth) <= 3 for tooth in beside_gap):
            _seat_first(own, seats, (6, 7, 5))  # no gap among the back teeth of this side
        elif any(_last(tooth, present) and "distal" in planes[tooth] for tooth in beside_gap):
            _seat_first(own, seats, (4, 3))  # well in front of the free end
    return seats, planes


def _seat_first(own: list[int], seats: Seats, positions: tuple[int, ...]) -> None:
    """Give a seat to the first of these positions that stands and has none."""
    for position in positions:
        for tooth in own:
            if position_of(tooth) == position and tooth not in seats:
                seats[tooth] = (_seat(tooth, "mesial"),)
                return


def _seat(tooth: int, side: PlaneSide) -> SeatForm:
    return "cingulum" if kind_of(tooth) in ("incisor", "canine") else side


def _beside(tooth: int, side: PlaneSide) -> int | None:
    """The neighbouring code on one side, present or not."""
    towards_right, towards_left = neighbours(tooth)
    inwards, outwards = towards_left, towards_right
    if side_of(tooth) == "left":
        inwards, outwards = outwards, inwards
    return inwards if side == "mesial" else outwards


def _only_third(tooth: int, side: PlaneSide) -> bool:
    """Whether the gap is no more than an absent third molar behind a second molar."""
    beside = _beside(tooth, side)
    return beside is not None and is_third_molar(beside) and position_of(tooth) == 7


def _last(tooth: int, present: tuple[int, ...]) -> bool:
    """No tooth stands behind it on its side."""
    behind = [t for t in present if side_of(t) == side_of(tooth) and t % 10 > tooth % 10]
    return not behind
