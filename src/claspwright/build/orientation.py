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

from claspwright.base import Bools, Floats, Ints, Progress, part, silent
from claspwright.build import _gauss_kernels as gauss
from claspwright.build import _pose_kernels as kernels
from claspwright.build.coarse import COARSE_MM, CoarsePart, coarse_part, extent
from claspwright.build.machine import Machine, Process
from claspwright.build.pose import Pose, sphere
from claspwright.build.slices import layer_count
from claspwright.geometry import Mesh, in_chunks

SIDE = 64  # bins a side of the map of normals
SHADOW_POINTS = 3000
EXTENT_POINTS = 20_000  # at least; a finalist takes every vertex
DIRECTIONS_A_CHUNK = 250
SUMMED_A_CHUNK = 100_000  # faces laid into one map of their own, the maps added
FACES_A_CHUNK = 512 * kernels.BLOCK
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
    across, ahead = _across(ways)
    guarded = np.array(protected, bool)
    progress(0.0, "orientation")
    with ThreadPoolExecutor(1) as beside:  # the coarse part for the rays, while sums are made
        for_rays = beside.submit(coarse_part, mesh, guarded)
        rows, vectors, size = _summed(mesh, guarded)
        low, high, shadow, sums = _landscape(mesh, rows, ways, (across, ahead), process)
        rough = for_rays.result()
    metal = float(rows[:, 3:6].sum()) / 3.0
    setting = _Setting(mesh, machine, process, weights, metal, vectors, size, guarded)
    space = np.maximum(sums[1] + sums[0] * (process.supports.stand_off_mm - low), 0.0)
    none = np.zeros(directions)
    cost = setting.cost(_Sums(high - low, shadow, sums[0], space, sums[2], sums[3], none))
    order = _apart(ways, np.argsort(cost, kind="stable"), finalists)
    hanging = _Hanging.of(setting, ways[order])
    found: list[Candidate | None] = [None] * len(order)

    def look(first: int, last: int) -> None:
        for n in range(first, last):
            d = order[n]
            frame = np.stack([across[d], ahead[d], ways[d]])
            found[n] = _candidate(setting, rough, hanging, n, frame, float(shadow[d]))

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
    vectors: Floats  # (3, F) normals as long as the area
    size: Floats  # (F,) area
    guarded: Bools  # (F,) protected faces

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


def _summed(mesh: Mesh, guarded: Bools) -> tuple[Floats, Floats, Floats]:
    """Map of the normals (side * side, terms), normals as long as the area (3, F), area (F,)."""
    count = len(mesh.faces)
    vectors, size = np.empty((3, count)), np.empty(count)
    maps: dict[int, Floats] = {}

    def gather(first: int, last: int) -> None:
        maps[first] = np.zeros((SIDE * SIDE, gauss.TERMS))
        gauss.gather(
            mesh.vertices, mesh.faces, guarded, SIDE, first, last, maps[first], vectors, size
        )

    in_chunks(gather, count, SUMMED_A_CHUNK)
    rows = np.sum([maps[first] for first in sorted(maps)], axis=0)
    return rows, vectors, size


def _landscape(
    mesh: Mesh, rows: Floats, ways: Floats, axes: tuple[Floats, Floats], process: Process
) -> tuple[Floats, Floats, Floats, Floats]:
    """For each direction: lowest and highest vertex of a choice, shadow [mm2], and sums over the
    map of the normals (4, D): what `weigh` gives.
    """  # noqa: D205
    used = rows[np.abs(rows[:, :3]).sum(axis=1) > 0]
    some = _every(mesh.vertices, EXTENT_POINTS)
    few = _every(mesh.vertices, SHADOW_POINTS)
    steep = np.cos(np.radians(process.supports.self_supporting_deg))
    flat = np.cos(np.radians(FLAT_DEG))
    count = len(ways)
    ends, pixels, sums = np.empty((2, count)), np.empty(count), np.empty((4, count))

    def look(first: int, last: int) -> None:
        here = slice(first, last)
        way, across, ahead = (np.ascontiguousarray(a[here].T) for a in (ways, *axes))
        ends[:, here] = extent(some, way)
        kernels.shadows(few, across, ahead, SHADOW_PIXEL_MM, pixels[here])
        told = np.empty((4, last - first))
        gauss.weigh(used, way, steep, flat, told)
        sums[:, here] = told

    in_chunks(look, count, DIRECTIONS_A_CHUNK)
    return ends[0], ends[1], pixels * SHADOW_PIXEL_MM**2, sums


