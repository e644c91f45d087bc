"""Numbers as text, many at once."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True)
def _write(value: int, decimals: int, digits: Any, out: Any, at: int) -> int:
    """Write a whole number of 10^-decimals; returns where it ends.

    Zeros behind the point, and the point, are left out.
    """
    if value < 0:
        out[at] = 45
        at += 1
        value = -value
    behind = decimals
    while behind > 0 and value % 10 == 0:
        value //= 10
        behind -= 1
    count = 0
    while value > 0 or count <= behind:
        digits[count] = 48 + value % 10
        value //= 10
        count += 1
    for d in range(count - 1, -1, -1):
        out[at] = digits[d]
        at += 1
        if d == behind and behind > 0:
            out[at] = 46
            at += 1
    return at


@numba.njit(cache=True, nogil=True)
def write_rows(
    values: Any, decimals: int, words: Any, word_start: Any, out: Any, ends: Any
) -> None:
    """Write (N, K) whole numbers of 10^-decimals, with a word before each and one after a row.

    words: the K + 1 words, one after the other, word k from word_start[k] to word_start[k + 1].
    ends: (N,) where each row ends in out. Zeros behind the point, and the point, are left out.
    """
    many = values.shape[1]
    digits = np.empty(24, np.uint8)
    at = 0
    for n in range(len(values)):
        for k in range(many):
            for c in range(word_start[k], word_start[k + 1]):
                out[at] = words[c]
                at += 1
            at = _write(values[n, k], decimals, digits, out, at)
        for c in range(word_start[many], word_start[many + 1]):
            out[at] = words[c]
            at += 1
        ends[n] = at


@numba.njit(cache=True, nogil=True)
def write_groups(
    values: Any, group: Any, decimals: int, heads: Any, head_start: Any, out: Any, ends: Any
) -> None:
    """Write groups of rows of whole numbers of 10^-decimals: a head, then all numbers of its rows
    with commas between, then the end of a line.

    group: (G + 1,) rows of values at which groups begin.
    heads: of all groups, one after the other, head g from head_start[g] to head_start[g + 1].
    ends: (G,) where each group ends in out.
    """  # noqa: D205
    digits = np.empty(24, np.uint8)
    at = 0
    for g in range(len(group) - 1):
        for c in range(head_start[g], head_start[g + 1]):
            out[at] = heads[c]
            at += 1
        for n in range(group[g], group[g + 1]):
            for k in range(values.shape[1]):
                at = _write(values[n, k], decimals, digits, out, at)
                out[at] = 44
                at += 1
        out[at - 1] = 10
        ends[g] = at


@numba.njit(cache=True, nogil=True)
def copy_groups(values: Any, group: Any, heads: Any, size: int, out: Any) -> None:
    """Write groups of rows of bytes, each behind a head of `size` bytes.

    values: (N, B) the bytes of each row.
    group: (G + 1,) rows of values at which groups begin.
    heads: of all groups, one after the other.
    """
    at = 0
    for g in range(len(group) - 1):
        for c in range(size * g, size * (g + 1)):
            out[at] = heads[c]
            at += 1
        for n in range(group[g], group[g + 1]):
            for k in range(values.shape[1]):
                out[at] = values[n, k]
                at += 1
