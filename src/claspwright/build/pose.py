"""How a part stands on the platform, with one convention for angles.

An orientation is the unit vector of the part's own frame that points up in the machine. The
angle of a surface is always measured from the plate: a vertical wall has 90 deg, a flat
downskin 0 deg; angle from the vertical = 90 deg minus angle from the plate (check-values F10).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats, InputError, frozen_floats
from claspwright.geometry import Mesh, Rigid, face_vectors, rotation_between

UP = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True, slots=True, eq=False)
class Pose:
    """Up in the part's frame, then a turn about the vertical, then a place on the plate."""

    up: Floats  # (3,) unit vector in the frame of the part
    turn_deg: float = 0.0  # about the plate's +z
    x_mm: float = 0.0
    y_mm: float = 0.0
    lift_mm: float = 0.0  # height of the part's lowest point

    def __post_init__(self) -> None:
        up = frozen_floats(self.up, (3,), "up")
        if abs(float(np.linalg.norm(up)) - 1.0) > 1e-6:
            raise InputError(f"up must be a unit vector, got {up.tolist()}")
        object.__setattr__(self, "up", up)

    def motion(self, mesh: Mesh) -> Rigid:
        """The motion that stands a part in this pose.

        The middle of its box in plan comes to x, y; its lowest point to the lift.
        """
        angle = np.radians(self.turn_deg)
        spin = np.array(
            [
                [np.cos(angle), -np.sin(angle), 0.0],
                [np.sin(angle), np.cos(angle), 0.0],
                [0.0, 0.0, 1.0],
            ]
        )
        turn = spin @ rotation_between(self.up, UP)
        turned = mesh.vertices @ turn.T
        low, high = turned.min(axis=0), turned.max(axis=0)
        middle = 0.5 * (low + high)
        return Rigid(
            turn,
            np.array([self.x_mm - middle[0], self.y_mm - middle[1], self.lift_mm - low[2]]),
        )


def angle_from_plate_deg(mesh: Mesh, up: Floats) -> Floats:
    """(F,) angle of each face from the plate, 0 to 90 [deg]; nan for faces without area."""
    vectors = face_vectors(mesh)
    size = np.linalg.norm(vectors, axis=1)
    with np.errstate(invalid="ignore", divide="ignore"):
        cosine = np.abs(vectors @ up) / size
    return np.asarray(np.degrees(np.arccos(np.clip(cosine, 0.0, 1.0))))


def from_vertical_deg(from_plate_deg: float) -> float:
    """The same angle measured from the build direction (check-values F10)."""
    return 90.0 - from_plate_deg


def sphere(count: int) -> Floats:
    """(count, 3) unit vectors spread evenly over the sphere, the same for the same count."""
    n = np.arange(count) + 0.5
    z = 1.0 - 2.0 * n / count
    ring = np.sqrt(1.0 - z * z)
    angle = n * np.pi * (3.0 - np.sqrt(5.0))
    return np.column_stack([ring * np.cos(angle), ring * np.sin(angle), z])
