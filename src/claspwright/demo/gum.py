"""The gum: alveolar body, collars round the teeth, papillae, ridges in the gaps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from claspwright.arch import Jaw, jaw_of
from claspwright.base import Floats, Singles
from claspwright.demo.arch_line import ArchLine
from claspwright.demo.fields import bump, rounded, smooth_max, smooth_min, step
from claspwright.demo.placement import MARGIN_STEPS, PlacedTooth
from claspwright.demo.sizes import arch_codes
from claspwright.demo.stations import Stations


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
    shaped = np.asarray(across.reshape(xx.shape), dtype=np.float32)
    inwards = step((maps["buccal"] - shaped) / (maps["buccal"] - maps["lingual"]))
    lingual = stations.over(stations.crest_lingual, arc).reshape(xx.shape)
    maps["crest"] = maps["crest"] + (lingual - maps["crest"]) * inwards
    return Columns(
        arc=arc.reshape(xx.shape).astype(np.float32),
        across=shaped,
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
        tooth: the tooth.
        stands: whether the mesial and the distal neighbour stand; beside a gap the gum slopes
            down to the ridge, elsewhere it thins out into the alveolar body.
        dist: distance to the tooth at the nodes (m, b, z).
        m: towards the midline [mm].
        b: outwards [mm].
        z: over the cervix [mm].
    """
    below = margin_at(tooth, m, b) - z
    deep = np.clip(below, 0.0, 12.0)
    rho2 = np.maximum(m * m + b * b, np.float32(1e-3))
    open_side = np.zeros_like(rho2)
    for side, there in ((1.0, stands[0]), (-1.0, stands[1])):
        if not there:
            open_side = open_side + np.where(side * m > 0, m * m / rho2, 0.0)
    if jaw_of(tooth.code) == "maxilla":  # the palate slopes away at once
        open_side = open_side + np.where(b < 0, 0.35 * b * b / rho2, 0.0)
    thick = 0.42 + 0.16 * np.minimum(deep, 1.6) - 0.30 * np.maximum(deep - 1.8, 0.0)
    skirt = smooth_min(0.42 + 0.30 * deep + 0.06 * deep * deep, 2.1 + 0.0 * deep, 1.2)
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
        drop = np.where(np.abs(b) > peak, 1.1 + 0.9 * away, 0.42) * away
        drop = drop + 0.6 * u * u
        tip = (p[2] - np.float32(self.rise) + drop) * np.float32(0.65)
        return smooth_max(tip, -p[2] - np.float32(3.0), 2.0).astype(np.float32)


def papillae(
    placed: Mapping[int, PlacedTooth], jaw: Jaw, missing: tuple[int, ...]
) -> list[Papilla]:
    """One for each pair of standing neighbours."""
    out = []
    row = arch_codes(jaw)
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


def gum_union(a: Singles, b: Singles, k: Singles | float) -> Singles:
    """Blend two parts of the gum."""
    return smooth_min(a, b, k).astype(np.float32)
