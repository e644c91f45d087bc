"""Sides from which a picture is taken, named as at the bench and turned as in the mouth.

The patient's right is on the viewer's left in the occlusal view of either jaw (the maxilla with
its anterior teeth up, the mandible with them down), as on a dental chart; in the side views the
maxilla has its teeth pointing down.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from claspwright.arch import Jaw, patient_right
from claspwright.base import Floats, InputError

Side = Literal[
    "occlusal", "tissue side", "from the right", "from the left", "from the front", "from behind"
]
SIDES: tuple[Side, ...] = (
    "occlusal",
    "from the front",
    "from the right",
    "tissue side",
    "from behind",
    "from the left",
)


@dataclass(frozen=True, slots=True, eq=False)
class View:
    """An orthographic look at the scene."""

    name: str
    toward: Floats  # (3,) from the scene towards the eye
    up: Floats  # (3,) direction that is up on the picture
    centre: Floats | None = None  # (3,) middle of the picture; None: middle of the scene
    width_mm: float | None = None  # what the picture's width shows; None: the whole scene

    def axes(self) -> tuple[Floats, Floats, Floats]:
        """Unit vectors right, up and towards the eye of the picture."""
        toward = self.toward / np.linalg.norm(self.toward)
        right = np.cross(self.up, toward)
        length = float(np.linalg.norm(right))
        if length < 1e-9:
            raise InputError(f"view '{self.name}' looks along its own up direction")
        right = right / length
        return right, np.cross(toward, right), toward


def view(side: Side, jaw: Jaw = "mandible", *, tilt_deg: float = 0.0) -> View:
    """A named view; `tilt_deg` raises the eye of a side view towards occlusal."""
    anterior = np.array([0.0, 1.0, 0.0])
    occlusal = np.array([0.0, 0.0, 1.0])
    right = patient_right(jaw)
    head = occlusal if jaw == "mandible" else -occlusal
    flat_up = -anterior if jaw == "mandible" else anterior
    toward = {
        "occlusal": occlusal,
        "tissue side": -occlusal,
        "from the right": right,
        "from the left": -right,
        "from the front": anterior,
        "from behind": -anterior,
    }[side]
    if side in ("occlusal", "tissue side"):
        return View(side, toward, flat_up)
    angle = np.radians(tilt_deg)
    return View(side, np.cos(angle) * toward + np.sin(angle) * occlusal, head)


def oblique(jaw: Jaw = "mandible", *, turn_deg: float = 30.0, tilt_deg: float = 40.0) -> View:
    """From the front and above the occlusal plane, turned towards the patient's right."""
    turn, tilt = np.radians(turn_deg), np.radians(tilt_deg)
    level = np.cos(turn) * np.array([0.0, 1.0, 0.0]) + np.sin(turn) * patient_right(jaw)
    occlusal = np.array([0.0, 0.0, 1.0])
    head = occlusal if jaw == "mandible" else -occlusal
    return View("oblique", np.cos(tilt) * level + np.sin(tilt) * occlusal, head)


def close_up(at: Floats, whole: View, width_mm: float = 16.0) -> View:
    """The same look, near one place."""
    return View(whole.name, whole.toward, whole.up, np.asarray(at, dtype=np.float64), width_mm)
