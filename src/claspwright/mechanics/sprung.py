"""A clasp arm in space, sprung at its tip over an undercut."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats, InputError
from claspwright.mechanics.space_beam import Elastic, SpaceArm, respond, stresses


@dataclass(frozen=True, slots=True, eq=False)
class Sprung:
    """Force and stress of an arm whose tip is sprung by a travel."""

    length_mm: float  # along the arm's axis
    travel_mm: float  # of the tip against the root, across the path
    force_n: float  # at the tip, along the travel
    stiffness_n_per_mm: float
    normal_mpa: Floats  # (S,) greatest normal stress at each station
    equivalent_mpa: Floats  # (S,) with the shear of torsion
    peak_stress_mpa: float  # greatest equivalent stress
    peak_at_mm: float  # along the axis from the root
    peak_point: Floats  # (3,) on the axis

    def after_giving_way(self, give: float) -> float:
        """Share of force and stress that is left where the tooth gives way [mm/N].

        Source:
            Two springs in series.
        """
        return 1.0 / (1.0 + give * self.stiffness_n_per_mm)


def sprung(arm: SpaceArm, outward: Floats, travel: float, elastic: Elastic) -> Sprung:
    """Spring the tip of an arm in a direction; it is free to slide across it.

    Args:
        arm: the arm, clamp first.
        outward: (3,) unit direction in which the tooth pushes the tip.
        travel: how far [mm].
        elastic: constants of the alloy.

    Raises:
        InputError: the direction is no unit vector, the travel not positive, or it runs along
            the arm.

    Source:
        Castigliano's theorem on the space beam.
    """
    if outward.shape != (3,) or abs(float(np.linalg.norm(outward)) - 1.0) > 1e-6:
        raise InputError(f"outward must be a unit (3,) direction, got {outward}")
    if not travel > 0:
        raise InputError(f"travel of a tip must be positive, got {travel} mm")
    response = respond(arm, np.array([len(arm.line) - 1]), outward[None], elastic)
    compliance = float(response.compliance[0, 0])
    if not compliance > 0:
        raise InputError("the tip of an arm cannot be sprung along the arm itself")
    force = travel / compliance
    normal, equivalent = stresses(arm, response, np.array([force]))
    peak = int(np.argmax(equivalent))
    return Sprung(
        length_mm=float(response.arc[-1]),
        travel_mm=travel,
        force_n=force,
        stiffness_n_per_mm=1.0 / compliance,
        normal_mpa=normal,
        equivalent_mpa=equivalent,
        peak_stress_mpa=float(equivalent[peak]),
        peak_at_mm=float(response.arc[peak]),
        peak_point=arm.axis[peak],
    )
