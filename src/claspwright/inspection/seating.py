"""The scanned metal set down on the scanned master model until it rests."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array
from scipy.spatial import cKDTree
from scipy.spatial.transform import Rotation

from claspwright.base import (
    Bools,
    ConvergenceError,
    Floats,
    InputError,
    Ints,
    Progress,
    silent,
)
from claspwright.geometry import (
    IDENTITY,
    ClosestPoints,
    DistanceTree,
    Mesh,
    OrientedPoints,
    Rigid,
    closest_points,
    face_normals,
    oriented_vertices,
)
from claspwright.inspection.areas import Area
from claspwright.inspection.contact import ContactStep, contact_step

NEAR_MM = 1.2  # metal farther from the model than this cannot touch it
FACING = -0.3  # greatest cosine between a metal normal and the model's where they may touch
CELL_MM = 0.6  # one contact a cell is enough for a step
SLACK_SIGMAS = 2.0  # of a patch's mean, where the lowest of many patches decides
PATCH_POINTS = 100
MOST_POINTS = 30_000  # of the underside
ROUNDS = 160
STILL_MM = 1e-4
PRESS_MM = 0.05  # of noise and of arms that hug a tooth, before the metal is lifted further
LIFTS_MM = (0.0, 0.1, 0.25, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 6.0)


@dataclass(frozen=True, slots=True, eq=False)
class Underside:
    """The metal that can touch the model: points with normals, each with its patch.

    A gap is taken as the mean over the patch, so that noise of the scan does not prop the
    metal up on its highest grains.
    """

    points: Floats  # (P, 3) design frame [mm]
    normals: Floats  # (P, 3)
    average: csr_array  # (P, P) rows that take the mean over each patch
    slack_mm: Floats  # (P,) how far noise alone may seem to press a patch into the model

    def gaps(self, pose: Rigid, ground: DistanceTree) -> tuple[Floats, ClosestPoints]:
        """(P,) mean signed gap of each patch in a pose, and the nearest points."""
        near = closest_points(ground, pose.apply(self.points))
        return np.asarray(self.average @ near.distance), near


@dataclass(frozen=True, slots=True, eq=False)
class Seating:
    """Where the metal rests; design frame, the frame of the model too."""

    pose: Rigid  # from the aligned place to the seated one
    underside: Underside
    gap_mm: Floats  # (P,) of each point of the underside when seated
    contacts: Floats  # (C, 3) where it touches [mm]
    forces: Floats  # (C,) share of the load along the contact's normal
    settled: bool  # it rests; else it still slid when the work ended
    pressed_mm: float  # how far it presses into the model where it is wedged; 0: nowhere
    tilt_deg: float  # against the aligned place
    lift_mm: float  # the load's point against the aligned place, along the path; positive: proud


@dataclass(frozen=True, slots=True)
class RestGap:
    """The gap under one area when seated."""

    area: Area
    count: int
    mean_mm: float
    lowest_mm: float
    highest_mm: float
    uncertainty_mm: float  # of the mean: standard error of the scan's noise and the placing


@dataclass(frozen=True, slots=True)
class Rocking:
    """What happens when the seated metal is pressed at one point."""

    at_mm: tuple[float, float, float]
    play_mm: float  # how far the point goes down
    tilt_deg: float
    settled: bool


def underside(
    metal: Mesh, ground: DistanceTree, *, leave_out: Sequence[Area] = (), patch_mm: float = 0.0,
    noise_mm: float = 0.0,
) -> Underside:  # fmt: skip
    """The part of an aligned scan that faces the model and lies near it.

    Args:
        metal: scan of the framework, moved on to the design.
        ground: tree over the master model, in the same frame.
        leave_out: areas that spring over an undercut: the retentive thirds of clasp arms.
        patch_mm: radius over which a gap is averaged; 0 for a scan without noise.
        noise_mm: standard deviation of the scan's points across the surface.

    Raises:
        InputError: nothing of the scan faces the model.
    """
    all_points = oriented_vertices(metal)
    near = closest_points(ground, all_points.points, 3.0 * NEAR_MM)
    keep = near.faces >= 0
    facing = np.einsum(
        "pd,pd->p", all_points.normals, face_normals(ground.mesh)[np.maximum(near.faces, 0)]
    )
    keep &= (facing < FACING) & (np.abs(near.distance) < NEAR_MM)
    for area in leave_out:
        keep &= ~area.holds(all_points.points)
    if not keep.any():
        raise InputError(
            "nothing of the scan faces the master model",
            remedy="Both must lie in the frame of the design; align the scan first.",
        )
    kept = np.flatnonzero(keep)
    kept = kept[:: max(1, len(kept) // MOST_POINTS)]
    found = OrientedPoints(all_points.points[kept], all_points.normals[kept])
    average = _averages(found, patch_mm)
    sizes = np.diff(average.indptr)
    slack = SLACK_SIGMAS * noise_mm / np.sqrt(sizes)
    return Underside(found.points, found.normals, average, slack)


def _averages(found: OrientedPoints, radius: float) -> csr_array:
    """(P, P) rows of equal weights over the points of a patch that face the same way."""
    count = len(found.points)
    own = np.arange(count)[:, None]
    near: NDArray[np.intp] = own
    same = np.ones((count, 1), bool)
    if radius > 0:
        tree = cKDTree(found.points)
        most = min(PATCH_POINTS, count)
        far, index = tree.query(found.points, k=most, distance_upper_bound=radius)
        near = np.asarray(index).reshape(count, -1)
        far = np.asarray(far).reshape(count, -1)
        safe = np.where(np.isfinite(far), near, own)
        agree = np.einsum("pkd,pd->pk", found.normals[safe], found.normals) > 0.5
        same = (np.isfinite(far) & agree) | (near == own)
    sizes = same.sum(axis=1)
    weights = np.repeat(1.0 / sizes, sizes)
    start = np.concatenate([[0], np.cumsum(sizes)])
    return csr_array((weights, near[same], start), shape=(count, count))


def seat(
    under: Underside,
    ground: DistanceTree,
    path: Floats,
    load_at: Floats,
    *,
    start: Rigid | None = None,
    progress: Progress = silent,
) -> Seating:
    """Set the metal down along the path until it rests under a load, frictionless and rigid.

    It is lifted until it is free, then gives way to the load step by step; every step is the
    motion of a rigid body that closes no gap beyond touching. Where it rests, the contact
    forces balance the load. Friction and the springing of the arms are left out.

    Args:
        under: the metal that may touch.
        ground: tree over the master model.
        path: (3,) unit vector out of the mouth; the load acts against it.
        load_at: (3,) point of the load on the aligned metal, such as the middle of the rests.
        start: seated pose to go on from; without one it is lifted from the aligned place.
        progress: told of each round.
    """
    pose = _lifted(under, ground, path) if start is None else start
    normals = face_normals(ground.mesh)
    arm = max(float(np.linalg.norm(np.ptp(under.points, axis=0))) / 4.0, 0.1)
    reach, settled, force = 0.3, False, np.zeros(0)
    touching: Ints = np.zeros(0, np.int32)
    for round_ in range(ROUNDS):
        progress(round_ / ROUNDS, "seating")
        gaps, near = under.gaps(pose, ground)
        gaps = gaps + under.slack_mm
        touching = _candidates(pose.apply(under.points), gaps, max(3.0 * reach, 0.1))
        at = pose.apply(load_at)
        step = _step(
            near.points[touching], normals[near.faces[touching]], gaps[touching], at,
            -path, reach=reach, arm=arm,
        )  # fmt: skip
        pose, force = _moved(step, at).after(pose), step.forces
        size = float(np.linalg.norm(np.concatenate([step.shift, arm * step.turn])))
        if size < STILL_MM:
            settled = True
            break
        if round_ % 12 == 11:
            reach = max(0.6 * reach, 0.02)
    progress(1.0, "seated")
    return _seating(under, ground, path, load_at, pose, (touching, force), settled)


def _seating(
    under: Underside, ground: DistanceTree, path: Floats, load_at: Floats, pose: Rigid,
    held: tuple[Ints, Floats], settled: bool,
) -> Seating:  # fmt: skip
    gaps, near = under.gaps(pose, ground)
    touching, force = held
    bears = force > 1e-6
    angle = _tilt(pose.rotation, path)
    lift = float((pose.apply(load_at) - load_at) @ path)
    where = near.points[touching[bears]] if len(bears) else np.zeros((0, 3))
    return Seating(
        pose,
        under,
        gaps,
        where,
        force[bears] if len(bears) else force,
        settled,
        max(0.0, -float((gaps + under.slack_mm).min())),
        angle,
        lift,
    )


def _lifted(under: Underside, ground: DistanceTree, path: Floats) -> Rigid:
    """The least lift at which nothing presses in by more than PRESS_MM; else the best one."""
    best, least = IDENTITY, -np.inf
    for lift in LIFTS_MM:
        pose = Rigid(np.eye(3), lift * path)
        lowest = float(under.gaps(pose, ground)[0].min())
        if lowest > -PRESS_MM:
            return pose
        if lowest > least:
            best, least = pose, lowest
    return best


def _candidates(points: Floats, gaps: Floats, margin: float) -> Ints:
    """The nearest to touching in each cell, of those within the margin."""
    close = np.flatnonzero(gaps < margin)
    order = close[np.argsort(gaps[close], kind="stable")]
    cells = np.floor(points[order] / CELL_MM).astype(np.int64)
    _, first = np.unique(cells, axis=0, return_index=True)
    return order[np.sort(first)].astype(np.int32)


def _step(
    points: Floats, normals: Floats, gaps: Floats, load_at: Floats, direction: Floats,
    *, reach: float, arm: float,
) -> ContactStep:  # fmt: skip
    """A step that opens every gap; where none does, one that closes none further."""
    try:
        return contact_step(points, normals, gaps, load_at, direction, reach=reach, arm=arm)
    except ConvergenceError:
        open_ = np.maximum(gaps, 0.0)
        return contact_step(points, normals, open_, load_at, direction, reach=reach, arm=arm)


def _moved(step: ContactStep, at: Floats) -> Rigid:
    rotation = Rotation.from_rotvec(step.turn).as_matrix()
    return Rigid(rotation, at + step.shift - rotation @ at)


def _tilt(rotation: Floats, path: Floats) -> float:
    """Angle by which a rotation tilts the path [deg]; turning about the path is no tilt."""
    return float(np.degrees(np.arctan2(np.linalg.norm(np.cross(path, rotation @ path)),
                                       path @ rotation @ path)))  # fmt: skip


def rest_gaps(
    seating: Seating, areas: Sequence[Area], *, noise_mm: float = 0.0
) -> tuple[RestGap, ...]:
    """The gap under each area; an area of which nothing faces the model is left out.

    Args:
        seating: the metal at rest.
        areas: such as one a rest, in the frame of the design.
        noise_mm: standard deviation of the scan's points, for the stated uncertainty.
    """
    out = []
    placing = float(seating.underside.slack_mm.mean()) / 2.0  # it rests on three patches or more
    for area in areas:
        inside: Bools = area.holds(seating.underside.points)
        if not inside.any():
            continue
        gaps = seating.gap_mm[inside]
        own = noise_mm / np.sqrt(len(gaps))
        out.append(
            RestGap(area, len(gaps), float(gaps.mean()), float(gaps.min()), float(gaps.max()),
                    float(np.hypot(own, placing)))
        )  # fmt: skip
    return tuple(out)


def rocking(
    seating: Seating, ground: DistanceTree, path: Floats, press_at: Floats
) -> tuple[Rocking, ...]:
    """Press the seated metal at each of (K, 3) points of the aligned metal and see it give way."""
    out = []
    for point in np.atleast_2d(press_at):
        pressed = seat(seating.underside, ground, path, point, start=seating.pose)
        before, after = seating.pose.apply(point), pressed.pose.apply(point)
        turn = pressed.pose.rotation @ seating.pose.rotation.T
        x, y, z = (float(value) for value in point)
        out.append(
            Rocking((x, y, z), float((before - after) @ path),
                    _tilt(turn, path),
                    pressed.settled)
        )  # fmt: skip
    return tuple(out)
