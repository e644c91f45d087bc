"""Fields of a survey, whose grid has +k along the path."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True, error_model="numpy")
def clear_above(values: Any, tops: Any, first: int, last: int) -> None:
    """Make the nodes of each column above its top (NX, NY), in fractional k, outside ones."""
    for i in range(first, last):
        for j in range(values.shape[1]):
            start = 0
            if tops[i, j] > -1.0:
                start = int(np.ceil(tops[i, j] + 1e-6))
            for k in range(max(start, 0), values.shape[2]):
                values[i, j, k] = abs(values[i, j, k])


@numba.njit(cache=True, nogil=True, error_model="numpy")
def sweep_down(values: Any, first: int, last: int, out: Any) -> None:
    """Running minimum from the top along -k on the planes first:last."""
    for i in range(first, last):
        for j in range(values.shape[1]):
            low = values[i, j, values.shape[2] - 1]
            for k in range(values.shape[2] - 1, -1, -1):
                low = min(low, values[i, j, k])
                out[i, j, k] = low


@numba.njit(cache=True, nogil=True, error_model="numpy")
def sweep_tapered(values: Any, drop: float, first: int, last: int, out: Any) -> None:
    """The same, what comes down growing by `drop` a step."""
    for i in range(first, last):
        for j in range(values.shape[1]):
            low = values[i, j, values.shape[2] - 1] + drop
            for k in range(values.shape[2] - 1, -1, -1):
                low = min(low - drop, values[i, j, k])
                out[i, j, k] = low
