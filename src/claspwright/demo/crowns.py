"""Parametric crowns as implicit fields in their own frame (m, b, z)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.interpolate import PchipInterpolator
from scipy.ndimage import gaussian_filter1d

from claspwright.base import Floats, Ints, Singles
from claspwright.demo.fields import bump, rounded, smooth_max, step
from claspwright.demo.morphology import AnteriorForm, PosteriorForm
from claspwright.demo.sizes import ToothSize

_STEP = 0.05
_LOW = -16.0
_ABOVE = 3.0


@dataclass(frozen=True, slots=True, eq=False)
class Profiles:
    """Cross-section of a crown and its root at each height, every 0.05 mm from -16 mm."""

    centre_m: Floats
    half_m: Floats
    centre_b: Floats
    half_b: Floats
    exponent: Floats

    def levels(self, z: Singles) -> Levels:
        """Where heights z lie between the stations."""
        where = np.clip((z - _LOW) / _STEP, 0, len(self.half_m) - 1.001)
        low = where.astype(np.int32)
        part = (where - low).astype(np.float32)
        return Levels(low, low + 1, part, 1 - part)


@dataclass(frozen=True, slots=True, eq=False)
class Levels:
    """Heights as a station and a part of the way to the next one; found once for all profiles."""

    low: Ints
    above: Ints
    part: Singles
    rest: Singles

    def of(self, values: Floats) -> Singles:
        """Values of one profile there, linear between the stations."""
        table = values.astype(np.float32)
        out: Singles = table.take(self.low)
        out *= self.rest
        over = table.take(self.above)
        over *= self.part
        out += over
        return out


def _profile(points: list[tuple[float, float]], length: float, smooth_mm: float = 0.45) -> Floats:
    z = np.arange(_LOW, length + _ABOVE, _STEP)
    heights, values = (np.array(c) for c in zip(*points, strict=True))
    curve = PchipInterpolator(heights, values, extrapolate=True)(
        np.clip(z, heights[0], heights[-1])
    )
    return np.asarray(gaussian_filter1d(curve, smooth_mm / _STEP, mode="nearest"), dtype=np.float64)


def _side(length: float, cervix: float, levels: list[tuple[float, float]], root: float) -> Floats:
    """One side's distance from the axis: root below, cervix at 0, then the given levels."""
    below = [(_LOW, root * 0.5), (-9.0, root * 0.72), (-4.0, root * 0.94), (-1.2, root)]
    above = [(h * length, v) for h, v in levels]
    return _profile([*below, (0.0, cervix), *above], length)


def posterior_profiles(size: ToothSize, form: PosteriorForm) -> Profiles:
    """Profiles of a premolar or molar: buccal crest low, lingual crest in the middle third."""
    n = size
    cb, mb = n.buccolingual_cervix / 2, n.buccolingual / 2
    cm, mm = n.mesiodistal_cervix / 2, n.mesiodistal / 2
    swell = mb - cb
    extra = 0.12  # the crest is a little fuller than the table, which the tilt takes back
    buccal = _side(
        n.length,
        cb - 0.02,
        [(0.12, cb + 0.62 * swell), (0.26, mb + extra * 0.5), (0.42, mb - 0.05),
         (0.70, mb - 0.45 * form.buccal_inset * mb), (1.0, mb - form.buccal_inset * mb),
         (1.3, mb - 1.6 * form.buccal_inset * mb)],
        cb - 0.15,
    )  # fmt: skip
    lingual = _side(
        n.length,
        cb - 0.05,
        [(0.14, cb + 0.42 * swell), (0.32, cb + 0.85 * swell), (0.48, mb + extra * 0.5),
         (0.66, mb - 0.12), (0.84, mb - 0.5 * form.lingual_inset * mb),
         (1.0, mb - form.lingual_inset * mb), (1.3, mb - 1.7 * form.lingual_inset * mb)],
        cb - 0.15,
    )  # fmt: skip
    top = 0.16 * mm + 0.25
    mesial = _side(
        n.length, cm,
        [(0.22, cm + 0.36 * (mm - cm)), (0.46, cm + 0.86 * (mm - cm)), (0.66, mm),
         (0.82, mm - 0.35 * top), (1.0, mm - 1.3 * top), (1.3, mm - 2.4 * top)],
        cm - 0.1,
    )  # fmt: skip
    distal = _side(
        n.length, cm,
        [(0.22, cm + 0.40 * (mm - cm)), (0.42, cm + 0.88 * (mm - cm)), (0.60, mm),
         (0.78, mm - 0.35 * top), (1.0, mm - 1.4 * top), (1.3, mm - 2.5 * top)],
        cm - 0.1,
    )  # fmt: skip
    z = np.arange(_LOW, n.length + _ABOVE, _STEP)
    rise = np.clip(z / n.length, 0.0, 0.6) / 0.6
    exponent = 2.25 + (form.outline - 2.25) * rise
    return Profiles(
        (mesial - distal) / 2, (mesial + distal) / 2,
        (buccal - lingual) / 2, (buccal + lingual) / 2, exponent,
    )  # fmt: skip


