"""Cross-sections of arms and bars."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from claspwright.base import InputError

HALF_ROUND_I = pi / 8 - 8 / (9 * pi)  # 0.109757, of a semicircle of radius 1 about its centroid
HALF_ROUND_CENTROID = 4 / (3 * pi)  # 0.42441 above the flat


@dataclass(frozen=True, slots=True)
class Section:
    """Cross-section of a bar or clasp arm; x along the flat, y away from the tissue."""

    area: float  # mm2
    centroid_y: float  # mm above the flat
    i_x: float  # mm4, resists lifting off the tissue
    i_y: float  # mm4, resists bending along the surface
    c_max: float  # mm, from the centroid to the farthest fibre in y

    def __post_init__(self) -> None:
        if not min(self.area, self.i_x, self.i_y, self.c_max) > 0:
            raise InputError(f"section needs positive sizes, got {self}")


def half_round(radius: float) -> Section:
    """A semicircle on its flat [mm].

    Source:
        Section tables: I = (pi/8 - 8/(9 pi)) r^4 about the centroid, pi r^4 / 8 across.
    """
    return half_ellipse(radius, radius)


def half_ellipse(half_width: float, height: float) -> Section:
    """Half an ellipse on its flat [mm].

    Source:
        The semicircle stretched: i_x = 0.109757 a b^3, i_y = pi a^3 b / 8.
    """
    _positive(half_width=half_width, height=height)
    return Section(
        area=pi * half_width * height / 2,
        centroid_y=HALF_ROUND_CENTROID * height,
        i_x=HALF_ROUND_I * half_width * height**3,
        i_y=pi * half_width**3 * height / 8,
        c_max=(1 - HALF_ROUND_CENTROID) * height,
    )


def circle(diameter: float) -> Section:
    """A round wire [mm]; I = pi d^4 / 64."""
    _positive(diameter=diameter)
    i = pi * diameter**4 / 64
    return Section(pi * diameter**2 / 4, diameter / 2, i, i, diameter / 2)


def rectangle(width: float, height: float) -> Section:
    """A flat bar [mm]; I = b h^3 / 12."""
    _positive(width=width, height=height)
    return Section(
        width * height, height / 2, width * height**3 / 12, height * width**3 / 12, height / 2
    )


def _positive(**sizes: float) -> None:
    for name, size in sizes.items():
        if not size > 0:
            raise InputError(f"{name} must be positive, got {size} mm")
