"""Blending of implicit fields: negative inside, values near the surface are distances."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Singles

Values = NDArray[Any]
Blend = NDArray[Any] | float


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
