"""The gum: alveolar body, collars round the teeth, papillae, ridges in the gaps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from scipy.ndimage import gaussian_filter1d

from claspwright.arch import Jaw, jaw_of
from claspwright.base import Floats, Singles
from claspwright.demo.arch_line import ArchLine
from claspwright.demo.fields import bump, rounded, smooth_max, smooth_min, step
from claspwright.demo.placement import MARGIN_STEPS, PlacedTooth
from claspwright.demo.sizes import arch_codes, side_sign

_STATION = 0.25

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
    crest: Floats  # z of the alveolar crest or ridge
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
    level: float  # of the margins, nearer the lower one
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
        level = 0.35 * points[3:, 2].max() + 0.65 * points[3:, 2].min()
        out.append(
            _Root(code, float(arc[0]), tooth.size.mesiodistal / 2, float(across[1]),
                  float(across[2]), float(level), code not in missing)
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
    n = np.array([r.code % 10 - 1 for r in roots])
    present = np.array([r.present for r in roots])
    edges = (at[1:] - np.array([r.half for r in roots[1:]])
             + at[:-1] + np.array([r.half for r in roots[:-1]])) / 2  # fmt: skip
    owner = np.searchsorted(edges, arc)
    gap = _smooth(np.where(present[owner], 0.0, 1.0), 1.5)
    ends = _scan_ends(roots, jaw)

    def along(values: tuple[float, ...]) -> Floats:
        return _smooth(np.interp(arc, at, np.asarray(values)[n]), 3.0)

    cervix = _smooth(np.interp(arc, at, [r.level for r in roots]), 2.0)
    crest = cervix - 0.7 * (1 - gap) - _resorption(arc, roots, edges, rng) * gap
    crest = _smooth(crest + _pad(arc, ends, roots, jaw), 0.9)
    tb = _smooth(np.interp(arc, at, [r.buccal for r in roots]), 1.8) + 1.0
    tl = _smooth(np.interp(arc, at, [r.lingual for r in roots]), 1.8) - 1.0
    middle = (tb + tl) / 2 - (0.2 if jaw == "mandible" else 0.7) * gap
    half = (tb - tl) / 2 * (1 - gap) + (along(_RIDGE_WIDTH[jaw]) / 2 - 1.3) * gap
    frenum = sum(
        a * bump((arc - s) / 1.0)
        for s, a in ((0.0, 1.3), *((float(at[i]), 0.7) for i in np.flatnonzero(n == 3)))
    )
    return Stations(
        arc=arc,
        crest=crest,
        buccal=middle + half,
        lingual=middle - half,
        roundness=3.2 + 1.6 * gap,
        fold=along(_FOLD[jaw]) - 1.2 * gap,
        slope=along(_BUCCAL_SLOPE[jaw]) + 0.12 * gap,
        eminence=_smooth(
            sum(_EMINENCE[r.code % 10 - 1] * bump((arc - r.arc) / (0.38 * r.half + 0.5))
                for r in roots if r.present) + 0 * arc, 0.3),
        floor=along(_LINGUAL_DEPTH),
        lingual_slope=along(_LINGUAL_SLOPE) + 0.10 * gap,
        bulge=along(_LINGUAL_BULGE),
        frenum=np.asarray(frenum, dtype=np.float64),
        gap=gap,
        ends=ends,
    )  # fmt: skip


def _resorption(arc: Floats, roots: list[_Root], edges: Floats, rng: np.random.Generator) -> Floats:
    """Ridge below the cervix level: 1 to 3 mm, hollow in the middle of a span."""
    loss = np.full_like(arc, 1.2)
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
        deep = min(0.8 + 0.06 * (high - low), 2.0) * rng.uniform(0.8, 1.2)
        loss = np.where((arc >= low) & (arc <= high), 1.2 + deep * np.sin(np.pi * x) ** 1.2, loss)
        k = end + 1
    return loss


def _pad(arc: Floats, ends: tuple[float, float], roots: list[_Root], jaw: Jaw) -> Floats:
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


@dataclass(frozen=True, slots=True, eq=False)
class Columns:
    """Station values over the (x, y) nodes of a grid; (nx, ny) float32 each."""

    arc: Singles
    across: Singles
    crest: Singles
    buccal: Singles
    lingual: Singles
    roundness: Singles
    fold: Singles
    slope: Singles
    eminence: Singles
    floor: Singles
    lingual_slope: Singles
    bulge: Singles
    frenum: Singles


def make_columns(stations: Stations, line: ArchLine, x: Floats, y: Floats) -> Columns:
    """Look the stations up over a grid's (x, y) nodes."""
    xx, yy = np.meshgrid(x, y, indexing="ij")
    arc, across = line.coordinates(np.stack([xx.ravel(), yy.ravel()], axis=1))
    names = ("crest", "buccal", "lingual", "roundness", "fold", "slope", "eminence", "floor",
             "lingual_slope", "bulge", "frenum")  # fmt: skip
    maps = {n: stations.over(getattr(stations, n), arc).reshape(xx.shape) for n in names}
    return Columns(
        arc=arc.reshape(xx.shape).astype(np.float32),
        across=across.reshape(xx.shape).astype(np.float32),
        **maps,
    )


