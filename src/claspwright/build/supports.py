"""Supports of a part: what carries its contacts, walls between pins, bars, and the check of all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from scipy.spatial import cKDTree

from claspwright.base import Bools, Finding, Floats, Point, Progress, silent
from claspwright.build.book import finding
from claspwright.build.columns import STEP_MM, Column, carried
from claspwright.build.contacts import Contact, find_contacts
from claspwright.build.islands import Island, find_islands
from claspwright.build.machine import SupportPlan
from claspwright.build.slices import LayerPlan, Slices, slice_solid
from claspwright.build.struts import slanted_plate, strut
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    closest_points,
    merged,
    signed_distance,
    union,
)

PLATES_APART_MM = 3.2  # between the plates of a wall, upright
PLATE_HEIGHT_MM = 0.8
WALL_RISE_DEG = 50.0
LONGEST_RING_MM = 16.0
RING_ENDS_MM = 2.0  # from a tip, within which the bar may lie along its arm
ROUNDS = 4  # of adding contacts under islands


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
    bars = _bars(tree, rings, plan)
    if bars:
        ring = merged(*bars)
        contacts += find_contacts(ring, np.zeros(len(ring.faces), bool), plan, deep_mm=layer_mm)
    columns: list[Column] = []
    pieces: list[Mesh] = [*bars, *([] if standing is None else [standing])]
    islands: tuple[Island, ...] = ()
    for turn in range(ROUNDS):
        laid = carried(tree, contacts, columns, protected, plan)
        columns += [column for column, _ in laid]
        pieces += [solid for _, solids in laid for solid in solids]
        walls = _walls(tree, columns, plan)
        solid = union(*pieces, *walls) if pieces else merged()
        progress(0.3 + 0.6 * (turn + 0.5) / ROUNDS, "supports")
        below = slice_solid(solid, layers) if pieces else _nothing(part_slices)
        islands = find_islands(part_slices, below)
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
                f"Support contacts on faces that must fit: {len(touched)}. Choose another "
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
                "Supports that stand on the part itself, because no way leads down to the "
                f"platform: {len(standing)}.",
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
