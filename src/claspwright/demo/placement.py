"""Where each tooth stands: sizes with a seeded variation, set along the arch curve."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from claspwright.arch import Jaw
from claspwright.base import Floats, Singles
from claspwright.demo.arch_line import ArchLine, average_line
from claspwright.demo.crowns import (
    Profiles,
    anterior_field,
    anterior_profiles,
    posterior_field,
    posterior_profiles,
)
from claspwright.demo.morphology import FORMS, AnteriorForm, PosteriorForm
from claspwright.demo.sizes import (
    ASH,
    BUCCAL_TILT,
    MESIAL_TIP,
    ToothSize,
    arch_codes,
    side_sign,
)
from claspwright.geometry import Rigid

# the medians are of young people; and crowns of textbook size meet near the edge, so that the
# centroids of a tight row come closer together than on a curve of the same scale
_ADULT: dict[Jaw, float] = {"mandible": 1.07, "maxilla": 1.06}

OCCLUSAL_SPHERE_MM = 180.0  # flatter than Monson's 101.6: a mild curve of Spee


class Shape(Protocol):
    """A crown with its root as an implicit field in the tooth frame (m, b, z)."""

    def values(self, m: Singles, b: Singles, z: Singles) -> Singles:
        """Negative inside; close to a distance near the surface [mm]."""
        ...


@dataclass(frozen=True, slots=True, eq=False)
class ParametricShape:
    """A crown form at one size."""

    size: ToothSize
    form: AnteriorForm | PosteriorForm
    profiles: Profiles
    phases: tuple[float, ...]  # of the small irregularities that no two teeth share

    def values(self, m: Singles, b: Singles, z: Singles) -> Singles:
        """See Shape."""
        m, b, z = self._warped(m, b, z)
        if isinstance(self.form, AnteriorForm):
            return anterior_field(self.size, self.form, self.profiles, m, b, z)
        return posterior_field(self.size, self.form, self.profiles, m, b, z)

    def _warped(self, m: Singles, b: Singles, z: Singles) -> tuple[Singles, Singles, Singles]:
        """Coordinates bent by some hundredths of a millimetre: no crown is drawn with a ruler."""
        p = [np.float32(v) for v in self.phases]
        bent_m = m + _BENT_MM * np.sin(0.9 * z + p[0]) * np.sin(0.8 * b + p[1])
        bent_b = b + _BENT_MM * np.sin(1.0 * z + p[2]) * np.sin(0.9 * m + p[3])
        bent_z = z + _BENT_MM * np.sin(1.2 * m + p[4]) * np.sin(1.1 * b + p[5])
        return bent_m, bent_b, bent_z


@dataclass(frozen=True, slots=True, eq=False)
class PlacedTooth:
    """One tooth in the arch frame.

    The tooth frame has its origin at the centre of the cervix, u along the arch towards +x,
    b outwards, z occlusal; m = mirror * u points towards the midline.
    """

    code: int
    size: ToothSize
    shape: Shape
    frame: Rigid  # arch -> (u, b, z)
    margin: Floats  # (K,) height of the gingival margin over the cervix, by angle from +m [mm]
    neck: tuple[float, float]  # reach of the neck buccally and lingually of the origin [mm]

    @property
    def mirror(self) -> float:
        """-1 on the +x side."""
        return -side_sign(self.code)

    def to_tooth(self, points: Floats) -> Floats:
        """(N, 3) arch points in the tooth's (m, b, z)."""
        flip = np.array([self.mirror, 1.0, 1.0])
        return np.asarray(self.frame.apply(points) * flip, dtype=np.float64)

    def to_arch(self, points: Floats) -> Floats:
        """(N, 3) tooth points (m, b, z) in the arch frame."""
        flipped = points * np.array([self.mirror, 1.0, 1.0])
        return np.asarray(self.frame.inverse().apply(flipped), dtype=np.float64)


def varied_sizes(jaw: Jaw, rng: np.random.Generator) -> dict[int, ToothSize]:
    """Ash's averages with a seeded spread of a few per cent, alike on both sides."""
    whole = rng.normal(1.0, 0.015)
    sizes: dict[int, ToothSize] = {}
    for n, base in enumerate(ASH[jaw], start=1):
        wide, deep, tall = rng.normal(1.0, [0.015, 0.015, 0.025])
        for code in arch_codes(jaw):
            if code % 10 != n:
                continue
            own = rng.normal(1.0, 0.005, 3)
            across, along = float(whole * wide * own[1]), float(whole * deep * own[2])
            sizes[code] = ToothSize(
                base.length * float(tall * own[0]),
                base.mesiodistal * across,
                base.mesiodistal_cervix * across,
                base.buccolingual * along,
                base.buccolingual_cervix * along,
            )
    return sizes


