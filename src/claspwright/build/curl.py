"""Curl of a straight strip when it leaves the platform, and the coupon that calibrates it.

A strip that shrinks more at its top than at its foot bends up when it is cut free: with the
difference of strain De over the height H the curvature is De / H, and the free end of a length L
rises by De L^2 / (2 H). It is an estimate for a strip, not a prediction for a framework.

Source:
    beam theory (check-values F19, W13); free ends rise (NIST AMB2018-01, check-values F16).
"""

from __future__ import annotations

from claspwright.base import InputError


def curl(strain_difference: float, height_mm: float, length_mm: float) -> float:
    """Rise of the free end of a strip cut from its platform [mm]."""
    _check(height_mm, length_mm)
    return strain_difference / height_mm * length_mm**2 / 2.0


def strain_from_coupon(rise_mm: float, height_mm: float, length_mm: float) -> float:
    """Difference of strain that explains the measured rise of a coupon.

    Args:
        rise_mm: of the free end after the legs were cut, against before; up is positive.
        height_mm: of the coupon above its legs.
        length_mm: from the leg that is left to the free end.
    """
    _check(height_mm, length_mm)
    return 2.0 * rise_mm * height_mm / length_mm**2


def _check(height_mm: float, length_mm: float) -> None:
    if not (height_mm > 0 and length_mm > 0):
        raise InputError(f"height {height_mm} mm and length {length_mm} mm must be positive")
