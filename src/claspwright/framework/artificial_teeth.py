"""Room for what a framework carries: artificial teeth as plain blocks, and the acrylic round them.

The blocks are no tooth forms. They say where teeth will stand, so that lattice, posts and finish
lines can be judged against them, and how much acrylic each base takes.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.ndimage import gaussian_filter
from scipy.spatial import ConvexHull, cKDTree
from shapely import contains_xy
from shapely.geometry import MultiPoint, Polygon

from claspwright.arch import ARCH_ORDER, DentalArch, Span, average_crown, kind_of
from claspwright.base import Finding, Floats, GeometryError, Severity, Singles
from claspwright.framework.canvas import box_round, plan_distance_in, smooth_union
from claspwright.framework.design import DentureBase
from claspwright.framework.model import Framework
from claspwright.framework.terrain import Terrain
from claspwright.geometry import (
    IDENTITY,
    Field,
    Grid,
    HeightField,
    Mesh,
    Rigid,
    arc_lengths,
    contour,
    difference,
    height_field,
    merged,
    point_at,
    volume,
    without_crumbs,
)
from claspwright.limits import limit
from claspwright.survey import Survey

CLEAR_MM = 0.1  # between a block and what stands beside it
CONTACT_MM = 0.05  # that a block keeps from the opposing teeth
OVER_PLANE_MM = 1.5  # by which an opposing tooth may stand off the plane and still be met
ASIDE_MM = 2.0  # at most from the crest to the line of the arch
SMALLEST, LARGEST = 0.75, 1.15  # of the average mesiodistal size that a gap may ask of a tooth
FLANGE_MM = 2.0  # thickness of acrylic over the tissue (common practice, no source)
COLLAR_MM = 1.0  # of acrylic round a tooth
COLLAR_SHARE = 0.3  # of a tooth's height that acrylic covers
FINISH_MM = 2.2  # from the inner rail of a lattice to its finish line
FLANGE_DOWN_MM = 3.0  # farther down on the tongue side of a lower free end
SOFT_MM = 1.0  # fillet of the acrylic
CRUMB_MM3 = 2.0  # of acrylic that hangs on nothing


@dataclass(frozen=True, slots=True, eq=False)
class Block:
    """One artificial tooth as a block; arch frame, mm."""

    tooth: int
    mesh: Mesh
    height_mm: float  # that is left for it over lattice and acrylic
    wanted_mm: float  # the crown's average length
    room_mm: float  # from the ridge to the plane it is set to
    meets: bool  # set to an opposing tooth, else to the plane of its neighbours


@dataclass(frozen=True, slots=True, eq=False)
class BaseRoom:
    """What stands and lies on one base."""

    teeth: tuple[int, ...]
    blocks: tuple[Block, ...]
    acrylic: Mesh | None  # arch frame; None where no acrylic is left, as under a full metal base
    acrylic_mm3: float


@dataclass(frozen=True, slots=True, eq=False)
class Room:
    """All bases of a framework, and what is wrong with their room."""

    bases: tuple[BaseRoom, ...]
    findings: tuple[Finding, ...]

    @property
    def acrylic_mm3(self) -> float:
        """Volume of all acrylic."""
        return sum(base.acrylic_mm3 for base in self.bases)

    @property
    def blocks(self) -> Mesh | None:
        """All blocks as one mesh to be shown; None without a base."""
        meshes = [block.mesh for base in self.bases for block in base.blocks]
        return merged(*meshes) if meshes else None

    @property
    def acrylic(self) -> Mesh | None:
        """All acrylic as one mesh to be shown."""
        meshes = [base.acrylic for base in self.bases if base.acrylic is not None]
        return merged(*meshes) if meshes else None


def room_for_teeth(arch: DentalArch, survey: Survey, framework: Framework) -> Room:
    """Set a block for every tooth that a framework replaces, and fill acrylic round them.

    Args:
        arch: the arch, with the opposing one where it is known.
        survey: its blocked-out surface is where the acrylic ends below.
        framework: the finished framework; its metal is taken from the acrylic.
    """
    ground = Terrain.of(survey.block_field)
    roof = None if arch.opposing is None else _upside_down(arch.opposing)
    bases, findings = [], []
    for base in framework.design.bases:
        span = next((s for s in arch.spans if set(base.teeth) & set(s.missing)), None)
        if span is None:
            continue
        blocks, found = _blocks(arch, span, base, roof)
        findings += found
        try:
            acrylic = _acrylic(arch, ground, framework, span, base, blocks)
        except GeometryError as error:
            acrylic = None
            findings.append(_unknown(base, error))
        size = 0.0 if acrylic is None else volume(acrylic)
        bases.append(BaseRoom(base.teeth, tuple(blocks), acrylic, size))
    return Room(tuple(bases), tuple(findings))


def _upside_down(opposing: Mesh) -> HeightField:
    flip = Rigid(np.diag([1.0, -1.0, -1.0]), np.zeros(3))
    return height_field(Mesh(flip.apply(opposing.vertices), opposing.faces), IDENTITY, 0.2)


def _lowest(roof: HeightField | None, ring: Floats) -> float:
    """Height of the lowest opposing surface over a plan polygon; inf where none."""
    if roof is None:
        return np.inf
    low, high = ring.min(axis=0), ring.max(axis=0)
    xs, ys = np.meshgrid(np.arange(low[0], high[0], 0.25), np.arange(low[1], high[1], 0.25))
    flat = np.column_stack([xs.ravel(), ys.ravel()])
    flat = flat[contains_xy(Polygon(ring), flat[:, 0], flat[:, 1])]
    if not len(flat):
        return np.inf
    seen = -roof.at(np.column_stack([flat[:, 0], -flat[:, 1], np.zeros(len(flat))]))
    seen = seen[np.isfinite(seen)]
    return float(np.percentile(seen, 2.0)) if seen.size else np.inf


def _blocks(
    arch: DentalArch, span: Span, base: DentureBase, roof: HeightField | None
) -> tuple[list[Block], list[Finding]]:
    order = ARCH_ORDER[arch.scan.jaw]
    teeth = sorted(base.teeth, key=order.index)
    sizes = [average_crown(code) for code in teeth]
    crest, along = span.crest, arc_lengths(span.crest)
    length = float(along[-1])
    wide = np.array([size.mesiodistal_mm for size in sizes])
    free = [end is None for end in span.ends]
    share = length / float(wide.sum())
    if any(free):
        share = min(share, 1.0)
    wide = wide * np.clip(share, SMALLEST, LARGEST)
    first = length - float(wide.sum()) if free[0] and not free[1] else 0.0
    if not any(free) or all(free):
        first = 0.5 * (length - float(wide.sum()))
    plane, aside = _ends(arch, span)
    blocks, findings = [], []
    if not SMALLEST <= share <= LARGEST:
        findings.append(_misfit(span, base, share))
    for n, code in enumerate(teeth):
        at = float(np.clip(first + wide[:n].sum() + wide[n] / 2, 0.0, length))
        part = at / max(length, 1e-9)
        spot = point_at(crest, at)
        k = int(np.argmin(np.abs(along - at)))
        out = span.buccal[k] * np.array([1.0, 1.0, 0.0])
        out = out / max(float(np.linalg.norm(out)), 1e-9)
        way = np.array([-out[1], out[0], 0.0])
        middle = spot + ((1 - part) * aside[0] + part * aside[1]) * out
        half = np.array([0.5 * wide[n] - CLEAR_MM / 2, 0.5 * sizes[n].buccolingual_mm])
        ring = middle[:2] + _oval(half) @ np.array([way[:2], out[:2]])
        level = (1 - part) * plane[0] + part * plane[1]
        opposed = _lowest(roof, ring) - CONTACT_MM
        meets = opposed < level + OVER_PLANE_MM
        top = opposed if meets else level
        room = float(top - spot[2])
        left = room - _metal_and_acrylic(base)
        height = float(np.clip(left, 0.6, sizes[n].length_mm))
        front = kind_of(code) in ("incisor", "canine")
        mesh = _block(np.array([*middle[:2], top]), way, out, half, height, front)
        blocks.append(Block(code, mesh, left, sizes[n].length_mm, room, meets))
        findings += _room_finding(blocks[-1], base, np.array([*middle[:2], top]))
    return blocks, findings


def _metal_and_acrylic(base: DentureBase) -> float:
    """What lies between the ridge and a tooth [mm]."""
    metal = base.thickness_mm if base.metal else base.relief_mm + base.thickness_mm
    return metal + limit("acrylic.over_lattice").value


def _ends(arch: DentalArch, span: Span) -> tuple[tuple[float, float], tuple[float, float]]:
    """Height of the plane, and how far the arch lies out from the crest, at both ends."""
    heights: list[float | None] = []
    aside: list[float] = []
    for n, end in enumerate(span.ends):
        if end is None:
            heights.append(None)
            aside.append(0.0)
            continue
        tooth = arch.teeth[end]
        corners = arch.scan.surface.vertices[arch.scan.surface.faces[tooth.faces]]
        heights.append(float(np.percentile(corners[..., 2], 99)))
        k = -1 if n else 0
        offset = float((tooth.centre - span.crest[k]) @ span.buccal[k])
        aside.append(float(np.clip(offset, -ASIDE_MM, ASIDE_MM)))
    known = [h for h in heights if h is not None]
    if not known:
        tops = [arch.scan.surface.vertices[arch.scan.surface.faces[t.faces]][..., 2].max()
                for t in arch.teeth.values()]  # fmt: skip
        known = [float(np.median(tops))] if tops else [float(span.crest[:, 2].max()) + 8.0]
    other = known[0]
    left, right = (other if h is None else h for h in heights)
    return (left, right), (aside[0], aside[1])


def _oval(half: Floats, power: float = 3.0) -> Floats:
    """(24, 2) rounded rectangle."""
    turn = np.linspace(0.0, 2 * np.pi, 24, endpoint=False)
    c, s = np.cos(turn), np.sin(turn)
    radius = (np.abs(c) ** power + np.abs(s) ** power) ** (-1.0 / power)
    return np.column_stack([half[0] * radius * c, half[1] * radius * s])


def _block(top: Floats, way: Floats, out: Floats, half: Floats, height: float, front: bool) -> Mesh:
    """A rounded block that narrows to its neck, or to its edge on a front tooth."""
    rings = (
        ((0.92, 0.16, 0.35, 0.0), (1.0, 0.55, 0.1, 0.45), (0.72, 0.8, 0.0, 1.0))
        if front
        else ((0.8, 0.62, 0.0, 0.0), (1.0, 1.0, 0.0, 0.3), (0.78, 0.74, 0.0, 1.0))
    )
    points = []
    for long, deep, forward, down in rings:
        flat = _oval(half * np.array([long, deep]))
        centre = top + forward * half[1] * out - np.array([0.0, 0.0, down * height])
        points.append(centre + flat[:, :1] * way + flat[:, 1:] * out)
    cloud = np.concatenate(points)
    hull = ConvexHull(cloud)
    used = np.unique(hull.simplices)
    number = np.zeros(len(cloud), np.int32)
    number[used] = np.arange(len(used), dtype=np.int32)
    vertices, faces = cloud[used], number[hull.simplices]
    corners = vertices[faces]
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    inwards = np.einsum("ij,ij->i", normal, corners.mean(axis=1) - vertices.mean(axis=0)) < 0
    faces[inwards] = faces[inwards][:, ::-1]
    return Mesh(vertices, faces)


def _room_finding(block: Block, base: DentureBase, at: Floats) -> tuple[Finding, ...]:
    rule = limit("artificial.height")
    severity: Severity
    if block.height_mm < (rule.stop_below or 0.0):
        severity = "stop"
    elif block.height_mm < (rule.look_below or 0.0):
        severity = "look"
    else:
        return ()
    to = "the opposing teeth" if block.meets else "the plane of its neighbours"
    x, y, z = at
    return (
        Finding(
            "artificial.room",
            severity,
            f"Between the ridge and {to} there are {block.room_mm:.1f} mm for {block.tooth}; over "
            f"lattice and acrylic {max(block.height_mm, 0.0):.1f} mm are left for the tooth. Ask "
            "for a metal base, a tooth in metal, or more room from the opposing side.",
            rule.cited,
            measured=round(block.height_mm, 2),
            limit=rule.stop_below if severity == "stop" else rule.look_below,
            unit="mm",
            at_mm=(float(x), float(y), float(z)),
            component="base." + "-".join(map(str, base.teeth)),
        ),
    )


def _unknown(base: DentureBase, error: GeometryError) -> Finding:
    teeth = ", ".join(map(str, base.teeth))
    return Finding(
        "artificial.acrylic",
        "look",
        f"The acrylic of the base for {teeth} could not be worked out ({error.what}); measure it.",
        "this run",
        component="base." + "-".join(map(str, base.teeth)),
    )


def _misfit(span: Span, base: DentureBase, share: float) -> Finding:
    x, y, z = span.crest[len(span.crest) // 2]
    teeth = ", ".join(map(str, base.teeth))
    small = share < 1.0
    ask = "fewer or narrower teeth" if small else "another tooth, or spaces"
    return Finding(
        "artificial.length",
        "look",
        f"The ridge for {teeth} is {100 * share:.0f} % as long as these teeth are on average. "
        f"Ask the prescriber for {ask}.",
        "average crowns: Ash & Nelson 2003, Table 1-1; what a gap may ask of them: common "
        "practice, no source",
        measured=round(100 * share, 1),
        limit=100 * (SMALLEST if small else LARGEST),
        unit="%",
        at_mm=(float(x), float(y), float(z)),
        component="base." + "-".join(map(str, base.teeth)),
    )


def _inner_widths(arch: DentalArch, span: Span) -> Floats:
    """(K,) from the crest to where acrylic ends towards tongue or palate: past the inner rail.

    Beside a lower free end it goes on down the tongue side.
    """
    wide = np.asarray(span.lingual_width_mm)
    more = FLANGE_DOWN_MM if arch.scan.jaw == "mandible" and None in span.ends else 0.0
    return np.minimum(wide, np.clip(wide - 1.5, 2.2, 4.6) + FINISH_MM + more)


def _outline(ground: Terrain, arch: DentalArch, span: Span) -> Polygon:
    """Plan outline of the acrylic of a span, grid frame: to the limits of a base on both sides."""
    frame = ground.grid.frame
    crest = frame.apply(span.crest)
    out = frame.turn(span.buccal)
    inner = _inner_widths(arch, span)
    sides: tuple[list[Floats], list[Floats]] = ([], [])
    for side, sign, widths in ((sides[0], 1.0, span.buccal_width_mm), (sides[1], -1.0, inner)):
        for n in range(0, len(crest), 2):
            profile = ground.profile(crest[n], sign * out[n], float(widths[n]) + 3.0)
            if len(profile) > 3:
                side.append(point_at(profile, float(widths[n]))[:2])
    if not all(len(side) > 1 for side in sides):
        round_crest: Polygon = MultiPoint(crest[:, :2]).convex_hull.buffer(2.0)
        return round_crest
    ring = Polygon(np.vstack([sides[0], sides[1][::-1]])).buffer(0)
    even = ring.buffer(1.0).buffer(-1.5).buffer(0.5)
    return even if isinstance(even, Polygon) else max(even.geoms, key=lambda g: g.area)


def _acrylic(
    arch: DentalArch,
    ground: Terrain,
    framework: Framework,
    span: Span,
    base: DentureBase,
    blocks: list[Block],
) -> Mesh | None:
    """The acrylic of one base: a flange on the tissue and a collar round every tooth."""
    outline = _outline(ground, arch, span)
    if outline.is_empty:
        return None
    grid = ground.grid
    ring = np.asarray(outline.exterior.coords)[:-1]
    crest = grid.frame.apply(span.crest)
    tops = [grid.frame.apply(b.mesh.vertices) for b in blocks]
    low = float(crest[:, 2].min()) - 12.0
    high = max(float(t[:, 2].max()) for t in tops)
    around = np.vstack([np.column_stack([ring, np.full(len(ring), h)]) for h in (low, high)])
    box = box_round(grid, around, 1.5)
    here = tuple(slice(s.start, s.stop, 2) for s in box.slices)
    off = ground.field.values[here]
    step = 2 * grid.spacing
    small = Grid(grid.frame, box.low, step, off.shape)
    plan = plan_distance_in(grid, box, [ring])[::2, ::2]
    z = (box.low[2] + step * np.arange(off.shape[2])).astype(np.float32)
    low_at, high_at = _flange_heights(
        ground, span, _inner_widths(arch, span), crest, box.low, step, plan.shape
    )
    flange = np.maximum.reduce(
        [off - np.float32(FLANGE_MM), np.broadcast_to(plan[:, :, None], off.shape),
         z - high_at[:, :, None], low_at[:, :, None] - z]
    )  # fmt: skip
    body: Singles = np.asarray(flange, np.float32)
    for corners in tops:
        hull = MultiPoint(corners[:, :2]).convex_hull
        flat = plan_distance_in(grid, box, [np.asarray(hull.exterior.coords)[:-1]])[::2, ::2]
        neck = float(corners[:, 2].min())
        cover = neck + COLLAR_SHARE * float(np.ptp(corners[:, 2]))
        collar = np.maximum((flat - np.float32(COLLAR_MM))[:, :, None], z - np.float32(cover))
        body = smooth_union(body, np.asarray(collar, np.float32), SOFT_MM)
    body = np.maximum(body, (plan - np.float32(0.5))[:, :, None])
    body = np.maximum(body, -off)
    if not (body < 0).any():
        return None
    solid = contour(_closed(Field(small, np.asarray(body, np.float32))))
    left = difference(solid, *(b.mesh for b in blocks), framework.solid)
    if not len(left.faces):
        return None
    return without_crumbs(left, CRUMB_MM3)[0]


def _flange_heights(
    ground: Terrain,
    span: Span,
    inner: Floats,
    crest: Floats,
    low: Floats,
    step: float,
    shape: tuple[int, ...],
) -> tuple[Singles, Singles]:
    """(nx, ny) heights between which acrylic lies on the tissue: from the limits to the crest."""
    out = ground.grid.frame.turn(span.buccal)
    ends = []
    for sign, widths in ((1.0, span.buccal_width_mm), (-1.0, inner)):
        reach = np.full(len(crest), np.nan)
        for n in range(0, len(crest), 2):
            profile = ground.profile(crest[n], sign * out[n], float(widths[n]) + 3.0)
            if len(profile) > 3:
                reach[n] = point_at(profile, float(widths[n]))[2]
        known = np.flatnonzero(np.isfinite(reach))
        filled = crest[:, 2] - 5.0
        if known.size:
            filled = np.interp(np.arange(len(crest)), known, reach[known])
        ends.append(filled)
    x, y = (low[a] + step * np.arange(shape[a]) for a in range(2))
    columns = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
    _, near = cKDTree(crest[:, :2]).query(columns)
    outwards = ((columns - crest[near, :2]) * out[near, :2]).sum(axis=1) > 0
    lowest = np.where(outwards, ends[0][near], ends[1][near]).reshape(shape)
    lowest = gaussian_filter(lowest, SOFT_MM / step, mode="nearest")
    highest = crest[near, 2] + FLANGE_MM
    return lowest.astype(np.float32), highest.reshape(shape).astype(np.float32)


def _closed(field: Field) -> Field:
    """The field with nothing of the body on its outermost nodes."""
    values = field.values.copy()
    for axis in range(3):
        for end in (0, -1):
            face = [slice(None)] * 3
            face[axis] = end  # type: ignore[call-overload]
            values[tuple(face)] = np.maximum(values[tuple(face)], np.float32(field.grid.spacing))
    return Field(field.grid, values)