def _frame(outwards: Floats, code: int, turn_deg: Floats, jaw: Jaw) -> Floats:
    """(3, 3) rows u, b, z of the tooth frame, with inclination, tip and a small turn."""
    n = code % 10 - 1
    b = np.array([outwards[0], outwards[1], 0.0])
    z = np.array([0.0, 0.0, 1.0])
    u = np.cross(b, z)
    tilt = np.radians(BUCCAL_TILT[jaw][n] + turn_deg[0])
    tip = np.radians(MESIAL_TIP[jaw][n] + turn_deg[1]) * -side_sign(code)
    spin = np.radians(turn_deg[2])
    u, b = np.cos(spin) * u + np.sin(spin) * b, np.cos(spin) * b - np.sin(spin) * u
    z, b = np.cos(tilt) * z + np.sin(tilt) * b, np.cos(tilt) * b - np.sin(tilt) * z
    z, u = np.cos(tip) * z + np.sin(tip) * u, np.cos(tip) * u - np.sin(tip) * z
    return np.stack([u, b, z])


def tip_of(shape: ParametricShape) -> Floats:
    """(3,) highest cusp or mid edge in the tooth frame."""
    size, form = shape.size, shape.form
    if isinstance(form, AnteriorForm):
        return np.array([0.0, form.edge_b * size.buccolingual / 2, size.length])
    top = min(form.cusps, key=lambda c: c.drop_mm)
    return np.array([top.m * size.mesiodistal / 2, top.b * size.buccolingual / 2, size.length])


MARGIN_STEPS = 72
_BENT_MM = np.float32(0.09)
GAP_RISE_MM = 0.5  # of the margin beside a gap: no papilla

# rise of the gingival margin from mid-buccal to the papilla, mesially and distally [mm];
# common practice, no source
_PAPILLA_RISE = (3.4, 3.2, 3.0, 2.4, 2.1, 1.9, 1.5, 1.2)


def margin_heights(
    rises: tuple[float, float], lingual_mm: float, rng: np.random.Generator
) -> Floats:
    """(72,) gingival margin over the cervix at angles from mesial through buccal."""
    angle = 2 * np.pi * np.arange(MARGIN_STEPS) / MARGIN_STEPS
    c, s = np.cos(angle), np.sin(angle)
    rise = np.where(c > 0, rises[0], rises[1]) * np.abs(c) ** 2.2
    side = np.where(s < 0, lingual_mm * np.abs(s) ** 1.5, 0.0)
    wave = 0.12 * np.cos(angle * 2 + rng.uniform(0, 6.3)) + rng.normal(0.15, 0.2)
    return np.asarray(rise + side + wave, dtype=np.float64)


def papilla_rise(n: int) -> float:
    """Height of a papilla over the mid-buccal margin for tooth position n (1 to 8) [mm]."""
    return _PAPILLA_RISE[n - 1]


def place_parametric(
    jaw: Jaw, missing: tuple[int, ...], seed: int
) -> tuple[ArchLine, dict[int, PlacedTooth]]:
    """All 16 teeth of a jaw on its curve, the missing ones too (the gum needs their place)."""
    rng = np.random.default_rng([seed, 1 if jaw == "maxilla" else 2])
    sizes = varied_sizes(jaw, rng)
    line = average_line(jaw, _ADULT[jaw] * float(rng.normal(1.0, 0.012)))
    placed: dict[int, PlacedTooth] = {}
    for sign in (-1.0, 1.0):
        arc, before = 0.0, None
        for code in (c for n in range(1, 9) for c in arch_codes(jaw) if c % 10 == n):
            if side_sign(code) != sign:
                continue
            size = sizes[code]
            turn_deg = rng.normal(0.0, [1.0, 0.8, 1.5])
            margin = _margin(jaw, code, missing, rng)
            shape = _shape(FORMS[jaw][code % 10 - 1], size, rng)
            own = _Own(jaw, code, shape, turn_deg, margin)

            def stand(at: float) -> PlacedTooth:
                return _placed(own, line.at(sign * at))  # noqa: B023

            arc += size.mesiodistal / 2
            tooth, arc = _touching(stand, arc, before, sign)
            placed[code] = before = tooth
            arc += size.mesiodistal / 2
    return line, placed


def _touching(
    stand: Callable[[float], PlacedTooth], arc: float, before: PlacedTooth | None, sign: float
) -> tuple[PlacedTooth, float]:
    """Slide a tooth along the arch until it touches the one before (or the midline)."""
    low, high = arc - 1.5, arc + 1.5
    for _ in range(9):
        middle = 0.5 * (low + high)
        if _overlap(stand(middle), before, sign) > 0:
            low = middle
        else:
            high = middle
    return stand(high - 0.02), high - 0.02