def anterior_profiles(size: ToothSize, form: AnteriorForm) -> Profiles:
    """Profiles of an incisor or canine: convex labially, cingulum and hollow lingually."""
    n = size
    cb, mb = n.buccolingual_cervix / 2, n.buccolingual / 2
    cm, mm = n.mesiodistal_cervix / 2, n.mesiodistal / 2
    edge = form.edge_b * mb
    half = form.edge_mm / 2
    labial = _side(
        n.length, cb - 0.05,
        [(0.10, cb + 0.65 * (mb - cb)), (0.22, mb), (0.42, mb - 0.10 * (mb - edge)),
         (0.62, mb - 0.33 * (mb - edge)), (0.82, mb - 0.66 * (mb - edge)),
         (1.0, edge + half * 0.95), (1.3, edge - 0.9)],
        cb - 0.2,
    )  # fmt: skip
    c = form.cingulum
    back = edge - half
    lingual = _side(
        n.length, cb - 0.1,
        [(0.5 * c, cb + 0.72 * (mb - cb)), (c, mb), (c + 0.13, mb - 0.20 * (mb + back)),
         (c + 0.30, mb - 0.56 * (mb + back)), (c + 0.48, mb - 0.80 * (mb + back)),
         (0.86, -back + 0.12), (1.0, -back - 0.05), (1.3, -back - 0.3)],
        cb - 0.25,
    )  # fmt: skip
    up, low = form.contact
    taper = max(0.10, 0.055 * mm)
    mesial = _side(
        n.length, cm,
        [(0.2, cm + 0.40 * (mm - cm)), (0.5, cm + 0.80 * (mm - cm)), (up, mm),
         (1.0, mm - taper), (1.3, mm - 3 * taper)],
        cm - 0.1,
    )  # fmt: skip
    distal = _side(
        n.length, cm,
        [(0.2, cm + 0.42 * (mm - cm)), (low * 0.62, cm + 0.82 * (mm - cm)), (low, mm),
         (1.0, mm - 1.6 * taper), (1.3, mm - 4 * taper)],
        cm - 0.1,
    )  # fmt: skip
    z = np.arange(_LOW, n.length + _ABOVE, _STEP)
    rise = np.clip(z / n.length, 0.0, 1.0)
    exponent = 2.05 + (form.outline - 2.05) * rise
    return Profiles(
        (mesial - distal) / 2, (mesial + distal) / 2,
        (labial - lingual) / 2, (labial + lingual) / 2, exponent,
    )  # fmt: skip


def _outline(p: Profiles, at: Levels, m: Singles, b: Singles, centre_b: Singles) -> Singles:
    half_m, half_b = at.of(p.half_m), at.of(p.half_b)
    u = np.abs((m - at.of(p.centre_m)) / half_m)
    v = np.abs((b - centre_b) / half_b)
    e = at.of(p.exponent)
    norm = np.maximum(u**e + v**e, np.float32(1e-6)) ** (1.0 / e)
    out: Singles = (norm - 1.0) * np.minimum(half_m, half_b)
    return out


