"""Packing of outlines on a grid of pixels by simulated annealing, the same for the same seed."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True, error_model="numpy")
def filled_pixels(points: Any, start: Any, pixel: float, out: Any) -> int:
    """Pixels whose middle lies inside closed rings (even-odd), as (column, row) from the lowest
    corner at 0, 0; returns how many. Points are >= 0 [mm].
    """  # noqa: D205
    top = 0.0
    for i in range(len(points)):
        top = max(top, points[i, 1])
    rows = int(top / pixel) + 1
    at = np.empty(len(points))
    count = 0
    for row in range(rows):
        y = (row + 0.5) * pixel
        found = 0
        for r in range(len(start) - 1):
            for i in range(start[r], start[r + 1]):
                j = i + 1 if i + 1 < start[r + 1] else start[r]
                if (points[i, 1] > y) == (points[j, 1] > y):
                    continue
                t = (y - points[i, 1]) / (points[j, 1] - points[i, 1])
                x = points[i, 0] + t * (points[j, 0] - points[i, 0])
                k = found
                while k > 0 and at[k - 1] > x:
                    at[k] = at[k - 1]
                    k -= 1
                at[k] = x
                found += 1
        for n in range(0, found - 1, 2):
            first = int(np.ceil(at[n] / pixel - 0.5))
            last = int(np.floor(at[n + 1] / pixel - 0.5))
            for column in range(first, last + 1):
                out[count, 0], out[count, 1] = column, row
                count += 1
    return count


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _random(state: Any) -> Any:
    """The next number from 0 to 1 (splitmix64)."""
    state[0] += np.uint64(0x9E3779B97F4A7C15)
    z = state[0]
    z = (z ^ (z >> np.uint64(30))) * np.uint64(0xBF58476D1CE4E5B9)
    z = (z ^ (z >> np.uint64(27))) * np.uint64(0x94D049BB133111EB)
    z = z ^ (z >> np.uint64(31))
    return float(z >> np.uint64(11)) / 9007199254740992.0


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _weight(
    pixels: Any, first: int, last: int, x: int, y: int, taken: Any, most: int
) -> Any:  # fmt: skip
    """Pixels that are taken already, counted as often as they are; stops above `most`."""
    total = 0
    for i in range(first, last):
        total += taken[pixels[i, 0] + x, pixels[i, 1] + y]
        if total > most:
            return total
    return total


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _put(pixels: Any, first: int, last: int, x: int, y: int, taken: Any, by: int) -> None:
    for i in range(first, last):
        taken[pixels[i, 0] + x, pixels[i, 1] + y] += by


@numba.njit(cache=True, nogil=True, error_model="numpy")
def anneal(
    pixels: Any, start: Any, sizes: Any, turns: int, allowed: Any, blocked: Any, place: Any,
    fixed: int, moves: int, seed: int,
) -> int:  # fmt: skip
    """Move parts until none overlaps another or a blocked pixel; returns the pixels in conflict.

    Args:
        pixels: (N, 2) pixels of every part in every turn.
        start: (parts * turns + 1,) into pixels, turn by turn for each part.
        sizes: (parts * turns, 2) columns and rows.
        turns: how many turns each part has.
        allowed: (parts, turns) which may be used.
        blocked: (W, H) int16, above 0 where nothing may stand.
        place: (parts, 3) turn, column and row of each; changed in place.
        fixed: the first so many parts begin where they are, the others anywhere.
        moves: how many at most.
        seed: of the moves.
    """
    wide, tall = blocked.shape
    parts = len(place)
    state = np.zeros(1, np.uint64)
    state[0] = np.uint64(seed)
    taken = blocked.copy()
    for p in range(parts):
        if p >= fixed:
            _anywhere(p, sizes, turns, allowed, wide, tall, place, state)
        s = p * turns + place[p, 0]
        _put(pixels, start[s], start[s + 1], place[p, 1], place[p, 2], taken, 1)
    cost = _conflict(pixels, start, turns, place, taken)
    hot, cold = 60.0, 0.6
    for move in range(moves):
        if cost == 0:
            return 0
        heat = hot * (cold / hot) ** (move / moves)
        p = int(_random(state) * parts)
        s = p * turns + place[p, 0]
        first, last = start[s], start[s + 1]
        x, y = place[p, 1], place[p, 2]
        old = _weight(pixels, first, last, x, y, taken, 1 << 30) - (last - first)
        if old == 0 and _random(state) < 0.85:
            continue
        _put(pixels, first, last, x, y, taken, -1)
        turn, nx, ny = _proposal(p, sizes, turns, allowed, wide, tall, place, state, move / moves)
        t = p * turns + turn
        limit = old + int(-heat * np.log(_random(state) + 1e-300))
        new = _weight(pixels, start[t], start[t + 1], nx, ny, taken, limit)
        if new <= limit:
            place[p, 0], place[p, 1], place[p, 2] = turn, nx, ny
            first, last, x, y = start[t], start[t + 1], nx, ny
        _put(pixels, first, last, x, y, taken, 1)
        if new <= limit:
            cost = (
                _conflict(pixels, start, turns, place, taken)
                if new == 0
                else max(cost + new - old, 1)
            )
    return _conflict(pixels, start, turns, place, taken)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _conflict(pixels: Any, start: Any, turns: int, place: Any, taken: Any) -> int:
    """Pixels of all parts that something else takes too."""
    total = 0
    for p in range(len(place)):
        s = p * turns + place[p, 0]
        for i in range(start[s], start[s + 1]):
            total += taken[pixels[i, 0] + place[p, 1], pixels[i, 1] + place[p, 2]] - 1
    return total


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _anywhere(
    p: int, sizes: Any, turns: int, allowed: Any, wide: int, tall: int, place: Any, state: Any
) -> None:
    turn = int(_random(state) * turns)
    while not allowed[p, turn]:
        turn = (turn + 1) % turns
    s = p * turns + turn
    place[p, 0] = turn
    place[p, 1] = int(_random(state) * max(wide - sizes[s, 0] + 1, 1))
    place[p, 2] = int(_random(state) * max(tall - sizes[s, 1] + 1, 1))


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _proposal(
    p: int, sizes: Any, turns: int, allowed: Any, wide: int, tall: int, place: Any, state: Any,
    done: float,
) -> Any:  # fmt: skip
    """Somewhere else: mostly a step and a small turn, sometimes anywhere."""
    turn = place[p, 0]
    kind = _random(state)
    if kind < 0.12:
        turn = int(_random(state) * turns)
    elif kind < 0.5:
        turn = (turn + (1 if _random(state) < 0.5 else turns - 1)) % turns
    if not allowed[p, turn]:
        turn = place[p, 0]
    s, old = p * turns + turn, p * turns + place[p, 0]
    # keep the middle of the part where it is while it turns
    x = place[p, 1] + (sizes[old, 0] - sizes[s, 0]) // 2
    y = place[p, 2] + (sizes[old, 1] - sizes[s, 1]) // 2
    if kind < 0.06:
        x, y = int(_random(state) * wide), int(_random(state) * tall)
    else:
        reach = 1.0 + 10.0 * (1.0 - done)
        x += int(np.round((2.0 * _random(state) - 1.0) * reach))
        y += int(np.round((2.0 * _random(state) - 1.0) * reach))
    x = min(max(x, 0), max(wide - sizes[s, 0], 0))
    y = min(max(y, 0), max(tall - sizes[s, 1], 0))
    return turn, x, y
