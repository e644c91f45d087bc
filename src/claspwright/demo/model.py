"""What the builder of invented arches takes and gives."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from claspwright.arch import Jaw, jaw_of
from claspwright.base import Floats, InputError, Ints
from claspwright.geometry import Mesh, Rigid

SeatForm = Literal["mesial", "distal", "cingulum"]
PlaneSide = Literal["mesial", "distal"]

THIRD_MOLARS = (18, 28, 38, 48)


@dataclass(frozen=True, slots=True, eq=False)
class ArchOptions:
    """What to build; codes are ISO 3950.

    `missing` lists the absent teeth of `jaw`; `crowns` is "parametric" or real crowns by
    code, closed meshes of one adult in one frame.
    """

    jaw: Jaw
    missing: tuple[int, ...] = ()
    seed: int = 1
    crowns: Literal["parametric"] | Mapping[int, Mesh] = "parametric"
    seats: Mapping[int, tuple[SeatForm, ...]] = field(default_factory=dict)
    planes: Mapping[int, tuple[PlaneSide, ...]] = field(default_factory=dict)
    edge_mm: float = 0.15
    noise_um: float = 0.0
    pose_seed: int | None = None  # None: the arch frame; else a random rigid motion
    opposing_missing: tuple[int, ...] = ()
    with_opposing: bool = True

    def __post_init__(self) -> None:
        wrong = [c for c in self.missing if jaw_of(c) != self.jaw or not 1 <= c % 10 <= 8]
        if wrong:
            raise InputError(
                f"missing teeth {wrong} are not teeth of the {self.jaw}",
                remedy="use ISO 3950 codes",
            )
        cut = [c for c in (*self.seats, *self.planes) if c in self.missing]
        if cut:
            raise InputError(f"rest seats or guiding planes asked for on missing teeth {cut}")
        if len(set(self.missing)) > 14:
            raise InputError(
                f"only {16 - len(set(self.missing))} teeth stand",
                remedy="Leave at least two; a framework needs abutments.",
            )
        if not 0.08 <= self.edge_mm <= 0.6:
            raise InputError(f"edge_mm must lie between 0.08 and 0.6, got {self.edge_mm}")


@dataclass(frozen=True, slots=True, eq=False)
class Seat:
    """A prepared rest seat."""

    tooth: int
    form: SeatForm
    centre: Floats  # (3,) deepest point of the floor, arch frame [mm]
    depth_mm: float  # below the unprepared surface


@dataclass(frozen=True, slots=True, eq=False)
class GuidingPlane:
    """A flat prepared on an abutment, parallel to +z of the arch frame."""

    tooth: int
    side: PlaneSide
    normal: Floats  # (3,) horizontal unit vector out of the tooth
    centre: Floats  # (3,) arch frame [mm]
    height_mm: float


@dataclass(frozen=True, slots=True, eq=False)
class Truth:
    """What only tests may know."""

    marks: Mapping[int, Floats]  # (3,) on each crown, frame of the scan [mm]
    crown_of_face: Ints  # (F,) ISO 3950 code of each master face, 0 on gum
    seats: tuple[Seat, ...]
    planes: tuple[GuidingPlane, ...]
    arch_to_scan: Rigid
    centres: Mapping[int, Floats]  # (3,) crown centres, arch frame [mm]
    margins: Mapping[int, Floats]  # (36, 3) gingival margin aimed at, arch frame [mm]


@dataclass(frozen=True, slots=True, eq=False)
class DemoArch:
    """An invented scan with its opposing arch and bite record, all in one scan frame."""

    jaw: Jaw
    master: Mesh  # open, one piece, mm
    opposing: Mesh | None  # open, in bite relation to the master
    bite: Mesh | None  # buccal patch of both arches in occlusion
    truth: Truth
