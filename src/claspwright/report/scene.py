"""What a picture shows: meshes, lines and words in one frame (mm)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats, InputError
from claspwright.geometry import Mesh
from claspwright.report.colours import mapped, signed

Colour = tuple[int, int, int]

STONE: Colour = (226, 214, 190)
METAL: Colour = (128, 146, 168)
TISSUE: Colour = (214, 160, 150)
OPPOSING: Colour = (190, 200, 205)
WAX: Colour = (196, 120, 96)
ENAMEL: Colour = (240, 236, 222)
ACRYLIC: Colour = (222, 150, 156)
INK: Colour = (32, 36, 44)


@dataclass(frozen=True, slots=True, eq=False)
class Item:
    """One mesh of a picture, in one colour or coloured by a value at its vertices."""

    mesh: Mesh
    colour: Colour = STONE
    name: str = ""
    values: Floats | None = None  # (V,) mapped to colours; not finite: the plain colour
    low: float = 0.0  # value at the light end of the map; below zero: the map of signed values
    high: float = 1.0  # value at the dark end of the map
    plain_below: float = -np.inf  # values under this keep the plain colour
    levels: tuple[float, ...] = ()  # values at which a contour line is drawn
    opacity: float = 1.0
    shine: float = 0.15  # strength of the highlight

    def __post_init__(self) -> None:
        if self.values is not None and self.values.shape != (len(self.mesh.vertices),):
            raise InputError(
                f"values of a picture must be ({len(self.mesh.vertices)},), got {self.values.shape}"
            )
        if not self.high > self.low or not 0 < self.opacity <= 1:
            raise InputError("a picture needs low < high and 0 < opacity <= 1")

    def colours(self, values: Floats) -> Floats:
        """(N, 3) colours from 0 to 255 of (N,) values; zero lies in the middle of a signed map."""
        if self.low < 0.0:
            return signed(values, max(-self.low, abs(self.high)))
        return mapped(values, self.low, self.high)


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """A polyline drawn on the picture, hidden where a surface lies in front of it."""

    points: Floats  # (N, 3) mm
    colour: Colour = INK
    width_px: float = 2.0
    closed: bool = False
    lift_mm: float = 0.2  # how far it may lie under a surface and still be seen
    dash_mm: float = 0.0  # length of dashes and gaps; 0: drawn through


@dataclass(frozen=True, slots=True, eq=False)
class Label:
    """A word at a point, always in front; `offset_px` moves the word off its point."""

    at: Floats  # (3,) mm
    text: str
    colour: Colour = INK
    size_px: int = 15
    offset_px: tuple[float, float] = (0.0, 0.0)
    dot: bool = False
    when_hidden: bool = True  # draw it also where a surface lies in front of its point


@dataclass(frozen=True, slots=True, eq=False)
class Scene:
    """Everything that one picture shows."""

    items: tuple[Item, ...]
    lines: tuple[Line, ...] = ()
    labels: tuple[Label, ...] = ()

    def bounds(self) -> Floats:
        """(2, 3) lowest and highest coordinate of all items [mm]."""
        boxes = [item.mesh.bounds for item in self.items if len(item.mesh.vertices)]
        if not boxes:
            raise InputError("a picture needs at least one mesh with vertices")
        both = np.stack(boxes)
        return np.stack([both[:, 0].min(axis=0), both[:, 1].max(axis=0)])
