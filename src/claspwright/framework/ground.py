"""What every component is laid on, and the piece that each component gives back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.ndimage import distance_transform_edt, gaussian_filter1d

from claspwright.arch import DentalArch, RestSeat, Tooth
from claspwright.base import Finding, Floats, Singles
from claspwright.framework.canvas import Shape, oval_sweep
from claspwright.framework.chart import CrownChart
from claspwright.framework.model import Component, Wire
from claspwright.framework.terrain import Terrain
from claspwright.geometry import Grid, Mesh
from claspwright.survey import Survey, gauge


@dataclass(frozen=True, slots=True, eq=False)
class Ground:
    """The arch and its surfaces in the survey's grid frame."""

    arch: DentalArch
    survey: Survey
    scan: Terrain  # the bare master solid
    blocked: Terrain  # after parallel blockout
    laid: Terrain  # blocked out, with relief: what rigid metal may touch
    charts: Mapping[int, CrownChart]
    seats: Mapping[tuple[int, str], RestSeat]

    @property
    def grid(self) -> Grid:
        """The common grid of all fields."""
        return self.laid.grid

    def here(self, points: Floats) -> Floats:
        """Arch-frame points in the grid frame [mm]."""
        return self.grid.frame.apply(points)

    def aim(self, directions: Floats) -> Floats:
        """Arch-frame horizontal directions as horizontal unit vectors of the grid frame."""
        turned = self.grid.frame.turn(directions).copy()
        turned[..., 2] = 0.0
        return np.asarray(turned / np.linalg.norm(turned, axis=-1, keepdims=True))

    def back(self, points: Floats) -> Floats:
        """Grid-frame points in the arch frame [mm]."""
        return self.grid.frame.inverse().apply(points)

    def undercut(self, points: Floats) -> Floats:
        """(N,) reading of the undercut gauge at grid-frame points [mm]."""
        return gauge(self.survey, self.back(points)).undercut_mm

    def tooth(self, code: int) -> Tooth:
        """The present tooth with this code."""
        return self.arch.teeth[code]


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """One laid component: its record, its field, the fillet of its joints."""

    component: Component
    shape: Shape
    fillet: float  # mm
    tip: Shape | None = None  # where the bare tooth, not the blockout, cuts it
    findings: tuple[Finding, ...] = ()
    bore: Mesh | None = None  # what is bored out of the finished solid, arch frame
    wire: Wire | None = None  # what is not printed


def cutting_values(ground: Ground, pieces: Sequence[Piece]) -> Singles:
    """Distance to what cuts the metal: the blocked-out model, in the tips' zones the bare tooth.

    At the nodes of the grid [mm]; the tips' boxes count from its first node.
    """
    cutter = ground.laid.field.values.copy()
    for piece in pieces:
        if piece.tip is not None:
            here = piece.tip.box.slices
            inside = piece.tip.values < 0
            cutter[here] = np.where(inside, ground.scan.field.values[here], cutter[here])
    return cutter


def laid_sweep(
    ground: Terrain,
    line: Floats,
    half_width: Floats,
    height: Floats,
    *,
    fillet: float,
    steady_mm: float = 0.8,
) -> Shape:
    """An oval sweep along a surface line, standing on normals steadied along the line.

    Args:
        ground: the terrain whose normals carry the section.
        line: (N, 3) evenly stepped points, grid frame [mm].
        half_width: (N,) half width across the surface [mm].
        height: (N,) height off the surface [mm].
        fillet: radius of its joints [mm].
        steady_mm: length over which normals are averaged [mm].
    """
    return oval_sweep(
        ground.grid, line, steady_normals(ground, line, steady_mm), half_width, height, fillet
    )


def steady_normals(ground: Terrain, line: Floats, steady_mm: float) -> Floats:
    """(N, 3) surface normals along a line, smoothed over a length [mm]."""
    step = max(float(np.linalg.norm(np.diff(line, axis=0), axis=1).mean()), 1e-3)
    normal = gaussian_filter1d(ground.normal(line, 0.5), steady_mm / step, axis=0, mode="nearest")
    return np.asarray(normal / (np.linalg.norm(normal, axis=1, keepdims=True) + 1e-12))


def within_undercut(ground: Ground, shape: Shape, undercut_mm: float) -> Shape:
    """The part of a tip's zone that lies no deeper than its undercut, with a tenth to spare.

    Deeper metal could not pass the height of contour when the tip springs over it; what lies
    deeper stays blocked out, so that the arm's lower edge stands off the tooth there.
    """
    blocked = ground.blocked.field.values[shape.box.slices]
    # the field reads short in embrasures, where the nearest way out is across: count voxels there
    across = ground.grid.spacing * (distance_transform_edt(blocked < 0) - 1.0)
    depth = np.maximum(-blocked, across).astype(np.float32)
    return Shape(shape.box, np.maximum(shape.values, depth - np.float32(undercut_mm + 0.1)))
