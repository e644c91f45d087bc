"""The apron of a lingual plate: a thin shell from its bar up to the cingula and the contacts."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from scipy.interpolate import PchipInterpolator
from scipy.ndimage import gaussian_filter1d
from scipy.spatial import cKDTree

from claspwright.arch import ARCH_ORDER, DentalArch, Tooth
from claspwright.base import Floats
from claspwright.framework.canvas import Shape, box_round, shell, smooth_cut
from claspwright.framework.ground import Ground, Piece
from claspwright.framework.model import Component
from claspwright.framework.stations import Stations, lingual_margin
from claspwright.limits import limit

STEP = 0.1  # mm between the places along the arch at which the border is known
CINGULUM_SHARE = 0.42  # of the crown's height over the lingual margin, in the middle of a tooth
CINGULUM_LEAST, CINGULUM_MOST = 2.0, 4.5  # mm
END_SHARE = 0.55  # of the last tooth's width that the apron goes on from its middle
TOUCH = 0.35  # mm between neighbours that count as a contact
OPEN_CONTACT = 0.8  # mm between neighbours from which metal does not rise into the gap
LABIAL_SHARE = 0.5  # of a tooth's depth from its lingual margin, behind which metal keeps
EVEN_MM = 0.9  # over which the polished side is evened
EDGE = 0.3  # mm radius of its borders


def tooth_rows(arch: DentalArch, teeth: Sequence[int]) -> list[tuple[int, ...]]:
    """Teeth in the order of the arch, parted where a tooth is missing between them."""
    order = ARCH_ORDER[arch.scan.jaw]
    missing = {code for span in arch.spans for code in span.missing}
    rows: list[list[int]] = []
    for code in teeth:
        before = rows[-1][-1] if rows else None
        between = order[order.index(before) + 1 : order.index(code)] if before else ()
        if before is None or missing & set(between):
            rows.append([])
        rows[-1].append(code)
    return [tuple(row) for row in rows]


def lay_apron(
    ground: Ground, stations: Stations, teeth: Sequence[int], bar: Floats, name: str
) -> Piece:
    """A shell over the tongue side of a row of teeth.

    Args:
        ground: surfaces; it lies on the relieved one.
        stations: along the arch.
        teeth: standing side by side, in the order of the arch.
        bar: (N, 3) middle of the bar that it rises from; grid frame, mm.
        name: component id.
    """
    thickness = limit("apron.thickness").value
    s, upper = _upper_border(ground, stations, teeth)
    track = np.column_stack([np.interp(s, stations.length, stations.plan[:, a]) for a in (0, 1)])
    inward = np.column_stack([np.interp(s, stations.length, stations.inward[:, a]) for a in (0, 1)])
    low = np.interp(s, *_heights_along(stations, bar))
    rim = np.column_stack([track, upper])
    foot = np.column_stack([track + 7.0 * inward, low - 0.5])
    box = box_round(
        ground.grid, np.vstack([rim, foot, rim - 3.0 * np.pad(inward, ((0, 0), (0, 1)))]), 1.0
    )
    x, y, z = (box.low[a] + ground.grid.spacing * np.arange(box.shape[a]) for a in range(3))
    plan = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
    _, near = cKDTree(track).query(plan)
    past = ((plan - track[near]) * inward[near]).sum(axis=1)
    along = np.column_stack([inward[:, 1], -inward[:, 0]])
    aside = np.abs(((plan - track[near]) * along[near]).sum(axis=1))
    ends = np.where((near == 0) | (near == len(s) - 1), aside, -1.0)
    depth = LABIAL_SHARE * float(np.mean([ground.tooth(t).buccolingual_mm for t in teeth]))
    flat = np.maximum(ends, -depth - past).reshape(box.shape[:2]).astype(np.float32)
    tops = upper[near].reshape(box.shape[:2]).astype(np.float32)
    bottoms = low[near].reshape(box.shape[:2]).astype(np.float32)
    heights = z.astype(np.float32)[None, None, :]
    region = np.maximum.reduce(
        [
            np.broadcast_to(flat[:, :, None], box.shape),
            heights - tops[:, :, None],
            bottoms[:, :, None] - heights,
        ]
    )
    off = ground.laid.field.values[box.slices]
    body = shell(off, thickness, EVEN_MM / ground.grid.spacing)
    values = np.maximum(smooth_cut(region, body, EDGE), -off - np.float32(0.8))
    component = Component(
        name,
        "major connector",
        ground.back(rim),
        np.array([float(np.mean(upper - low))]),
        np.array([thickness]),
        None,
        {"height_mm": float(np.mean(upper - low))},
    )
    return Piece(component, Shape(box, np.asarray(values, np.float32)), 0.6)


def _heights_along(stations: Stations, bar: Floats) -> tuple[Floats, Floats]:
    """Arc lengths along the arch and the height of the bar's middle there."""
    at = stations.length[cKDTree(stations.plan).query(bar[:, :2])[1]]
    order = np.argsort(at, kind="stable")
    return at[order], bar[order, 2]


def _upper_border(
    ground: Ground, stations: Stations, teeth: Sequence[int]
) -> tuple[Floats, Floats]:
    """Scalloped upper border: arc lengths along the arch, heights [mm]."""
    middles, crowns = [], []
    for code in teeth:
        tooth = ground.tooth(code)
        point = lingual_margin(ground, tooth)
        at = float(stations.length[stations.nearest(point)])
        middles.append((at, float(point[2]) + cingulum_rise(tooth)))
        surface = ground.arch.scan.surface
        corners = np.unique(surface.faces[tooth.faces])
        crowns.append(ground.here(surface.vertices[corners]))
    knots = [
        (middles[0][0] - END_SHARE * ground.tooth(teeth[0]).mesiodistal_mm, middles[0][1] - 0.3)
    ]
    for n, middle in enumerate(middles):
        knots.append(middle)
        if n + 1 < len(middles):
            knots.append(_contact(middle, middles[n + 1], crowns[n], crowns[n + 1]))
    knots.append(
        (middles[-1][0] + END_SHARE * ground.tooth(teeth[-1]).mesiodistal_mm, middles[-1][1] - 0.3)
    )
    corners_at, height = np.array(knots, np.float64).T
    rising = np.maximum.accumulate(corners_at + 1e-6 * np.arange(len(knots)))
    s = np.arange(rising[0], rising[-1] + 1e-9, STEP)
    even = gaussian_filter1d(PchipInterpolator(rising, height)(s), 0.5 / STEP, mode="nearest")
    return s, np.asarray(even)


def cingulum_rise(tooth: Tooth) -> float:
    """How far over the lingual margin the cingulum's crest lies [mm]."""
    return float(np.clip(CINGULUM_SHARE * tooth.height_mm, CINGULUM_LEAST, CINGULUM_MOST))


def _contact(
    one: tuple[float, float], other: tuple[float, float], a: Floats, b: Floats
) -> tuple[float, float]:
    """Where two neighbours touch; where they do not, the metal keeps out of the gap."""
    between = 0.5 * (one[0] + other[0])
    gap = np.asarray(cKDTree(a).query(b)[0])
    if gap.min() > OPEN_CONTACT:
        return between, min(one[1], other[1]) - 1.5
    near = b[gap < gap.min() + TOUCH]
    height = float(np.percentile(near[:, 2], 30))
    return between, float(np.clip(height, min(one[1], other[1]) - 0.5, max(one[1], other[1]) + 1.5))
