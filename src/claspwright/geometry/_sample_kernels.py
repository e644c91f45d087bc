"""Values of a field between the nodes of its grid."""

from __future__ import annotations

from typing import Any

import numba
import numpy as np


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _cell(place: float, count: int) -> Any:
    """(lower node, upper node, share of the upper), held within the grid."""
    top = count - 1
    at = place if place > 0.0 else 0.0  # also where it is no number
    at = min(at, float(top))
    low = int(np.floor(at))
    return low, min(low + 1, top), at - low


@numba.njit(cache=True, nogil=True, error_model="numpy")
def _value(values: Any, x: float, y: float, z: float) -> Any:
    """Trilinear value at a place in nodes; border values outside.

    Sums in double precision in the order of scipy.ndimage.map_coordinates, which gives the same.
    """
    i0, i1, u = _cell(x, values.shape[0])
    j0, j1, v = _cell(y, values.shape[1])
    k0, k1, w = _cell(z, values.shape[2])
    total = 0.0
    total += values[i0, j0, k0] * (1.0 - u) * (1.0 - v) * (1.0 - w)
    total += values[i0, j0, k1] * (1.0 - u) * (1.0 - v) * w
    total += values[i0, j1, k0] * (1.0 - u) * v * (1.0 - w)
    total += values[i0, j1, k1] * (1.0 - u) * v * w
    total += values[i1, j0, k0] * u * (1.0 - v) * (1.0 - w)
    total += values[i1, j0, k1] * u * (1.0 - v) * w
    total += values[i1, j1, k0] * u * v * (1.0 - w)
    total += values[i1, j1, k1] * u * v * w
    return total


@numba.njit(cache=True, nogil=True, error_model="numpy")
def linear(values: Any, nodes: Any, first: int, last: int, out: Any) -> None:
    """Trilinear values at nodes[first:last], fractional nodes (N, 3)."""
    for n in range(first, last):
        out[n] = _value(values, nodes[n, 0], nodes[n, 1], nodes[n, 2])


@numba.njit(cache=True, nogil=True, error_model="numpy")
def first_exits(
    values: Any, spots: Any, levels: Any, radii: Any, first: int, last: int, out: Any
) -> None:
    """Radius at which a level ray first goes from inside to outside, for levels[first:last].

    Args:
        values: field, negative inside.
        spots: (A, R, 2) places of the rays in nodes, at the radii.
        levels: (Z,) in nodes.
        radii: (R,) evenly spaced [mm].
        first: of the levels.
        last: beyond the levels.
        out: (A, Z) result, left alone where a ray does not leave [mm].
    """
    step = radii[1] - radii[0]
    for k in range(first, last):
        for a in range(len(spots)):
            before = _value(values, spots[a, 0, 0], spots[a, 0, 1], levels[k])
            for n in range(1, len(radii)):
                here = _value(values, spots[a, n, 0], spots[a, n, 1], levels[k])
                if before < 0.0 and here >= 0.0:
                    out[a, k] = radii[n - 1] + step * before / (before - here)
                    break
                before = here
