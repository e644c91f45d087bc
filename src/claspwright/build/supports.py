"""Supports: pins with necks to break off, branches round the part, walls between pins."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np
from scipy.spatial import cKDTree

from claspwright.base import Bools, Finding, Floats, Point, Progress, silent
from claspwright.build.book import finding
from claspwright.build.contacts import Contact, find_contacts
from claspwright.build.islands import Island, find_islands, layer_areas
from claspwright.build.machine import SupportPlan
from claspwright.build.slices import LayerPlan, Slices, slice_solid
from claspwright.build.struts import pin, slanted_plate, strut, trunk
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    closest_points,
    merged,
    ray_lengths,
    signed_distance,
    union,
)

STEP_MM = 0.3  # between points at which a way is held against the part
AZIMUTHS = 24
REACHES_MM = tuple(0.8 * n for n in range(1, 18))  # how far aside a branch may lead
PLATES_APART_MM = 3.2  # between the plates of a wall, upright
PLATE_HEIGHT_MM = 0.8
WALL_RISE_DEG = 50.0
MOST_POSTS = 12  # pins tried for one branch
LONGEST_RING_MM = 16.0
RING_ENDS_MM = 2.0  # from a tip, within which the bar may lie along its arm
MOST_BOUGHS = 5  # that one stem carries
FOOT_ROOM_MM = 1.2  # below the lowest bough
ROUNDS = 4  # of adding contacts under islands


@dataclass(frozen=True, slots=True)
class Column:
    """How one contact is carried."""

    contact: Contact
    base: Literal["plate", "branch", "post", "part"]
    foot_mm: Point  # where it stands; of a branch to another pin, where that one stands
    top_mm: float = 0.0  # up to here other branches may lead to it; 0: nowhere
    on_protected: bool = False  # it stands on a face that no support should touch


@dataclass(frozen=True, slots=True, eq=False)
class Supports:
    """Supports of one part; plate frame."""

    solid: Mesh  # everything but the part, one body or several
    columns: tuple[Column, ...]
    walls: int  # plates between pins
    islands: tuple[Island, ...]  # layers without support below that are left
    findings: tuple[Finding, ...]
    slices: Slices = field(repr=False)  # of the supports, in the layers of the part
    part_slices: Slices = field(repr=False)  # exact contours of the part in the same layers
    rings: int = 0  # pairs of clasp tips closed to a ring


def support(
    mesh: Mesh,
    protected: Bools,
    plan: SupportPlan,
    layer_mm: float,
    *,
    free_ends: Floats | None = None,
    rings: Sequence[tuple[Point, Point]] = (),
    standing: Mesh | None = None,
    tree: DistanceTree | None = None,
    progress: Progress = silent,
) -> Supports:
    """Carry a part that stands over the plate, its lowest point at the stand-off.

    After the supports are laid, the layers of part and supports are held against each other:
    metal that begins over loose powder gets a contact of its own, until none is left or nothing
    helps; what is left is a `stop`.

    Args:
        mesh: the part, closed, above z = 0.
        protected: (F,) faces that no support should touch.
        plan: measures of supports.
        layer_mm: thickness of a layer.
        free_ends: (N, 3) places near long free ends, which get a stronger neck.
        rings: pairs of clasp tips to be closed to a ring by a bar, which is cut off after heat
            treatment; left out where no bar passes.
        standing: supports that stand already; then contacts come only under what begins over
            loose powder, and the columns are those added.
        tree: of the part, where it is at hand.
        progress: told of contacts, ways and the check.
    """
    progress(0.0, "supports")
    tree = DistanceTree(mesh) if tree is None else tree
    contacts = (
        []
        if standing is not None
        else list(find_contacts(mesh, protected, plan, free_ends, deep_mm=layer_mm))
    )
    progress(0.2, "supports")
    layers = LayerPlan(layer_mm, 0.0, int(np.ceil(mesh.bounds[1, 2] / layer_mm - 1e-9)))
    part_slices = slice_solid(mesh, layers)
    metal = layer_areas(part_slices)
    bars = _bars(tree, rings, plan)
    if bars:
        ring = merged(*bars)
        contacts += find_contacts(ring, np.zeros(len(ring.faces), bool), plan, deep_mm=layer_mm)
    columns: list[Column] = []
    pieces: list[Mesh] = [*bars, *([] if standing is None else [standing])]
    islands: tuple[Island, ...] = ()
    for turn in range(ROUNDS):
        laid = _carried(tree, contacts, columns, protected, plan)
        columns += [column for column, _ in laid]
        pieces += [solid for _, solids in laid for solid in solids]
        walls = _walls(tree, columns, plan)
        solid = union(*pieces, *walls) if pieces else merged()
        progress(0.3 + 0.6 * (turn + 0.5) / ROUNDS, "supports")
        below = slice_solid(solid, layers) if pieces else _nothing(part_slices)
        islands = find_islands(part_slices, below, metal)
        fresh = [c for i in islands if (c := _under(tree, i, protected)) is not None]
        known = {column.contact.at_mm for column in columns}
        contacts = [c for c in fresh if c.at_mm not in known]
        if not contacts:
            break
    progress(1.0, "supports")
    findings = _findings(columns, islands)
    return Supports(
        solid, tuple(columns), len(walls), islands, findings, below, part_slices, len(bars)
    )


def _bars(
    tree: DistanceTree, rings: Sequence[tuple[Point, Point]], plan: SupportPlan
) -> list[Mesh]:
    """Bars between clasp tips that keep clear of the part but at their ends.

    Source:
        closed rings and heat treatment improve accuracy (Rues et al., J Funct Biomater 2023;
        14(8):416, introduction; check-values F25).
    """
    out = []
    radius = 0.5 * plan.ring_mm
    for one, other in rings:
        start, end = np.array(one), np.array(other)
        length = float(np.linalg.norm(end - start))
        if not 2.0 * plan.ring_mm < length < LONGEST_RING_MM:
            continue
        along = np.arange(STEP_MM, length, STEP_MM)
        points = start + along[:, None] * (end - start) / length
        free = signed_distance(tree, points) > radius + 0.5 * plan.clearance_mm
        near = np.minimum(along, length - along) < RING_ENDS_MM
        if np.all(free | near) and free.any():
            out.append(strut(start, end, radius, radius))
    return out


def _nothing(like: Slices) -> Slices:
    none = np.zeros(1, np.int64)
    return Slices(
        like.bottom_mm, like.layer_mm, np.zeros((0, 2)), none, np.zeros(like.layers + 1, np.int64)
    )


def _under(tree: DistanceTree, island: Island, protected: Bools) -> Contact | None:
    """A contact below an island of metal."""
    near = closest_points(tree, np.array([island.at_mm]))
    face = int(near.faces[0])
    x, y, z = island.at_mm
    return Contact((x, y, z), "island", bool(protected[face]), face)


def _carried(
    tree: DistanceTree, contacts: list[Contact], earlier: list[Column], protected: Bools,
    plan: SupportPlan,
) -> list[tuple[Column, list[Mesh]]]:  # fmt: skip
    """A way down for each contact: straight, by a branch aside, or onto the part."""
    if not contacts:
        return []
    places = np.array([contact.at_mm for contact in contacts])
    free = _straight(tree, places, plan)
    carried = np.zeros(len(contacts), bool)
    out = []
    for stem, boughs in _grouped(tree, contacts, places, free, plan):
        x, y, z = places[stem].tolist()
        thick = replace(plan, pin_mm=plan.trunk_mm)
        column = Column(contacts[stem], "plate", (x, y, 0.0), z - plan.neck_length_mm)
        out.append((column, [pin(x, y, 0.0, z, _neck(contacts[stem], plan), thick)]))
        for n in boughs:
            out.append(_bough(contacts[n], places[n], places[stem], plan))
        carried[[stem, *boughs]] = True
    stems = np.flatnonzero(free & ~carried)
    for n in stems.tolist():
        x, y, z = places[n].tolist()
        column = Column(contacts[n], "plate", (x, y, 0.0), z - plan.neck_length_mm)
        out.append((column, [pin(x, y, 0.0, z, _neck(contacts[n], plan), plan)]))
    posts = [
        (*c.foot_mm[:2], c.top_mm)
        for c in [*earlier, *(column for column, _ in out)]
        if c.base in ("plate", "branch")
    ]
    for contact in _of(contacts, ~(free | carried)):
        neck = _neck(contact, plan)
        found = _to_post(tree, contact, neck, posts, plan) or _branch(tree, contact, neck, plan)
        if found is None:
            found = _onto_part(tree, contact, neck, protected, plan)
        elif found[0].base == "branch":
            posts.append((*found[0].foot_mm[:2], found[0].top_mm))
        out.append(found)
    return out


def _grouped(
    tree: DistanceTree, contacts: list[Contact], places: Floats, free: Bools, plan: SupportPlan
) -> list[tuple[int, list[int]]]:
    """Stems that go straight down, each with the contacts whose boughs lead to it.

    The stem that can carry the most is taken first; free ends keep a pin of their own.
    """
    loose = np.array([contact.kind != "free end" for contact in contacts])
    wide = _free(tree, places, places * [1.0, 1.0, 0.0], 0.0, 0.5 * plan.trunk_mm, plan)
    pairs = cKDTree(places[:, :2]).query_pairs(plan.bough_mm, output_type="ndarray")
    both = np.concatenate([pairs, pairs[:, ::-1]]).reshape(-1, 2)
    stem, bough = both[free[both[:, 0]] & wide[both[:, 0]] & loose[both[:, 1]]].T
    starts = places[bough] - [0.0, 0.0, plan.neck_length_mm]
    aside = np.linalg.norm(places[bough, :2] - places[stem, :2], axis=1)
    ends = np.column_stack(
        [places[stem, :2], starts[:, 2] - aside * np.tan(np.radians(plan.branch_deg))]
    )
    fit = (ends[:, 2] > FOOT_ROOM_MM) & (aside > 0.3)
    fit &= ends[:, 2] < places[stem, 2] - plan.neck_length_mm
    stem, bough, starts, ends, aside = (a[fit] for a in (stem, bough, starts, ends, aside))
    clear = _free(tree, starts, ends, plan.neck_length_mm, 0.5 * plan.pin_mm, plan)
    reach = {n: [] for n in range(len(places))}  # type: dict[int, list[int]]
    for n in np.lexsort((bough, aside, stem)).tolist():
        if clear[n]:
            reach[int(stem[n])].append(int(bough[n]))
    out: list[tuple[int, list[int]]] = []
    left = set(range(len(places)))
    while True:
        able = {n: [m for m in reach[n] if m in left][:MOST_BOUGHS] for n in left if reach[n]}
        best = max(sorted(able), key=lambda n: len(able[n]), default=None)
        if best is None or not able[best]:
            return out
        out.append((best, able[best]))
        left -= {best, *able[best]}


def _bough(
    contact: Contact, place: Floats, stem: Floats, plan: SupportPlan
) -> tuple[Column, list[Mesh]]:
    """A slanted bar from below a contact to the stem beside it."""
    start = place - np.array([0.0, 0.0, plan.neck_length_mm])
    aside = float(np.linalg.norm(stem[:2] - start[:2]))
    x, y = stem[:2].tolist()
    end = np.array([x, y, start[2] - aside * np.tan(np.radians(plan.branch_deg))])
    radius = 0.5 * plan.pin_mm
    solids = [
        strut(end, start, radius, radius),
        strut(start, place, radius, 0.5 * _neck(contact, plan)),
    ]
    return Column(contact, "post", (x, y, 0.0)), solids


def _of(contacts: list[Contact], chosen: Bools) -> list[Contact]:
    return [contact for contact, take in zip(contacts, chosen, strict=True) if take]


def _neck(contact: Contact, plan: SupportPlan) -> float:
    return plan.anchor_neck_mm if contact.kind == "free end" else plan.neck_mm


def _to_post(
    tree: DistanceTree, contact: Contact, neck: float, posts: list[tuple[float, float, float]],
    plan: SupportPlan,
) -> tuple[Column, list[Mesh]] | None:  # fmt: skip
    """A branch to the nearest pin that stands already."""
    if not posts:
        return None
    top = np.array(contact.at_mm)
    start = top - np.array([0.0, 0.0, plan.neck_length_mm])
    every = np.array(posts)
    aside = np.hypot(*(every[:, :2] - start[:2]).T)
    height = start[2] - aside * np.tan(np.radians(plan.branch_deg))
    fit = (height > 1.0) & (height < every[:, 2]) & (aside > 0.3) & (aside < REACHES_MM[-1])
    near = np.flatnonzero(fit)
    near = near[np.argsort(aside[near], kind="stable")][:MOST_POSTS]
    ends = np.column_stack([every[near, :2], height[near]])
    free = np.flatnonzero(_branches_free(tree, start, ends, plan))
    if not len(free):
        return None
    end = ends[free[0]]
    radius = 0.5 * plan.pin_mm
    solids = [strut(end, start, radius, radius), strut(start, top, radius, 0.5 * neck)]
    return Column(contact, "post", (float(end[0]), float(end[1]), 0.0)), solids


def _branch(
    tree: DistanceTree, contact: Contact, neck: float, plan: SupportPlan
) -> tuple[Column, list[Mesh]] | None:
    """The shortest way aside and down that keeps clear of the part."""
    top = np.array(contact.at_mm)
    start = top - np.array([0.0, 0.0, plan.neck_length_mm])
    angle = 2.0 * np.pi * np.arange(AZIMUTHS) / AZIMUTHS
    slope = np.tan(np.radians(plan.branch_deg))
    way = np.column_stack([np.cos(angle), np.sin(angle), np.full(AZIMUTHS, -slope)])
    ends = (start + np.array(REACHES_MM)[:, None, None] * way).reshape(-1, 3)
    ends = ends[ends[:, 2] > 1.0]  # the shortest first
    ends = ends[_branches_free(tree, start, ends, plan)]
    ends = ends[_feet_free(tree, ends, plan)]
    if not len(ends):
        return None
    x, y, z = ends[0].tolist()
    radius = 0.5 * plan.trunk_mm
    solids = [
        trunk(x, y, z, radius, plan),
        strut(ends[0], start, radius * 0.8, 0.5 * plan.pin_mm),
        strut(start, top, 0.5 * plan.pin_mm, 0.5 * neck),
    ]
    return Column(contact, "branch", (x, y, 0.0), z), solids


def _straight(tree: DistanceTree, places: Floats, plan: SupportPlan) -> Bools:
    """(N,) whether a pin can go straight down from each contact to the plate."""
    return _free(tree, places, places * [1.0, 1.0, 0.0], 0.0, 0.5 * plan.pin_mm, plan)


def _branches_free(tree: DistanceTree, start: Floats, ends: Floats, plan: SupportPlan) -> Bools:
    """(N,) whether a branch from below a contact to each end keeps its distance."""
    starts = np.broadcast_to(start, ends.shape)
    return _free(tree, starts, ends, plan.neck_length_mm, 0.5 * plan.pin_mm, plan)


def _feet_free(tree: DistanceTree, ends: Floats, plan: SupportPlan) -> Bools:
    """(N,) whether a trunk can stand below each end of a branch, down to the plate."""
    return _free(tree, ends, ends * [1.0, 1.0, 0.0], np.inf, 0.5 * plan.trunk_mm, plan)


def _free(
    tree: DistanceTree, starts: Floats, ends: Floats, depth: float, radius: float,
    plan: SupportPlan,
) -> Bools:  # fmt: skip
    """(N,) whether the part is nowhere nearer to a way than its radius and the clearance.

    Close below a contact less is asked for, growing with the way from it; `depth` is that way at
    the begin.
    """
    length = np.linalg.norm(ends - starts, axis=1)
    counts = np.maximum((length / STEP_MM).astype(int), 1)
    whose = np.repeat(np.arange(len(starts)), counts)
    nth = np.arange(counts.sum()) - np.repeat(np.cumsum(counts) - counts, counts)
    along = STEP_MM * (nth + 1.0)
    share = np.minimum(along / np.maximum(length[whose], 1e-9), 1.0)
    points = starts[whose] + share[:, None] * (ends - starts)[whose]
    room = np.minimum(radius + plan.clearance_mm, 0.02 + 0.55 * (depth + along))
    blocked = np.zeros(len(points), bool)
    if len(points):
        blocked = signed_distance(tree, points) < room
    return np.asarray(np.bincount(whose, weights=blocked, minlength=len(starts)) == 0)


def _onto_part(
    tree: DistanceTree, contact: Contact, neck: float, protected: Bools, plan: SupportPlan
) -> tuple[Column, list[Mesh]]:
    """A short pin down to the part itself; where nothing lies below, down to the plate."""
    top = np.array(contact.at_mm)
    down = np.array([0.0, 0.0, -1.0])
    way = float(ray_lengths(tree, top[None] + 0.05 * down, down)[0]) + 0.05
    x, y, z = top.tolist()
    if not np.isfinite(way) or way >= z:
        # It passes close to a wall of the part: thin all the way down.
        slim = min(plan.pin_mm, 1.3 * neck)
        solids = [strut(np.array([x, y, 0.0]), top, 0.5 * slim, 0.5 * neck)]
        lowered = _above_plate(solids[0])
        return Column(contact, "plate", (x, y, 0.0)), [lowered]
    base = z - way
    face = int(closest_points(tree, np.array([[x, y, base]])).faces[0])
    column = Column(contact, "part", (x, y, base), bool(protected[face]))
    return column, [pin(x, y, base, z, neck, plan)]


def _above_plate(mesh: Mesh) -> Mesh:
    """The mesh without what its lengthened end puts below the plate."""
    points = mesh.vertices.copy()
    points[:, 2] = np.maximum(points[:, 2], 0.0)
    return Mesh(points, mesh.faces)


def _walls(tree: DistanceTree, columns: list[Column], plan: SupportPlan) -> list[Mesh]:
    """Slanted plates, one above the other, between pins that stand near each other."""
    pins = [c for c in columns if c.base == "plate"]
    if len(pins) < 2:
        return []
    feet = np.array([c.foot_mm[:2] for c in pins])
    tops = np.array([c.contact.at_mm[2] for c in pins]) - plan.neck_length_mm
    pairs = sorted(cKDTree(feet).query_pairs(plan.wall_span_mm))
    ways = []
    for a, b in pairs:
        gap = float(np.linalg.norm(feet[a] - feet[b]))
        if gap < plan.pin_mm:
            continue
        rise = gap * np.tan(np.radians(WALL_RISE_DEG))
        top = min(tops[a], tops[b]) - rise - PLATE_HEIGHT_MM
        for n, low in enumerate(np.arange(0.8, top, PLATES_APART_MM).tolist()):
            one, two = (a, b) if n % 2 == 0 else (b, a)
            ways.append(([*feet[one], low], [*feet[two], low + rise]))
    if not ways:
        return []
    starts, ends = np.array([w[0] for w in ways]), np.array([w[1] for w in ways])
    middle = 0.5 * (starts + ends) + np.array([0.0, 0.0, 0.5 * PLATE_HEIGHT_MM])
    free = signed_distance(tree, middle) > plan.clearance_mm + PLATE_HEIGHT_MM
    return [
        slanted_plate(start, end, PLATE_HEIGHT_MM, plan.wall_mm)
        for start, end in zip(starts[free], ends[free], strict=True)
    ]


def _findings(columns: list[Column], islands: tuple[Island, ...]) -> tuple[Finding, ...]:
    found = []
    touched = [c for c in columns if c.contact.protected or c.on_protected]
    if touched:
        found.append(
            finding(
                "build.protected-contact",
                f"{len(touched)} support contacts lie on faces that must fit. Choose another "
                "orientation, or grind and check these places on the model.",
                measured=len(touched),
                limit=0,
                at_mm=touched[0].contact.at_mm,
            )
        )
    standing = [c for c in columns if c.base == "part"]
    if standing:
        found.append(
            finding(
                "build.support-on-part",
                f"{len(standing)} supports stand on the part itself, because no way leads "
                "down to the platform.",
                measured=len(standing),
                limit=0,
                at_mm=standing[0].contact.at_mm,
            )
        )
    return (*found, *_island_findings(islands))


def _island_findings(islands: tuple[Island, ...]) -> tuple[Finding, ...]:
    """A stop for every area that begins over loose powder."""
    return tuple(
        finding(
            "build.island",
            f"In layer {island.layer + 1} an area of {island.area_mm2:.3f} mm2 begins "
            "over loose powder. Turn the part or add a support.",
            measured=round(island.area_mm2, 4),
            unit="mm2",
            at_mm=island.at_mm,
        )
        for island in islands
    )
