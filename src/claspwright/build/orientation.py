"""Search over the sphere for the orientation that costs least at machine and bench.

Every wish is weighed in one coin, minutes of work for one part: minutes of the machine, minutes
of grinding supports off, and minutes set against what ought to be avoided (a contact on a
protected face, a flat downskin, a jump of the layer area).
"""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import ConvexHull

from claspwright.base import Bools, Floats, Progress, part, silent
from claspwright.build import _gauss_kernels as kernels
from claspwright.build.machine import Machine, Process
from claspwright.build.pose import Pose, sphere
from claspwright.build.slices import layer_count
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    closest_points,
    in_chunks,
)
from claspwright.geometry._ray_kernels import cast

SIDE = 64  # bins a side of the map of normals
COARSE_MM = 0.45  # of the grid whose cells are one vertex each, where rays meet the part
SHADOW_POINTS = 3000
HULL_POINTS = 20_000  # at least; a finalist takes every vertex
FLAT_DEG = 10.0  # downskin flatter than this counts as flat
SHADOW_PIXEL_MM = 2.0
PACKED = 0.6  # share of the platform that shadows can cover
SUPPORT_FILL = 0.12  # metal in the space below a downskin, by the pins of this program
JUMP_LAYER_MM = 0.25  # layer over which a jump of the area is told
MOST_RAYS = 500


@dataclass(frozen=True, slots=True)
class Weights:
    """What is set against each wish; common practice, no source."""

    contact_min: float = 0.35  # breaking off and grinding one contact
    protected_contact_min: float = 20.0  # a contact on a face that must fit
    flat_min_mm2: float = 0.05  # rough, sagging downskin
    jump_min_mm2: float = 0.05  # a jump of the layer area shows as a line and pulls
    parts: int = 6  # parts to be built together, at most


@dataclass(frozen=True, slots=True)
class Candidate:
    """One orientation with its numbers."""

    up: tuple[float, float, float]
    cost_min: float
    machine_min: float
    height_mm: float
    layers: int
    downskin_mm2: float  # seen from below, flatter than the self-supporting angle
    support_mm3: float  # metal of the supports, estimated
    contacts: int  # estimated from area and spacing
    protected_mm2: float  # of the downskin, and of the faces on which supports would stand
    on_part_mm2: float  # of the downskin, below which the part itself lies
    flat_mm2: float
    jump_mm2: float
    shadow_mm2: float
    a_platform: int  # parts of this shadow that one platform can hold
    reason: str


@dataclass(frozen=True, slots=True, eq=False)
class OrientationStudy:
    """The landscape and the best few."""

    directions: Floats  # (D, 3) up in the frame of the part
    cost_min: Floats  # (D,) estimate without rays
    best: tuple[Candidate, ...]  # reckoned with rays, the best first

    def pose(self, rank: int = 0) -> Pose:
        """The pose of one of the best."""
        return Pose(np.array(self.best[rank].up))


