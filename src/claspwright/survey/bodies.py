"""The bodies of a blocked-out model by name: volumes, places, and which face belongs to which."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import KDTree

from claspwright.arch import DentalArch
from claspwright.base import Floats, Point
from claspwright.geometry import (
    DistanceTree,
    Field,
    Grid,
    PointBlocks,
    from_chunks,
    signed_distance,
)
from claspwright.survey import _lump_kernels as kernels
from claspwright.survey.model import BlockedOut
from claspwright.survey.wax import Kind, Relief, Wax, WaxBody, WaxMap

LEAST_MM3 = 0.005
BLOCK_MM = 0.7  # a side of the cubes in which points are looked up
PLANES = 16  # of nodes looked through at once
BARE_MM = 0.005  # a face this near to the scan is bare


@dataclass(frozen=True, slots=True, eq=False)
class Layers:
    """The fields of one model, each within the next, and where its lumps end."""

    scan: Field
    swept: Field  # blocked out along the path
    filled: Field  # hollows filled
    relieved: Field
    floor: Floats  # (NX, NY) fractional k


def name_bodies(
    arch: DentalArch, layers: Layers, wax: Wax, relief: Relief | None
) -> tuple[tuple[WaxBody, ...], WaxMap]:
    """Blockout by tooth and tissue, fills and reliefs by name; small remainders left out."""
    nodes = _added_nodes(layers)
    grid = layers.scan.grid
    world = grid.to_world(nodes.astype(np.float64))
    shares = _shares(layers, nodes)
    labels, names, kinds = _labels(arch, nodes, world, shares, wax, relief)
    bodies: list[WaxBody] = []
    number = np.full(len(names), -1, np.int16)
    for which, (name, kind) in enumerate(zip(names, kinds, strict=True)):
        layer = ("blockout", "fill", "relief").index(kind)
        share = np.where(labels[:, layer] == which, shares[:, layer], 0.0)
        volume = float(share.sum()) * grid.spacing**3
        if volume >= LEAST_MM3:
            number[which] = len(bodies)
            bodies.append(WaxBody(name, kind, volume, _middle(world, share)))
    rim = np.abs(_at(layers.relieved, nodes)) < 1.5 * grid.spacing
    last = np.where(shares[:, 2] > 0.02, 2, np.where(shares[:, 1] > 0.02, 1, 0))
    body = number[labels[np.arange(len(nodes)), last]]
    kept = rim & (body >= 0) & (shares.max(axis=1) > 0.02)
    return tuple(bodies), WaxMap(world[kept], body[kept])


def faces_by_body(blocked: BlockedOut, scan: DistanceTree) -> NDArray[Any]:
    """(F,) index into the bodies for each face of the model, -1 where the scan lies bare.

    Args:
        blocked: the model.
        scan: tree of the master solid.
    """
    middles = blocked.model.middles
    out = np.full(len(middles), -1, np.int16)
    if not len(blocked.map.points):
        return out
    added = np.flatnonzero(np.abs(signed_distance(scan, middles)) > BARE_MM)
    reach = 4.0 * blocked.field.grid.spacing
    gap, nearest = PointBlocks(blocked.map.points, BLOCK_MM).nearest(middles[added], reach)
    near = np.isfinite(gap)
    out[added[near]] = blocked.map.body[np.asarray(nearest)[near]]
    return out


def _added_nodes(layers: Layers) -> NDArray[Any]:
    """(M, 3) nodes about which something was added."""
    scan, relieved = layers.scan.values, layers.relieved.values
    half = np.float32(0.5 * layers.scan.grid.spacing)

    def added(begin: int, end: int) -> NDArray[Any]:
        nodes: NDArray[Any] = kernels.added_nodes(scan, relieved, layers.floor, half, begin, end)
        return nodes

    return np.concatenate(from_chunks(added, len(scan), PLANES))


def _at(field: Field, nodes: NDArray[Any]) -> Floats:
    return np.asarray(field.values[nodes[:, 0], nodes[:, 1], nodes[:, 2]], np.float64)


def _shares(layers: Layers, nodes: NDArray[Any]) -> Floats:
    """(M, 3) parts of a node's cell that blockout, fill and relief take."""
    step = layers.scan.grid.spacing
    base = step * (layers.floor[nodes[:, 0], nodes[:, 1]] - nodes[:, 2])
    part = [
        np.clip(0.5 - np.maximum(_at(field, nodes), base) / step, 0.0, 1.0)
        for field in (layers.scan, layers.swept, layers.filled, layers.relieved)
    ]
    return np.maximum(np.diff(np.stack(part, axis=1), axis=1), 0.0)


def _labels(
    arch: DentalArch, nodes: NDArray[Any], world: Floats, shares: Floats, wax: Wax,
    relief: Relief | None,
) -> tuple[NDArray[Any], list[str], list[Kind]]:  # fmt: skip
    """(M, 3) which name each layer of a node has; the names and their kinds."""
    codes = sorted(arch.teeth)
    names = ["blockout.tissue", *(f"blockout.{code}" for code in codes)]
    kinds: list[Kind] = ["blockout"] * len(names)
    labels = np.zeros((len(nodes), 3), np.int16)
    blocked = np.flatnonzero(shares[:, 0] > 0)
    if len(blocked):
        centres = arch.scan.surface.middles
        crown = arch.crown_of_face[PointBlocks(centres, BLOCK_MM).nearest(world[blocked])[1]]
        place = np.zeros(max([0, *codes, int(crown.max())]) + 1, np.int16)
        place[codes] = np.arange(1, len(codes) + 1)
        labels[blocked, 0] = place[crown]
    labels[:, 1] = len(names)
    if wax.fills:
        centres = np.array([patch.at for patch in wax.fills])
        labels[:, 1] += KDTree(centres).query(world)[1].astype(np.int16)
    names += [f"fill.{patch.name}" for patch in wax.fills]
    kinds += ["fill"] * len(wax.fills)
    labels[:, 2] = len(names)
    own = ("relief",) if relief is None else relief.names or ("relief",)
    if relief is not None:
        part = relief.part[nodes[:, 0], nodes[:, 1], nodes[:, 2]].astype(np.int16)
        labels[:, 2] += np.maximum(part - 1, 0)
    names += [name if name.startswith("relief") else f"relief.{name}" for name in own]
    kinds += ["relief"] * len(own)
    if not wax.fills:
        labels[:, 1] = 0
    return labels, names, kinds


def _middle(points: Floats, weight: Floats) -> Point:
    x, y, z = (weight @ points / weight.sum()).tolist()
    return (x, y, z)


def box_grid(grid: Grid, box: tuple[slice, slice, slice]) -> Grid:
    """The part of a grid that a box takes."""
    low = grid.origin + grid.spacing * np.array([part.start for part in box])
    a, b, c = (part.stop - part.start for part in box)
    return Grid(grid.frame, low, grid.spacing, (a, b, c))
