"""Edentulous spans: which teeth they lack, their ridge crests, and how far a base may reach."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np
from scipy.ndimage import gaussian_filter1d
from scipy.spatial import cKDTree

from claspwright.arch.archline import ArchLine
from claspwright.arch.flanges import Flanges, flange_widths
from claspwright.arch.model import Jaw, MasterScan, Span, Tooth
from claspwright.arch.notation import ARCH_ORDER, is_third_molar
from claspwright.arch.sizes import average_crown
from claspwright.arch.sketch import ArchSketch
from claspwright.base import Bools, Floats, Ints
from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    HeightField,
    Mesh,
    closest_points,
    height_field,
    resampled,
)

STEP = 0.5  # mm between the points of a crest
SEARCH = 6.0  # mm to both sides of the arch line in which the crest is looked for
SPACING = 0.25  # mm between heights
SWAY = 5.0  # how much a crest may turn: cost of a sideways step, squared, against height
CENTRING = 0.02  # pull towards the line of the arch, for flat ridges
BORDER = 2.0  # mm that a free end stays away from the border of the scan
PAD = 8.0  # mm behind the last missing tooth: two thirds of a retromolar pad, or a tuberosity
STEEP = np.tan(np.radians(45))  # a free end stops where the crest climbs or falls so steeply
BELOW_PLANE = 1.0  # mm below the occlusal plane: the level of a pad's upper third


@dataclass(frozen=True, slots=True)
class Gap:
    """A run of missing teeth between two present ones, or behind the last one."""

    missing: tuple[int, ...]
    ends: tuple[int | None, int | None]


def gaps(jaw: Jaw, present: Iterable[int], replaced: Iterable[int] = ()) -> tuple[Gap, ...]:
    """Runs of absent codes, from the patient's right to the left.

    A run of third molars alone is no gap unless one of them is to be replaced.
    """
    here, carried = set(present), set(replaced)
    out: list[Gap] = []
    run: list[int] = []
    before: int | None = None
    for code in (*ARCH_ORDER[jaw], None):
        if code is not None and code not in here:
            run.append(code)
            continue
        if any(not is_third_molar(c) or c in carried for c in run):
            out.append(Gap(tuple(run), (before, code)))
        run, before = [], code
    return tuple(out)


def find_spans(
    scan: MasterScan,
    seen: ArchSketch,
    tree: DistanceTree,
    teeth: Mapping[int, Tooth],
    crowns: Ints,
    *,
    replaced: Iterable[int] = (),
) -> tuple[Span, ...]:
    """Follow the crest of each edentulous ridge and measure the room on both its sides.

    Args:
        scan: the master scan.
        seen: line of the arch and coordinates of the faces.
        tree: distance tree of the master surface.
        teeth: the present teeth.
        crowns: (F,) code of the crown that each face belongs to, 0 on tissue.
        replaced: missing teeth to be replaced; matters for third molars.
    """
    tissue = np.asarray(crowns == 0, np.bool_)
    heights = _tissue_heights(scan.surface, tissue)
    flanges = Flanges(scan.surface, tree, tissue, seen.graph.on_border)
    out: list[Span] = []
    for gap in gaps(scan.jaw, teeth, replaced):
        crest = _crest(scan.jaw, seen, tree, heights, teeth, gap)
        if crest is None:
            continue
        buccal = _buccal(crest, seen.line)
        out.append(
            Span(
                gap.missing,
                gap.ends,
                crest,
                buccal,
                flange_widths(flanges, crest, buccal, 8.0),
                flange_widths(flanges, crest, -buccal, 7.0),
            )
        )
    return tuple(out)


def _tissue_heights(surface: Mesh, tissue: Bools) -> HeightField:
    gum = Mesh(surface.vertices, surface.faces[tissue])
    return height_field(gum, IDENTITY, SPACING)


def _crest(
    jaw: Jaw,
    seen: ArchSketch,
    tree: DistanceTree,
    heights: HeightField,
    teeth: Mapping[int, Tooth],
    gap: Gap,
) -> Floats | None:
    """(K, 3) crest in even steps, from ends[0] or the free end on the right, to the left."""
    line = seen.line
    first, last = gap.ends
    start = _behind(seen, teeth[first], +1) if first is not None else 0.0
    end = _behind(seen, teeth[last], -1) if last is not None else line.length
    room = sum(average_crown(code).mesiodistal_mm for code in gap.missing) * 1.1 + PAD
    if first is None:
        start = max(start, end - room)
    if last is None:
        end = min(end, start + room)
    if end - start < 2 * STEP:
        return None
    s = np.arange(start, end, STEP)
    r = np.arange(-SEARCH, SEARCH + SPACING / 2, SPACING)
    plan = line.at(np.repeat(s, len(r)), np.tile(r, len(s)))
    z = _clear_of_border(seen, heights, plan).reshape(len(s), len(r))
    known = np.isfinite(z).any(axis=1)
    if known.sum() < 3:
        return None
    s, z = s[known], z[known]
    aim = _aim(seen, teeth, gap, s)
    offset = _highest_way(z, r, aim)
    top = np.interp(np.arange(len(s)), np.arange(len(s)), _picked(z, r, offset))
    keep = _free_end(jaw, top, s, first is None, last is None)
    offset = gaussian_filter1d(offset[keep], 3.0 / STEP, mode="nearest")
    points = np.column_stack([line.at(s[keep], offset), top[keep]])
    if len(points) < 3:
        return None
    on_ridge = closest_points(tree, points).points
    on_ridge[:, 2] = gaussian_filter1d(on_ridge[:, 2], 1.0, mode="nearest")
    return closest_points(tree, resampled(on_ridge, STEP)).points


def _clear_of_border(seen: ArchSketch, heights: HeightField, plan: Floats) -> Floats:
    """(N,) tissue heights over plan points; -inf nearer than BORDER to the scan's border."""
    z = heights.at(np.column_stack([plan, np.zeros(len(plan))]))
    known = np.flatnonzero(np.isfinite(z))
    edge = seen.graph.centres[seen.graph.on_border]
    if len(edge) and len(known):
        away, _ = cKDTree(edge).query(np.column_stack([plan[known], z[known]]))
        z[known[away < BORDER]] = -np.inf
    return z


