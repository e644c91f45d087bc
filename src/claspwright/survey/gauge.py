"""The undercut gauge: what it reads at points of a surveyed arch."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from claspwright.base import Floats
from claspwright.geometry import DistanceTree, Field, in_chunks
from claspwright.survey import _gauge_kernels as kernels
from claspwright.survey.exact import exact_undercut
from claspwright.survey.model import Survey

REACH_MM = 3.0  # readings beyond this are given as this
SLACK_MM = 0.03  # depth by which the gauge's way may graze the solid
POINTS_A_CHUNK = 4096


@dataclass(frozen=True, slots=True, eq=False)
class GaugeReading:
    """What the gauge reads at N points on a surface."""

    undercut_mm: Floats  # (N,) 0 where the way out is free; REACH_MM where it is that or more
    below_survey_line_mm: Floats  # (N,) along the path; 0 where free, NaN beyond the reach


def gauge(survey: Survey, points: Floats) -> GaugeReading:
    """Reading of the undercut gauge at (N, 3) points on the surface, arch frame [mm].

    The undercut is the distance, in the plane through the point across the path, to the
    nearest point from which the way out is free, without passing through the solid. The height
    is that from the point up to where the gauge's upright touches.

    Source:
        check-values B10.
    """
    return read_fields(survey.scan_field, survey.block_field, points, survey.tree)


def read_fields(
    scan: Field, block: Field, points: Floats, tree: DistanceTree | None = None
) -> GaugeReading:
    """The same on the two fields of a survey, whose frame has +z along the path.

    With the tree of the solid the undercut is made exact by rays, sharp edges too.
    """
    grid = scan.grid
    points = np.atleast_2d(np.asarray(points, dtype=np.float64))
    nodes = np.ascontiguousarray(grid.to_nodes(points))
    undercut, below = np.empty(len(nodes)), np.empty(len(nodes))
    ends = np.empty((len(nodes), 2))
    reach = REACH_MM / grid.spacing

    def work(first: int, last: int) -> None:
        here = slice(first, last)
        kernels.read_gauge(
            nodes[here], block.values, scan.values, reach, SLACK_MM,
            undercut[here], below[here], ends[here],
        )  # fmt: skip

    in_chunks(work, len(nodes), POINTS_A_CHUNK)
    undercut *= grid.spacing
    if tree is not None:
        read = np.flatnonzero((undercut > 0.0) & (undercut < REACH_MM))
        free = grid.to_world(np.column_stack([ends[read], nodes[read, 2]]))
        undercut[read] = exact_undercut(tree, grid, points[read], free, undercut[read])
    return GaugeReading(undercut, below * grid.spacing)
