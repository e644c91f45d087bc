"""Tables of oriented point pairs, and votes for the motion that lays one surface on another.

A pair of oriented points is known, whatever its pose, by its length and three angles: of each
normal with the line between the points, and of the normals with one another.

Source:
    B. Drost, M. Ulrich, N. Navab, S. Ilic, Model globally, match locally: efficient and robust
    3D object recognition, CVPR 2010, 998-1005 (from memory).
"""

from __future__ import annotations

from typing import Any

import numba
import numpy as np

ANGLES = 14  # bins over half a turn
TURNS = 30  # bins over the turn about a normal


EDGES = tuple(np.cos(np.arange(1, ANGLES) * (np.pi / ANGLES)).tolist())  # cosines between bins


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _angle_bin(cosine: float) -> int:
    count = 0
    for edge in EDGES:  # fewer steps in all than an arc cosine
        count += cosine <= edge
    return count


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _pair(points: Any, frames: Any, i: int, j: int, step: float, bins: int) -> Any:
    """(key or -1, turn about the first normal) of the pair from point i to point j."""
    x = points[j, 0] - points[i, 0]
    y = points[j, 1] - points[i, 1]
    z = points[j, 2] - points[i, 2]
    far = np.sqrt(x * x + y * y + z * z)
    length = int(far / step)
    if length < 1 or length >= bins:
        return -1, 0.0
    f, g = frames[i], frames[j]
    along = x * f[0, 0] + y * f[0, 1] + z * f[0, 2]
    other = x * g[0, 0] + y * g[0, 1] + z * g[0, 2]
    both = f[0, 0] * g[0, 0] + f[0, 1] * g[0, 1] + f[0, 2] * g[0, 2]
    key = ((length * ANGLES + _angle_bin(along / far)) * ANGLES + _angle_bin(other / far)) * ANGLES
    u = x * f[1, 0] + y * f[1, 1] + z * f[1, 2]
    v = x * f[2, 0] + y * f[2, 1] + z * f[2, 2]
    return key + _angle_bin(both), np.arctan2(v, u)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def pair_keys(
    points: Any, frames: Any, refs: Any, step: float, bins: int, keys: Any, turns: Any
) -> None:
    """Keys and turns of the pairs from the points `refs` (R,) to all (N, 3) points.

    `frames` (N, 3, 3): rows are the normal and two directions across it. `keys`, `turns` (R, N);
    the key is -1 for pairs shorter than `step` or longer than `bins * step`.
    """
    for r in range(len(refs)):
        for j in range(len(points)):
            keys[r, j], turns[r, j] = -1, 0.0
            if refs[r] != j:
                keys[r, j], turns[r, j] = _pair(points, frames, refs[r], j, step, bins)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def sorted_pairs(keys: Any, turns: Any, bins: int) -> Any:
    """The pairs of (N, N) keys sorted by key.

    Returns:
        start of each key (bins * ANGLES^3 + 1,), first point of each pair, its turn.
    """
    count = len(keys)
    start = np.zeros(bins * ANGLES**3 + 1, np.int64)
    for i in range(count):
        for j in range(count):
            if keys[i, j] >= 0:
                start[keys[i, j] + 1] += 1
    for k in range(1, len(start)):
        start[k] += start[k - 1]
    place = start[:-1].copy()
    first = np.empty(start[-1], np.int32)
    turn = np.empty(start[-1], np.float32)
    for i in range(count):
        for j in range(count):
            key = keys[i, j]
            if key >= 0:
                first[place[key]] = i
                turn[place[key]] = turns[i, j]
                place[key] += 1
    return start, first, turn


@numba.njit(cache=True, nogil=True, error_model="numpy")
def votes(
    points: Any, frames: Any, refs: Any, step: float, bins: int, model_count: int, out: Any,
    start: Any, first: Any, turn: Any,
) -> None:  # fmt: skip
    """For each reference point of a scene the model point and turn that most pairs agree on.

    `out` (R, 3) int32: model point, bin of the turn (scene minus model), number of votes.
    """
    heap = np.zeros((model_count, TURNS), np.int32)
    for r in range(len(refs)):
        i = refs[r]
        heap[:] = 0
        for j in range(len(points)):
            key, angle = _pair(points, frames, i, j, step, bins)
            if i == j or key < 0:
                continue
            for e in range(start[key], start[key + 1]):
                share = (angle - turn[e]) / (2.0 * np.pi)
                share -= np.floor(share)
                heap[first[e], min(int(share * TURNS), TURNS - 1)] += 1
        best = -1
        for m in range(model_count):
            for b in range(TURNS):
                if heap[m, b] > best:
                    best = heap[m, b]
                    out[r, 0], out[r, 1], out[r, 2] = m, b, best