def _overlap(tooth: PlacedTooth, before: PlacedTooth | None, sign: float) -> float:
    """Positive where the mesial side reaches into the tooth before, or over the midline."""
    hm, hb = tooth.size.mesiodistal / 2, tooth.size.buccolingual / 2
    m, b, z = np.meshgrid(
        np.linspace(0.3, 1.15, 12) * hm,
        np.linspace(-0.8, 0.8, 13) * hb,
        np.linspace(0.25, 0.98, 13) * tooth.size.length,
        indexing="ij",
    )
    local = np.stack([m.ravel(), b.ravel(), z.ravel()], axis=1)
    own = _values(tooth, local)
    world = tooth.to_arch(local)
    if before is None:
        return float(-np.min(np.maximum(own, 3.0 * sign * world[:, 0])))
    other = _values(before, before.to_tooth(world))
    return float(-np.min(np.maximum(own, other)))


def _values(tooth: PlacedTooth, local: Floats) -> Singles:
    m, b, z = (np.ascontiguousarray(c) for c in local.astype(np.float32).T)
    return tooth.shape.values(m, b, z)


def _margin(jaw: Jaw, code: int, missing: tuple[int, ...], rng: np.random.Generator) -> Floats:
    n = code % 10
    mesial, distal = (
        papilla_rise(n) if stands else GAP_RISE_MM for stands in neighbours_present(code, missing)
    )
    lingual = 0.8 if jaw == "mandible" and n >= 4 else 0.3
    return margin_heights((mesial, distal), lingual, rng)


@dataclass(frozen=True, slots=True, eq=False)
class _Own:
    """One tooth before its place on the arch is found."""

    jaw: Jaw
    code: int
    shape: ParametricShape
    turn_deg: Floats  # (3,) added to inclination, tip and turn about the axis
    margin: Floats


def _shape(
    form: AnteriorForm | PosteriorForm, size: ToothSize, rng: np.random.Generator
) -> ParametricShape:
    phases = tuple(float(v) for v in rng.uniform(0.0, 2 * np.pi, 6))
    if isinstance(form, AnteriorForm):
        return ParametricShape(size, form, anterior_profiles(size, form), phases)
    return ParametricShape(size, form, posterior_profiles(size, form), phases)


def _placed(own: _Own, at: tuple[Floats, Floats]) -> PlacedTooth:
    """The tooth with its crown's centre at a point of the arch and its cusp at its height."""
    centre, outwards = at
    size, code = own.shape.size, own.code
    rows = _frame(outwards, code, own.turn_deg, own.jaw)
    mirror = np.array([-side_sign(code), 1.0, 1.0])
    middle = rows.T @ (np.array([0.0, 0.0, size.length / 2]) * mirror)
    origin = np.array([centre[0], centre[1], 0.0]) - middle
    tip = origin + rows.T @ (tip_of(own.shape) * mirror)
    origin[2] += occlusal_height_at(own.jaw, tip[:2]) + _edge_lift(code) - tip[2]
    half = size.buccolingual_cervix / 2
    frame = Rigid(rows, -rows @ origin)
    return PlacedTooth(code, size, own.shape, frame, own.margin, (half, half))


def neighbours_present(code: int, missing: tuple[int, ...]) -> tuple[bool, bool]:
    """Whether the mesial and the distal neighbour stand."""
    q, n = divmod(code, 10)
    opposite = {1: 2, 2: 1, 3: 4, 4: 3}[q]
    mesial = opposite * 10 + 1 if n == 1 else code - 1
    return mesial not in missing, n < 8 and code + 1 not in missing


def occlusal_height_at(jaw: Jaw, xy: Floats) -> float:
    """Height of the curved occlusal surface; rises backwards below, falls above [mm]."""
    apex = np.array([0.0, -24.0])
    bowl = float(((xy - apex) ** 2).sum()) / (2 * OCCLUSAL_SPHERE_MM) - 1.6
    return bowl if jaw == "mandible" else -bowl


def _edge_lift(code: int) -> float:
    """How far the highest cusp stands over the common surface (overbite, interdigitation)."""
    n = code % 10
    if n == 3:
        return 1.7
    return 1.2 if n < 3 else 0.9


def centres(placed: Mapping[int, PlacedTooth]) -> dict[int, Floats]:
    """(3,) crown centres in the arch frame."""
    return {c: t.to_arch(np.array([[0.0, 0.0, t.size.length / 2]]))[0] for c, t in placed.items()}
