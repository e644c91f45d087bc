"""A perceptually uniform, colour-blind-safe map from values to colours."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats

# Ten even stops of the viridis map (S. van der Walt and N. Smith, released as CC0).
_STOPS = (
    "440154", "482878", "3e4a89", "31688e", "26828e",
    "1f9e89", "35b779", "6dcd59", "b4de2c", "fde725",
)  # fmt: skip
VIRIDIS: Floats = np.array([[int(s[i : i + 2], 16) for i in (0, 2, 4)] for s in _STOPS], np.float64)


def mapped(values: Floats, low: float, high: float) -> Floats:
    """(N, 3) colours from 0 to 255: light yellow at `low` to dark violet at `high`, clipped."""
    share = 1.0 - np.clip((values - low) / (high - low), 0.0, 1.0)
    at = share * (len(VIRIDIS) - 1)
    stops = np.arange(len(VIRIDIS))
    return np.stack([np.interp(at, stops, VIRIDIS[:, c]) for c in range(3)], axis=-1)


def css(colour: tuple[int, int, int]) -> str:
    """A colour as #rrggbb."""
    return "#" + "".join(f"{c:02x}" for c in colour)
