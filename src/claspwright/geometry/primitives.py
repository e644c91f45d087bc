"""Closed meshes of simple solids."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats, InputError
from claspwright.geometry.mesh import Mesh


def box(low: Floats, high: Floats) -> Mesh:
    """A box between two corners [mm]."""
    corners = np.array(
        [[(low, high)[(c >> a) & 1][a] for a in range(3)] for c in range(8)], dtype=np.float64
    )
    quads = [(0, 2, 3, 1), (4, 5, 7, 6), (0, 1, 5, 4), (2, 6, 7, 3), (0, 4, 6, 2), (1, 3, 7, 5)]
    faces = [t for a, b, c, d in quads for t in ((a, b, c), (a, c, d))]
    return Mesh(corners, np.array(faces))


def revolved(profile: Floats, steps: int) -> Mesh:
    """Turn an (N, 2) profile of (radius, z) [mm] about the z axis.

    The profile runs upwards along the outside, from the axis to the axis: its first and last
    radius are 0, the others positive.
    """
    profile = np.asarray(profile, dtype=np.float64)
    if len(profile) < 3 or profile[0, 0] != 0 or profile[-1, 0] != 0 or steps < 3:
        raise InputError("a profile needs 3 points, the first and last on the axis, and 3 steps")
    angle = 2.0 * np.pi * np.arange(steps) / steps
    ring = np.column_stack([np.cos(angle), np.sin(angle)])
    inner = profile[1:-1]
    rows = np.concatenate(
        [
            (inner[:, None, :1] * ring[None]).reshape(-1, 2),
            np.repeat(inner[:, 1], steps)[:, None],
        ],
        axis=1,
    )
    poles = [[0.0, 0.0, profile[0, 1]], [0.0, 0.0, profile[-1, 1]]]
    vertices = np.concatenate([poles, rows])
    here = np.arange(steps)
    beside = (here + 1) % steps
    faces = [np.column_stack([np.zeros(steps, int), 2 + beside, 2 + here])]
    for row in range(len(inner) - 1):
        a, b = 2 + row * steps + here, 2 + row * steps + beside
        faces += [np.column_stack([a, b, b + steps]), np.column_stack([a, b + steps, a + steps])]
    top = 2 + (len(inner) - 1) * steps
    faces.append(np.column_stack([top + here, top + beside, np.ones(steps, int)]))
    return Mesh(vertices, np.concatenate(faces))


def ball(radius: float, edge: float) -> Mesh:
    """A sphere about the origin from a subdivided octahedron, edges at most `edge` [mm]."""
    count = max(int(np.ceil(0.75 * np.pi * radius / edge)), 1)
    corners = np.array([[1, 0, 0], [0, 1, 0], [-1, 0, 0], [0, -1, 0], [0, 0, 1], [0, 0, -1]])
    sides = [(0, 1, 4), (1, 2, 4), (2, 3, 4), (3, 0, 4), (1, 0, 5), (2, 1, 5), (3, 2, 5), (0, 3, 5)]
    i, j = (a.ravel() for a in np.meshgrid(np.arange(count + 1), np.arange(count + 1)))
    keep = i + j <= count
    i, j = i[keep], j[keep]
    number = np.full((count + 1, count + 1), -1)
    number[i, j] = np.arange(len(i))
    up = i + j < count
    down = i + j < count - 1
    patch = np.concatenate(
        [
            np.column_stack([number[i, j], number[i + up, j], number[i, j + up]])[up],
            np.column_stack([number[i + down, j], number[i + down, j + down], number[i, j + down]])[
                down
            ],
        ]
    )
    lattice = np.concatenate(
        [
            np.outer(count - i - j, corners[a]) + np.outer(i, corners[b]) + np.outer(j, corners[c])
            for a, b, c in sides
        ]
    )
    faces = np.concatenate([patch + n * len(i) for n in range(len(sides))])
    points, index = np.unique(lattice, axis=0, return_inverse=True)
    spread = np.sin(0.5 * np.pi * points / count)  # evens the edges out
    spread *= radius / np.linalg.norm(spread, axis=1, keepdims=True)
    return Mesh(spread, index.ravel()[faces])


def tube(line: Floats, radius: Floats, sides: int) -> Mesh:
    """A closed round rod along (N, 3) `line`, (N,) `radius` thick, with flat ends [mm].

    The rings follow the line without turning about it.

    Raises:
        InputError: fewer than 2 points or 3 sides, or a radius is not positive.
    """
    if len(line) < 2 or sides < 3 or len(radius) != len(line) or not np.min(radius) > 0:
        raise InputError("a rod needs 2 points, 3 sides and a positive radius at each point")
    along = np.gradient(np.asarray(line, np.float64), axis=0)
    along /= np.linalg.norm(along, axis=1, keepdims=True)
    first = np.eye(3)[int(np.argmin(np.abs(along[0])))]
    rings, across = [], first
    turn = 2.0 * np.pi * np.arange(sides) / sides
    for point, ahead, r in zip(line, along, radius, strict=True):
        across = across - (across @ ahead) * ahead
        across = across / np.linalg.norm(across)
        up = np.cross(ahead, across)
        rings.append(point + r * (np.cos(turn)[:, None] * across + np.sin(turn)[:, None] * up))
    count = len(line)
    vertices = np.concatenate([*rings, line[:1], line[-1:]])
    here = np.arange(sides)
    beside = (here + 1) % sides
    faces = [np.column_stack([np.full(sides, count * sides), beside, here])]
    for k in range(count - 1):
        a, b = k * sides + here, k * sides + beside
        faces += [np.column_stack([a, b, b + sides]), np.column_stack([a, b + sides, a + sides])]
    last = (count - 1) * sides
    faces.append(np.column_stack([np.full(sides, count * sides + 1), last + here, last + beside]))
    return Mesh(vertices, np.concatenate(faces))
