"""What intake leaves behind: the master scan, its closed solid, the teeth and the spans.

Everything is in the arch frame: origin at the centre of the occlusal plane's tooth points,
+z occlusal (away from the tissue), +y anterior, right-handed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

import numpy as np

from claspwright.base import Bools, Finding, Floats, Ints, frozen_floats
from claspwright.geometry import Mesh, Rigid

Jaw = Literal["mandible", "maxilla"]
SeatPlace = Literal["mesial", "distal", "cingulum", "mesial incisal", "distal incisal", "occlusal"]


def patient_right(jaw: Jaw) -> Floats:
    """(3,) unit vector to the patient's right in the arch frame: +x below, -x above."""
    return np.array([1.0 if jaw == "mandible" else -1.0, 0.0, 0.0])


@dataclass(frozen=True, slots=True, eq=False)
class MasterScan:
    """A cleaned, oriented scan and the closed solid made from it.

    The vertices and faces of `surface` are the first ones of `solid`, unchanged and in the
    same order, so that a face index below len(surface.faces) is valid in both.
    """

    jaw: Jaw
    surface: Mesh  # open, one piece, arch frame
    solid: Mesh  # closed, volume > 0, arch frame
    scan_to_arch: Rigid  # from the frame of the file (in mm) to the arch frame
    edge_mm: float  # median edge length
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Tooth:
    """One present tooth: its crown region, gingival margin and directions."""

    code: int  # ISO 3950
    mark: Floats  # (3,) on the crown [mm]
    faces: Ints  # (N,) face indices of the crown region in the master surface
    margin: Floats  # (M, 3) gingival margin, closed polyline, counter-clockwise seen from +z
    centre: Floats  # (3,) centre of the crown region [mm]
    mesial: Floats  # (3,) horizontal unit vector towards the midline along the arch
    buccal: Floats  # (3,) horizontal unit vector outwards (labial on front teeth)
    mesiodistal_mm: float
    buccolingual_mm: float
    height_mm: float  # from the margin's mean level to the highest cusp, along z

    @property
    def distal(self) -> Floats:
        """(3,) away from the midline along the arch."""
        return -self.mesial

    @property
    def lingual(self) -> Floats:
        """(3,) towards the tongue or palate."""
        return -self.buccal


@dataclass(frozen=True, slots=True, eq=False)
class Span:
    """One edentulous area; listed and run from the patient's right end of the arch to the left.

    `ends` are the neighbouring present teeth, None where the span ends free.
    """

    missing: tuple[int, ...]  # in arch order, patient's right to left
    ends: tuple[int | None, int | None]
    crest: Floats  # (K, 3) ridge crest on the surface from ends[0] to ends[1], even steps [mm]
    buccal: Floats  # (K, 3) horizontal unit vectors outwards
    buccal_width_mm: Floats  # (K,) surface length from the crest to the buccal limit of a base
    lingual_width_mm: Floats  # (K,) the same on the tongue or palate side


@dataclass(frozen=True, slots=True, eq=False)
class RestSeat:
    """A rest seat on one tooth, prepared or asked for; arch frame."""

    tooth: int
    where: SeatPlace
    point: Floats  # (3,) on the seat's floor [mm]
    direction: Floats  # (3,) horizontal unit vector into the tooth
    prepared: bool
    depth_mm: float  # of the floor at the rim below the marginal ridge beside it; 0 unprepared
    width_mm: float  # across the direction
    outline: Floats  # (M, 3) on the surface, counter-clockwise seen from +z [mm]

    def __post_init__(self) -> None:
        for name, shape in (("point", (3,)), ("direction", (3,)), ("outline", (None, 3))):
            object.__setattr__(self, name, frozen_floats(getattr(self, name), shape, name))


@dataclass(frozen=True, slots=True, eq=False)
class DentalArch:
    """The master scan with its teeth, spans and, where given, the opposing arch."""

    scan: MasterScan
    teeth: Mapping[int, Tooth]
    spans: tuple[Span, ...]
    crown_of_face: Ints  # (F,) ISO 3950 code of each master surface face, 0 on tissue
    opposing: Mesh | None = None  # arch frame, in bite relation
    findings: tuple[Finding, ...] = field(default=())
    found_seats: dict[tuple[int, SeatPlace], RestSeat] = field(
        default_factory=dict, init=False, repr=False
    )  # those that were sought, for whoever asks again

    @property
    def tissue(self) -> Bools:
        """(F,) True for the faces of the master surface that lie on no crown."""
        return np.asarray(self.crown_of_face == 0, dtype=np.bool_)
