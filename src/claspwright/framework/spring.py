"""The strain of a clasp arm, as far as a design needs it before there is a solid."""

from __future__ import annotations

import numpy as np
from scipy.integrate import simpson

from claspwright.base import Floats, InputError

FAR_FIBRE = 0.57559  # of the thickness of a half ellipse, from its centroid to its round side
STATIONS = 201


def peak_strain(
    length_mm: float, half_width: Floats, thickness: Floats, undercut_mm: float
) -> float:
    """Greatest strain in a straight half-round arm whose tip is sprung by an undercut.

    Args:
        length_mm: free length, clamp to tip.
        half_width: (N,) at even stations from clamp to tip [mm].
        thickness: (N,) at the same stations [mm].
        undercut_mm: travel of the tip.

    Raises:
        InputError: a size is not positive.

    Source:
        Cantilever by Castigliano's theorem with the half ellipse's second moment, which goes
        with a b^3 (check-values E01, E04 to E06); the modulus cancels.
    """
    if min(length_mm, undercut_mm, half_width.min(), thickness.min()) <= 0:
        raise InputError("length, width, thickness and undercut of an arm must be positive")
    t = np.linspace(0.0, 1.0, STATIONS)
    at = np.linspace(0.0, 1.0, len(half_width))
    a, b = np.interp(t, at, half_width), np.interp(t, at, thickness)
    lever = length_mm * (1.0 - t)
    stiffness = a * b**3
    travel = float(simpson(lever**2 / stiffness, x=length_mm * t))
    return float(np.max(lever / stiffness * FAR_FIBRE * b) * undercut_mm / travel)
