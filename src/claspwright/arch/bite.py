"""The bite: where the teeth meet, whether they hold the record, and the room that it leaves."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from claspwright.arch.model import DentalArch, RestSeat
from claspwright.arch.notation import kind_of, side_of
from claspwright.arch.occlusion import gap_above
from claspwright.base import Finding, Floats, frozen_floats
from claspwright.geometry import Mesh, Rigid, rotation_between

CONTACT_MM = 0.1  # nearer counts as contact; a bite record repeats no better
DEEP_MM = 0.3  # teeth that enter one another further were not scanned at this bite
BASE_ROOM_MM = 5.0  # tooth, acrylic, lattice and its relief over a ridge
SHOULDER_MM = 1.3  # rest and clasp shoulder over the marginal ridge
TOP_MM = 2.0  # mm from the top of a crown in which contacts are looked for
_REST = "rest 1 mm thick at the least, with 0.1 mm for the record and 0.2 mm to finish [own]"
_BASE = "artificial tooth 2 to 3, acrylic 1 to 2 and lattice with relief 1.5 mm [common practice]"
_STOPS = "teeth that meet on both sides behind the canines hold the record [common practice]"


@dataclass(frozen=True, slots=True, eq=False)
class Bite:
    """How the two arches meet; arch frame, mm."""

    gap_mm: Mapping[int, float]  # least gap over each crown in closing; inf where none opposes
    contacts: Mapping[int, Floats]  # (P, 3) points of each crown that touch
    stops: tuple[int, ...]  # premolars and molars that touch
    span_room_mm: tuple[float, ...]  # least room over the crest of each span
    closing_mm: Floats  # (V,) room over each vertex of the master along +z
    path_mm: Floats  # (V,) the same along the path of placement

    def __post_init__(self) -> None:
        for name in ("closing_mm", "path_mm"):
            value = np.asarray(getattr(self, name), dtype=np.float64)
            value.setflags(write=False)
            object.__setattr__(self, name, value)

    @property
    def holds(self) -> bool:
        """Posterior teeth of both sides meet, so that the record stands by itself."""
        return {side_of(code) for code in self.stops} == {"right", "left"}


def read_bite(arch: DentalArch, path: Floats) -> Bite | None:
    """Contacts and room between the arches at the recorded vertical dimension.

    Args:
        arch: the arch with its teeth; None is returned where nothing opposes.
        path: (3,) unit vector out of the mouth.
    """
    if arch.opposing is None:
        return None
    surface = arch.scan.surface
    closing = gap_above(arch.opposing, surface.vertices)
    gaps: dict[int, float] = {}
    contacts: dict[int, Floats] = {}
    for code, tooth in arch.teeth.items():
        names = np.unique(surface.faces[tooth.faces])
        points, gap = surface.vertices[names], closing[names]
        gaps[code] = float(gap.min())
        near = (gap < CONTACT_MM) & (points[:, 2] > points[:, 2].max() - 3 * TOP_MM)
        contacts[code] = frozen_floats(points[near], (None, 3), "contacts")
    stops = tuple(
        code
        for code, points in contacts.items()
        if len(points) and kind_of(code) in ("premolar", "molar")
    )
    rooms = tuple(_room(gap_above(arch.opposing, span.crest)) for span in arch.spans)
    return Bite(gaps, contacts, stops, rooms, closing, _along(arch.opposing, surface, path))


def bite_findings(
    arch: DentalArch, bite: Bite | None, seats: Iterable[RestSeat] = ()
) -> tuple[Finding, ...]:
    """What the bite says of the case: missing, provisional, too deep, or too little room.

    Args:
        arch: the arch with its teeth.
        bite: as read; None where no opposing arch was given.
        seats: the rest seats that the design uses.
    """
    if bite is None:
        text = (
            "No opposing arch was given. Send it with a bite record: room for rests, clasp "
            "shoulders and artificial teeth is not known."
        )
        return (Finding("bite.wanted", "look", text, "a bite is always wanted [own]"),)
    out = [_stops(bite), *_deep(arch, bite)]
    for span, room in zip(arch.spans, bite.span_room_mm, strict=True):
        if room < BASE_ROOM_MM:
            teeth = ", ".join(map(str, span.missing))
            text = (
                f"Over the ridge of {teeth} the opposing teeth leave {room:.1f} mm: too little for "
                "artificial teeth, acrylic and lattice. Ask the dentist; metal teeth may be needed."
            )
            middle = span.crest[len(span.crest) // 2]
            out.append(
                Finding("bite.base_room", "look", text, _BASE, round(room, 2), BASE_ROOM_MM, "mm",
                        _at(middle))
            )  # fmt: skip
    out += [finding for seat in seats for finding in _seat_room(arch, seat)]
    return tuple(out)


def _along(opposing: Mesh, surface: Mesh, path: Floats) -> Floats:
    turned = Rigid(rotation_between(path, np.array([0.0, 0.0, 1.0])), np.zeros(3))
    return gap_above(opposing.moved(turned), turned.apply(surface.vertices))


def _room(gaps: Floats) -> float:
    known = gaps[np.isfinite(gaps)]
    return float(np.percentile(known, 10)) if len(known) else float("inf")


def _stops(bite: Bite) -> Finding:
    meeting = [code for code, points in bite.contacts.items() if len(points)]
    named = ", ".join(map(str, bite.stops)) or "none"
    if bite.holds:
        text = f"Back teeth meet on both sides ({named}); they hold the record."
        return Finding("bite.stops", "note", text, _STOPS, float(len(bite.stops)), None, "teeth")
    text = (
        f"Back teeth do not meet on both sides (meeting: {named}; {len(meeting)} crowns in all "
        "touch): every clearance is provisional. Take the record with rims, best on the finished "
        "framework, and judge the room again then."
    )
    return Finding("bite.provisional", "look", text, _STOPS, float(len(bite.stops)), 2.0, "teeth")


def _deep(arch: DentalArch, bite: Bite) -> list[Finding]:
    worst = min(bite.gap_mm, key=lambda code: bite.gap_mm[code], default=None)
    if worst is None or bite.gap_mm[worst] >= -DEEP_MM:
        return []
    text = (
        f"Tooth {worst} enters the opposing teeth by {-bite.gap_mm[worst]:.2f} mm at the recorded "
        "vertical dimension: the scans are not in bite relation, or were bitten through."
    )
    return [
        Finding("bite.too_deep", "look", text, "own choice", round(bite.gap_mm[worst], 2),
                -DEEP_MM, "mm", _at(arch.teeth[worst].centre), f"tooth.{worst}")
    ]  # fmt: skip


def _seat_room(arch: DentalArch, seat: RestSeat) -> list[Finding]:
    """Room over the floor of a seat and over its outline, where rest and shoulder lie."""
    if arch.opposing is None:
        return []
    points = np.concatenate([seat.point[None], seat.outline])
    room = gap_above(arch.opposing, points)
    over = float(room[0])
    if over >= SHOULDER_MM:
        return []
    text = (
        f"Over the {seat.where} rest seat of {seat.tooth} the opposing teeth leave {over:.2f} mm: "
        f"a rest with its shoulder takes {SHOULDER_MM} mm. Ask for a deeper seat, or reduce the "
        "opposing cusp."
    )
    return [
        Finding("bite.rest_room", "look", text, _REST, round(over, 2), SHOULDER_MM, "mm",
                _at(seat.point), f"tooth.{seat.tooth}")
    ]  # fmt: skip


def _at(point: Floats) -> tuple[float, float, float]:
    x, y, z = (round(float(v), 3) for v in point)
    return x, y, z
