"""Ways from contacts down: straight pins, boughs to them, branches, short pins on the part."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from claspwright.base import Bools, Floats, Point
from claspwright.build.contacts import Contact
from claspwright.build.machine import SupportPlan
from claspwright.build.struts import pin, strut, trunk
from claspwright.geometry import DistanceTree, Mesh, closest_points, ray_lengths, signed_distance

STEP_MM = 0.3  # between points at which a way is held against the part
AZIMUTHS = 24
REACHES_MM = tuple(0.8 * n for n in range(1, 18))  # how far aside a branch may lead
MOST_POSTS = 12  # pins tried for one branch
MOST_BOUGHS = 5  # that one stem carries
FOOT_ROOM_MM = 1.2  # below the lowest bough


@dataclass(frozen=True, slots=True)
class Column:
    """How one contact is carried."""

    contact: Contact
    base: Literal["plate", "branch", "post", "part"]
    foot_mm: Point  # where it stands; of a branch to another pin, where that one stands
    top_mm: float = 0.0  # up to here other branches may lead to it; 0: nowhere
    on_protected: bool = False  # it stands on a face that no support should touch


def carried(
    tree: DistanceTree, contacts: list[Contact], earlier: list[Column], protected: Bools,
    plan: SupportPlan,
) -> list[tuple[Column, list[Mesh]]]:  # fmt: skip
    """A way down for each contact: straight, by a branch aside, or onto the part."""
    if not contacts:
        return []
    places = np.array([contact.at_mm for contact in contacts])
    free = _straight(tree, places, plan)
    done = np.zeros(len(contacts), bool)
    out = []
    for stem, boughs in _grouped(tree, contacts, places, free, plan):
        x, y, z = places[stem].tolist()
        thick = replace(plan, pin_mm=plan.trunk_mm)
        column = Column(contacts[stem], "plate", (x, y, 0.0), z - plan.neck_length_mm)
        out.append((column, [pin(x, y, 0.0, z, _neck(contacts[stem], plan), thick)]))
        for n in boughs:
            out.append(_bough(contacts[n], places[n], places[stem], plan))
        done[[stem, *boughs]] = True
    stems = np.flatnonzero(free & ~done)
    for n in stems.tolist():
        x, y, z = places[n].tolist()
        column = Column(contacts[n], "plate", (x, y, 0.0), z - plan.neck_length_mm)
        out.append((column, [pin(x, y, 0.0, z, _neck(contacts[n], plan), plan)]))
    posts = [
        (*c.foot_mm[:2], c.top_mm)
        for c in [*earlier, *(column for column, _ in out)]
        if c.base in ("plate", "branch")
    ]
    for contact in _of(contacts, ~(free | done)):
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
    for ends in _ways_aside(tree, start, plan):  # the shortest first
        found = ends[_feet_free(tree, ends, plan)]
        if len(found):
            break
    else:
        return None
    x, y, z = found[0].tolist()
    radius = 0.5 * plan.trunk_mm
    solids = [
        trunk(x, y, z, radius, plan),
        strut(found[0], start, radius * 0.8, 0.5 * plan.pin_mm),
        strut(start, top, 0.5 * plan.pin_mm, 0.5 * neck),
    ]
    return Column(contact, "branch", (x, y, 0.0), z), solids


def _ways_aside(tree: DistanceTree, start: Floats, plan: SupportPlan) -> Iterator[Floats]:
    """Reach by reach, the (N, 3) ends of branches in all directions that keep their distance."""
    angle = 2.0 * np.pi * np.arange(AZIMUTHS) / AZIMUTHS
    slope = np.tan(np.radians(plan.branch_deg))
    way = np.column_stack([np.cos(angle), np.sin(angle), np.full(AZIMUTHS, -slope)])
    steep = float(np.hypot(1.0, slope))
    reaches = np.array([r for r in REACHES_MM if start[2] - r * slope > 1.0])
    counts = _steps(reaches * steep)
    along = STEP_MM * (1.0 + np.arange(counts.max(initial=0)))
    points = start + along[:, None] * way[:, None] / steep
    # each direction is walked once, whatever the number of its ends
    near = _too_near(
        tree, points.reshape(-1, 3), np.tile(plan.neck_length_mm + along, AZIMUTHS),
        0.5 * plan.pin_mm, plan,
    )  # fmt: skip
    shut = np.logical_or.accumulate(near.reshape(AZIMUTHS, -1), axis=1)
    for reach, count in zip(reaches, counts, strict=True):
        yield (start + reach * way)[~shut[:, count - 1]]


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
    counts = _steps(length)
    whose = np.repeat(np.arange(len(starts)), counts)
    nth = np.arange(counts.sum()) - np.repeat(np.cumsum(counts) - counts, counts)
    along = STEP_MM * (nth + 1.0)
    share = np.minimum(along / np.maximum(length[whose], 1e-9), 1.0)
    points = starts[whose] + share[:, None] * (ends - starts)[whose]
    blocked = np.zeros(len(points), bool)
    if len(points):
        blocked = _too_near(tree, points, depth + along, radius, plan)
    return np.asarray(np.bincount(whose, weights=blocked, minlength=len(starts)) == 0)


def _steps(length: Floats) -> NDArray[np.int64]:
    """At how many points ways of these lengths [mm] are held against the part."""
    return np.maximum((length / STEP_MM).astype(np.int64), 1)


def _too_near(
    tree: DistanceTree, points: Floats, way: Floats, radius: float, plan: SupportPlan
) -> Bools:
    """(N,) whether the part leaves too little room at points so far along their ways [mm].

    What is farther away is not sought: a way that leads through metal is seen where it enters
    or leaves it, since its points lie closer together than they look about themselves.
    """
    room = np.minimum(radius + plan.clearance_mm, 0.02 + 0.55 * way)
    limit = max(radius + plan.clearance_mm, STEP_MM)
    return np.asarray(signed_distance(tree, points, limit) < room)


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
