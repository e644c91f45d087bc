"""What the lumps of blockout leave open since it is finer than the grid: found, and filled."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import distance_transform_edt, label

from claspwright.base import Bools, Floats
from claspwright.geometry import (
    DistanceTree,
    Field,
    Grid,
    Mesh,
    contour,
    faces_near,
    kept_faces,
    signed_distance,
)

DEEP_MM = 0.03  # below the zero of the field a point of the scan lies in a crevice
AROUND_MM = 0.6  # about such points what the field calls solid is filled
MISSED_MM = 0.015  # of wax over a point of the scan that no lump covers: it has been missed
BESIDE_MM = 0.3  # about such points what the field calls solid is filled
WITHIN_MM = 0.25  # inside the field of the lumps a point is covered, whatever crumbs were dropped
BESIDE_LUMPS = 0.5  # mm within which a covered point has the skin of its lump
FLUSH_MM = 0.005  # inside the field, so that nothing is raised round about


def crevice_fills(surface: Mesh, hidden: Bools, scan: Field, blocked: Field) -> list[Mesh]:
    """Fillings of crevices that the grid does not see, and that a draught would close.

    Where crowns meet, the scan may run a crevice narrower than the grid under an overhang: the
    field holds it for solid, so nothing is blocked out there, and metal would follow the scan
    into it.

    Args:
        surface: the scanned surface, world frame [mm].
        hidden: (V,) True for its vertices that lie under an overhang along the path.
        scan: distance to the master solid.
        blocked: the same, blocked out and relieved, on the same grid.

    Returns:
        Closed lumps, each within `AROUND_MM` of a crevice, 0.03 mm inside the blocked-out field.
    """
    nodes = scan.grid.to_nodes(surface.vertices)
    deep = np.rint(nodes[(scan.at(surface.vertices) < -DEEP_MM) & hidden]).astype(np.int64)
    deep = deep[np.all((deep >= 0) & (deep < np.array(scan.grid.shape)), axis=1)]
    return _fills(deep, blocked, AROUND_MM, DEEP_MM)


def missed_fills(
    surface: Mesh,
    hidden: Bools,
    is_under: Callable[[Floats], Bools],
    lumps: tuple[Mesh, Field],
    blocked: Field,
    floor: Floats,
) -> list[Mesh]:
    """Fillings of shallow places under an overhang that the surface of the lumps passes by.

    Where a filling runs out to nothing, the lump may end up to a step before it.

    Args:
        surface: the scanned surface, world frame [mm].
        hidden: (V,) True for its vertices that lie under an overhang along the path.
        is_under: tells the same of any points (N, 3) of the surface; asked between vertices.
        lumps: closed lumps of blockout, and the field that they were drawn from.
        blocked: distance to the blocked-out and relieved solid.
        floor: (NX, NY) fractional k of the grid where lumps end.

    Returns:
        Closed lumps, each within `BESIDE_MM` of a place, 0.005 mm inside the blocked-out field.
    """
    mesh, drawn = lumps
    vertices, between = (
        points[drawn.at(points) > -WITHIN_MM]
        for points in (
            _waxed(surface.vertices[hidden], blocked, floor),
            _waxed(_between(surface, hidden), blocked, floor),
        )
    )
    under = np.concatenate([vertices, between[is_under(between)]])
    if not len(under):
        return []
    beside = kept_faces(mesh, faces_near(mesh, under, BESIDE_LUMPS))
    if len(beside.faces):
        under = under[signed_distance(DistanceTree(beside), under, BESIDE_LUMPS) > 0.0]
    missed = np.unique(np.rint(blocked.grid.to_nodes(under)).astype(np.int64), axis=0)
    return _fills(missed, blocked, BESIDE_MM, FLUSH_MM)


def _between(surface: Mesh, hidden: Bools) -> Floats:
    """(N, 3) middles of the faces round hidden vertices, and of the sides of these [mm]."""
    corners = surface.corners[hidden[surface.faces].any(axis=1)]
    sides = 0.5 * (corners + np.roll(corners, -1, axis=1))
    return np.concatenate([corners.mean(axis=1), sides.reshape(-1, 3)])


def _waxed(points: Floats, blocked: Field, floor: Floats) -> Floats:
    """Those over the floor that the field has wax on [mm]."""
    nodes = blocked.grid.to_nodes(points)
    within = np.all((nodes >= 0) & (nodes <= np.array(blocked.grid.shape) - 1.0), axis=1)
    i, j = np.rint(nodes[within, :2]).astype(np.int64).T
    over = points[within][nodes[within, 2] > floor[i, j] + 2.0]
    low: Floats = over[blocked.at(over) < -MISSED_MM]
    return low


def _fills(nodes: NDArray[np.int64], blocked: Field, around: float, inside: float) -> list[Mesh]:
    """What the field calls solid `around` some nodes, `inside` it; one lump a group [mm]."""
    if not len(nodes):
        return []
    pad = int(np.ceil(around / blocked.grid.spacing)) + 2
    low = np.maximum(nodes.min(axis=0) - pad, 0)
    high = np.minimum(nodes.max(axis=0) + pad + 1, blocked.grid.shape)
    return [_fill(part, blocked, pad, around, inside) for part in _groups(nodes, low, high, pad)]


def _groups(
    deep: NDArray[np.int64], low: NDArray[np.int64], high: NDArray[np.int64], pad: int
) -> list[NDArray[np.int64]]:
    """Points of the crevices, grouped by cells of a coarse grid that touch each other."""
    size = 2 * pad
    cells = (deep - low) // size
    coarse = np.zeros((high - low) // size + 1, bool)
    coarse[tuple(cells.T)] = True
    named, _ = label(coarse, np.ones((3, 3, 3), int))
    owner = named[tuple(cells.T)]
    return [deep[owner == n] for n in np.unique(owner)]


def _fill(deep: NDArray[np.int64], blocked: Field, pad: int, around: float, inside: float) -> Mesh:
    """What the field calls solid, and lies `inside` it, `around` some nodes [mm]."""
    step = blocked.grid.spacing
    shape = np.array(blocked.grid.shape)
    low, high = np.maximum(deep.min(axis=0) - pad, 0), np.minimum(deep.max(axis=0) + pad + 1, shape)
    away = np.ones(high - low, bool)
    away[tuple((deep - low).T)] = False
    near = step * distance_transform_edt(away) - around
    box = tuple(slice(int(a), int(b)) for a, b in zip(low, high, strict=True))
    values = np.maximum(blocked.values[box] + np.float32(inside), near.astype(np.float32))
    grid = blocked.grid
    origin = grid.origin + step * low
    part = Grid(grid.frame, origin, step, (values.shape[0], values.shape[1], values.shape[2]))
    return contour(Field(part, values))
