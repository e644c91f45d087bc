"""Laying one surface on another that shows wholly or partly the same, from any pose."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from scipy.spatial.transform import Rotation

from claspwright.base import Floats, InputError, Ints, Progress, silent
from claspwright.geometry import _match_kernels as kernels
from claspwright.geometry.distance import DistanceTree, closest_points
from claspwright.geometry.mesh import Mesh, face_normals
from claspwright.geometry.oriented import OrientedPoints, oriented_vertices, spread_points
from claspwright.geometry.pair_votes import PairTable, likely_motions
from claspwright.geometry.rigid import IDENTITY, Rigid
from claspwright.geometry.threads import beside, in_chunks

T = TypeVar("T")

PAIR_POINTS = 800  # of each surface that vote
COARSE_POINTS = 1200
FEW_POINTS = 500  # to try a motion with
FEWEST_POINTS = 250  # to bring a likely motion near
FINE_POINTS = 20_000
TRIED = 8  # likely motions that are brought near
REFINED = 4  # of those that come to different places
NORMAL_MM = 4.0  # normals at a right angle count like this distance times root two
AGREE = 0.5  # least cosine between the normals of a pair
OVERLAP_MM = 0.25  # points that end nearer, normals agreeing, count as overlap
NEAR = 0.3  # share of wide pairs from which the pose as given is looked at
ENOUGH = 0.75  # share of overlap at which the pose as given is taken, with no search
STILL_MM = 0.01  # a coarse step that moves less ends its reach,
STILL = 0.05  # or less than this share of the reach
FINE_ROUNDS = 15
FINE_CHUNK = 1250  # points a thread takes at a time
PLANE_STEPS = 8  # at most, on planes that are kept, before the nearest points are asked for again
TUKEY = 4.685  # 95 % efficiency on normal noise
LEAST_SIGMA_MM = 0.001


@dataclass(frozen=True, slots=True, eq=False)
class Registration:
    """A motion and how well it brings two surfaces together."""

    rigid: Rigid  # moves the moving surface onto the fixed one
    rms_mm: float  # over the inliers: distance along the normal of the fixed surface
    inlier_share: float  # of the compared points: nearer than 4.685 robust sigma, normals agreeing
    overlap: float  # share of the compared points within OVERLAP_MM, normals agreeing
    sigma_mm: float  # robust spread of the distances (1.4826 median absolute deviation)


def motion_between(points: Floats, goals: Floats) -> Rigid:
    """The rigid motion that brings (P, 3) points nearest to their (P, 3) goals.

    Never a reflection: the determinant is +1.

    Raises:
        InputError: fewer than three pairs, or shapes that differ.

    Source:
        W. Kabsch, Acta Crystallographica A 1976;32:922-923; sign correction after Umeyama,
        IEEE PAMI 1991;13:376-380 (from memory).
    """
    points, goals = np.asarray(points, np.float64), np.asarray(goals, np.float64)
    if points.shape != goals.shape or points.ndim != 2 or len(points) < 3:
        raise InputError(f"needs three or more pairs, got {points.shape} and {goals.shape}")
    centre, goal = points.mean(axis=0), goals.mean(axis=0)
    u, _, vt = np.linalg.svd((points - centre).T @ (goals - goal))
    sign = np.sign(np.linalg.det(u @ vt))
    rotation = vt.T @ np.diag([1.0, 1.0, sign]) @ u.T
    return Rigid(rotation, goal - rotation @ centre)


def register(
    moving: Mesh,
    fixed: DistanceTree | Mesh,
    *,
    seed: int = 1,
    search: bool = True,
    progress: Progress = silent,
) -> Registration:
    """Rigid motion of `moving` onto `fixed`, from any pose: first globally, then robustly.

    Global: votes of oriented point pairs, then nearest points in six dimensions (place and
    normal), so that a thin part cannot lock on to the opposite wall. Local: robust
    point-to-plane distances to the triangles themselves, weighted after Tukey, so that missing
    parts, supports and outliers do not draw. Both surfaces must have their normals outside.

    Args:
        moving: the mesh to be moved; may show a part only.
        fixed: the mesh it is laid on, or a tree over it that exists already.
        seed: of the points that are picked.
        search: try all poses; without it, only the neighbourhood of the pose as given.
        progress: told of each step.

    Source:
        Y. Chen, G. Medioni, Image and Vision Computing 1992;10:145-155, point to plane; J. W.
        Tukey's biweight (both from memory).
    """
    progress(0.0, "sampling")
    tree = fixed if isinstance(fixed, DistanceTree) else DistanceTree(fixed)
    target, (sample, fine) = beside(
        lambda: _Target.of(tree.mesh, seed), lambda: _sampled(moving, seed)
    )
    progress(0.2, "coarse registration")
    few = sample.picked(FEW_POINTS)
    start = IDENTITY
    reaches: tuple[float, ...] = (0.02, 0.01, 0.006)
    if not search or _within(few, target, start, 0.03 * target.size) > NEAR * len(few.points):
        start = _coarse(few, target, start, reaches=(0.03, 0.015, 0.008))
    if search and _overlap(few, target, start) < ENOUGH:
        start, reaches = _searched(sample, target, start), (0.008, 0.006)
    start = _coarse(sample.picked(COARSE_POINTS), target, start, reaches=reaches)
    progress(0.6, "fine registration")
    found = _fine(fine, tree, start)
    progress(1.0, "registered")
    return found


@dataclass(frozen=True, slots=True, eq=False)
class _Target:
    sample: OrientedPoints
    tree: tuple[Floats, Ints, Floats]  # rows of place and scaled normal, and the nodes over them
    size: float  # mm

    @classmethod
    def of(cls, mesh: Mesh, seed: int) -> _Target:
        sample = spread_points(mesh, 12 * PAIR_POINTS, seed=seed, smooth=12)
        rows = np.concatenate([sample.points, NORMAL_MM * sample.normals], axis=1)
        order, spans, boxes = kernels.build(rows)
        size = float(np.linalg.norm(np.ptp(sample.points, axis=0)))
        return cls(sample, (rows[order], spans, boxes), size)


class _Matched:
    """Points that are laid on a target again and again, each time from the partners before."""

    def __init__(self, points: OrientedPoints, target: _Target) -> None:
        self.points, self.target = points, target
        count = len(points.points)
        self.seeds = np.full(count, -1, np.int32)
        self.room = np.empty((count, 3)), np.empty((count, 3)), np.empty(count)

    def pairs(self, motion: Rigid, reach: float) -> tuple[Floats, Floats, Floats]:
        """Of the points nearer than `reach`, normals agreeing: place, normal there, distance.

        Valid up to the next call.
        """
        apart = max(reach, 0.04 * self.target.size)
        bound = float(np.hypot(apart, NORMAL_MM * np.sqrt(2.0 - 2.0 * AGREE)))
        count = kernels.pairs(
            self.points.points, self.points.normals, motion.rotation, motion.translation,
            NORMAL_MM, (bound, apart, AGREE, reach), *self.target.tree, self.seeds, *self.room,
        )  # fmt: skip
        here, normals, off = self.room
        return here[:count], normals[:count], off[:count]


def _overlap(points: OrientedPoints, target: _Target, motion: Rigid) -> float:
    return _within(points, target, motion, OVERLAP_MM) / len(points.points)


def _searched(sample: OrientedPoints, target: _Target, start: Rigid) -> Rigid:
    """The best of the likely motions, refined, and of the start.

    Parts that are nearly alike when turned need every one of them looked at; motions that come
    to the same place are refined once.
    """
    table = PairTable.of(target.sample.picked(PAIR_POINTS))
    likely = likely_motions(sample.picked(PAIR_POINTS), table)
    few, fewest = sample.picked(FEW_POINTS), sample.picked(FEWEST_POINTS)
    ranked = _ranked(likely, few, target, 0.025)
    apart: list[Rigid] = []
    for rough in _each(
        lambda motion: _coarse(fewest, target, motion, reaches=(0.08, 0.05, 0.03)), ranked[:TRIED]
    ):
        if all(_distance(rough, other, fewest) > 0.01 * target.size for other in apart):
            apart.append(rough)
    refined = _each(
        lambda motion: _coarse(few, target, motion, reaches=(0.015, 0.008)),
        _ranked(apart, few, target, 0.01)[:REFINED],
    )
    best, most = start, _overlap(few, target, start)
    for motion in refined:
        overlap = _overlap(few, target, motion)
        if overlap > most:
            best, most = motion, overlap
    return best


def _each(work: Callable[[Rigid], T], motions: list[Rigid]) -> list[T]:
    """What the work makes of each motion, some at the same time."""
    made: list[T | None] = [None] * len(motions)

    def one(first: int, last: int) -> None:
        made[first:last] = [work(motion) for motion in motions[first:last]]

    in_chunks(one, len(motions), 1)
    return [each for each in made if each is not None]


def _ranked(
    motions: list[Rigid], points: OrientedPoints, target: _Target, share: float
) -> list[Rigid]:
    """The motions, first those that bring most points within that share of the size."""
    counts = _each(lambda motion: _within(points, target, motion, share * target.size), motions)
    order = sorted(range(len(motions)), key=lambda i: -counts[i])
    return [motions[i] for i in order]


def _within(points: OrientedPoints, target: _Target, motion: Rigid, reach: float) -> int:
    return len(_Matched(points, target).pairs(motion, reach)[2])


def _distance(one: Rigid, other: Rigid, points: OrientedPoints) -> float:
    """How far apart two motions bring the points, on average [mm]."""
    off = one.apply(points.points) - other.apply(points.points)
    return float(np.linalg.norm(off, axis=1).mean())


def _coarse(
    points: OrientedPoints,
    target: _Target,
    start: Rigid,
    *,
    reaches: tuple[float, ...] = (0.08, 0.05, 0.03, 0.015, 0.008),
) -> Rigid:
    """Point to plane over sampled points; pairs further apart than the reach are left out."""
    motion, matched = start, _Matched(points, target)
    for share in reaches:
        reach = max(share * target.size, 0.3)
        for _ in range(6):
            here, normal, off = matched.pairs(motion, reach)
            if len(here) < 20:
                break
            sigma = max(_spread(off), 0.02)
            step = _step(here, normal, off, 2.0 * sigma)
            motion = step.after(motion)
            if _travel(step, here) < max(STILL_MM, STILL * reach):
                break
    return motion


def _sampled(mesh: Mesh, seed: int) -> tuple[OrientedPoints, OrientedPoints]:
    """Points of the moving surface for the coarse and for the fine registration."""
    return spread_points(mesh, 6 * PAIR_POINTS, seed=seed + 1, smooth=12), _fine_points(mesh, seed)


def _fine_points(mesh: Mesh, seed: int) -> OrientedPoints:
    """Vertices, as they were measured; points on the faces where a mesh has few vertices."""
    vertices = oriented_vertices(mesh, FINE_POINTS)
    if len(vertices.points) < FINE_POINTS // 8:
        return spread_points(mesh, FINE_POINTS // 4, seed=seed)
    return vertices


def _fine(points: OrientedPoints, tree: DistanceTree, start: Rigid) -> Registration:
    """Point to plane on the triangles: a quarter of the points till it holds still, then all."""
    normals = face_normals(tree.mesh)
    near = _settled(points.picked(FINE_POINTS // 4), tree, normals, start, first=True)
    return near if not np.isfinite(near.rms_mm) else _settled(points, tree, normals, near.rigid,
                                                              first=False)  # fmt: skip


def _settled(
    points: OrientedPoints, tree: DistanceTree, normals: Floats, start: Rigid, *, first: bool
) -> Registration:
    motion, sigma = start, 0.1
    for round_ in range(FINE_ROUNDS):
        here = points.moved(motion)
        near = closest_points(tree, here.points, chunk=FINE_CHUNK)
        normal = normals[near.faces]
        off = np.einsum("pd,pd->p", here.points - near.points, normal)
        agree = np.einsum("pd,pd->p", here.normals, normal) > AGREE
        reach = max(4.0 * sigma, 1.0) if first and round_ < 3 else np.inf
        good = agree & (np.abs(near.distance) < reach)
        if good.sum() < 20:
            return Registration(motion, np.inf, 0.0, 0.0, np.inf)
        spread = _spread(off[good])
        sigma = max(spread, LEAST_SIGMA_MM)
        inlier = good & (np.abs(near.distance) < TUKEY * sigma)
        rms = float(np.sqrt(np.mean(off[inlier] ** 2))) if inlier.any() else np.inf
        share, overlap = inlier.mean(), (agree & (np.abs(near.distance) < OVERLAP_MM)).mean()
        still = max(0.01 * spread, 1e-9)
        steps = 1 if first else PLANE_STEPS
        step = _to_planes(here.points[good], off[good], normal[good], steps, still)
        motion = step.after(motion)
        least = 2 if first else 0
        if round_ > least and _travel(step, here.points) < still:
            break
    return Registration(motion, rms, float(share), float(overlap), sigma)


def _to_planes(points: Floats, off: Floats, normals: Floats, steps: int, still: float) -> Rigid:
    """The motion of points to the planes they are `off` along `normals`, in so many steps."""
    motion, moved, away = IDENTITY, points, off
    for _ in range(steps):
        step = _step(moved, normals, away, max(_spread(away), LEAST_SIGMA_MM))
        motion = step.after(motion)
        if steps == 1 or _travel(step, moved) < 0.1 * still:
            break
        moved = motion.apply(points)
        away = off + np.einsum("pd,pd->p", moved - points, normals)
    return motion


def _spread(off: Floats) -> float:
    """Robust spread of distances: 1.4826 times the median of their amounts."""
    return 1.4826 * float(np.median(np.abs(off)))


def _step(points: Floats, normals: Floats, off: Floats, sigma: float) -> Rigid:
    """The small motion that takes distances along the normals away, weighted after Tukey."""
    centre = points.mean(axis=0)
    left, right = kernels.equations(points, normals, off, centre, TUKEY * sigma)
    found = np.linalg.lstsq(left, right, rcond=1e-12)[0]
    rotation = Rotation.from_rotvec(found[:3]).as_matrix()
    return Rigid(rotation, centre + found[3:] - rotation @ centre)


def _travel(step: Rigid, points: Floats) -> float:
    """How far the step moves the points, at most [mm]."""
    few = points[:: max(1, len(points) // 50)]
    return float(np.linalg.norm(step.apply(few) - few, axis=1).max())
