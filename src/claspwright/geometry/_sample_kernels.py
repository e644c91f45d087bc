"""Values of a field between the nodes of its grid."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True, error_model="numpy")
def linear(values: Any, nodes: Any, first: int, last: int, out: Any) -> None:
    """Trilinear values at nodes[first:last], fractional nodes (N, 3); border values outside.

    Sums in double precision in the order of scipy.ndimage.map_coordinates, which gives the same.
    """
    cell = np.empty(3, np.int64)
    ahead = np.empty(3, np.int64)
    part = np.empty((3, 2))
    for n in range(first, last):
        for a in range(3):
            top = values.shape[a] - 1
            place = nodes[n, a] if nodes[n, a] > 0.0 else 0.0  # also where it is no number
            place = min(place, float(top))
            low = int(np.floor(place))
            cell[a] = low
            ahead[a] = min(low + 1, top)
            part[a, 1] = place - low
            part[a, 0] = 1.0 - part[a, 1]
        total = 0.0
        for u in range(2):
            i = ahead[0] if u else cell[0]
            for v in range(2):
                j = ahead[1] if v else cell[1]
                for w in range(2):
                    k = ahead[2] if w else cell[2]
                    total += values[i, j, k] * part[0, u] * part[1, v] * part[2, w]
        out[n] = total
