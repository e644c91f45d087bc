"""Packing of outlines on a grid of pixels by simulated annealing, the same for the same seed.

A bitmap is a run of rows of 64-bit words; bit b of word w is the pixel 64 w + b of its row.
"""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True, error_model="numpy")
def fill(points: Any, start: Any, pixel: float, out: Any) -> None:
    """Set the pixels of out (rows, words) whose middle lies inside closed rings (even-odd).

    Points are >= 0 [mm]; pixel (0, 0) has its lower corner at the origin.
    """
    at = np.empty(len(points))
    for row in range(len(out)):
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
                out[row, column >> 6] |= np.uint64(1) << np.uint64(column & 63)


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _ones(w: Any) -> Any:
    """Set bits of a word."""
    w = w - ((w >> np.uint64(1)) & np.uint64(0x5555555555555555))
    w = (w & np.uint64(0x3333333333333333)) + ((w >> np.uint64(2)) & np.uint64(0x3333333333333333))
    w = (w + (w >> np.uint64(4))) & np.uint64(0x0F0F0F0F0F0F0F0F)
    return np.int64((w * np.uint64(0x0101010101010101)) >> np.uint64(56))


@numba.njit(cache=True, nogil=True, error_model="numpy")
def count_ones(bits: Any) -> int:
    """Set pixels of a bitmap (rows, words)."""
    total = 0
    for row in range(bits.shape[0]):
        for w in range(bits.shape[1]):
            total += _ones(bits[row, w])
    return total


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _shared(
    a: Any,
    ax: int,
    ay: int,
    aw: int,
    ah: int,
    b: Any,
    bx: int,
    by: int,
    bw: int,
    bh: int,
    most: int,
) -> Any:
    """Pixels that two bitmaps at their places share; stops above `most`.

    a, b: rows of words; aw, ah, bw, bh: used columns and rows.
    """
    low, high = max(ay, by), min(ay + ah, by + bh)
    left, right = max(ax, bx), min(ax + aw, bx + bw)
    if low >= high or left >= right:
        return 0
    first, last = (left - ax) >> 6, (right - 1 - ax) >> 6
    shift = ax - bx
    total = 0
    words = b.shape[1]
    for y in range(low, high):
        ra, rb = y - ay, y - by
        for w in range(first, last + 1):
            own = a[ra, w]
            if own == np.uint64(0):
                continue
            bit = 64 * w + shift
            at, off = bit >> 6, np.uint64(bit & 63)
            other = np.uint64(0)
            if 0 <= at < words:
                other = b[rb, at] >> off
            if off != np.uint64(0) and 0 <= at + 1 < words:
                other |= b[rb, at + 1] << (np.uint64(64) - off)
            total += _ones(own & other)
        if total > most:
            return total
    return total


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
def _conflicts(
    p: int, turn: int, x: int, y: int, bits: Any, start: Any, sizes: Any, turns: int, blocked: Any,
    tall: int, place: Any, most: int, out: Any,
) -> Any:  # fmt: skip
    """Fill out (parts + 1,) with pixels shared with each part and with what is blocked."""
    s = p * turns + turn
    own = bits[start[s] : start[s + 1]]
    wide = blocked.shape[1] * 64
    none: Any = np.int64(0)  # a constant of its own would be compiled once more
    total = _shared(own, x, y, sizes[s, 0], sizes[s, 1], blocked, none, none, wide, tall, most)
    out[len(place)] = total
    for q in range(len(place)):
        out[q] = 0
        if q == p or total > most:
            continue
        t = q * turns + place[q, 0]
        other = bits[start[t] : start[t + 1]]
        out[q] = _shared(
            own, x, y, sizes[s, 0], sizes[s, 1], other, place[q, 1], place[q, 2], sizes[t, 0],
            sizes[t, 1], most - total,
        )  # fmt: skip
        total += out[q]
    return total


@numba.njit(cache=True, nogil=True, error_model="numpy")
def anneal(
    bits: Any, start: Any, sizes: Any, turns: int, allowed: Any, blocked: Any, wide: int, tall: int,
    place: Any, fixed: int, moves: int, hot: float, seed: int, needless: Any,
) -> int:  # fmt: skip
    """Move parts until none overlaps another or a blocked pixel; returns the pixels in conflict.

    Args:
        bits: rows of all parts in all turns, one after the other.
        start: (parts * turns + 1,) into the rows, turn by turn for each part.
        sizes: (parts * turns, 2) columns and rows.
        turns: how many turns each part has.
        allowed: (parts, turns) which may be used.
        blocked: (tall, words) pixels where nothing may stand.
        wide: columns of the platform.
        tall: rows of the platform.
        place: (parts, 3) turn, column and row of each; changed in place.
        fixed: the first so many parts begin where they are, the others anywhere.
        moves: how many at most.
        hot: pixels of conflict that are easily taken into account at the begin.
        seed: of the moves.
        needless: (1,) set from outside when the answer is no longer wanted.
    """
    parts = len(place)
    state = np.zeros(1, np.uint64)
    state[0] = np.uint64(seed)
    for p in range(fixed, parts):
        _anywhere(p, sizes, turns, allowed, wide, tall, place, state)
    pair = np.zeros((parts, parts + 1), np.int64)
    big: Any = np.int64(1 << 40)
    for p in range(parts):
        _conflicts(p, place[p, 0], place[p, 1], place[p, 2], bits, start, sizes, turns, blocked,
                   tall, place, big, pair[p])  # fmt: skip
    fresh = np.zeros(parts + 1, np.int64)
    cold = 0.5
    for move in range(moves):
        if needless[0]:
            break
        p = int(_random(state) * parts)
        old = pair[p].sum()
        if old == 0:
            if pair.sum() == 0:
                return 0
            if _random(state) < 0.85:
                continue
        done = move / moves
        heat = hot * (cold / hot) ** done
        turn, x, y = _proposal(p, sizes, turns, allowed, wide, tall, place, state, done)
        limit = old + int(-heat * np.log(_random(state) + 1e-300))
        new = _conflicts(p, turn, x, y, bits, start, sizes, turns, blocked, tall, place, limit,
                         fresh)  # fmt: skip
        if new > limit:
            continue
        place[p, 0], place[p, 1], place[p, 2] = turn, x, y
        for q in range(parts + 1):
            pair[p, q] = fresh[q]
            if q < parts:
                pair[q, p] = fresh[q]
    return int(pair.sum())


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
