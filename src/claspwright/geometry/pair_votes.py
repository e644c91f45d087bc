"""Where a surface may lie on another, whatever pose it starts from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.spatial.transform import Rotation

from claspwright.base import Floats, Ints
from claspwright.geometry import _pair_kernels as kernels
from claspwright.geometry.oriented import OrientedPoints
from claspwright.geometry.rigid import Rigid
from claspwright.geometry.threads import in_chunks

SAME_DEG = 14.0  # motions nearer than this, and nearer than SAME_SHARE, are one
SAME_SHARE = 0.06  # of the size of the fixed surface
LENGTH_BINS = 36


@dataclass(frozen=True, slots=True, eq=False)
class PairTable:
    """The oriented points of a fixed surface and all their pairs, sorted by what is alike."""

    points: Floats  # (P, 3) mm
    frames: Floats  # (P, 3, 3) rows: the normal and two directions across it
    step: float  # of the lengths of pairs [mm]
    entries: tuple[NDArray[Any], ...]  # as the kernels have them

    @classmethod
    def of(cls, fixed: OrientedPoints) -> PairTable:
        """The table over all pairs of the points: P x P entries at most."""
        size = float(np.linalg.norm(np.ptp(fixed.points, axis=0)))
        step, frames = max(size / LENGTH_BINS, 1e-9), _frames(fixed.normals)
        count = len(fixed.points)
        keys, turns = np.empty((count, count), np.int32), np.empty((count, count), np.float32)
        refs = np.arange(count).astype(np.int32)

        def work(first: int, last: int) -> None:
            kernels.pair_keys(
                fixed.points, frames, refs[first:last], step, LENGTH_BINS,
                keys[first:last], turns[first:last],
            )  # fmt: skip

        in_chunks(work, count, 100)
        entries = kernels.sorted_pairs(keys, turns, LENGTH_BINS)
        return cls(fixed.points, frames, step, entries)


def likely_motions(
    moving: OrientedPoints, fixed: PairTable, *, refs: int = 120, keep: int = 16
) -> list[Rigid]:
    """Motions of `moving` onto `fixed` that many pairs of points vote for, most votes first.

    Every reference point of the moving surface asks, over all its pairs, for the point of the
    fixed one and the turn about its normal that most pairs agree on. Like answers are joined.

    Source:
        Drost et al., CVPR 2010 (see the kernels).
    """
    scene = _frames(moving.normals)
    chosen = np.linspace(0, len(moving.points) - 1, min(refs, len(moving.points)))
    chosen = np.unique(chosen.astype(np.int32))
    found = np.zeros((len(chosen), 3), np.int32)

    def work(first: int, last: int) -> None:
        kernels.votes(
            moving.points, scene, chosen[first:last], fixed.step, LENGTH_BINS,
            len(fixed.points), found[first:last], *fixed.entries,
        )  # fmt: skip

    in_chunks(work, len(chosen), 15)
    rotations, shifts = _motions(
        moving.points[chosen], scene[chosen], fixed.points, fixed.frames, found
    )
    return _joined(rotations, shifts, found[:, 2].astype(np.float64), fixed.points, keep)


def _frames(normals: Floats) -> Floats:
    """(P, 3, 3) rows: the normal and two directions across it."""
    helper = np.eye(3)[np.argmin(np.abs(normals), axis=1)]
    across = np.cross(normals, helper)
    across /= np.maximum(np.linalg.norm(across, axis=1, keepdims=True), 1e-12)
    return np.ascontiguousarray(np.stack([normals, across, np.cross(normals, across)], axis=1))


def _motions(
    scene_points: Floats, scene: Floats, model_points: Floats, model: Floats, found: Ints
) -> tuple[Floats, Floats]:
    """(R, 3, 3) rotations and (R, 3) shifts from the moving surface to the fixed one."""
    turn = (found[:, 1] + 0.5) * (2.0 * np.pi / kernels.TURNS)
    zero = np.zeros(len(turn))
    about = Rotation.from_rotvec(np.stack([turn, zero, zero], axis=1)).as_matrix()
    here = model[found[:, 0]]
    # model to scene: F_s about F_m^T with frames as columns; its inverse moves the scene.
    to_scene = np.einsum("rji,rjk,rkl->ril", scene, about, here)
    rotations = np.swapaxes(to_scene, 1, 2)
    shifts = model_points[found[:, 0]] - np.einsum("rij,rj->ri", rotations, scene_points)
    return rotations, shifts


def _joined(
    rotations: Floats, shifts: Floats, weight: Floats, fixed: Floats, keep: int
) -> list[Rigid]:
    """Like motions joined to the one with most votes, by the sum of their votes."""
    centre, size = fixed.mean(axis=0), float(np.linalg.norm(np.ptp(fixed, axis=0)))
    back = np.einsum("rji,rj->ri", rotations, centre - shifts)  # what each sends to the centre
    cosines = (np.einsum("aij,bij->ab", rotations, rotations) - 1.0) / 2.0
    apart = np.linalg.norm(back[:, None] - back[None], axis=2)
    alike = (apart < SAME_SHARE * size) & (cosines > np.cos(np.radians(SAME_DEG)))
    heads: list[int] = []
    total: dict[int, float] = {}
    for i in np.argsort(-weight, kind="stable").tolist():
        head = next((head for head in heads if alike[head, i]), i)
        if head == i:
            heads.append(i)
        total[head] = total.get(head, 0.0) + float(weight[i])
    heads.sort(key=lambda head: -total[head])
    return [_clean(rotations[i], shifts[i]) for i in heads[:keep]]


def _clean(rotation: Floats, shift: Floats) -> Rigid:
    return Rigid(Rotation.from_matrix(rotation).as_matrix(), shift)
