"""Which rest seat of a tooth each rest of a design uses."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from claspwright.arch import DentalArch, RestSeat, SeatPlace, find_rest_seat
from claspwright.framework import SEAT_OF, Retainer, facing

PLACES: Mapping[str, SeatPlace] = {str(rest): place for rest, place in SEAT_OF.items()}


def places_of(arch: DentalArch, retainer: Retainer) -> tuple[tuple[int, SeatPlace], ...]:
    """(tooth, place) of every seat that a retainer's rests need, on both teeth of an embrasure.

    An onlay needs none.
    """
    found: list[tuple[int, SeatPlace]] = []
    for rest in retainer.rests:
        if rest == "onlay":
            continue
        found.append((retainer.tooth, PLACES[rest]))
        if rest.endswith("embrasure"):
            beside = facing(arch, retainer.tooth, "mesial" if "mesial" in rest else "distal")
            if beside is not None:
                found.append(beside)
    return tuple(found)


def seats_of(arch: DentalArch, retainers: Iterable[Retainer]) -> tuple[RestSeat, ...]:
    """The seats that the rests of these retainers lie in, or are asked for."""
    return tuple(
        find_rest_seat(arch, retainer.tooth, PLACES[rest])
        for retainer in retainers
        for rest in retainer.rests
    )
