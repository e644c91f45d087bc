"""Wax sheets and wires by gauge number, as the trade sells them."""

from __future__ import annotations

from claspwright.base import InputError


def sheet_thickness(gauge: int) -> float:
    """Thickness of a sheet or diameter of a wire by its Brown & Sharpe gauge [mm].

    Args:
        gauge: gauge number, 0 to 40; a larger number is thinner.

    Raises:
        InputError: the gauge is out of range.

    Source:
        ASTM B258: d = 0.127 * 92^((36 - n) / 39).
    """
    if not 0 <= gauge <= 40:
        raise InputError(f"gauge must be from 0 to 40, got {gauge}")
    return float(0.127 * 92.0 ** ((36 - gauge) / 39))
