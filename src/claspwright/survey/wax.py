"""What is asked of blockout and relief beyond the parallel filling, and what came of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Floats, InputError, Point
from claspwright.geometry import Field

Kind = Literal["blockout", "fill", "relief", "ledge", "bead"]
STEEPEST_TAPER_DEG = 6.0  # check-values B22: 2 to 6 degrees where a tapered tool is used
LEDGE_MM = (0.8, 2.0)  # width and height of a ledge, own choice, no source


@dataclass(frozen=True, slots=True)
class Patch:
    """A round place marked by hand: a torus to relieve, or an embrasure to fill."""

    name: str
    at: Point  # on the surface, arch frame [mm]
    radius_mm: float
    thickness_mm: float = 0.0  # of relief; a fill has none

    def __post_init__(self) -> None:
        if not (self.radius_mm > 0 and self.thickness_mm >= 0):
            raise InputError(
                f"{self.name}: a radius of {self.radius_mm} mm and a thickness of "
                f"{self.thickness_mm} mm make no patch"
            )


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """A curve on the surface along which a ledge is set or a bead line is cut."""

    name: str
    line: Floats  # (N, 3) arch frame [mm]
    width_mm: float
    depth_mm: float  # height of a ledge below the line, depth of a bead


@dataclass(frozen=True, slots=True)
class Wax:
    """What is asked: the defaults ask for plain parallel blockout."""

    taper_deg: float = 0.0  # of the walls, against the path
    fills: tuple[Patch, ...] = ()  # arbitrary fill of what nothing crosses
    reliefs: tuple[Patch, ...] = ()  # marked by hand, such as tori
    ledges: bool = False  # under the retentive arms, to guide their underside
    embrasures: bool = False  # filled where no metal crosses them
    bead_line: bool = False  # along the border of a palatal connector
    beads: tuple[Course, ...] = ()  # lines that are cut besides

    def __post_init__(self) -> None:
        if not 0.0 <= self.taper_deg <= STEEPEST_TAPER_DEG:
            raise InputError(
                f"a taper of {self.taper_deg} degrees lies outside 0 to {STEEPEST_TAPER_DEG:.0f}",
                remedy="Parallel blockout has 0; a tapered tool 2 to 6 degrees.",
            )


@dataclass(frozen=True, slots=True, eq=False)
class Relief:
    """Relief on the grid of a survey, and which part of it each node belongs to."""

    field: Field  # thickness >= 0 [mm]; 0 where a tissue stop reaches through
    part: NDArray[Any]  # (NX, NY, NZ) int8: 1 + index into names; 0 where there is none
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WaxBody:
    """One body of the blocked-out model that can be named, shown and weighed."""

    name: str  # such as "blockout.36", "relief.base.46-47", "fill.1"
    kind: Kind
    volume_mm3: float  # of a bead: what was cut away, negative
    at_mm: Point  # its middle, arch frame


@dataclass(frozen=True, slots=True, eq=False)
class WaxMap:
    """Which body each place of the model's surface belongs to."""

    points: Floats  # (M, 3) near the surface of the bodies, arch frame [mm]
    body: NDArray[Any]  # (M,) int16 index into the bodies


NO_WAX = Wax()
NO_MAP = WaxMap(np.empty((0, 3)), np.empty(0, np.int16))
