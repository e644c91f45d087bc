"""Blending of implicit fields: negative inside, values near the surface are distances."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import gaussian_filter

from claspwright.base import Singles
from claspwright.geometry import in_chunks

Values = NDArray[Any]
Blend = NDArray[Any] | float
_NODES = 1 << 15  # whose values and what is made of them stay in a core's own memory
_ROWS = 32


def smooth_min(a: Values, b: Values, k: Blend) -> Values:
    """Union of two solids with a fillet of about k/2 where they meet [mm]."""
    h = np.maximum(k - np.abs(a - b), 0.0)
    out: Values = np.minimum(a, b) - h * h / (4.0 * k)
    return out


def smooth_max(a: Values, b: Values, k: Blend) -> Values:
    """Intersection of two solids with a rounding of about k/2 at the edge [mm]."""
    h = np.maximum(k - np.abs(a - b), 0.0)
    out: Values = np.maximum(a, b) + h * h / (4.0 * k)
    return out


def rounded(x: Values, r: float) -> Values:
    """|x| with its tip rounded over about r."""
    out: Values = np.sqrt(x * x + r * r) - r
    return out


def bump(x: Values) -> Values:
    """Gaussian exp(-x^2 / 2)."""
    out: Values = np.exp(-0.5 * x * x)
    return out


def step(x: Values) -> Values:
    """Smooth step from 0 at x <= 0 to 1 at x >= 1."""
    c = np.clip(x, 0.0, 1.0)
    out: Values = c * c * (3.0 - 2.0 * c)
    return out


def as_distance(values: Singles, spacing: float) -> Singles:
    """Divide an implicit function on a grid by the length of its gradient."""
    gx, gy, gz = np.gradient(values, np.float32(spacing))
    length = np.sqrt(gx * gx + gy * gy + gz * gz)
    return np.asarray(values / np.maximum(length, np.float32(0.15)), dtype=np.float32)


def slabs(shape: tuple[int, ...]) -> Iterator[slice]:
    """Rows of an array in parts so small that work on them, one step after another, is fast."""
    rows = max(1, _NODES // max(1, int(np.prod(shape[1:]))))
    for first in range(0, shape[0], rows):
        yield slice(first, min(first + rows, shape[0]))


def softened(values: Singles, sigma: float, truncate: float = 4.0) -> Singles:
    """The Gaussian filter of scipy.ndimage, rows side by side; the same to the last bit.

    Args:
        values: (nx, ny, nz) the field.
        sigma: standard deviation [nodes].
        truncate: where the filter ends [standard deviations].
    """
    out = np.empty_like(values)
    reach = int(truncate * sigma + 0.5)

    def work(first: int, last: int) -> None:
        low, high = max(first - reach, 0), min(last + reach, len(values))
        soft = gaussian_filter(values[low:high], sigma, truncate=truncate)
        out[first:last] = soft[first - low : last - low]

    in_chunks(work, len(values), _ROWS)
    return out
