"""Identical places, found by a table of their bits."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True)
def weld(bits: Any, which: Any, first: Any) -> int:
    """Number places in order of first use; returns how many there are.

    bits: (N, 3) coordinates as whole numbers; which: (N,) number of the place of each row;
    first: (N,) row where each place comes first.
    """
    room = 16
    while room < 2 * len(bits):
        room *= 2
    table = np.full(room, -1, np.int32)
    last = np.uint64(room - 1)
    mix = np.uint64(0x9E3779B97F4A7C15)
    count = 0
    for n in range(len(bits)):
        key = np.uint64(0)
        for i in range(3):
            key = (key ^ bits[n, i]) * mix
            key ^= key >> np.uint64(32)
        slot = key & last
        while True:
            found = table[slot]
            if found < 0:
                table[slot] = count
                first[count] = n
                which[n] = count
                count += 1
                break
            m = first[found]
            if bits[m, 0] == bits[n, 0] and bits[m, 1] == bits[n, 1] and bits[m, 2] == bits[n, 2]:
                which[n] = found
                break
            slot = (slot + np.uint64(1)) & last
    return count