def buccal_limit(c: Columns, d: Singles, rows: slice) -> tuple[Singles, Singles]:
    """Outward limit of the body at depth d below the crest, and its slope."""
    fold = c.fold[rows, :, None]
    over = np.maximum(d - fold, 0.0)
    over = np.minimum(over, 6.0)
    wave = step(d / 2.0) * (1.0 - step((d - 4.0) / 5.0))
    fren = c.frenum[rows, :, None] * step((d - fold + 2.0) / 4.5)
    limit = (
        c.buccal[rows, :, None] + c.slope[rows, :, None] * np.minimum(d, 14.0)
        + 0.22 * over * over + c.eminence[rows, :, None] * wave + fren
    )  # fmt: skip
    return limit.astype(np.float32), (c.slope[rows, :, None] + 0.44 * over).astype(np.float32)


def lingual_limit(c: Columns, d: Singles, rows: slice) -> tuple[Singles, Singles]:
    """Inward limit of a mandible's body at depth d, and its slope."""
    floor = c.floor[rows, :, None]
    over = np.minimum(np.maximum(d - floor, 0.0), 6.0)
    slope = c.lingual_slope[rows, :, None]
    bulge = c.bulge[rows, :, None] * bump((d - 4.5) / 2.6)
    limit = c.lingual[rows, :, None] - slope * np.minimum(d, 14.0) - bulge - 0.26 * over * over
    return limit.astype(np.float32), (slope + 0.52 * over).astype(np.float32)


def body_field(
    c: Columns, z: Singles, rows: slice, roof: tuple[Singles, Singles] | None
) -> Singles:
    """Alveolar body over some x rows of the grid; `roof` is the maxilla's height map and slope.

    Returns:
        (rows, ny, nz) values, negative inside.
    """
    across = c.across[rows, :, None]
    d = c.crest[rows, :, None] - z[None, None, :]
    limit, slope = buccal_limit(c, d, rows)
    outer = (across - limit) / np.sqrt(1.0 + slope * slope)
    k = c.roundness[rows, :, None]
    if roof is not None:
        top, steep = roof[0][rows, :, None], roof[1][rows, :, None]
        return smooth_max(outer, (z[None, None, :] - top) / steep, k).astype(np.float32)
    limit, slope = lingual_limit(c, d, rows)
    inner = (limit - across) / np.sqrt(1.0 + slope * slope)
    sides = smooth_max(outer, inner, 0.5 * k)
    return smooth_max(sides, -d, k).astype(np.float32)


def margin_at(tooth: PlacedTooth, m: Singles, b: Singles) -> Singles:
    """Height of the gingival margin over the cervix in the direction of (m, b)."""
    angle = np.arctan2(b, m) * (MARGIN_STEPS / (2 * np.pi))
    low = np.floor(angle).astype(np.int32)
    part = (angle - low).astype(np.float32)
    table = tooth.margin.astype(np.float32)
    return np.asarray(
        table[low % MARGIN_STEPS] * (1 - part) + table[(low + 1) % MARGIN_STEPS] * part,
        dtype=np.float32,
    )