def study_orientations(
    mesh: Mesh,
    protected: Bools,
    machine: Machine,
    process: Process,
    *,
    weights: Weights = Weights(),  # noqa: B008 - frozen
    directions: int = 2000,
    finalists: int = 20,
    progress: Progress = silent,
) -> OrientationStudy:
    """Weigh orientations by sums over the map of normals, the best of them again by rays.

    Args:
        mesh: the part, closed.
        protected: (F,) faces that no support may touch.
        machine: the machine.
        process: layer, self-supporting angle, spacing of contacts.
        weights: what is set against each wish.
        directions: how many are tried, spread evenly over the sphere.
        finalists: how many are reckoned with rays.
        progress: told of the finalists.
    """
    ways = sphere(directions)
    progress(0.0, "orientation")
    with ThreadPoolExecutor(1) as beside:  # the coarse part for the rays, while the map is made
        for_rays = beside.submit(_for_rays, mesh, protected)
        sums = kernels.gather(mesh.vertices, mesh.faces, np.ascontiguousarray(protected), SIDE)
        areas, size = np.empty((len(mesh.faces), 3)), np.empty(len(mesh.faces))
        kernels.area_normals(mesh.vertices, mesh.faces, areas, size)
        tree, guarded = for_rays.result()
    used = np.flatnonzero(np.abs(sums[0]).sum(axis=1) > 0)
    binned = [np.ascontiguousarray(s[used]) for s in sums]
    some = mesh.vertices[:: max(1, len(mesh.vertices) // HULL_POINTS)]
    hull = some[ConvexHull(some).vertices]
    heights = ways @ hull.T
    low, high = heights.min(axis=1), heights.max(axis=1)
    steep = np.cos(np.radians(process.supports.self_supporting_deg))
    out = np.empty((directions, 4))
    flat = np.cos(np.radians(FLAT_DEG))

    def weigh(first: int, last: int) -> None:
        here = slice(first, last)
        kernels.weigh(binned[0], binned[1], binned[2], ways[here], steep, flat, out[here])

    in_chunks(weigh, directions, 250)
    shadow = _shadows(mesh, ways)
    metal = float(np.einsum("fi,fi->", areas, mesh.vertices[mesh.faces[:, 0]])) / 3.0
    setting = _Setting(mesh, machine, process, weights, metal, areas, size)
    lift = process.supports.stand_off_mm - low
    space = np.maximum(out[:, 1] + out[:, 0] * lift, 0.0)
    sums_of = _Sums(
        high - low, shadow, out[:, 0], space, out[:, 2], out[:, 3], np.zeros(directions)
    )
    cost = setting.cost(sums_of)
    order = _apart(ways, np.argsort(cost, kind="stable"), finalists)
    found: list[Candidate | None] = [None] * len(order)

    def look(first: int, last: int) -> None:
        for n in range(first, last):
            d = order[n]
            found[n] = _candidate(setting, tree, guarded, protected, ways[d], float(shadow[d]))

    in_chunks(look, len(order), 5, progress=part(progress, 0.2, 1.0), phase="orientation")
    best = sorted((one for one in found if one is not None), key=lambda one: one.cost_min)
    progress(1.0, "orientation")
    return OrientationStudy(ways, cost, tuple(_with_reasons(best)))


@dataclass(frozen=True, slots=True, eq=False)
class _Sums:
    """What the cost is made of, one value for each orientation."""

    height: Floats
    shadow: Floats
    downskin: Floats
    space: Floats  # volume below the downskins
    protected: Floats
    flat: Floats
    jump: Floats


@dataclass(frozen=True, slots=True, eq=False)
class _Setting:
    """What all orientations share."""

    mesh: Mesh
    machine: Machine
    process: Process
    weights: Weights
    metal_mm3: float
    vectors: Floats  # (F, 3) normals as long as the area
    size: Floats  # (F,) area

    def a_platform(self, shadow: Floats) -> Floats:
        """How many parts of this shadow one platform can hold, at most those to be built."""
        room = PACKED * self.machine.platform.area_mm2 / np.maximum(shadow, 1.0)
        return np.clip(room, 1.0, float(max(self.weights.parts, 1)))

    def machine_min(self, sums: _Sums) -> Floats:
        """Minutes of the machine for one part, the recoating shared by the parts beside it."""
        process, machine = self.process, self.machine
        layers = np.ceil((sums.height + process.supports.stand_off_mm) / process.layer_mm)
        shared = layers * machine.recoat_s / 60.0 + machine.begin_min + machine.end_min
        metal = self.metal_mm3 + SUPPORT_FILL * sums.space
        rate = process.core.speed_mm_s * 0.001 * process.hatch_um * process.layer_mm
        return shared / self.a_platform(sums.shadow) + metal / rate / machine.lasers / 60.0

    def contacts(self, sums: _Sums) -> Floats:
        """Contacts that the downskins ask for."""
        return sums.downskin / self.process.supports.spacing_mm**2

    def cost(self, sums: _Sums) -> Floats:
        """Minutes of work for one part, with what is set against each wish [min]."""
        weights = self.weights
        guarded = sums.protected / self.process.supports.spacing_mm**2
        too_tall = sums.height + self.process.supports.stand_off_mm > (
            self.machine.platform.height_mm
        )
        return np.asarray(
            self.machine_min(sums)
            + weights.contact_min * self.contacts(sums)
            + weights.protected_contact_min * guarded
            + weights.flat_min_mm2 * sums.flat
            + weights.jump_min_mm2 * sums.jump
            + np.where(too_tall, 1e6, 0.0)
        )


def _shadows(mesh: Mesh, ways: Floats) -> Floats:
    """(D,) area that a part takes on the platform, seen along each direction [mm2]."""
    side = np.where(np.abs(ways[:, 2:]) < 0.9, [[0.0, 0.0, 1.0]], [[1.0, 0.0, 0.0]])
    across = np.cross(side, ways)
    across /= np.linalg.norm(across, axis=1, keepdims=True)
    points = np.ascontiguousarray(mesh.vertices[:: max(1, len(mesh.vertices) // SHADOW_POINTS)])
    ahead = np.cross(ways, across)
    counts = np.empty(len(ways))

    def draw(first: int, last: int) -> None:
        here = slice(first, last)
        kernels.shadows(points, across[here], ahead[here], SHADOW_PIXEL_MM, counts[here])

    in_chunks(draw, len(ways), 250)
    return counts * SHADOW_PIXEL_MM**2


def _apart(ways: Floats, order: NDArray[Any], count: int, least_deg: float = 9.0) -> list[int]:
    """The first in order that lie apart from each other."""
    chosen: list[int] = []
    for d in order.tolist():
        if all(ways[d] @ ways[c] < np.cos(np.radians(least_deg)) for c in chosen):
            chosen.append(d)
        if len(chosen) == count:
            break
    return chosen


def _for_rays(mesh: Mesh, protected: Bools) -> tuple[DistanceTree, Bools]:
    """The coarse part as rays meet it, and which of its faces are protected."""
    rough, guarded = _coarse(mesh, protected)
    return DistanceTree(rough), guarded


def _coarse(mesh: Mesh, protected: Bools) -> tuple[Mesh, Bools]:
    """The part with one vertex for each cell of a grid, for rays, and which faces are protected."""
    low = mesh.bounds[0]
    cell = ((mesh.vertices - low) / COARSE_MM).astype(np.int64)
    wide = cell.max(axis=0) + 1
    key = (cell[:, 0] * wide[1] + cell[:, 1]) * wide[2] + cell[:, 2]
    kept, first, which = np.unique(key, return_index=True, return_inverse=True)
    faces = which[mesh.faces].astype(np.int32)
    a, b, c = faces.T
    whole = (a != b) & (b != c) & (a != c)
    if whole.sum() < 4:
        return mesh, protected
    weight = np.bincount(which, minlength=len(kept))
    points = np.column_stack([np.bincount(which, mesh.vertices[:, i]) for i in range(3)])
    return Mesh(points / weight[:, None], faces[whole]), protected[whole]


def _candidate(
    setting: _Setting, tree: DistanceTree, guarded_faces: Bools, protected: Bools, up: Floats,
    shadow: float,
) -> Candidate:  # fmt: skip
    """The numbers of one orientation, face by face, with rays down from its downskins."""
    mesh, process = setting.mesh, setting.process
    steep = np.cos(np.radians(process.supports.self_supporting_deg))
    level = np.cos(np.radians(FLAT_DEG))
    every = np.empty(len(mesh.faces), np.int64)
    downskin, flat, guarded, count = kernels.hanging(
        setting.vectors, setting.size, protected, up, steep, level, every
    )
    faces = every[:count]
    heights = mesh.vertices @ up
    low, high = float(heights.min()), float(heights.max())
    chosen = faces[:: max(1, count // MOST_RAYS)]
    centres = mesh.vertices[mesh.faces[chosen]].mean(axis=1)
    lift = centres @ up - low + process.supports.stand_off_mm
    share = -(setting.vectors[chosen] @ up)
    share *= downskin / max(float(share.sum()), 1e-12)
    space, on_part, on_guarded = _below(tree, guarded_faces, centres, share, lift, up)
    guarded += on_guarded
    jump = _largest_jump(tree.mesh, up, low, high)
    one = np.ones(1)
    sums = _Sums(
        (high - low) * one, shadow * one, downskin * one, space * one,
        guarded * one, flat * one, jump * one,
    )  # fmt: skip
    return Candidate(
        up=(float(up[0]), float(up[1]), float(up[2])),
        cost_min=float(setting.cost(sums)[0]),
        machine_min=float(setting.machine_min(sums)[0]),
        height_mm=high - low,
        layers=layer_count(high - low + process.supports.stand_off_mm, process.layer_mm),
        downskin_mm2=float(downskin),
        support_mm3=SUPPORT_FILL * space,
        contacts=int(np.ceil(setting.contacts(sums)[0])),
        protected_mm2=float(guarded),
        on_part_mm2=on_part,
        flat_mm2=float(flat),
        jump_mm2=jump,
        shadow_mm2=shadow,
        a_platform=int(setting.a_platform(sums.shadow)[0]),
        reason="",
    )


def _below(
    tree: DistanceTree, protected: Bools, centres: Floats, area: Floats, lift: Floats, up: Floats
) -> tuple[float, float, float]:
    """Volume below the downskins down to plate or part, area above the part itself, and area
    above its protected faces.
    """  # noqa: D205
    if not len(centres):
        return 0.0, 0.0, 0.0
    start = centres - COARSE_MM * up
    way = np.empty(len(start))
    cast(start, -up, False, tree.arrays, way)
    hit = np.isfinite(way)
    drop = np.where(hit, way + COARSE_MM, lift)
    on_guarded = 0.0
    if hit.any():
        landed = closest_points(tree, start[hit] - up * way[hit][:, None]).faces
        on_guarded = float(area[hit][protected[landed]].sum())
    return float((area * drop).sum()), float(area[hit].sum()), on_guarded


def _largest_jump(mesh: Mesh, up: Floats, low: float, high: float) -> float:
    """Largest change of the layer area over a quarter of a millimetre [mm2]."""
    heights = mesh.vertices @ up
    areas = np.zeros(layer_count(high - low, JUMP_LAYER_MM))
    kernels.section_areas(mesh.vertices, mesh.faces, heights, up, low, JUMP_LAYER_MM, areas)
    return float(np.abs(np.diff(areas)).max(initial=0.0))


def _with_reasons(best: list[Candidate]) -> list[Candidate]:
    """Say of each what speaks for it beside the others."""
    wishes = (
        ("cost_min", "least work in all"),
        ("protected_mm2", "fewest contacts on faces that must fit"),
        ("machine_min", "least machine time"),
        ("contacts", "fewest contacts to grind off"),
        ("height_mm", "lowest"),
        ("flat_mm2", "least flat downskin"),
        ("jump_mm2", "smallest jump of the layer area"),
        ("support_mm3", "least metal in supports"),
    )
    least = {name: min(getattr(one, name) for one in best) for name, _ in wishes}
    out = []
    for one in best:
        said = [text for name, text in wishes if getattr(one, name) <= least[name] * (1 + 1e-9)]
        words = ", ".join(said) if said else "a fair mean of all wishes"
        out.append(replace(one, reason=words))
    return out
