"""The solids that supports are made of."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats
from claspwright.build.machine import SupportPlan
from claspwright.geometry import Mesh, revolved

STEPS = 8  # sides of a pin
FOOT_MM = 0.6  # height of the foot on the plate


def pin(x: float, y: float, base: float, top: float, neck: float, plan: SupportPlan) -> Mesh:
    """A pin from the plate (base 0) or from the part (base > 0) to a contact at `top`.

    It widens to a foot on the plate, or begins with a neck on the part, and ends in the neck at
    which it breaks off, which bites a little into the part.
    """
    thick, thin = 0.5 * plan.pin_mm, 0.5 * neck
    room = top - base
    cone = min(plan.neck_length_mm, 0.4 * room)
    if base > 0.0:
        start = [(thin, base - plan.bite_mm), (thin, base), (thick, base + cone)]
    else:
        start = [(0.5 * plan.foot_mm, 0.0), (thick, min(FOOT_MM, 0.4 * room))]
    rows = [
        (0.0, start[0][1]),
        *start,
        (thick, top - cone),
        (thin, top),
        (thin, top + plan.bite_mm),
        (0.0, top + plan.bite_mm),
    ]
    body = revolved(np.array(rows), STEPS)
    return Mesh(body.vertices + np.array([x, y, 0.0]), body.faces)


def trunk(x: float, y: float, top: float, radius: float, plan: SupportPlan) -> Mesh:
    """A pin from the plate to where a branch begins."""
    rows = [
        (0.0, 0.0),
        (0.5 * plan.foot_mm, 0.0),
        (radius, FOOT_MM),
        (radius, top),
        (0.0, top + 0.5 * radius),
    ]
    body = revolved(np.array(rows), STEPS)
    return Mesh(body.vertices + np.array([x, y, 0.0]), body.faces)


def strut(start: Floats, end: Floats, first: float, last: float) -> Mesh:
    """A tapered bar with the given radii at both ends, each end lengthened by its radius."""
    axis = end - start
    axis = axis / np.linalg.norm(axis)
    side = np.cross(axis, np.eye(3)[np.argmin(np.abs(axis))])
    side /= np.linalg.norm(side)
    other = np.cross(axis, side)
    angle = 2.0 * np.pi * np.arange(STEPS) / STEPS
    ring = np.cos(angle)[:, None] * side + np.sin(angle)[:, None] * other
    low, high = start - first * axis, end + last * axis
    points = np.concatenate([[low], [high], low + first * ring, high + last * ring])
    here = np.arange(STEPS)
    beside = (here + 1) % STEPS
    a, b = 2 + here, 2 + beside
    c, d = a + STEPS, b + STEPS
    faces = np.concatenate(
        [
            np.column_stack([np.zeros(STEPS, int), b, a]),
            np.column_stack([a, b, d]),
            np.column_stack([a, d, c]),
            np.column_stack([c, d, np.ones(STEPS, int)]),
        ]
    )
    return Mesh(points, faces)


def slanted_plate(start: Floats, end: Floats, height: float, thickness: float) -> Mesh:
    """A thin upright plate from one pin to the next, its edges rising from start to end.

    Args:
        start: (3,) lower corner at the first pin [mm].
        end: (3,) lower corner at the second pin [mm].
        height: of the plate, upright [mm].
        thickness: across it [mm].
    """
    along = end - start
    across = np.array([-along[1], along[0], 0.0])
    across *= 0.5 * thickness / np.linalg.norm(across)
    up = np.array([0.0, 0.0, height])
    corners = np.array(
        [
            place + s * across + u * up
            for u in (0.0, 1.0)
            for s in (-1.0, 1.0)
            for place in (start, end)
        ]
    )
    quads = [(0, 2, 3, 1), (4, 5, 7, 6), (0, 1, 5, 4), (2, 6, 7, 3), (0, 4, 6, 2), (1, 3, 7, 5)]
    faces = [t for a, b, c, d in quads for t in ((a, b, c), (a, c, d))]
    return Mesh(corners, np.array(faces))
