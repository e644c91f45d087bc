"""Colour-blind-safe maps from values to colours: an even one, and one for signed values."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats

# Ten even stops of the viridis map (S. van der Walt and N. Smith, released as CC0).
_STOPS = (
    "440154", "482878", "3e4a89", "31688e", "26828e",
    "1f9e89", "35b779", "6dcd59", "b4de2c", "fde725",
)  # fmt: skip
VIRIDIS: Floats = np.array([[int(s[i : i + 2], 16) for i in (0, 2, 4)] for s in _STOPS], np.float64)

# Blue below, orange above, pale where nothing differs; even in lightness on both sides.
_SIGNED_STOPS = (
    "08306b", "2171b5", "6baed6", "c6dbef", "f7f7f7", "fdd0a2", "fd8d3c", "d94801", "7f2704",
)  # fmt: skip
SIGNED: Floats = np.array(
    [[int(s[i : i + 2], 16) for i in (0, 2, 4)] for s in _SIGNED_STOPS], np.float64
)


def mapped(values: Floats, low: float, high: float) -> Floats:
    """(N, 3) colours from 0 to 255: light yellow at `low` to dark violet at `high`, clipped."""
    return _between(VIRIDIS, 1.0 - (values - low) / (high - low))


def signed(values: Floats, reach: float) -> Floats:
    """(N, 3) colours from 0 to 255: dark blue at -reach, pale at 0, dark orange at reach, clipped.

    Source:
        the stops are of ColorBrewer's Blues and Oranges (C. Brewer), which it marks as safe for
        colour-blind eyes; from memory.
    """
    return _between(SIGNED, 0.5 + 0.5 * values / reach)


def _between(stops: Floats, share: Floats) -> Floats:
    at = np.clip(share, 0.0, 1.0) * (len(stops) - 1)
    places = np.arange(len(stops))
    return np.stack([np.interp(at, places, stops[:, c]) for c in range(3)], axis=-1)


def css(colour: tuple[int, int, int]) -> str:
    """A colour as #rrggbb."""
    return "#" + "".join(f"{c:02x}" for c in colour)
