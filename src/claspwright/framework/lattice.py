"""Open lattice over a ridge: rails off the crest, cross-bars between the teeth, a tissue stop."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.ndimage import gaussian_filter1d

from claspwright.arch import Span
from claspwright.base import Bools, Floats, InfeasibleError
from claspwright.framework.base_outline import span_of_base
from claspwright.framework.canvas import Shape, box_round, smooth_cut
from claspwright.framework.design import DentureBase
from claspwright.framework.ground import Ground, Piece, laid_sweep
from claspwright.framework.model import Component
from claspwright.framework.scanned import room_beside, scanned_plan
from claspwright.geometry import arc_lengths, point_at, resampled, smoothed
from claspwright.limits import limit

STEP = 0.15
LEAST_DROP = 3.0  # mm from the cusps down to a ridge that can carry teeth
MESH_RAILS = (1.0, 0.42)  # of the way from the crest to the outermost rail
MESH_STEP = 3.0  # mm between the cross-bars of a fine mesh
LEAST_LENGTH = 2.4  # mm of ridge under a lattice
INSIDE = 1.0  # mm that rails keep within the border of the scan at a free end
EVEN = 3.0  # mm along the crest over which the room beside it is evened
CAP = 0.3  # mm that a tissue stop lies over the edge of the wax round its foot
STOP_CORNER = 0.6  # mm radius of the corners of that cap
SINK = 0.1  # mm that a strut reaches into its relief, to be cut by it
NARROWEST = 1.7  # mm from the crest to a rail
LEAST_KEPT = 0.87  # of the part of a crest that is to be covered


@dataclass(frozen=True, slots=True, eq=False)
class BasePlan:
    """Where a base lies on its span; grid frame, mm."""

    base: DentureBase
    span: Span
    crest: Floats  # (K, 3) crest on the blocked-out surface, the part that is covered
    buccal: Floats  # (K, 3) horizontal unit vectors outwards
    buccal_rail: Floats  # (K,) arc length from the crest to the outer rail
    lingual_rail: Floats  # (K,)
    bars: Floats  # (B,) arc lengths along the crest of the cross-bars
    stop_at: float | None  # arc length of the tissue stop's middle

    def station(self, length: float) -> int:
        """Index of the crest point nearest to an arc length [mm]."""
        return int(np.argmin(np.abs(arc_lengths(self.crest) - length)))

    @property
    def id(self) -> str:
        """Component id: the base is named by its teeth."""
        return "base." + "-".join(str(t) for t in self.base.teeth)


def plan_base(ground: Ground, base: DentureBase, span: Span) -> BasePlan:
    """Decide how far the lattice reaches and where its bars lie."""
    _check_gap_is_open(ground, base, span)
    span = span_of_base(span, base)
    crest = ground.here(span.crest)
    crest = resampled(crest, 0.5)
    t = np.linspace(0, 1, len(span.crest))
    at = np.linspace(0, 1, len(crest))
    buccal = np.stack([np.interp(at, t, span.buccal[:, a]) for a in range(3)], axis=1)
    wide_b = np.interp(at, t, span.buccal_width_mm)
    wide_l = np.interp(at, t, span.lingual_width_mm)
    length = arc_lengths(crest)[-1]
    start, stop = 1.6, length - 1.6
    free = [end is None for end in span.ends]
    jaw = ground.arch.scan.jaw
    share = limit("lattice.coverage_mandible" if jaw == "mandible" else "lattice.coverage_maxilla")
    if free[0]:
        start = length * (1 - min(share.value, 1.0)) + 1.0
    if free[1]:
        stop = length * min(share.value, 1.0) - 1.0
    if stop - start < LEAST_LENGTH:
        start, stop = 0.4, length - 0.4
    if stop - start < LEAST_LENGTH:
        raise _no_room(ground, base, crest, float(length))
    part = (arc_lengths(crest) >= start) & (arc_lengths(crest) <= stop)
    room_b, room_l = np.full((2, len(crest)), np.inf)
    if any(free) and jaw == "maxilla":  # below, two thirds of the ridge end within the scan
        seen = scanned_plan(ground, INSIDE)
        room_b, room_l = (
            room_beside(ground.blocked, seen, crest, side * ground.aim(buccal), EVEN, 0.5)
            for side in (1.0, -1.0)
        )
        part = _on_scan(part, free, np.minimum(room_b, room_l))
    crest, buccal = crest[part], ground.aim(buccal[part])
    crest = ground.blocked.settle(crest)
    bars = np.linspace(0.0, arc_lengths(crest)[-1], max(len(base.teeth), 1) + 1)
    tip = arc_lengths(crest)[-1]
    if base.metal:
        free = [False, False]  # it rests on the tissue itself
    stop_at = 0.7 if free[0] else (tip - 0.7 if free[1] else None)
    rail_b = gaussian_filter1d(np.clip(wide_b[part] - 2.0, 2.2, 4.2), 6.0, mode="nearest")
    rail_l = gaussian_filter1d(np.clip(wide_l[part] - 1.5, 2.2, 4.6), 6.0, mode="nearest")
    rail_b = np.minimum(rail_b, np.maximum(room_b[part] - 0.5, NARROWEST))
    rail_l = np.minimum(rail_l, np.maximum(room_l[part] - 0.5, NARROWEST))
    return BasePlan(base, span, crest, buccal, rail_b, rail_l, bars, stop_at)


def _on_scan(part: Bools, free: list[bool], room: Floats) -> Bools:
    """The covered part of a crest, drawn back at a free end to where both rails lie on the scan.

    Never to less than the share LEAST_KEPT of itself.
    """
    at = np.flatnonzero(part)
    least = max(int(LEAST_KEPT * len(at)), 3)
    good = room[at] >= NARROWEST + 0.5
    begin, end = 0, len(at)
    while free[0] and not good[begin] and end - begin > least:
        begin += 1
    while free[1] and not good[end - 1] and end - begin > least:
        end -= 1
    out = np.zeros(len(part), np.bool_)
    out[at[begin:end]] = True
    return out


def _check_gap_is_open(ground: Ground, base: DentureBase, span: Span) -> None:
    """Refuse a base where the ridge stands nearly as high as the teeth beside it.

    Raises:
        InfeasibleError: a tooth seems to stand where the prescription has none.
    """
    surface = ground.arch.scan.surface
    tops = [
        float(surface.vertices[surface.faces[ground.tooth(end).faces], 2].max())
        for end in span.ends
        if end is not None
    ]
    ridge = float(np.median(span.crest[:, 2]))
    if tops and min(tops) - ridge < LEAST_DROP:
        x, y, z = span.crest[len(span.crest) // 2]
        teeth = ", ".join(str(t) for t in base.teeth)
        raise InfeasibleError(
            f"where {teeth} should be missing, at ({x:.1f}, {y:.1f}, {z:.1f}) mm, the scan rises "
            f"to {min(tops) - ridge:.1f} mm below the cusps beside it (a ridge lies "
            f"{LEAST_DROP:g} mm below or more): a tooth seems to stand there",
            place=f"denture_base {teeth}",
            remedy="Check the list of missing teeth, the scan and the tooth marks",
        )


def _no_room(ground: Ground, base: DentureBase, crest: Floats, length: float) -> InfeasibleError:
    x, y, z = ground.back(crest[len(crest) // 2])
    teeth = ", ".join(str(t) for t in base.teeth)
    return InfeasibleError(
        f"the gap for {teeth} at ({x:.1f}, {y:.1f}, {z:.1f}) mm is {length:.1f} mm long on the "
        f"scan; a lattice needs {LEAST_LENGTH + 0.8:.1f} mm",
        place=f"denture_base {teeth}",
        remedy="Check on the scan that the tooth is missing and its gap open, and the tooth marks",
    )


def side_profiles(ground: Ground, plan: BasePlan, s: float, reach: float) -> tuple[Floats, Floats]:
    """Surface profiles outwards and inwards from the crest at an arc length."""
    point = point_at(plan.crest, s)
    n = plan.station(s)
    out = ground.laid.profile(point, plan.buccal[n], reach)
    back = ground.laid.profile(point, -plan.buccal[n], reach)
    return out, back


def rail(ground: Ground, plan: BasePlan, side: str, share: float = 1.0) -> Floats:
    """(N, 3) line of a rail parallel to the crest, on the relieved surface.

    With a share of the way from the crest it lies nearer to it.
    """
    widths = share * (plan.buccal_rail if side == "buccal" else plan.lingual_rail)
    lengths = arc_lengths(plan.crest)
    points = []
    for n in range(len(plan.crest)):
        pair = side_profiles(ground, plan, float(lengths[n]), 8.0)
        profile = pair[0] if side == "buccal" else pair[1]
        if len(profile) > 3:
            points.append(point_at(profile, float(widths[n])))
    if len(points) < 3:
        raise _no_room(ground, plan.base, plan.crest, float(lengths[-1]))
    line = smoothed(resampled(np.array(points), STEP), 1.5)
    return resampled(ground.laid.settle(line), STEP)


def lay_lattice(ground: Ground, plan: BasePlan) -> list[Piece]:
    """Rails, cross-bars and tissue stop of one base."""
    fine = plan.base.retention == "fine mesh"
    half = limit("mesh.strut_width" if fine else "lattice.strut_width").value / 2
    thick = plan.base.thickness_mm
    pieces = []
    for side in ("buccal", "lingual"):
        for n, share in enumerate(MESH_RAILS if fine else (1.0,)):
            name = f"{plan.id}.rail.{side}" + (f".{n + 1}" if n else "")
            line = rail(ground, plan, side, share)
            pieces.append(_strut(ground, name, line, half, thick, plan.base.relief_mm))
    bars = [line for s in _bars(plan, fine) if len(line := cross_bar(ground, plan, float(s)))]
    for n, line in enumerate(bars):
        name = f"{plan.id}.bar.{n + 1}"
        pieces.append(_strut(ground, name, line, half, thick, plan.base.relief_mm))
    if plan.stop_at is not None:
        pieces.append(_tissue_stop(ground, plan))
    return pieces


def _bars(plan: BasePlan, fine: bool) -> Floats:
    """Arc lengths of the cross-bars: between the teeth, in a mesh closer together."""
    if not fine:
        return plan.bars
    length = float(arc_lengths(plan.crest)[-1])
    return np.linspace(0.0, length, max(round(length / MESH_STEP), 1) + 1)


def cross_bar(ground: Ground, plan: BasePlan, s: float) -> Floats:
    """(N, 3) line of a cross-bar from the outer rail to the inner one; empty where none fits."""
    out, back = side_profiles(ground, plan, s, 16.0)
    if len(out) < 4 or len(back) < 4:
        return np.zeros((0, 3))
    k = plan.station(s)
    outer = out[arc_lengths(out) <= plan.buccal_rail[k]]
    inner = back[arc_lengths(back) <= plan.lingual_rail[k]]
    return np.vstack([outer[::-1], inner[1:]])


def _strut(
    ground: Ground, name: str, line: Floats, half: float, thick: float, over: float
) -> Piece:
    """A strut along a line; it nowhere hangs lower than its relief, over whose edge it may lie."""
    line = resampled(line, STEP)
    line = ground.laid.settle(smoothed(line, 0.5), height=0.15)
    count = len(line)
    shape = laid_sweep(ground.laid, line, np.full(count, half), np.full(count, thick), fillet=0.5)
    low = np.float32(over - SINK) - ground.blocked.field.values[shape.box.slices]
    shape = Shape(shape.box, np.maximum(shape.values, low))
    component = Component(
        name,
        "lattice",
        ground.back(line),
        np.array([2 * half]),
        np.array([thick]),
        None,
        {"length_mm": float(arc_lengths(line)[-1])},
    )
    return Piece(component, shape, 0.5)


def _tissue_stop(ground: Ground, plan: BasePlan) -> Piece:
    """A block from the tissue up to the lattice at the free end."""
    assert plan.stop_at is not None
    spot = point_at(plan.crest, plan.stop_at)
    n = plan.station(plan.stop_at)
    across = plan.buccal[n]
    along = np.array([-across[1], across[0], 0.0])
    foot = limit("stop.size").value / 2
    side = foot + CAP
    top = plan.base.relief_mm + plan.base.thickness_mm
    grid = ground.grid
    box = box_round(grid, spot + np.array([[-3.0] * 3, [3.0] * 3]), 0.0)
    x, y = (box.low[a] + grid.spacing * np.arange(box.shape[a]) for a in range(2))
    dx, dy = x[:, None] - spot[0], y[None, :] - spot[1]
    u, v = (np.abs(dx * way[0] + dy * way[1]) - side for way in (across, along))
    flat = smooth_cut(u.astype(np.float32), v.astype(np.float32), STOP_CORNER)
    off = ground.blocked.field.values[box.slices]
    values = smooth_cut(
        np.broadcast_to(flat[:, :, None], box.shape).astype(np.float32), off - np.float32(top), 0.3
    )
    values = np.maximum(values, -off - np.float32(0.6))
    component = Component(
        f"{plan.id}.stop",
        "tissue stop",
        ground.back(spot[None]),
        np.array([2 * foot]),
        np.array([top]),
        None,
        {"side_mm": 2 * foot},
    )
    return Piece(component, Shape(box, values), 0.3)
