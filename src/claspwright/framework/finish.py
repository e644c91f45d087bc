"""External finish lines: a wall towards the acrylic, a ramp towards the metal."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np
from scipy.ndimage import gaussian_filter1d, maximum_filter1d
from scipy.spatial import cKDTree

from claspwright.base import Floats
from claspwright.framework.canvas import Section, Shape, joined, nearest_of, section_sweep
from claspwright.framework.ground import Ground, Piece, steady_normals
from claspwright.framework.model import Component
from claspwright.framework.relief import ramp
from claspwright.framework.terrain import Terrain, sampled
from claspwright.geometry import Grid, arc_lengths, resampled, smoothed
from claspwright.limits import limit

CREST = 0.8  # mm that its crest is thick
RAMP = 1.8  # mm over which the ridge runs out on the metal's side
SKIRT = 1.4  # mm below a relieved surface to which it reaches there: past the wax's edge, to tissue
RISE = 1.8  # mm over which its end on a beam rises out of the plate's foot
OVER = 0.35  # mm over the least height of its wall, for what leaning and the sweep take off
SINK = 1.0  # mm over which its other end sinks into the connector
END_RISE = 1.5  # mm over which the ends of one on a strap rise out of it
RUN_IN = 2.0  # mm before that end over which it falls to the connector's own height
RUN_IN_END = 0.15  # of its height there
LOW_END = 0.45  # of its height that it has at its ends
APART = 0.75  # mm between its wall and the edge of the wax
MOST_ASIDE = 1.2  # mm by which it is drawn aside for that; the beam is hardly wider
EDGE_REACH = 2.5  # mm to both sides within which the edge of the wax is looked for
EDGE_STEP = 0.05  # mm
EVEN = 3.0  # stations over which that edge is evened
LEAST_WAX = 0.1  # mm of relief, below which there is no wax to end
BLUNT = 0.15  # mm by which the edge of its wall is blunted
STEADY = 2.5  # mm along it over which the normals that it stands on are averaged
STEEPEST = 0.35  # of its length over which either end rises at most: a short one has a wall too
IN_FRONT = (0.15, 0.3, 0.45)  # mm before its wall at which the metal that stands there is read
READ_TO = 3.5  # mm over the ground to which it is read
READ_STEP = 0.05  # mm
MOST_RAISED = 0.6  # mm by which it is raised over such metal
BACK_FILLET = 0.6  # mm radius of the joint of its back with what is laid
BACK_FROM = (0.3, 1.0)  # mm behind its wall between which that fillet begins
SUNK = (0.3, 1.2)  # mm from its ends between which that fillet begins
RAISED_OVER = 2.0  # stations over which that is evened


def finish_line(ground: Ground, name: str, line: Floats, metal: Floats, base_mm: float) -> Piece:
    """A finish line along a surface line.

    Args:
        ground: surfaces.
        name: component id.
        line: (N, 3) line on the surface, grid frame [mm].
        metal: (3,) direction in which the polished metal lies.
        base_mm: thickness of the metal beside it [mm].
    """
    top = base_mm + limit("finish.height").value
    profile = [(0.0, -0.6), (0.0, top), (CREST, top - 0.05), (RAMP, base_mm * 0.6), (RAMP, -0.6)]
    line, normal = _laid_along(ground.blocked, line)
    along = arc_lengths(line)
    height = _risen(np.minimum(along, along[-1] - along) / END_RISE)
    side = _side(line, normal, metal)
    return _swept(ground, name, line, normal, side, np.array(profile), height)


def finish_on_beam(
    ground: Ground,
    name: str,
    line: Floats,
    metal: Floats,
    beam_mm: float,
    standing: Sequence[Piece] = (),
    beside: Iterable[Piece] = (),
) -> Piece:
    """A finish line along the back of a beam: the half of it towards the metal stands higher.

    That half goes on past the edge of the base's wax, the internal finish line, to the tissue.
    Where fillets, an end bar or a foot stand higher before it than a beam, it is raised over them.

    Args:
        ground: surfaces; as the beam, it lies on the relieved one.
        name: component id.
        line: (N, 3) route of the beam from the plate on, grid frame [mm].
        metal: (3,) direction in which the polished metal lies.
        beam_mm: thickness of the beam [mm].
        standing: what is laid before its wall, in the order of its joints: beam, lattice, foot.
        beside: all that is laid, with which its back makes a fillet.
    """
    step = limit("finish.height").look_below or limit("finish.height").value
    top = beam_mm + step + OVER
    line, _ = _laid_along(ground.laid, line)
    normal = steady_normals(ground.blocked, line, STEADY)
    across = _across(line, normal, _side(line, normal, metal))
    aside = _aside(ground, line, across)
    run = RAMP + max(-float(np.median(aside)), 0.0)  # its foot stays where it was
    profile, back = _profiles(run, top)
    was = arc_lengths(line)
    line, leaning = _laid_along(ground.laid, line + aside[:, None] * across)
    normal = steady_normals(ground.blocked, line, STEADY)
    along = arc_lengths(line)
    aside_there = np.interp(along / along[-1], was / was[-1], aside)
    wide = np.maximum((RAMP - aside_there) / run, 1.0)  # so does it where it is drawn aside most
    # where it is drawn aside it begins beside the plate's foot, and runs out there
    begin = LOW_END * max(1.0 - abs(float(aside[0])) / MOST_ASIDE, 0.1)
    rise, run_in = (min(over, STEEPEST * float(along[-1])) for over in (RISE, RUN_IN))
    height = np.minimum(_risen(along / rise, begin), _risen((along[-1] - along) / SINK))
    height = np.minimum(height, _risen((along[-1] - along) / run_in, RUN_IN_END))
    side = _side(line, normal, metal)
    over = _height_before(ground, standing, line, normal, side) - beam_mm
    raised = height * (1.0 + np.clip(over, 0.0, MOST_RAISED) / top)
    # the wall stands on the tissue; behind it the back leans with the edge of the wax, as the beam
    behind = _swept(ground, name, line, leaning, side, back, height, wide)
    piece = _swept(ground, name, line, normal, side, profile, raised, wide)
    whole = joined(ground.grid, piece.shape, behind.shape, 0.0)
    across = _across(line, normal, side)
    return replace(piece, shape=_back_filleted(ground, whole, beside, line, across))


def _profiles(run: float, top: float) -> tuple[Floats, Floats]:
    """The whole profile of a finish line on a beam, and that of its back behind the wall alone.

    Args:
        run: from the wall to its foot on the metal's side [mm].
        top: height of its crest over the ground [mm].
    """
    turn = np.linspace(0.0, np.pi / 2, 9)  # a quarter of an oval from the crest to its foot
    round_ = np.column_stack([CREST / 2 + (run - CREST / 2) * np.sin(turn), top * np.cos(turn)])
    wall = [(0.0, -SKIRT), (0.0, top - BLUNT), (0.3 * BLUNT, top - 0.3 * BLUNT), (BLUNT, top)]
    foot = [(run, -SKIRT)]
    return np.vstack([wall, round_, foot]), np.vstack([[(CREST / 2, -SKIRT)], round_, foot])


def _back_filleted(
    ground: Ground, shape: Shape, beside: Iterable[Piece], line: Floats, across: Floats
) -> Shape:
    """A shape with the fillet that its back makes with what is laid beside it; its wall has none.

    Args:
        ground: surfaces.
        shape: the finish line.
        beside: what it may meet.
        line: (N, 3) its line, grid frame [mm].
        across: (N, 3) unit vectors from its wall to its back.
    """
    others = nearest_of((piece.shape for piece in beside), shape)
    nodes = np.argwhere((np.abs(shape.values) < BACK_FILLET) & (others < BACK_FILLET))
    if not len(nodes):
        return shape
    at = tuple(nodes.T)
    spots = shape.box.low + ground.grid.spacing * nodes
    _, nearest = cKDTree(line).query(spots)
    behind = ((spots - line[nearest]) * across[nearest]).sum(axis=1)
    along = arc_lengths(line)
    inwards = np.minimum(along, along[-1] - along)[nearest]  # its ends are sunk: nothing to fill
    radius = (BACK_FILLET * ramp(behind, *BACK_FROM) * ramp(inwards, *SUNK)).astype(np.float32)
    own, other = shape.values[at], others[at]
    low = np.minimum(own, other)
    filled = np.maximum(radius, low)
    filled -= np.hypot(np.maximum(radius - own, 0.0), np.maximum(radius - other, 0.0))
    values = shape.values.copy()
    values[at] = np.where((radius > 0.0) & (filled < low), filled, own)
    return Shape(shape.box, values)


def _aside(ground: Ground, line: Floats, across: Floats) -> Floats:
    """(N,) by which a line moves across, to stand APART from the edge of the wax, off the metal.

    Both finish lines over each other would leave the beam weakest where it is bent most.
    """
    beside = np.arange(-EDGE_REACH, EDGE_REACH, EDGE_STEP)
    spots = line[:, None] + beside[:, None] * across[:, None]
    foot = ground.scan.settle(spots.reshape(-1, 3))
    wax = -ground.laid.distance(foot).reshape(spots.shape[:2])
    most = wax.max(axis=1, keepdims=True)
    over = (wax > 0.5 * most) & (most > LEAST_WAX)
    row, at = np.nonzero(over[:, :-1] & ~over[:, 1:])  # wax on the acrylic's side of it
    if not len(row):
        return np.zeros(len(line))
    rows = np.unique(row)
    edge = np.array([beside[at[row == n]][np.abs(beside[at[row == n]]).argmin()] for n in rows])
    edge = np.interp(np.arange(len(line)), rows, edge)
    edge = gaussian_filter1d(edge, EVEN, mode="nearest")
    aside = np.clip(edge - APART, -MOST_ASIDE, 0.0)
    before, after = (float(np.median(np.abs(gap))) for gap in (edge, edge - aside))
    return aside if after >= min(before, APART - EDGE_STEP) else np.zeros(len(line))


def _height_before(
    ground: Ground, standing: Sequence[Piece], line: Floats, normal: Floats, side: float
) -> Floats:
    """(N,) height over a line of the metal that stands before its wall, evened along it [mm]."""
    if not standing:
        return np.zeros(len(line))
    metal = standing[0].shape
    for piece in standing[1:]:
        metal = joined(ground.grid, metal, piece.shape, piece.fillet)
    across = _across(line, normal, side)
    up = np.arange(READ_STEP, READ_TO, READ_STEP)
    ahead = line[:, None] - np.array(IN_FRONT)[:, None] * across[:, None]
    spots = ahead[:, :, None] + up[:, None] * normal[:, None, None]
    grid = Grid(ground.grid.frame, metal.box.low, ground.grid.spacing, metal.box.shape)
    inside = sampled(grid, metal.values, spots.reshape(-1, 3)).reshape(spots.shape[:3]) < 0
    height = np.where(inside, up, 0.0).max(axis=(1, 2))
    height = maximum_filter1d(height, 3, mode="nearest")
    return np.asarray(gaussian_filter1d(height, RAISED_OVER, mode="nearest"))


def _risen(share: Floats, low: float = LOW_END) -> Floats:
    """(N,) share of the height along a line that rises softly from its low ends."""
    return np.asarray(low + (1.0 - low) * ramp(share, 0.0, 1.0))


def _laid_along(surface: Terrain, line: Floats) -> tuple[Floats, Floats]:
    """A line settled on a surface and evened, and the steadied normals along it."""
    line = surface.settle(smoothed(resampled(line, 0.3), 1.5))
    line = smoothed(resampled(line, 0.3), 1.2)
    return line, steady_normals(surface, line, STEADY)


def _across(line: Floats, normal: Floats, side: float) -> Floats:
    """(N, 3) unit vectors across a line towards the metal."""
    across = np.cross(np.gradient(line, axis=0), normal)
    return np.asarray(across * (side / np.linalg.norm(across, axis=1, keepdims=True)))


def _side(line: Floats, normal: Floats, metal: Floats) -> float:
    """The sign of tangent x normal on which the metal lies."""
    middle = len(line) // 2
    tangent = line[min(middle + 1, len(line) - 1)] - line[max(middle - 1, 0)]
    return 1.0 if np.cross(tangent, normal[middle]) @ metal > 0 else -1.0


def _swept(
    ground: Ground,
    name: str,
    line: Floats,
    normal: Floats,
    side: float,
    profile: Floats,
    height: Floats | float = 1.0,
    wide: Floats | float = 1.0,
) -> Piece:
    """A profile over (towards the metal, off the surface) along a line, stretched along it."""
    shape = section_sweep(
        ground.grid, line, normal, Section.of(profile * [side, 1.0], 1.0), wide, height
    )
    across, top = profile.max(axis=0)
    component = Component(
        name,
        "finish line",
        ground.back(line),
        np.array([across]),
        np.array([top]),
        None,
        {"length_mm": float(arc_lengths(line)[-1])},
    )
    return Piece(component, shape, 0.0)  # no fillet: the wall is lower than two would be
