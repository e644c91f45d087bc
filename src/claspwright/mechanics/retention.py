"""From the force across the tooth to the force that withdraws a clasp; safe undercuts."""

from __future__ import annotations

from claspwright.base import InputError
from claspwright.materials import Material


def withdrawal_force(force: float, slope: float, friction: float) -> float:
    """Force along the path that withdraws a clasp tip from its undercut [N].

    Args:
        force: force of the tip across the path [N].
        slope: tangent of the angle between tooth surface and path at the tip.
        friction: coefficient of friction, metal on wet enamel.

    Raises:
        InputError: friction and slope lock the tip (friction times slope >= 1).

    Source:
        Statics of the wedge: P = F (mu + tan a) / (1 - mu tan a).
    """
    if friction < 0 or slope < 0:
        raise InputError(f"slope and friction must not be negative, got {slope}, {friction}")
    if friction * slope >= 1:
        raise InputError(
            f"a tip on a slope of {slope:.2f} with friction {friction:.2f} locks itself",
            remedy="Choose a place with a flatter undercut.",
        )
    return force * (friction + slope) / (1 - friction * slope)


def safe_undercut(undercut: float, peak_stress: float, allowed_stress: float) -> float:
    """Largest undercut at which the peak stress just reaches the allowed one [mm].

    Stress is proportional to the tip's travel in a linear beam.
    """
    if not peak_stress > 0:
        raise InputError(f"peak stress must be positive, got {peak_stress} MPa")
    return undercut * allowed_stress / peak_stress


def goodman_factor(peak_stress: float, material: Material) -> float:
    """Safety against fatigue of an arm that is sprung from rest to its undercut and back.

    Source:
        Goodman line with amplitude and mean both half the peak: 1/n = p/(2 Se) + p/(2 Sut).
    """
    amplitude = mean = peak_stress / 2
    return 1.0 / (amplitude / material.fatigue.nominal + mean / material.tensile.nominal)
