"""A quick reading of undercut: many points, any path, from one distance field of the arch."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats, InputError, Progress, Singles, silent
from claspwright.geometry import IDENTITY, DistanceTree, Field, Grid, distance_field, in_chunks
from claspwright.survey import _cone_kernels as kernels

STEP_MM = 0.2
PAD_MM = 2.0
BAND_MM = 3.0
LIFT_MM = 0.002  # off the surface, so that a level place does not read its own roughness
READINGS_A_CHUNK = 4096


def quick_field(
    tree: DistanceTree, around: Floats, *, step_mm: float = STEP_MM, progress: Progress = silent
) -> Field:
    """The distance field that `quick_undercuts` reads, made once for all paths.

    Args:
        tree: of the closed solid.
        around: (N, 3) points that the field encloses [mm].
        step_mm: of the grid; 0.2 keeps the error on rounded crowns at some hundredths.
        progress: told of the fraction done.
    """
    grid = Grid.around(around, IDENTITY, step_mm, PAD_MM)
    return distance_field(tree, grid, BAND_MM, progress=progress)


def quick_undercuts(
    field: Field,
    points: Floats,
    paths: Floats,
    *,
    normals: Floats | None = None,
    progress: Progress = silent,
) -> Singles:
    """Undercut (N, D) of points on the surface along paths (D, 3), quickly [mm].

    The greatest depth in the solid that the way out passes, 0 where it is free: a lower bound
    of the gauge, equal to it where the nearest free place lies square to the height of contour,
    so on rounded crowns; it reads short on sharp ridges, under ledges and between fused crowns.
    Good for a look and for searching; `gauge` reads exactly.

    Args:
        field: of the closed solid, from `quick_field`.
        points: (N, 3) on the surface [mm].
        paths: (D, 3) unit vectors out of the mouth.
        normals: (N, 3) outward unit; given, the points are lifted by 0.002 mm.
        progress: told of the fraction done.

    Raises:
        InputError: a path that does not lead out of the mouth (z not positive).
    """
    ways = np.ascontiguousarray(np.atleast_2d(paths), dtype=np.float64)
    if not np.all(ways[:, 2] > 0.0):
        raise InputError(
            "a path must lead out of the mouth: its z is not positive",
            remedy="Give unit vectors with positive z, arch frame.",
        )
    start = points if normals is None else points + LIFT_MM * normals
    nodes = np.ascontiguousarray(field.grid.to_nodes(start))
    out = np.empty((len(nodes), len(ways)), np.float32)
    spacing = field.grid.spacing

    def work(first: int, last: int) -> None:
        here = slice(first, last)
        kernels.blocked_by(field.values, nodes[here], ways, 1.0, spacing, out[here])

    chunk = max(READINGS_A_CHUNK // max(len(ways), 1), 48)
    in_chunks(work, len(out), chunk, progress=progress, phase="ways out of the mouth")
    return out
