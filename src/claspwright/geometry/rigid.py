"""Rigid motions."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats, InputError, frozen_floats

ROWS_A_BLOCK = 16_384


@dataclass(frozen=True, slots=True, eq=False)
class Rigid:
    """x -> rotation @ x + translation; right-handed, no scale."""

    rotation: Floats  # (3, 3)
    translation: Floats  # (3,) mm

    def __post_init__(self) -> None:
        object.__setattr__(self, "rotation", frozen_floats(self.rotation, (3, 3), "rotation"))
        object.__setattr__(
            self, "translation", frozen_floats(self.translation, (3,), "translation")
        )
        error = np.abs(self.rotation @ self.rotation.T - np.eye(3)).max()
        if error > 1e-9 or np.linalg.det(self.rotation) < 0:
            raise InputError(f"not a right-handed rotation (orthogonality error {error:.1e})")

    def apply(self, points: Floats) -> Floats:
        """Move (N, 3) points or one (3,) point [mm]."""
        moved = _turned(points, self.rotation)
        moved += self.translation
        return moved

    def turn(self, vectors: Floats) -> Floats:
        """Turn (N, 3) directions or one (3,) direction."""
        return _turned(vectors, self.rotation)

    def inverse(self) -> Rigid:
        """The motion that undoes this one."""
        return Rigid(self.rotation.T, -self.rotation.T @ self.translation)

    def after(self, first: Rigid) -> Rigid:
        """The motion that does `first`, then this one."""
        return Rigid(
            self.rotation @ first.rotation, self.rotation @ first.translation + self.translation
        )

    def matrix(self) -> Floats:
        """(4, 4) homogeneous matrix."""
        out = np.eye(4)
        out[:3, :3] = self.rotation
        out[:3, 3] = self.translation
        return out


def _turned(vectors: Floats, rotation: Floats) -> Floats:
    """The vectors turned, many of them in blocks.

    A product of many rows by three columns is shared between threads, whose waiting for one
    another costs far more than the product itself as soon as another job runs beside.
    """
    vectors = np.asarray(vectors)
    if vectors.ndim < 2 or len(vectors) <= ROWS_A_BLOCK:
        return np.asarray(vectors @ rotation.T, dtype=np.float64)
    out = np.empty(vectors.shape)
    for first in range(0, len(vectors), ROWS_A_BLOCK):
        here = slice(first, first + ROWS_A_BLOCK)
        np.matmul(vectors[here], rotation.T, out=out[here])
    return out


IDENTITY = Rigid(np.eye(3), np.zeros(3))


def rotation_between(start: Floats, end: Floats) -> Floats:
    """(3, 3) smallest rotation that turns unit vector `start` onto unit vector `end`."""
    axis = np.cross(start, end)
    cosine = float(np.dot(start, end))
    if cosine < -1 + 1e-12:
        side = np.eye(3)[np.argmin(np.abs(start))]
        axis = np.cross(start, side)
        axis /= np.linalg.norm(axis)
        return 2.0 * np.outer(axis, axis) - np.eye(3)
    skew = np.array(
        [[0, -axis[2], axis[1]], [axis[2], 0, -axis[0]], [-axis[1], axis[0], 0]], dtype=np.float64
    )
    return np.eye(3) + skew + skew @ skew / (1.0 + cosine)
