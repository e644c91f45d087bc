"""Room for what a framework carries: artificial teeth as plain blocks, and the acrylic round them.

The blocks are no tooth forms. They say where teeth will stand, so that lattice, posts and finish
lines can be judged against them, and how much acrylic each base takes.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.spatial import ConvexHull
from shapely import contains_xy
from shapely.geometry import Polygon

from claspwright.arch import ARCH_ORDER, DentalArch, Span, average_crown, kind_of
from claspwright.base import Finding, Floats, GeometryError, Severity
from claspwright.framework.acrylic import acrylic_of
from claspwright.framework.design import DentureBase
from claspwright.framework.model import Framework
from claspwright.framework.terrain import Terrain
from claspwright.geometry import (
    IDENTITY,
    HeightField,
    Mesh,
    Rigid,
    arc_lengths,
    height_field,
    merged,
    point_at,
    volume,
)
from claspwright.limits import limit
from claspwright.survey import Survey

CLEAR_MM = 0.1  # between a block and what stands beside it
CONTACT_MM = 0.05  # that a block keeps from the opposing teeth
OVER_PLANE_MM = 1.5  # by which an opposing tooth may stand off the plane and still be met
ASIDE_MM = 2.0  # at most from the crest to the line of the arch
SMALLEST, LARGEST = 0.75, 1.15  # of the average mesiodistal size that a gap may ask of a tooth


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
            acrylic = acrylic_of(arch, ground, framework, base, span, [b.mesh for b in blocks])
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
