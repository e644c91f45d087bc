"""The path of placement and its tilts."""

from __future__ import annotations

import numpy as np

from claspwright.arch import Jaw, patient_right
from claspwright.base import Floats, InputError, frozen_floats
from claspwright.survey.model import PathOfPlacement

STEEPEST_TILT_DEG = 45.0


def path_from_tilts(
    jaw: Jaw, anterior_deg: float = 0.0, right_lateral_deg: float = 0.0
) -> PathOfPlacement:
    """The path out of the mouth for two tilts of the cast.

    path = normalise(z - tan(a) y - tan(b) r), r towards the patient's right.

    Args:
        jaw: tells on which side of x the patient's right lies.
        anterior_deg: positive when the front of the cast is lowered.
        right_lateral_deg: positive when the patient's right is lowered.

    Raises:
        InputError: a tilt beyond 45 degrees.
    """
    for name, tilt in (("anterior", anterior_deg), ("right lateral", right_lateral_deg)):
        if not abs(tilt) <= STEEPEST_TILT_DEG:
            raise InputError(
                f"{name} tilt of {tilt} degrees lies beyond {STEEPEST_TILT_DEG:.0f} degrees",
                remedy="Tilts of a cast rarely pass 10 to 15 degrees.",
            )
    slope = np.tan(np.radians([anterior_deg, right_lateral_deg]))
    direction = np.array([0.0, -slope[0], 1.0]) - slope[1] * patient_right(jaw)
    direction /= np.linalg.norm(direction)
    return PathOfPlacement(frozen_floats(direction, (3,), "path"), anterior_deg, right_lateral_deg)


def tilts_of(direction: Floats, jaw: Jaw) -> PathOfPlacement:
    """The path along a direction out of the mouth, with the tilts that give it.

    Raises:
        InputError: the direction does not point out of the mouth.
    """
    direction = np.asarray(direction, dtype=np.float64)
    size = float(np.linalg.norm(direction))
    if not (size > 0 and direction[2] > 0.5 * size):
        raise InputError(
            f"the path {direction.tolist()} does not point out of the mouth",
            remedy="It must lie within 60 degrees of +z, the occlusal direction.",
        )
    unit = direction / size
    anterior = float(np.degrees(np.arctan(-unit[1] / unit[2])))
    lateral = float(np.degrees(np.arctan(-(unit @ patient_right(jaw)) / unit[2])))
    return PathOfPlacement(frozen_floats(unit, (3,), "path"), anterior, lateral)
