"""Statics of a rigid body on unilateral, frictionless contacts."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.optimize import nnls

from claspwright.base import ConvergenceError, Floats


@dataclass(frozen=True, slots=True, eq=False)
class ContactStep:
    """A small motion under a load, and the forces of the contacts that bound it."""

    shift: Floats  # (3,) of the load's point [mm]
    turn: Floats  # (3,) rotation vector [rad]
    forces: Floats  # (C,) along the normals, in units of the load


def contact_step(
    points: Floats, normals: Floats, gaps: Floats, load_at: Floats, direction: Floats,
    *, reach: float, arm: float,
) -> ContactStep:  # fmt: skip
    """How a body gives way to a load of one unit while no contact closes beyond its gap.

    Of all small motions that keep every gap open, the one that lies nearest to `reach` along
    the load. Where the body rests, the motion is zero and the forces are those of statics.

    Args:
        points: (C, 3) where contact is or may be [mm].
        normals: (C, 3) unit, from the ground into the body.
        gaps: (C,) how far each is from touching [mm].
        load_at: (3,) point of the load [mm].
        direction: (3,) unit vector of the load.
        reach: how far the load would move the free body [mm].
        arm: length by which rotation counts beside translation [mm].

    Raises:
        ConvergenceError: no motion keeps every gap open.

    Source:
        C. L. Lawson, R. J. Hanson, Solving Least Squares Problems, 1974, chapter 23, problem
        LDP (from memory).
    """
    rows = np.concatenate([normals, np.cross(points - load_at, normals) / arm], axis=1)
    free = np.concatenate([reach * direction, np.zeros(3)])
    if not len(points):
        return ContactStep(free[:3], np.zeros(3), np.zeros(0))
    bound = -gaps - rows @ free
    system = np.concatenate([rows.T, bound[None, :]], axis=0)
    goal = np.zeros(7)
    goal[6] = 1.0
    try:
        weights, _ = nnls(system, goal, maxiter=30 * system.shape[1])
    except RuntimeError as error:
        raise ConvergenceError("the contact forces were not found") from error
    residual = system @ weights - goal
    if -residual[6] < 1e-12:
        raise ConvergenceError(
            "the part is wedged: no motion keeps every gap open",
            remedy="Check the alignment, and leave out what must spring over an undercut.",
        )
    multipliers = weights / -residual[6]
    motion = free + rows.T @ multipliers
    return ContactStep(motion[:3], motion[3:] / arm, multipliers / reach)
