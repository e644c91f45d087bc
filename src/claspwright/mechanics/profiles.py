"""Cross-sections at the stations of an arm: of a form, or cut from a solid."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np
from shapely import get_coordinates, line_interpolate_point
from shapely.geometry import MultiPolygon, Polygon

from claspwright.base import Floats, InputError
from claspwright.mechanics.sections import HALF_ROUND_CENTROID, HALF_ROUND_I

RIM = 49  # points on the rim of a section at which stress is read; odd, so that one is the crown
SEMICIRCLE_TORSION = 0.2964  # times r^4 (Roark; Timoshenko and Goodier, sector of 180 degrees)
SEMICIRCLE_SHEAR = 0.849 / SEMICIRCLE_TORSION  # times T / r^3, the same tables
SAINT_VENANT = 40.0  # J = A^4 / (40 I_p): 2 % high for a semicircle, 1 % low for a circle


@dataclass(frozen=True, slots=True, eq=False)
class Profiles:
    """Sections at S stations; u runs along the tooth's surface across the arm, w off the tooth.

    Both from the arm's line on the tooth [mm].
    """

    area: Floats  # (S,) mm2
    centre: Floats  # (S, 2) centroid (u, w)
    i_w: Floats  # (S,) integral of w^2 about the centroid: resists springing off the tooth, mm4
    i_u: Floats  # (S,) integral of u^2 about the centroid: resists bending along the tooth, mm4
    i_uw: Floats  # (S,) mixed, mm4
    torsion: Floats  # (S,) torsion constant, mm4
    twist: Floats  # (S,) greatest shear stress of a unit torque, 1/mm3
    rim: Floats  # (S, RIM, 2) points (u, w) of the rim about the centroid

    def __post_init__(self) -> None:
        for name in ("area", "i_w", "i_u", "torsion"):
            values = getattr(self, name)
            if values.shape != self.area.shape or not np.all(values > 0):
                raise InputError(f"{name} of every section must be positive")

    def at(self, place: Floats) -> Profiles:
        """The sections at (P,) fractional stations, figures in between drawn straight."""
        low = np.clip(np.floor(place).astype(int), 0, max(len(self.area) - 2, 0))
        high = np.minimum(low + 1, len(self.area) - 1)
        share = np.clip(place - low, 0.0, 1.0)

        def mixed(values: Floats) -> Floats:
            part = share.reshape(-1, *[1] * (values.ndim - 1))
            return np.asarray(values[low] * (1 - part) + values[high] * part)

        return Profiles(*(mixed(getattr(self, f.name)) for f in fields(self)))


def half_ovals(width: Floats, thickness: Floats) -> Profiles:
    """Half ellipses on their flat, each (S,) wide and thick [mm]; half-rounds where w = 2 t.

    Source:
        Section tables for the semicircle, stretched; torsion by Saint-Venant's A^4 / I_p,
        scaled to the exact figure of the semicircle.
    """
    a, b = _sizes(width, thickness)
    area = np.pi * a * b / 2
    i_w, i_u = HALF_ROUND_I * a * b**3, np.pi * a**3 * b / 8
    polar = HALF_ROUND_I + np.pi / 8
    scale = SEMICIRCLE_TORSION * polar / (np.pi / 2) ** 4
    torsion = scale * area**4 / (i_w + i_u)
    turn = np.linspace(0.0, np.pi, RIM)
    rim = np.stack(
        [a[:, None] * np.cos(turn), b[:, None] * (np.sin(turn) - HALF_ROUND_CENTROID)], axis=2
    )
    centre = np.stack([0 * b, HALF_ROUND_CENTROID * b], axis=1)
    twist = SEMICIRCLE_SHEAR * SEMICIRCLE_TORSION * np.minimum(a, b) / torsion
    return Profiles(area, centre, i_w, i_u, 0 * area, torsion, twist, rim)


def rounds(diameter: Floats) -> Profiles:
    """Round wire of (S,) diameters, lying on the tooth [mm].

    Source:
        I = pi d^4 / 64, J = 2 I, greatest shear 16 T / (pi d^3).
    """
    d, _ = _sizes(2 * diameter, diameter)
    inertia = np.pi * d**4 / 64
    turn = np.linspace(0.0, 2 * np.pi, RIM, endpoint=False)
    rim = d[:, None, None] / 2 * np.stack([np.cos(turn), np.sin(turn)], axis=1)
    centre = np.stack([0 * d, d / 2], axis=1)
    return Profiles(
        np.pi * d**2 / 4, centre, inertia, inertia, 0 * d, 2 * inertia, 16 / (np.pi * d**3), rim
    )


def outlines(sections: Sequence[Polygon]) -> Profiles:
    """Any sections, as polygons in (u, w) about the line of the arm [mm].

    Source:
        Green's theorem on the polygon; torsion constant J = A^4 / (40 I_p) of Saint-Venant,
        greatest shear T times the largest thickness over J (upper bound).
    """
    rows = [_polygon(section) for section in sections]
    return Profiles(*(np.array([row[k] for row in rows]) for k in range(8)))


def _polygon(section: Polygon) -> tuple[float, Floats, float, float, float, float, float, Floats]:
    ring = np.asarray(section.exterior.coords, dtype=np.float64)
    area, first, second = _moments(ring)
    for hole in section.interiors:
        part = _moments(np.asarray(hole.coords, dtype=np.float64))
        area, first, second = area - part[0], first - part[1], second - part[2]
    if not area > 0:
        raise InputError("a section of an arm has no area")
    centre = first / area
    i_u = float(second[0] - area * centre[0] ** 2)
    i_w = float(second[1] - area * centre[1] ** 2)
    i_uw = float(second[2] - area * centre[0] * centre[1])
    torsion = area**4 / (SAINT_VENANT * (i_u + i_w))
    step = np.linspace(0.0, 1.0, RIM, endpoint=False)
    rim = get_coordinates(line_interpolate_point(section.exterior, step, normalized=True))
    thick = 2 * area / (section.length / 2)  # a strip's thickness; the diameter of a circle
    return area, centre, i_w, i_u, i_uw, torsion, thick / torsion, rim - centre


def _moments(ring: Floats) -> tuple[float, Floats, Floats]:
    """Area, first moments (u, w) and second moments (uu, ww, uw) of a closed ring."""
    x0, y0, x1, y1 = *ring[:-1].T, *ring[1:].T
    cross = x0 * y1 - x1 * y0
    sign = 1.0 if cross.sum() > 0 else -1.0
    cross = sign * cross
    first = np.array([((x0 + x1) * cross).sum(), ((y0 + y1) * cross).sum()]) / 6
    uu = ((x0**2 + x0 * x1 + x1**2) * cross).sum() / 12
    ww = ((y0**2 + y0 * y1 + y1**2) * cross).sum() / 12
    uw = ((x0 * y1 + 2 * x0 * y0 + 2 * x1 * y1 + x1 * y0) * cross).sum() / 24
    return float(cross.sum() / 2), first, np.array([uu, ww, uw])


def ground_off(section: Polygon, depth: float) -> Polygon:
    """A section after finishing has taken a depth off all round; itself where nothing stays."""
    less = section.buffer(-depth, join_style="mitre")
    if isinstance(less, MultiPolygon):
        less = max(less.geoms, key=lambda piece: piece.area)
    return less if isinstance(less, Polygon) and not less.is_empty else section


def _sizes(width: Floats, thickness: Floats) -> tuple[Floats, Floats]:
    wide, thick = np.broadcast_arrays(
        np.asarray(width, dtype=np.float64), np.asarray(thickness, dtype=np.float64)
    )
    if wide.ndim != 1 or not (np.all(wide > 0) and np.all(thick > 0)):
        raise InputError("width and thickness of an arm must be (S,) and positive")
    return wide / 2, thick