def _behind(seen: ArchSketch, tooth: Tooth, way: int) -> float:
    """Arch coordinate just beyond a crown, on the patient's left (+1) or right (-1) of it."""
    s, r = seen.along[tooth.faces], seen.across[tooth.faces]
    middle = np.abs(r - np.median(r)) < 2.5
    reach = s[middle] if middle.any() else s
    return float(reach.max() + 0.3 if way > 0 else reach.min() - 0.3)


def _aim(seen: ArchSketch, teeth: Mapping[int, Tooth], gap: Gap, s: Floats) -> Floats:
    """(K,) offset that the crest would have on a straight way between the abutments."""
    ends = [
        float(seen.line.coordinates(teeth[code].centre[None])[1][0]) if code is not None else 0.0
        for code in gap.ends
    ]
    return np.asarray(np.interp(s, [s[0], s[-1]], ends))


def _highest_way(z: Floats, r: Floats, aim: Floats) -> Floats:
    """(K,) offset of the way along the ridge's top: dynamic programming over the sections."""
    low = np.where(np.isfinite(z), z, -50.0)
    gain = low - low.max(axis=1, keepdims=True) - CENTRING * (r[None, :] - aim[:, None]) ** 2
    sway = SWAY * ((r[:, None] - r[None, :]) / STEP) ** 2
    total = gain[0]
    back = np.zeros(gain.shape, np.intp)
    for k in range(1, len(gain)):
        ways = total[:, None] - sway
        back[k] = np.argmax(ways, axis=0)
        total = ways[back[k], np.arange(len(r))] + gain[k]
    at = int(np.argmax(total))
    out = np.empty(len(gain))
    for k in range(len(gain) - 1, -1, -1):
        out[k] = r[at]
        at = int(back[k, at])
    return out


def _picked(z: Floats, r: Floats, offset: Floats) -> Floats:
    column = np.rint((offset - r[0]) / SPACING).astype(int)
    top = z[np.arange(len(z)), column]
    good = np.isfinite(top)
    at = np.arange(len(top))
    return np.asarray(np.interp(at, at[good], top[good])) if good.any() else np.zeros(len(top))


def _free_end(jaw: Jaw, top: Floats, s: Floats, on_right: bool, on_left: bool) -> Bools:
    """(K,) True on the stations that a base may cover."""
    keep = np.ones(len(s), np.bool_)
    smooth = gaussian_filter1d(top, 1.5 / STEP, mode="nearest")
    slope = np.gradient(smooth, STEP)
    for free, turned in ((on_right, True), (on_left, False)):
        if not free:
            continue
        order = np.arange(len(s))[::-1] if turned else np.arange(len(s))
        away = np.abs(s[order] - s[order[0]])
        stop = np.zeros(len(s), np.bool_)
        climb = -slope[order] if turned else slope[order]
        settled = away > 4.0  # the tissue beside the abutment slopes for its own reasons
        stop |= settled & (np.abs(climb) > STEEP)
        if jaw == "mandible":
            stop |= settled & (smooth[order] > -BELOW_PLANE)
        if stop.any():
            keep[order[int(np.argmax(stop)) :]] = False
    return keep


def _buccal(crest: Floats, line: ArchLine) -> Floats:
    """(K, 3) horizontal unit vectors outwards, square to the crest."""
    along = np.gradient(gaussian_filter1d(crest[:, :2], 2.0, axis=0, mode="nearest"), axis=0)
    side = np.column_stack([along[:, 1], -along[:, 0]])
    side /= np.linalg.norm(side, axis=1, keepdims=True) + 1e-12
    where, _ = line.coordinates(crest)
    outward = line.outward_at(where)
    sign = np.sign(np.einsum("ij,ij->i", side, outward))
    flat = side * np.where(sign == 0, 1.0, sign)[:, None]
    return np.column_stack([flat, np.zeros(len(flat))])
