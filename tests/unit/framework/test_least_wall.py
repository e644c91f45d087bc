"""Thin metal on the ground is laid up to the least wall; everything else stays as it was."""

from __future__ import annotations

from typing import cast

import numpy as np
import pytest

from claspwright.base import Singles
from claspwright.framework.canvas import Box, Canvas, Shape
from claspwright.framework.ground import Piece
from claspwright.framework.least_wall import lay_least_wall
from claspwright.framework.model import Component, ComponentKind
from claspwright.framework.terrain import Terrain
from claspwright.geometry import IDENTITY, Field, Grid
from claspwright.limits import limit

STEP = 0.1
GRID = Grid(IDENTITY, np.array([-3.0, -1.0, -1.5]), STEP, (61, 21, 46))
X, Y, Z = np.meshgrid(*GRID.axes(), indexing="ij")
LEAST = limit("metal.thickness").value


def slope(steepness: float) -> Terrain:
    """A flat ground at z = 0; its field rises `steepness` times as fast as the distance."""
    return Terrain.of(Field(GRID, (steepness * Z).astype(np.float32)))


def sheet(thickness: float, off: Singles) -> Shape:
    """Metal on the ground for x < 0."""
    values = np.maximum(np.maximum(off - thickness, X), -off - 0.8).astype(np.float32)
    nx, ny, nz = GRID.shape
    return Shape(Box((slice(0, nx), slice(0, ny), slice(0, nz)), GRID.origin), values)


def laid(thickness: float, kind: ComponentKind, steepness: float = 1.0) -> tuple[Canvas, Singles]:
    ground = slope(steepness)
    shape = sheet(thickness, Z.astype(np.float32))
    record = Component("piece", kind, np.zeros((1, 3)), np.ones(1), np.ones(1))
    canvas = Canvas(GRID)
    canvas.add(shape)
    before = canvas.values.copy()
    lay_least_wall(ground, canvas, [Piece(record, shape, 0.0)])
    return canvas, before


def top(canvas: Canvas, x: float) -> float:
    """Height of the metal over the ground at x, by its zero between two nodes [mm]."""
    z = GRID.axes()[2]
    column = canvas.field().at(np.column_stack([np.full(len(z), x), np.zeros(len(z)), z]))
    last = int(np.flatnonzero(column < 0)[-1])
    return float(z[last] - column[last] * STEP / (column[last + 1] - column[last]))


@pytest.mark.parametrize("steepness", [1.0, 1.5])
def test_thin_metal_grows_to_the_least_wall(steepness: float) -> None:
    canvas, _ = laid(0.25, "major connector", steepness)
    for x in (-2.0, -1.0, -0.4):
        assert LEAST <= top(canvas, x) < LEAST + 0.15
    outside = canvas.field().at(np.array([[0.15, 0.0, 0.2]]))
    assert float(outside[0]) > 0  # it does not grow over its border


def test_thick_metal_stays_as_it_was() -> None:
    canvas, before = laid(1.0, "major connector")
    assert np.abs(np.where(np.abs(before) < STEP, canvas.values - before, 0.0)).max() < 0.02


def test_a_clasp_arm_keeps_its_section() -> None:
    canvas, before = laid(0.25, "retentive arm")
    near = before < 0.5
    assert np.array_equal(canvas.values[near], before[near])


def test_thin_metal_beside_a_lattice_grows_and_the_lattice_does_not() -> None:
    ground = slope(1.0)
    nx, ny, nz = GRID.shape
    whole = Box((slice(0, nx), slice(0, ny), slice(0, nz)), GRID.origin)
    strut = np.maximum(np.hypot(X - 0.8, Z) - 0.25, -Z - 0.8).astype(np.float32)
    shapes = {"major connector": sheet(0.25, Z.astype(np.float32)), "lattice": Shape(whole, strut)}
    canvas, pieces = Canvas(GRID), []
    for kind, shape in shapes.items():
        record = Component(
            kind, cast(ComponentKind, kind), np.zeros((1, 3)), np.ones(1), np.ones(1)
        )
        pieces.append(Piece(record, shape, 0.0))
        canvas.add(shape)
    lay_least_wall(ground, canvas, pieces)
    assert top(canvas, -0.3) >= LEAST  # within the reach in which a lattice once kept it thin
    assert top(canvas, 0.8) == pytest.approx(0.25, abs=0.02)


def test_no_metal_is_laid_in_the_air_over_wax() -> None:
    # a slab of wax for x > 0.5 beside a wall for x < -1: over it the field reads 0.4 mm short
    off = np.minimum(Z, X + 1.0)
    ground = Terrain.of(Field(GRID, (off - np.clip(off + X - 0.5, 0.0, 0.4)).astype(np.float32)))
    nx, ny, nz = GRID.shape
    plate = np.maximum(np.maximum(X - 0.4, -X - 1.8), Z - 2.5).astype(np.float32)
    whole = Box((slice(0, nx), slice(0, ny), slice(0, nz)), GRID.origin)
    record = Component("plate", "proximal plate", np.zeros((1, 3)), np.ones(1), np.ones(1))
    canvas = Canvas(GRID)
    canvas.add(Shape(whole, plate))
    before = canvas.values.copy()
    lay_least_wall(ground, canvas, [Piece(record, Shape(whole, plate), 0.0)])
    high = Z > 1.2  # well over the wax
    grown = (before > 0.05) & (canvas.values < 0) & high
    assert not grown.any()
