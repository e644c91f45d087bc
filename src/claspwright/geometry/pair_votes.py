"""Where a surface may lie on another, whatever pose it starts from."""

from __future__ import annotations

import numpy as np
from scipy.spatial.transform import Rotation

from claspwright.base import Floats, Ints
from claspwright.geometry import _pair_kernels as kernels
from claspwright.geometry.oriented import OrientedPoints
from claspwright.geometry.rigid import Rigid
from claspwright.geometry.threads import in_chunks

SAME_DEG = 14.0  # motions nearer than this, and nearer than SAME_SHARE, are one
SAME_SHARE = 0.06  # of the size of the fixed surface
LENGTH_BINS = 36


def likely_motions(
    moving: OrientedPoints, fixed: OrientedPoints, *, refs: int = 120, keep: int = 16
) -> list[Rigid]:
    """Motions of `moving` onto `fixed` that many pairs of points vote for, most votes first.

    Every reference point of the moving surface asks, over all its pairs, for the point of the
    fixed one and the turn about its normal that most pairs agree on. Like answers are joined.

    Source:
        Drost et al., CVPR 2010 (see the kernels).
    """
    size = float(np.linalg.norm(np.ptp(fixed.points, axis=0)))
    step = max(size / LENGTH_BINS, 1e-9)
    model, scene = _frames(fixed.normals), _frames(moving.normals)
    table = kernels.pair_table(fixed.points, model, step, LENGTH_BINS)
    chosen = np.linspace(0, len(moving.points) - 1, min(refs, len(moving.points)))
    chosen = np.unique(chosen.astype(np.int32))
    found = np.zeros((len(chosen), 3), np.int32)

    def work(first: int, last: int) -> None:
        kernels.votes(
            moving.points, scene, chosen[first:last], step, LENGTH_BINS,
            len(fixed.points), found[first:last], *table,
        )  # fmt: skip

    in_chunks(work, len(chosen), 15)
    rotations, shifts = _motions(moving.points[chosen], scene[chosen], fixed.points, model, found)
    return _joined(rotations, shifts, found[:, 2].astype(np.float64), fixed.points, size, keep)


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
    rotations: Floats, shifts: Floats, weight: Floats, fixed: Floats, size: float, keep: int
) -> list[Rigid]:
    """Like motions joined to the one with most votes, by the sum of their votes."""
    centre = fixed.mean(axis=0)
    back = np.einsum("rji,rj->ri", rotations, centre - shifts)  # what each sends to the centre
    order = np.argsort(-weight, kind="stable")
    heads: list[int] = []
    total: dict[int, float] = {}
    for i in order.tolist():
        for head in heads:
            cosine = (np.trace(rotations[head] @ rotations[i].T) - 1.0) / 2.0
            near = float(np.linalg.norm(back[head] - back[i])) < SAME_SHARE * size
            if near and cosine > np.cos(np.radians(SAME_DEG)):
                total[head] += float(weight[i])
                break
        else:
            heads.append(i)
            total[i] = float(weight[i])
    heads.sort(key=lambda head: -total[head])
    return [_clean(rotations[i], shifts[i]) for i in heads[:keep]]


def _clean(rotation: Floats, shift: Floats) -> Rigid:
    return Rigid(Rotation.from_matrix(rotation).as_matrix(), shift)
