"""The gum's cross-section at each place along the arch, from the teeth present and missing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from scipy.ndimage import gaussian_filter1d

from claspwright.arch import Jaw
from claspwright.base import Floats, Singles
from claspwright.demo.arch_line import ArchLine
from claspwright.demo.fields import bump, step
from claspwright.demo.placement import MARGIN_STEPS, PlacedTooth
from claspwright.demo.sizes import side_sign

_STATION = 0.25
_CUFF_MM = 1.6  # gum beside a tooth that stands next to a gap

# width of the edentulous ridge near its base, teeth 1 to 8 [mm]; mandible: J Jpn Prosthodont
# Soc 2006;50(1):54 for canine to first molar, the others common practice, no source
_RIDGE_WIDTH: dict[Jaw, tuple[float, ...]] = {
    "mandible": (8.6, 9.0, 9.7, 10.4, 11.5, 13.0, 13.4, 13.0),
    "maxilla": (9.0, 9.4, 10.0, 11.0, 12.0, 13.4, 14.0, 13.5),
}
# depth of the buccal fold below the crest, teeth 1 to 8 [mm]; common practice, no source
_FOLD: dict[Jaw, tuple[float, ...]] = {
    "mandible": (8.2, 8.0, 7.8, 7.2, 6.8, 6.2, 6.0, 5.5),
    "maxilla": (9.5, 9.5, 9.5, 8.8, 8.3, 7.8, 7.2, 6.5),
}
_BUCCAL_SLOPE: dict[Jaw, tuple[float, ...]] = {
    "mandible": (0.10, 0.10, 0.12, 0.14, 0.20, 0.26, 0.32, 0.34),
    "maxilla": (0.16, 0.14, 0.14, 0.10, 0.10, 0.12, 0.14, 0.16),
}
_LINGUAL_DEPTH = (8.6, 8.6, 8.8, 9.4, 10.2, 11.2, 11.6, 11.0)
_LINGUAL_SLOPE = (0.34, 0.32, 0.26, 0.16, 0.06, 0.0, -0.04, -0.06)
_LINGUAL_BULGE = (0.0, 0.0, 0.1, 0.35, 0.7, 1.1, 1.2, 1.0)
_EMINENCE = (0.35, 0.3, 0.75, 0.4, 0.3, 0.3, 0.25, 0.2)


@dataclass(frozen=True, slots=True, eq=False)
class Stations:
    """What the gum's cross-section is at each arc length, every 0.25 mm."""

    arc: Floats
    crest: Floats  # z of the alveolar crest or ridge on the outer side
    crest_lingual: Floats  # the same on the inner side
    buccal: Floats  # outward limit at the crest
    lingual: Floats  # inward limit at the crest
    roundness: Floats  # blending at the crest
    fold: Floats  # depth at which the buccal surface rolls out
    slope: Floats  # buccal, mm out per mm down
    eminence: Floats  # over the roots
    floor: Floats  # lingual depth of the floor of the mouth
    lingual_slope: Floats
    bulge: Floats  # mylohyoid bulge
    frenum: Floats
    gap: Floats  # 1 in edentulous spans, 0 at teeth
    ends: tuple[float, float]  # arc length where the scan ends

    def over(self, values: Floats, arc: Floats) -> Singles:
        """Values at arc lengths, linear between the stations."""
        return np.interp(arc, self.arc, values).astype(np.float32)


@dataclass(frozen=True, slots=True)
class _Root:
    """What one tooth, present or missing, gives to the stations."""

    code: int
    arc: float
    half: float
    buccal: float
    lingual: float
    level: tuple[float, float]  # z of the margin, buccal and lingual
    present: bool


def _roots(
    line: ArchLine, placed: Mapping[int, PlacedTooth], missing: tuple[int, ...]
) -> list[_Root]:
    out = []
    quarter = MARGIN_STEPS // 4
    for code, tooth in placed.items():
        buccal, lingual = tooth.neck
        points = tooth.to_arch(
            np.array(
                [[0, 0, -1.0], [0, buccal, -1.0], [0, -lingual, -1.0],
                 [0, buccal, tooth.margin[quarter]], [0, -lingual, tooth.margin[3 * quarter]]]
            )
        )  # fmt: skip
        arc, across = line.coordinates(points[:, :2])
        out.append(
            _Root(code, float(arc[0]), tooth.size.mesiodistal / 2, float(across[1]),
                  float(across[2]), (float(points[3, 2]), float(points[4, 2])), code not in missing)
        )  # fmt: skip
    return sorted(out, key=lambda r: r.arc)


def _scan_ends(roots: list[_Root], jaw: Jaw) -> tuple[float, float]:
    """Arc lengths where the scan ends: behind the pad or tuberosity."""
    ends = []
    for sign in (-1.0, 1.0):
        side = [r for r in roots if side_sign(r.code) == sign]
        second = next(r for r in side if r.code % 10 == 7)
        third = next((r for r in side if r.code % 10 == 8 and r.present), None)
        reach = 12.5 if jaw == "mandible" else 9.5
        edge = abs(second.arc) + second.half + reach
        if third is not None:
            edge = max(edge, abs(third.arc) + third.half + 6.0)
        ends.append(sign * edge)
    return ends[0], ends[1]


def _smooth(values: Floats, mm: float) -> Floats:
    return np.asarray(gaussian_filter1d(values, mm / _STATION, mode="nearest"), dtype=np.float64)


