"""Layers and hatches of random closed solids."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation
from shapely import contains_properly, get_exterior_ring, polygons
from shapely.geometry import Polygon

from claspwright.base import Floats
from claspwright.build import HatchPlan, LayerPlan, Slices, hatch, slice_solid
from claspwright.geometry import Mesh, ball, box, difference, union, volume

SEEDS = st.integers(0, 10_000)


def random_solid(seed: int) -> Mesh:
    """Turned boxes and balls joined, others taken away."""
    random = np.random.default_rng(seed)

    def one(reach: float) -> Mesh:
        size = random.uniform(1.0, reach, 3)
        body = box(-size, size) if random.random() < 0.6 else ball(float(size[0]), 0.8)
        turn = Rotation.random(rng=random).as_matrix()
        return Mesh(body.vertices @ turn.T + random.uniform(-3, 3, 3), body.faces)

    body = union(*(one(4.0) for _ in range(random.integers(1, 4))))
    cut = difference(body, *(one(2.0) for _ in range(random.integers(0, 3))))
    return cut if len(cut.faces) else body


def layer_polygons(slices: Slices, layer: int) -> tuple[list[Polygon], list[Polygon]]:
    """Outer contours and holes of a layer, as the sign of their area says."""
    outer: list[Polygon] = []
    holes: list[Polygon] = []
    areas = slices.areas()
    for n in range(slices.layer_start[layer], slices.layer_start[layer + 1]):
        (outer if areas[n] > 0 else holes).append(polygons(slices.contour(n)))
    return outer, holes


@settings(max_examples=25, deadline=None)
@given(SEEDS)
def test_volume_by_layers_is_that_of_the_solid(seed: int) -> None:
    mesh = random_solid(seed)
    height = float(np.ptp(mesh.bounds[:, 2]))
    slices = slice_solid(mesh, LayerPlan(height / 1500))
    assert abs(slices.volume() / volume(mesh) - 1.0) < 1e-4


@settings(max_examples=25, deadline=None)
@given(SEEDS)
def test_every_hole_lies_in_an_outer_contour_and_nothing_crosses(seed: int) -> None:
    slices = slice_solid(random_solid(seed), LayerPlan(0.4))
    for layer in range(slices.layers):
        outer, holes = layer_polygons(slices, layer)
        for ring in outer + holes:
            assert get_exterior_ring(ring).is_simple
        for hole in holes:
            around = [o for o in outer if contains_properly(o, hole)]
            inner = [h for h in holes if h is not hole and contains_properly(h, hole)]
            assert len(around) == len(inner) + 1
        for one in outer:
            around = [o for o in outer if o is not one and contains_properly(o, one)]
            inner = [h for h in holes if contains_properly(h, one)]
            assert len(around) == len(inner)


@settings(max_examples=20, deadline=None)
@given(SEEDS, st.floats(0.0, 360.0))
def test_hatch_length_is_area_over_spacing(seed: int, angle: float) -> None:
    slices = slice_solid(random_solid(seed), LayerPlan(0.5))
    plan = HatchPlan(0.02, first_angle_deg=angle, turn_deg=67.0, stripe_mm=1.3, serpentine=True)
    lines = hatch(slices, plan)
    wanted = slices.areas().sum() / plan.spacing_mm
    assert abs(lines.lengths().sum() / wanted - 1.0) < 0.01
    reach: Floats = np.abs(lines.vectors).max(axis=0)
    assert reach.max() <= np.abs(slices.points).max() + 1e-9


@settings(max_examples=10, deadline=None)
@given(SEEDS, st.integers(1, 3))
def test_skins_split_the_same_length(seed: int, skins: int) -> None:
    slices = slice_solid(random_solid(seed), LayerPlan(0.3))
    plain = HatchPlan(0.1, turn_deg=67.0)
    skinned = HatchPlan(0.1, turn_deg=67.0, skin_layers=skins, gas_flow_deg=20.0, stripe_mm=2.0)
    whole = hatch(slices, plain).lengths().sum()
    assert abs(hatch(slices, skinned, solid=slices).lengths().sum() - whole) < 1e-6 * whole


def test_faces_on_the_slicing_planes() -> None:
    """A staircase whose treads all lie at the middle of a layer, where the contours are taken."""
    steps = [
        box(np.array([0.0, 0.0, 0.0]), np.array([4.0 - n, 4.0, 0.25 + 0.5 * n])) for n in range(4)
    ]
    mesh = union(*steps)
    slices = slice_solid(mesh, LayerPlan(0.5))
    # A tread at the slicing plane bounds the metal below it, which is what the plane then shows.
    np.testing.assert_allclose(slices.layer_areas(), [16.0, 12.0, 8.0, 4.0], atol=1e-12)
    layers = slice_solid(mesh, LayerPlan(0.25))  # all treads on the borders of layers
    assert abs(layers.volume() - volume(mesh)) < 1e-9


def test_open_surfaces_are_refused_and_turned_over_ones_show() -> None:
    import pytest

    from claspwright.base import GeometryError

    body = box(np.zeros(3), np.ones(3))
    with pytest.raises(GeometryError, match="lack a face"):
        slice_solid(Mesh(body.vertices, body.faces[1:]), LayerPlan(0.1))
    turned = slice_solid(Mesh(body.vertices, body.faces[:, ::-1]), LayerPlan(0.1))
    assert (turned.areas() < 0).all()
