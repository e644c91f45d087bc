"""Numbers as text, many at once."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


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
            value = values[n, k]
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
        for c in range(word_start[many], word_start[many + 1]):
            out[at] = words[c]
            at += 1
        ends[n] = at