def _gaps(arc: Floats, roots: list[_Root], edges: Floats) -> Floats:
    """1 in edentulous spans, 0 at teeth and in the cuff of gum beside them."""
    at, half, present = (
        np.array([getattr(r, k) for r in roots]) for k in ("arc", "half", "present")
    )
    near = np.abs(arc[:, None] - at[None, present]) - half[present]
    toothed = present[np.searchsorted(edges, arc)] | (near.min(axis=1) < _CUFF_MM)
    return _smooth(np.where(toothed, 0.0, 1.0), 1.2)


def _crests(
    arc: Floats, roots: list[_Root], gap: Floats, ridge: Floats, pad: Floats
) -> list[Floats]:
    """Height of the alveolar crest on the outer and on the inner side."""
    at = [r.arc for r in roots]
    out = []
    for k in (0, 1):
        margin = _smooth(np.interp(arc, at, [r.level[k] for r in roots]), 1.8)
        out.append(_smooth((margin - 0.9) * (1 - gap) + _smooth(ridge, 1.5) * gap + pad, 0.9))
    return out


def _bulges(arc: Floats, roots: list[_Root]) -> tuple[Floats, Floats]:
    """Eminences over the roots, and the labial and buccal frena."""
    eminence, frenum = np.zeros_like(arc), 1.3 * bump(arc)
    for r in roots:
        n = r.code % 10 - 1
        if r.present:
            eminence += _EMINENCE[n] * bump((arc - r.arc) / (0.38 * r.half + 0.5))
        if n == 3:
            frenum += 0.7 * bump(arc - r.arc)
    return _smooth(eminence, 0.3), frenum


def make_stations(
    jaw: Jaw,
    line: ArchLine,
    placed: Mapping[int, PlacedTooth],
    missing: tuple[int, ...],
    rng: np.random.Generator,
) -> Stations:
    """Cross-sections of the gum along the arch from the teeth, present and missing."""
    roots = _roots(line, placed, missing)
    arc = np.arange(line.arc[0], line.arc[-1], _STATION)
    at = np.array([r.arc for r in roots])
    half = np.array([r.half for r in roots])
    edges = (at[1:] - half[1:] + at[:-1] + half[:-1]) / 2
    gap = _gaps(arc, roots, edges)
    ends = _scan_ends(roots, jaw)

    def along(values: tuple[float, ...]) -> Floats:
        of_root = [values[r.code % 10 - 1] for r in roots]
        return _smooth(np.interp(arc, at, of_root), 3.0)

    ridge = np.interp(arc, at, [0.35 * max(r.level) + 0.65 * min(r.level) for r in roots])
    ridge = ridge - _resorption(arc, roots, edges, rng)
    outer, inner = _crests(arc, roots, gap, ridge, _pad(arc, ends, jaw))
    tb = _smooth(np.interp(arc, at, [r.buccal for r in roots]), 1.8) + 1.25
    tl = _smooth(np.interp(arc, at, [r.lingual for r in roots]), 1.8) - 1.25
    middle = (tb + tl) / 2 - (0.2 if jaw == "mandible" else 0.7) * gap
    wide = (tb - tl) / 2 * (1 - gap) + (along(_RIDGE_WIDTH[jaw]) / 2 - 1.3) * gap
    eminence, frenum = _bulges(arc, roots)
    return Stations(
        arc=arc, crest=outer, crest_lingual=inner, buccal=middle + wide, lingual=middle - wide,
        roundness=1.8 + 3.0 * gap, fold=along(_FOLD[jaw]) - 1.2 * gap,
        slope=along(_BUCCAL_SLOPE[jaw]) + 0.12 * gap, eminence=eminence,
        floor=along(_LINGUAL_DEPTH), lingual_slope=along(_LINGUAL_SLOPE) + 0.10 * gap,
        bulge=along(_LINGUAL_BULGE), frenum=frenum, gap=gap, ends=ends,
    )  # fmt: skip


def _resorption(arc: Floats, roots: list[_Root], edges: Floats, rng: np.random.Generator) -> Floats:
    """Ridge below the cervix level: 1 to 3 mm, hollow in the middle of a span."""
    loss = np.full_like(arc, 0.5)
    bounds = np.concatenate([[arc[0]], edges, [arc[-1]]])
    k = 0
    while k < len(roots):
        if roots[k].present:
            k += 1
            continue
        end = k
        while end + 1 < len(roots) and not roots[end + 1].present:
            end += 1
        low, high = bounds[k], bounds[end + 1]
        free = k == 0 or end == len(roots) - 1
        if free:
            low, high = max(low, roots[k].arc - 4), min(high, roots[end].arc + 4)
        x = np.clip((arc - low) / (high - low), 0, 1)
        deep = min(1.0 + 0.07 * (high - low), 2.3) * rng.uniform(0.85, 1.15)
        loss = np.where((arc >= low) & (arc <= high), 0.5 + deep * np.sin(np.pi * x) ** 1.1, loss)
        k = end + 1
    return loss


def _pad(arc: Floats, ends: tuple[float, float], jaw: Jaw) -> Floats:
    """Retromolar pads rise towards the ends; tuberosities stay full, then fall away."""
    rise = np.zeros_like(arc)
    for end in ends:
        inner = abs(end) - np.abs(arc)
        same = np.sign(arc) == np.sign(end)
        if jaw == "mandible":
            shape = 4.2 * step((9.0 - inner) / 9.0) + 0.5 * bump((inner - 4.0) / 2.5)
        else:
            shape = 0.7 * bump((inner - 6.0) / 3.0) - 5.0 * step((3.0 - inner) / 7.0)
        rise = np.where(same, shape, rise)
    return rise