def occlusal_height(size: ToothSize, form: PosteriorForm, m: Singles, b: Singles) -> Singles:
    """Height of the occlusal surface over (m, b): cusps, ridges and fossae [mm]."""
    mm, mb = size.mesiodistal / 2, size.buccolingual / 2
    top = size.length
    height = np.asarray(np.full_like(m, top - form.fossa_mm - 0.15), dtype=np.float32)
    height += np.float32(0.05) * ((m / mm) ** 2 + (b / mb) ** 2)
    for cusp in form.cusps:
        dm, db = (cusp.aim[0] - cusp.m) * mm, (cusp.aim[1] - cusp.b) * mb
        run = float(np.hypot(dm, db))
        em, eb = dm / run, db / run
        along = (m - cusp.m * mm) * em + (b - cusp.b * mb) * eb
        across = -(m - cusp.m * mm) * eb + (b - cusp.b * mb) * em
        inward = max((form.fossa_mm - cusp.drop_mm) / run, 0.25)
        away = rounded(along, 0.6)
        bend = np.where(along > 0, inward * (0.72 + 0.28 * away / run), 0.42)
        fall = bend * away + 0.50 * rounded(across, 0.85)
        height = np.asarray(smooth_max(height, top - cusp.drop_mm - fall, 0.35), np.float32)
    for sign, drop, at in (
        (1, form.ridge_mm[0], form.ridge_at[0]),
        (-1, form.ridge_mm[1], form.ridge_at[1]),
    ):
        bow = 0.10 * mm * (b / mb) ** 2
        away = sign * m - (at * mm - bow)
        fall = np.where(away < 0, 0.85, 0.45) * rounded(away, 0.4)
        ridge = top - drop - fall - 0.10 * (b / mb) ** 2
        height = np.asarray(smooth_max(height, ridge, 0.4), np.float32)
    return height.astype(np.float32)


def posterior_field(
    size: ToothSize, form: PosteriorForm, p: Profiles, m: Singles, b: Singles, z: Singles
) -> Singles:
    """Implicit field of a premolar or molar with its root; negative inside."""
    mb = size.buccolingual / 2
    narrow = 1.0 + form.lingual_narrow * np.clip(-b / mb, 0.0, 1.0) ** 2 * step(z / 3.0)
    shifted = (m + form.shear * b * step(z / (0.6 * size.length))) * narrow
    inward = np.zeros_like(m)
    for at, side in form.grooves:
        reach = step((z / size.length - 0.30) / 0.45)
        lateral = np.clip(side * b / mb * 1.4, 0.0, 1.0)
        inward = inward + 0.42 * side * reach * lateral * bump(
            (m - at * size.mesiodistal / 2) / 0.75
        )
    at_z = p.levels(z)
    wall = _outline(p, at_z, shifted, b + inward, at_z.of(p.centre_b))
    height = occlusal_height(size, form, m, b)
    return smooth_max(wall, (z - height) * np.float32(0.85), 0.75).astype(np.float32)


def anterior_field(
    size: ToothSize, form: AnteriorForm, p: Profiles, m: Singles, b: Singles, z: Singles
) -> Singles:
    """Implicit field of an incisor or canine with its root; negative inside."""
    mm = size.mesiodistal / 2
    at_z = p.levels(z)
    half, centre_b = at_z.of(p.half_b), at_z.of(p.centre_b)
    back = np.clip((centre_b - b) / half, 0.0, 1.0)
    h = z / size.length
    hollow = (
        form.fossa_mm * bump(m / (0.52 * mm)) * step((h - 0.18) / 0.25) * step((1.0 - h) / 0.25)
    )
    swell = form.labial_ridge_mm * bump(m / (0.4 * mm)) * step(h / 0.3) * step((1.05 - h) / 0.3)
    front = np.clip((b - centre_b) / half, 0.0, 1.0)
    wall = _outline(p, at_z, m, b - hollow * back - swell * front, centre_b)
    fall = (
        form.point_mm / mm * rounded(m, 0.5)
        if form.point_mm > 0.8
        else form.point_mm * (m / mm) ** 2
    )
    mesial, distal = form.corner
    fall = fall + mesial * np.clip((m / mm - 0.45) / 0.55, 0, 2) ** 3
    fall = fall + distal * np.clip((-m / mm - 0.40) / 0.60, 0, 2) ** 2.5
    slope = 0.35 * (b - form.edge_b * size.buccolingual / 2)
    top = size.length - fall + slope
    return smooth_max(wall, (z - top) * np.float32(0.9), 0.55).astype(np.float32)
