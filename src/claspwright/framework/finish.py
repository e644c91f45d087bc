"""External finish lines: a wall towards the acrylic, a ramp towards the metal."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats
from claspwright.framework.canvas import Section, section_sweep
from claspwright.framework.ground import Ground, Piece, steady_normals
from claspwright.framework.model import Component
from claspwright.geometry import arc_lengths, resampled, smoothed
from claspwright.limits import limit

CREST = 0.8  # mm that its crest is thick
RAMP = 1.8  # mm over which the ridge runs out on the metal's side


def finish_line(ground: Ground, name: str, line: Floats, metal: Floats, base_mm: float) -> Piece:
    """A finish line along a surface line.

    Args:
        ground: surfaces.
        name: component id.
        line: (N, 3) line on the surface, grid frame [mm].
        metal: (3,) direction in which the polished metal lies.
        base_mm: thickness of the metal beside it [mm].
    """
    line = ground.blocked.settle(smoothed(resampled(line, 0.3), 1.5))
    line = smoothed(resampled(line, 0.3), 1.2)
    normal = steady_normals(ground.blocked, line, 2.5)
    middle = len(line) // 2
    tangent = line[min(middle + 1, len(line) - 1)] - line[max(middle - 1, 0)]
    side = 1.0 if np.cross(tangent, normal[middle]) @ metal > 0 else -1.0
    top = base_mm + limit("finish.height").value
    ring = np.array(
        [
            (0.0, -0.6),
            (0.0, top),
            (CREST * side, top - 0.05),
            (RAMP * side, base_mm * 0.6),
            (RAMP * side, -0.6),
        ]
    )
    shape = section_sweep(ground.grid, line, normal, Section.of(ring, 1.0))
    component = Component(
        name,
        "finish line",
        ground.back(line),
        np.array([RAMP]),
        np.array([top]),
        None,
        {"length_mm": float(arc_lengths(line)[-1])},
    )
    return Piece(component, shape, 0.0)  # no fillet: the wall is lower than two would be
