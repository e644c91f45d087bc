"""Kernels of build preparation against manifold3d, shapely and plain NumPy."""

from __future__ import annotations

from typing import Any

import manifold3d
import numpy as np
import pytest
import shapely
from numpy.typing import NDArray
from shapely import affinity
from shapely.geometry import MultiLineString, Point
from shapely.geometry import box as rectangle
from shapely.geometry.base import BaseGeometry

from claspwright.build import (
    HatchPlan,
    LayerPlan,
    Slices,
    hatch,
    layer_polygons,
    moved_in_by_steps,
    slice_solid,
)
from claspwright.build import _nesting_kernels as nesting
from claspwright.build import _pose_kernels as pose
from claspwright.geometry import Mesh, ball, box, difference, merged, revolved, union


@pytest.fixture(scope="module")
def solid() -> Mesh:
    shell = difference(ball(5.0, 0.3), ball(4.2, 0.3))
    bar = box(np.array([3.0, -1.0, -1.0]), np.array([11.0, 1.0, 1.0]))
    return union(shell, bar)


@pytest.fixture(scope="module")
def slices(solid: Mesh) -> Slices:
    return slice_solid(solid, LayerPlan(0.1))


def test_layer_areas_agree_with_manifold3d(solid: Mesh, slices: Slices) -> None:
    raw = manifold3d.Mesh64(np.array(solid.vertices), np.array(solid.faces, np.uint64))
    body = manifold3d.Manifold(raw)
    heights = slices.bottom_mm + 0.1 * (np.arange(slices.layers) + 0.5)
    found = [body.slice(float(z)).area() for z in heights]
    np.testing.assert_allclose(slices.layer_areas(), found, atol=1e-4)


def test_sections_without_contours_have_the_same_areas(solid: Mesh, slices: Slices) -> None:
    out = np.zeros(slices.layers)
    x, y, z = np.ascontiguousarray(solid.vertices.T)
    pose.section_areas(x, y, z, solid.faces, slices.bottom_mm, 0.1, out)
    np.testing.assert_allclose(out, slices.layer_areas(), atol=1e-5)


def test_polygons_know_their_holes(slices: Slices) -> None:
    polygons, layer = layer_polygons(slices)
    assert shapely.is_valid(polygons).all()
    areas = np.bincount(layer, weights=shapely.area(polygons), minlength=slices.layers)
    np.testing.assert_allclose(areas, slices.layer_areas(), atol=1e-9)
    assert shapely.get_num_interior_rings(polygons).max() == 1


def test_hatch_agrees_with_lines_cut_by_shapely(slices: Slices) -> None:
    plan = HatchPlan(0.2, first_angle_deg=33.0, turn_deg=67.0)
    lines = hatch(slices, plan)
    polygons, layer = layer_polygons(slices)
    for k in range(0, slices.layers, 9):
        turned = affinity.rotate(
            shapely.union_all(polygons[layer == k]), -plan.angle_deg(k), origin=(0, 0)
        )
        levels = 0.2 * (np.arange(-80, 80) + 0.5)
        rows = MultiLineString([((-20.0, y), (20.0, y)) for y in levels])
        wanted = shapely.intersection(turned, rows)
        chosen = slice(lines.layer_start[k], lines.layer_start[k + 1])
        assert lines.lengths()[chosen].sum() == pytest.approx(wanted.length, abs=1e-6)
        assert len(lines.layer(k)) == len(shapely.get_parts(wanted))


def pixels(shape: BaseGeometry, rows: int, words: int) -> NDArray[Any]:
    y, x = np.meshgrid(np.arange(rows) + 0.5, np.arange(64 * words) + 0.5, indexing="ij")
    return np.asarray(shapely.contains_xy(shape, x.ravel(), y.ravel())).reshape(rows, -1)


def packed(shape: BaseGeometry, rows: int, words: int) -> NDArray[Any]:
    rings = shapely.get_rings(shape)
    points, which = shapely.get_coordinates(rings, return_index=True)
    start = np.concatenate([[0], np.cumsum(np.bincount(which))]).astype(np.int64)
    out = np.zeros((rows, words), np.uint64)
    nesting.fill(points, start, 1.0, out)
    return out


def test_bitmaps_and_what_they_share() -> None:
    ring = affinity.translate(Point(0, 0).buffer(40.3), 41, 41)
    a = ring.difference(affinity.translate(ring, 15, 4))
    b = affinity.rotate(rectangle(2.2, 3.3, 90.7, 20.1), 17.0)
    b = affinity.translate(b, -b.bounds[0], -b.bounds[1])
    sizes, bits, dense = [], [], []
    for shape in (a, b):
        wide, tall = (int(v) + 1 for v in shape.bounds[2:])
        sizes.append((wide, tall))
        bits.append(packed(shape, tall, 3))
        dense.append(pixels(shape, tall, 3))
        assert nesting.count_ones(bits[-1]) == dense[-1].sum()
    random = np.random.default_rng(5)
    for _ in range(60):
        (ax, ay), (bx, by) = random.integers(0, 90, (2, 2)).tolist()
        board = np.zeros((2, 300, 400), bool)
        for n, (x, y) in enumerate(((ax, ay), (bx, by))):
            tall, wide = dense[n].shape
            board[n, y : y + tall, x : x + wide] = dense[n]
        found = nesting._shared(bits[0], ax, ay, *sizes[0], bits[1], bx, by, *sizes[1], 1 << 40)
        assert found == (board[0] & board[1]).sum()


def test_sections_of_pins_move_in_as_shapely_moves_them() -> None:
    """Convex contours, moved by a kernel: pins of all sizes, some of which vanish or lose sides."""
    dice = np.random.default_rng(8)
    pins = []
    for n in range(60):
        radius = float(dice.uniform(0.04, 0.9))
        sides = int(dice.integers(3, 16))
        pin = revolved(
            np.array([[0.0, 0.0], [radius, 0.0], [0.7 * radius, 1.0], [0.0, 1.0]]), sides
        )
        stretch = np.array([1.0, dice.uniform(0.3, 1.0), 1.0])
        pins.append(Mesh(pin.vertices * stretch + [3.0 * n, 0.0, 0.0], pin.faces))
    layers = slice_solid(merged(*pins), LayerPlan(0.1))
    first, second = moved_in_by_steps(layers, (0.05, 0.04))
    polygons, layer = layer_polygons(layers)
    for found, depth in ((first, 0.05), (second, 0.09)):
        mine, at = layer_polygons(found)
        inside = shapely.buffer(polygons, -depth, join_style="mitre")
        for n in range(layers.layers):
            here, wanted = shapely.union_all(mine[at == n]), shapely.union_all(inside[layer == n])
            assert shapely.area(here.symmetric_difference(wanted)) < 2e-3 * shapely.area(wanted)
            assert shapely.area(wanted) > 5.0