def collar_field(
    tooth: PlacedTooth, stands: tuple[bool, bool], dist: Singles, m: Singles, b: Singles, z: Singles
) -> Singles:
    """Free and attached gingiva hugging one tooth, with a slight roll at the margin.

    Args:
        stands: whether the mesial and the distal neighbour stand; beside a gap the gum slopes
            down to the ridge, elsewhere it thins out into the alveolar body.
        dist: distance to the tooth at the nodes (m, b, z).
    """
    below = margin_at(tooth, m, b) - z
    deep = np.clip(below, 0.0, 12.0)
    rho2 = np.maximum(m * m + b * b, np.float32(1e-3))
    open_side = np.zeros_like(rho2)
    for side, there in ((1.0, stands[0]), (-1.0, stands[1])):
        if not there:
            open_side = open_side + np.where(side * m > 0, m * m / rho2, 0.0)
    if jaw_of(tooth.code) == "maxilla":  # the palate slopes away at once
        open_side = open_side + np.where(b < 0, 0.8 * b * b / rho2, 0.0)
    thick = 0.42 + 0.22 * np.minimum(deep, 2.4) - 0.35 * np.maximum(deep - 2.8, 0.0)
    skirt = 0.42 + 0.30 * deep + 0.06 * deep * deep
    thick = thick + (skirt - thick) * open_side
    return smooth_max(dist - thick, -below * np.float32(0.9), 0.55).astype(np.float32)


@dataclass(frozen=True, slots=True, eq=False)
class Papilla:
    """Gum between two neighbours: a saddle with a buccal and a lingual peak."""

    origin: Floats  # (3,) on the cervix level between the two teeth
    axes: Floats  # (3, 3) rows u, b, z
    rise: float
    half_b: float

    def values(self, points: tuple[Singles, Singles, Singles]) -> Singles:
        """Negative inside, over arrays of arch coordinates."""
        p = [axis - np.float32(o) for axis, o in zip(points, self.origin, strict=True)]
        u, b = ((p[0] * np.float32(row[0]) + p[1] * np.float32(row[1])) for row in self.axes[:2])
        peak = 0.42 * self.half_b
        away = rounded(np.abs(b) - peak, 0.35)
        drop = np.where(np.abs(b) > peak, 1.0 + 0.45 * away, 0.42) * away
        drop = drop + 0.6 * u * u
        tip = (p[2] - np.float32(self.rise) + drop) * np.float32(0.65)
        return smooth_max(tip, -p[2] - np.float32(3.0), 2.0).astype(np.float32)


def papillae(
    placed: Mapping[int, PlacedTooth], jaw: Jaw, missing: tuple[int, ...]
) -> list[Papilla]:
    """One for each pair of standing neighbours."""
    out = []
    row = [c for c in arch_codes(jaw)]
    for one, two in zip(row[:-1], row[1:], strict=True):
        if one in missing or two in missing:
            continue
        a, b = placed[one], placed[two]
        origin = (
            a.frame.inverse().apply(np.array([a.size.mesiodistal / 2, 0, 0]))
            + b.frame.inverse().apply(np.array([-b.size.mesiodistal / 2, 0, 0]))
        ) / 2
        outwards = a.frame.rotation[1] + b.frame.rotation[1]
        outwards = np.array([outwards[0], outwards[1], 0.0])
        outwards /= np.linalg.norm(outwards)
        up = np.array([0.0, 0.0, 1.0])
        rise = 0.5 * (_side_rise(a, 1.0) + _side_rise(b, -1.0))
        half_b = 0.25 * (sum(a.neck) + sum(b.neck))
        origin = origin + outwards * 0.25 * (a.neck[0] - a.neck[1] + b.neck[0] - b.neck[1])
        out.append(Papilla(origin, np.stack([np.cross(outwards, up), outwards, up]), rise, half_b))
    return out


def _side_rise(tooth: PlacedTooth, u: float) -> float:
    """The margin's height on the side towards +u or -u."""
    mesial = tooth.mirror * u > 0
    return float(tooth.margin[0 if mesial else MARGIN_STEPS // 2]) - 0.1


def gum_union(a: Singles, b: Singles, k: float) -> Singles:
    """Blend two parts of the gum."""
    return smooth_min(a, b, np.float32(k)).astype(np.float32)
