"""A bare half-round arm, straight or on a circular arc: for teaching, scripts and closed forms."""

from __future__ import annotations

from dataclasses import dataclass, fields
from math import isfinite, radians, tan

import numpy as np
from scipy.integrate import simpson

from claspwright.base import Floats, InputError
from claspwright.mechanics.retention import withdrawal_force
from claspwright.mechanics.sections import HALF_ROUND_CENTROID, HALF_ROUND_I

STATIONS = 2001  # Simpson's rule then agrees with the closed forms to 1e-9
WIDEST_ARC = 270.0  # degrees


@dataclass(frozen=True, slots=True)
class BareArm:
    """A half-round arm clamped at its root and sprung at its tip across the flat."""

    length_mm: float  # along the arm
    radius_mm: float  # of the half-round at the root: half its width, and its thickness
    undercut_mm: float
    modulus_mpa: float
    tip_ratio: float = 1.0  # tip dimension over root dimension, uniform in between
    arc_deg: float = 0.0  # angle of the circular arc it lies on; 0: straight

    def __post_init__(self) -> None:
        for figure in fields(self):
            value = getattr(self, figure.name)
            if not isfinite(value) or (value <= 0 and figure.name != "arc_deg"):
                raise InputError(
                    f"must be a positive number, got {value:g}", place=_option(figure.name)
                )
        if self.tip_ratio > 1:
            raise InputError(
                f"a tip is at most as thick as its root, got {self.tip_ratio:g}",
                place="--tip-ratio",
                remedy="Give the tip's dimension over the root's, such as 0.5.",
            )
        if self.undercut_mm >= self.length_mm:
            raise InputError(
                f"a tip cannot be sprung by its arm's length, got {self.undercut_mm:g} mm of "
                f"{self.length_mm:g} mm",
                place="--undercut-mm",
                remedy="Give the undercut in millimetres, such as 0.25.",
            )
        if not 0 <= self.arc_deg <= WIDEST_ARC:
            raise InputError(
                f"angle of an arc must be from 0 to {WIDEST_ARC:g} degrees, got {self.arc_deg:g}",
                place="--arc-deg",
                remedy="0 is a straight arm; a circumferential one takes 90 to 180.",
            )


@dataclass(frozen=True, slots=True)
class BareResult:
    """What a bare arm does when its tip is sprung by its undercut."""

    force_n: float  # at the tip, across the flat; radial on an arc
    peak_stress_mpa: float
    peak_at_mm: float  # along the arm from the root
    withdrawal_n: float | None  # along the path; None without convergence and friction


def bare_arm(
    arm: BareArm, *, convergence_deg: float | None = None, friction: float | None = None
) -> BareResult:
    """Force and peak stress of a half-round arm, by bending across its flat alone.

    Args:
        arm: sizes, travel of the tip and modulus.
        convergence_deg: angle between the tooth's surface under the tip and the path.
        friction: coefficient of friction of metal on wet enamel.

    Raises:
        InputError: the slope and the friction cannot be a wedge, or lock the tip; or only one
            of them is given.

    Source:
        Castigliano's theorem with I = (pi/8 - 8/(9 pi)) r^4; on an arc the moment of a radial
        tip load in its plane, M = P R sin(angle to the tip). Statics of the wedge.
    """
    arc = np.linspace(0.0, arm.length_mm, STATIONS)
    to_tip = arm.length_mm - arc
    radius = arm.radius_mm * (1.0 - (1.0 - arm.tip_ratio) * arc / arm.length_mm)
    i_x = HALF_ROUND_I * radius**4
    lever = to_tip
    if arm.arc_deg > 0:
        bend = arm.length_mm / radians(arm.arc_deg)
        lever = np.abs(bend * np.sin(to_tip / bend))
    force = arm.undercut_mm * arm.modulus_mpa / float(simpson(lever**2 / i_x, x=arc))
    stress = force * lever * (1 - HALF_ROUND_CENTROID) * radius / i_x
    at, peak = _peak(arc, stress)
    pull = None
    if (convergence_deg is None) != (friction is None):
        missing = "--convergence-deg" if convergence_deg is None else "--friction"
        raise InputError(
            "the withdrawal force needs the slope of the tooth and the friction",
            place=missing,
            remedy="Give both, or neither.",
        )
    if convergence_deg is not None and friction is not None:
        pull = _pull(force, convergence_deg, friction)
    return BareResult(force, peak, at, pull)


def _peak(arc: Floats, stress: Floats) -> tuple[float, float]:
    """Place and height of the highest stress, by the parabola through the three highest."""
    k = int(np.argmax(stress))
    if k in (0, len(arc) - 1):
        return float(arc[k]), float(stress[k])
    left, mid, right = stress[k - 1], stress[k], stress[k + 1]
    bow = left - 2 * mid + right
    shift = float(0.5 * (left - right) / bow) if bow < 0 else 0.0
    return float(arc[k] + shift * (arc[1] - arc[0])), float(mid - 0.25 * (left - right) * shift)


def _pull(force: float, convergence_deg: float, friction: float) -> float:
    if not 0 <= convergence_deg < 90:
        raise InputError(
            f"must be from 0 to below 90 degrees, got {convergence_deg:g}",
            place="--convergence-deg",
        )
    if not 0 <= friction < 2:
        raise InputError(f"must be from 0 to below 2, got {friction:g}", place="--friction")
    return withdrawal_force(force, tan(radians(convergence_deg)), friction)


def _option(name: str) -> str:
    return "--" + name.replace("_", "-")