def _every(points: Floats, count: int) -> Floats:
    """As many of the points as are asked for at least, spread evenly over the list."""
    some = np.ascontiguousarray(points[:: max(1, len(points) // count)])
    some.setflags(write=False)  # as vertices are: one compiled kernel for both
    return some


def _across(ways: Floats) -> tuple[Floats, Floats]:
    """(D, 3) two axes at right angles to each direction and to each other, right-handed."""
    side = np.where(np.abs(ways[:, 2:]) < 0.9, [[0.0, 0.0, 1.0]], [[1.0, 0.0, 0.0]])
    across = np.cross(side, ways)
    across /= np.linalg.norm(across, axis=1, keepdims=True)
    return across, np.cross(ways, across)


def _apart(ways: Floats, order: NDArray[Any], count: int, least_deg: float = 9.0) -> list[int]:
    """The first in order that lie apart from each other."""
    chosen: list[int] = []
    for d in order.tolist():
        if all(ways[d] @ ways[c] < np.cos(np.radians(least_deg)) for c in chosen):
            chosen.append(d)
        if len(chosen) == count:
            break
    return chosen


@dataclass(frozen=True, slots=True, eq=False)
class _Hanging:
    """What hangs in each of a few orientations, and how high the part stands."""

    ends: Floats  # (2, K) lowest and highest vertex
    sums: Floats  # (3, K) downskin, flat part, protected part [mm2]
    counts: Floats  # (B, K) faces that hang in each block of faces
    steep: float  # cosine

    @classmethod
    def of(cls, setting: _Setting, ups: Floats) -> _Hanging:
        """Look at every face and every vertex."""
        directions, total = np.ascontiguousarray(ups.T), len(setting.size)
        steep = float(np.cos(np.radians(setting.process.supports.self_supporting_deg)))
        flat = float(np.cos(np.radians(FLAT_DEG)))
        counts = np.zeros((-(-total // kernels.BLOCK), len(ups)))
        parts: dict[int, Floats] = {}

        def look(first: int, last: int) -> None:
            parts[first] = np.zeros((3, len(ups)))
            kernels.hanging(
                setting.vectors, setting.size, setting.guarded, directions, steep, flat,
                first, last, parts[first], counts,
            )  # fmt: skip

        in_chunks(look, total, FACES_A_CHUNK)
        sums = np.sum([parts[first] for first in sorted(parts)], axis=0)
        return cls(extent(setting.mesh.vertices, directions), sums, counts, steep)

    def chosen(self, setting: _Setting, n: int, up: Floats) -> Ints:
        """Faces of the n-th orientation from which rays go down, evenly among those that hang."""
        counts = np.ascontiguousarray(self.counts[:, n])
        total = int(counts.sum())
        step = max(1, total // MOST_RAYS)
        room = np.empty(total // step + 1, np.int32)
        found = kernels.every_nth(setting.vectors, setting.size, up, self.steep, counts, step, room)
        return room[:found]


def _candidate(
    setting: _Setting, rough: CoarsePart, hanging: _Hanging, n: int, frame: Floats, shadow: float
) -> Candidate:
    """The numbers of the n-th orientation, with rays down from its downskins.

    frame: (3, 3) two axes across the direction and the direction, as rows.
    """
    mesh, process, up = setting.mesh, setting.process, frame[2]
    downskin, flat, guarded = hanging.sums[:, n].tolist()
    low, high = hanging.ends[:, n].tolist()
    chosen = hanging.chosen(setting, n, up)
    centres = mesh.vertices[mesh.faces[chosen]].mean(axis=1)
    lift = centres @ up - low + process.supports.stand_off_mm
    share = -(up @ setting.vectors[:, chosen])
    share *= downskin / max(float(share.sum()), 1e-12)
    space, on_part, on_guarded = _below(rough, centres, share, lift, up)
    guarded += on_guarded
    jump = _largest_jump(rough, frame, low, high)
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
        downskin_mm2=downskin,
        support_mm3=SUPPORT_FILL * space,
        contacts=int(np.ceil(setting.contacts(sums)[0])),
        protected_mm2=guarded,
        on_part_mm2=on_part,
        flat_mm2=flat,
        jump_mm2=jump,
        shadow_mm2=shadow,
        a_platform=int(setting.a_platform(sums.shadow)[0]),
        reason="",
    )


def _below(
    rough: CoarsePart, centres: Floats, area: Floats, lift: Floats, up: Floats
) -> tuple[float, float, float]:
    """Volume below the downskins down to plate or part, area above the part itself, and area
    above its protected faces.
    """  # noqa: D205
    if not len(centres):
        return 0.0, 0.0, 0.0
    way, guarded = rough.below(centres - COARSE_MM * up, -up)
    hit = np.isfinite(way)
    drop = np.where(hit, way + COARSE_MM, lift)
    return float((area * drop).sum()), float(area[hit].sum()), float(area[guarded].sum())


def _largest_jump(rough: CoarsePart, frame: Floats, low: float, high: float) -> float:
    """Largest change of the layer area over a quarter of a millimetre [mm2]."""
    across, ahead, heights = np.ascontiguousarray(frame @ rough.points.T)
    areas = np.zeros(layer_count(high - low, JUMP_LAYER_MM))
    kernels.section_areas(across, ahead, heights, rough.faces, low, JUMP_LAYER_MM, areas)
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
