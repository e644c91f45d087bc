"""Wisps are taken away; what is thick enough stays as it was."""

from __future__ import annotations

from importlib import import_module

import numpy as np
import pytest

from claspwright.base import Singles
from claspwright.framework.wisps import wisps, without_wisps
from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Grid,
    Mesh,
    ThinEnd,
    box,
    check_solid,
    is_watertight,
    union,
    volume,
)

BLOCK = ([0.0, 0.0, 0.0], [3.0, 3.0, 2.0])
GRID = Grid(IDENTITY, np.array([-1.5, -1.5, -2.0]), 0.15, (50, 40, 40))


def boxed(low: list[float], high: list[float]) -> Mesh:
    return box(np.array(low), np.array(high))


def below_zero() -> Singles:
    """Distance to the ground under the plane z = 0."""
    z = GRID.axes()[2]
    return np.broadcast_to(z, GRID.shape).astype(np.float32)


def test_a_skin_beside_the_metal_is_taken_away_and_the_block_is_not_touched() -> None:
    solid = union(boxed(*BLOCK), boxed([2.9, 1.0, 1.0], [3.6, 1.05, 1.2]))
    assert wisps(DistanceTree(solid))
    out = without_wisps(solid, GRID, below_zero())
    assert not wisps(DistanceTree(out))
    assert check_solid(out).sound and is_watertight(out)
    assert volume(out) == pytest.approx(volume(boxed(*BLOCK)), abs=0.02)
    corners = boxed(*BLOCK).vertices
    off = np.linalg.norm(out.vertices[None] - corners[:, None], axis=2).min(axis=1)
    assert off.max() == 0.0


def test_a_strip_in_a_pit_ends_at_the_ground() -> None:
    solid = union(boxed(*BLOCK), boxed([1.0, 1.0, -0.6], [2.0, 1.05, 0.1]))
    out = without_wisps(solid, GRID, below_zero())
    assert not wisps(DistanceTree(out))
    assert out.vertices[:, 2].min() > -0.3


def test_a_sliver_of_a_face_in_thick_metal_is_no_wisp(monkeypatch: pytest.MonkeyPatch) -> None:
    solid = boxed(*BLOCK)
    edge = Mesh(
        np.vstack([solid.vertices, [[1.0, 1.0, 2.0], [2.0, 1.0, 2.0], [1.5, 1.001, 2.0]]]),
        np.vstack([solid.faces, [[8, 9, 10]]]),
    )
    sliver = ThinEnd(np.array([len(edge.faces) - 1]), 1.0, 0.01, np.array([1.5, 1.0, 2.0]))
    whole = ThinEnd(np.arange(2), 1.0, 0.01, np.array([1.5, 1.0, 2.0]))
    module = import_module("claspwright.framework.wisps")
    monkeypatch.setattr(module, "thin_ends", lambda *_: (sliver, whole))
    assert wisps(DistanceTree(edge)) == (whole,)


def test_without_wisps_nothing_moves() -> None:
    solid = boxed(*BLOCK)
    assert without_wisps(solid, GRID, below_zero()) is solid


def test_outside_the_box_that_is_asked_about_a_wisp_stays() -> None:
    solid = union(boxed(*BLOCK), boxed([2.9, 1.0, 1.0], [3.6, 1.05, 1.2]))
    left = (np.array([-1.0, -1.0, -1.0]), np.array([2.5, 4.0, 3.0]))
    assert without_wisps(solid, GRID, below_zero(), left) is solid
