"""One jaw as two fields on one grid: its teeth and its gum."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from claspwright.arch import Jaw
from claspwright.base import Floats, Progress, Singles, silent
from claspwright.demo.arch_line import ArchLine
from claspwright.demo.fields import as_distance, slabs, smooth_min, softened
from claspwright.demo.gum import (
    Columns,
    body_field,
    collar_field,
    gum_union,
    make_columns,
    papillae,
)
from claspwright.demo.palate import roof
from claspwright.demo.placement import PlacedTooth, neighbours_present
from claspwright.demo.stations import Stations, make_stations
from claspwright.geometry import IDENTITY, Grid

FAR = np.float32(9.0)
_ROOT_MM = 6.5  # how far the root's field reaches below the margin
_PAD_MM = 3.0  # and how far it reaches beside the crown
_SOFT_MM = 0.4


@dataclass(frozen=True, slots=True, eq=False)
class Box:
    """A part of the grid round one tooth, with the distance to the tooth there."""

    slices: tuple[slice, slice, slice]
    values: Singles


@dataclass(frozen=True, slots=True, eq=False)
class JawSolid:
    """Teeth and gum of one jaw; fields are negative inside."""

    jaw: Jaw
    grid: Grid
    line: ArchLine
    placed: Mapping[int, PlacedTooth]  # standing teeth
    boxes: Mapping[int, Box]
    gum: Singles
    stations: Stations
    columns: Columns


def nodes_of(grid: Grid, slices: tuple[slice, slice, slice]) -> tuple[Singles, Singles, Singles]:
    """Arch coordinates of a part of the grid, as arrays that broadcast."""
    x, y, z = (a[s].astype(np.float32) for a, s in zip(grid.axes(), slices, strict=True))
    return x[:, None, None], y[None, :, None], z[None, None, :]


def local_nodes(
    tooth: PlacedTooth, nodes: tuple[Singles, Singles, Singles]
) -> tuple[Singles, Singles, Singles]:
    """The nodes in the tooth's (m, b, z)."""
    rot = tooth.frame.rotation.astype(np.float32)
    move = tooth.frame.translation.astype(np.float32)
    out = [
        row[0] * nodes[0] + row[1] * nodes[1] + row[2] * nodes[2] + t
        for row, t in zip(rot, move, strict=True)
    ]
    return np.float32(tooth.mirror) * out[0], out[1], out[2]


def _to_border(tooth: PlacedTooth, m: Singles, b: Singles, z: Singles) -> Singles:
    """Distance from nodes in a tooth's frame to the sides and the floor of its box."""
    side = tooth.size.mesiodistal / 2 + _PAD_MM - np.abs(m)
    front = tooth.size.buccolingual / 2 + _PAD_MM - np.abs(b)
    floor = z - (float(tooth.margin.min()) - _ROOT_MM)
    return np.asarray(np.minimum(np.minimum(side, front), floor), dtype=np.float32)


def tooth_box(grid: Grid, tooth: PlacedTooth) -> Box:
    """The part of the grid round a tooth and its distance field there."""
    hm = tooth.size.mesiodistal / 2 + _PAD_MM
    hb = tooth.size.buccolingual / 2 + _PAD_MM
    low, high = float(tooth.margin.min()) - _ROOT_MM, tooth.size.length + 1.0
    corners = np.array([[m, b, z] for m in (-hm, hm) for b in (-hb, hb) for z in (low, high)])
    at = grid.to_nodes(tooth.to_arch(corners))
    first = np.maximum(np.floor(at.min(axis=0)).astype(int), 0)
    last = np.minimum(np.ceil(at.max(axis=0)).astype(int) + 1, grid.shape)
    slices = (slice(first[0], last[0]), slice(first[1], last[1]), slice(first[2], last[2]))
    x, y, z = nodes_of(grid, slices)
    values = np.empty((x.size, y.size, z.size), dtype=np.float32)
    for rows in slabs(values.shape):
        values[rows] = tooth.shape.values(*local_nodes(tooth, (x[rows], y, z)))
    return Box(slices, as_distance(values, grid.spacing))


def tooth_union(grid: Grid, boxes: Mapping[int, Box]) -> Singles:
    """All teeth of a jaw in one field; contacts get a hair of a fillet, as a scanner sees them."""
    whole = np.full(grid.shape, FAR, dtype=np.float32)
    for box in boxes.values():
        whole[box.slices] = smooth_min(whole[box.slices], box.values, 0.45)
    return whole


