"""Which rest seat of a tooth each rest of a design uses."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from claspwright.arch import DentalArch, RestSeat, SeatPlace, find_rest_seat
from claspwright.framework import SEAT_OF, Retainer

PLACES: Mapping[str, SeatPlace] = {str(rest): place for rest, place in SEAT_OF.items()}


def seats_of(arch: DentalArch, retainers: Iterable[Retainer]) -> tuple[RestSeat, ...]:
    """The seats that the rests of these retainers lie in, or are asked for."""
    return tuple(
        find_rest_seat(arch, retainer.tooth, PLACES[rest])
        for retainer in retainers
        for rest in retainer.rests
    )
