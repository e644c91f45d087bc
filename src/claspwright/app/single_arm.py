"""A bare clasp arm by the closed form: its figures, and what they rest on."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from claspwright.mechanics import BareArm, bare_arm

SOURCE = (
    "Castigliano's theorem for a half-round that tapers evenly, by bending across its flat alone; "
    "statics of the wedge for the withdrawal force"
)
CAUTION = "A computed aid: it replaces neither a test nor the dentist's judgement."


def arm_told(
    arm: BareArm, *, convergence_deg: float | None = None, friction: float | None = None
) -> dict[str, Any]:
    """Figures of a bare arm for JSON; Any: numbers, words or null.

    Args:
        arm: sizes [mm], travel of the tip [mm] and modulus [MPa].
        convergence_deg: angle between the tooth's surface under the tip and the path.
        friction: coefficient of friction of metal on wet enamel.

    Raises:
        InputError: the slope and the friction cannot be a wedge, lock the tip, or one is missing.
    """
    found = bare_arm(arm, convergence_deg=convergence_deg, friction=friction)
    return {**asdict(found), "source": SOURCE, "caution": CAUTION}