def grid_for(
    line: ArchLine, placed: Mapping[int, PlacedTooth], stations: Stations, spacing: float,
    vault_mm: float,
) -> Grid:  # fmt: skip
    """The grid that holds everything a scan of this jaw shows."""
    keep = (stations.arc > stations.ends[0] - 1) & (stations.arc < stations.ends[1] + 1)
    arc = stations.arc[keep]
    points = np.array([line.at(float(s))[0] for s in arc[::8]])
    normals = np.array([line.at(float(s))[1] for s in arc[::8]])
    outer = points + normals * (stations.buccal[keep][::8] + 7.0)[:, None]
    low = (stations.crest - stations.fold)[keep].min() - 3.5
    low = min(low, (stations.crest - stations.floor)[keep].min() - 3.0 if vault_mm == 0 else low)
    low = min(low, stations.crest[keep].min() - vault_mm - 1.5) if vault_mm else low
    tops = [t.to_arch(np.array([[0, 0, t.size.length]]))[0, 2] for t in placed.values()]
    high = max([*tops, float(stations.crest[keep].max())]) + 2.5
    corners = np.array(
        [
            [outer[:, 0].min(), points[:, 1].min() - 2.0, low],
            [outer[:, 0].max(), outer[:, 1].max(), high],
        ]
    )
    return Grid.around(corners, IDENTITY, spacing, 0.0)


def jaw_solid(
    jaw: Jaw, line: ArchLine, everything: Mapping[int, PlacedTooth], missing: tuple[int, ...],
    seed: int, spacing: float, progress: Progress = silent,
) -> JawSolid:  # fmt: skip
    """Build the teeth and the gum of a jaw.

    Args:
        jaw: the jaw.
        line: the curve its crowns stand on.
        everything: all teeth of the jaw, the missing ones too.
        missing: those of them that are absent.
        seed: for what varies in the gum.
        spacing: grid spacing [mm].
        progress: told how far the work is.
    """
    rng = np.random.default_rng([seed, 3 if jaw == "maxilla" else 4])
    stations = make_stations(jaw, line, everything, missing, rng)
    standing = {c: t for c, t in everything.items() if c not in missing}
    vault = float(rng.normal(13.0, 0.8)) if jaw == "maxilla" else 0.0
    grid = grid_for(line, everything, stations, spacing, vault)
    x, y, z = grid.axes()
    columns = make_columns(stations, line, x, y)
    top = roof(stations, line, x, y, vault, rng) if jaw == "maxilla" else None
    gum = np.empty(grid.shape, dtype=np.float32)
    heights = z.astype(np.float32)
    for rows in slabs(grid.shape):
        gum[rows] = body_field(columns, heights, rows, top)
        progress(0.4 * rows.stop / grid.shape[0], "gum")
    boxes: dict[int, Box] = {}
    for k, (code, tooth) in enumerate(standing.items()):
        box = tooth_box(grid, tooth)
        boxes[code] = box
        _add_collar(gum, grid, box, tooth, neighbours_present(code, missing))
        progress(0.4 + 0.55 * (k + 1) / len(standing), "teeth")
    for papilla in papillae(everything, jaw, missing):
        slices = _around(grid, papilla.origin, np.array([3.0, 3.0, 5.0]) + papilla.half_b)
        part = papilla.values(nodes_of(grid, slices))
        gum[slices] = gum_union(gum[slices], part, 1.8)
    gum = softened(gum, _SOFT_MM / spacing, truncate=2.0)  # no creases in soft tissue
    progress(1.0, "gum and teeth")
    return JawSolid(jaw, grid, line, standing, boxes, gum, stations, columns)


def _add_collar(
    gum: Singles, grid: Grid, box: Box, tooth: PlacedTooth, stands: tuple[bool, bool]
) -> None:
    """Blend the gum round one tooth into the gum of its jaw; `stands`: its neighbours."""
    x, y, z = nodes_of(grid, box.slices)
    own = gum[box.slices]
    for rows in slabs(own.shape):
        m, b, h = local_nodes(tooth, (x[rows], y, z))
        collar = collar_field(tooth, stands, box.values[rows], m, b, h)
        blend = np.clip(_to_border(tooth, m, b, h) / 1.6, 0.02, 1.0) * 2.6
        own[rows] = gum_union(own[rows], collar, blend)


def _around(grid: Grid, centre: Floats, reach: Floats) -> tuple[slice, slice, slice]:
    low = np.maximum(np.floor(grid.to_nodes((centre - reach)[None])[0]).astype(int), 0)
    high = np.minimum(np.ceil(grid.to_nodes((centre + reach)[None])[0]).astype(int) + 1, grid.shape)
    return (slice(low[0], high[0]), slice(low[1], high[1]), slice(low[2], high[2]))
