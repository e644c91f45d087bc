"""From the force across the tooth to the force that withdraws a clasp; safe undercuts."""

from __future__ import annotations

from math import log10

from claspwright.base import InputError
from claspwright.materials import Material

SHORT_LIFE, LONG_LIFE = 1e3, 1e7  # cycles at which a strength line begins and levels off


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


def goodman_factor(peak_stress: float, material: Material, cycles: float = LONG_LIFE) -> float:
    """Safety against fatigue of an arm that is sprung from rest to its undercut and back.

    Args:
        peak_stress: stress at the undercut [MPa].
        material: alloy.
        cycles: times that it is sprung.

    Source:
        Goodman line with amplitude and mean both half the peak: 1/n = p/(2 Se) + p/(2 Sut).
    """
    amplitude = mean = peak_stress / 2
    strength = strength_after(cycles, material)
    return 1.0 / (amplitude / strength + mean / material.tensile.nominal)


def strength_after(cycles: float, material: Material) -> float:
    """Amplitude that an alloy bears for a number of full reversals [MPa].

    Source:
        Basquin's line from 0.9 of the tensile strength at 1e3 cycles to the fatigue strength
        at 1e7 (Shigley's Mechanical Engineering Design [memory]); level beyond both.
    """
    low, high = 0.9 * material.tensile.nominal, material.fatigue.nominal
    share = (log10(min(max(cycles, SHORT_LIFE), LONG_LIFE)) - log10(SHORT_LIFE)) / (
        log10(LONG_LIFE) - log10(SHORT_LIFE)
    )
    return float(low * (high / low) ** share)
