"""Beam offset and times on figures that can be reckoned by hand."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.build import (
    DOWNSKIN,
    UPSKIN,
    HatchPlan,
    LayerPlan,
    expose,
    hatch,
    layer_times,
    moved_in,
    moved_in_by_steps,
    platform_estimate,
    shares,
    slice_solid,
)
from claspwright.formats import read_machine, read_process
from claspwright.geometry import Mesh, box, difference, union


def frame() -> Mesh:
    return difference(
        box(np.zeros(3), np.array([10.0, 10.0, 1.0])),
        box(np.array([3.0, 3.0, -1.0]), np.array([7.0, 7.0, 2.0])),
    )


def test_offset_shrinks_the_outside_and_widens_the_hole() -> None:
    inner = moved_in(slice_solid(frame(), LayerPlan(0.5)), 0.5)
    # the hole grows by 0.5 all round, its corners rounded: together a regular 16-gon
    corners = 8.0 * np.sin(np.pi / 8) * 0.5**2
    grown = 4.0**2 + 4 * 4.0 * 0.5 + corners
    np.testing.assert_allclose(inner.layer_areas(), 81.0 - grown, atol=1e-3)
    areas = inner.areas()
    assert (areas > 0).sum() == (areas < 0).sum() == 2


def test_what_is_thinner_than_the_beam_vanishes() -> None:
    thin = slice_solid(box(np.zeros(3), np.array([10.0, 0.09, 1.0])), LayerPlan(0.5))
    assert moved_in(thin, 0.05).contours == 0


def test_steps_inwards_are_as_deep_as_one_after_the_other() -> None:
    layers = slice_solid(frame(), LayerPlan(0.5))
    same, first, second, again = moved_in_by_steps(layers, (0.0, 0.5, 0.25, 0.0))
    assert same is layers and again is second
    np.testing.assert_allclose(first.layer_areas(), moved_in(layers, 0.5).layer_areas(), atol=1e-9)
    np.testing.assert_allclose(
        second.layer_areas(), moved_in(layers, 0.75).layer_areas(), rtol=1e-3
    )


def test_a_part_that_falls_in_two_keeps_its_holes() -> None:
    """Two frames joined by a thin bridge, which vanishes: two outer contours and two holes."""
    other = Mesh(frame().vertices + [15.0, 0.0, 0.0], frame().faces)
    bridge = box(np.array([9.0, 4.9, 0.0]), np.array([16.0, 5.1, 1.0]))
    inner = moved_in(slice_solid(union(frame(), other, bridge), LayerPlan(0.5)), 0.5)
    areas = inner.areas()[inner.layer_of_contour() == 0]
    assert (areas > 0).sum() == (areas < 0).sum() == 2
    wanted = moved_in(slice_solid(frame(), LayerPlan(0.5)), 0.5).layer_areas()
    np.testing.assert_allclose(
        inner.layer_areas(), 2.0 * wanted, atol=0.01
    )  # and the mouths of the bridge


def test_a_block_that_a_hole_ends_in_is_not_taken_for_the_layer_below() -> None:
    """The outer contour is the same in every layer; the hole is in the upper half alone."""
    block = box(np.zeros(3), np.array([10.0, 10.0, 2.0]))
    hollow = difference(block, box(np.array([3.0, 3.0, 1.0]), np.array([7.0, 7.0, 3.0])))
    pin = box(np.array([20.0, 0.0, 0.0]), np.array([22.0, 2.0, 2.0]))
    inner = moved_in(slice_solid(union(hollow, pin), LayerPlan(0.5)), 0.5)
    hole = 4.0**2 + 4 * 4.0 * 0.5 + 8.0 * np.sin(np.pi / 8) * 0.5**2
    np.testing.assert_allclose(
        inner.layer_areas(), [82.0, 82.0, 82.0 - hole, 82.0 - hole], atol=1e-3
    )


def test_skins_of_a_step() -> None:
    """A slab on a leg: the slab's first layers hang free beside the leg, its last are bare."""
    leg = box(np.zeros(3), np.array([4.0, 4.0, 1.0]))
    slab = box(np.array([0.0, 0.0, 1.0]), np.array([8.0, 4.0, 2.0]))
    slices = slice_solid(union(leg, slab), LayerPlan(0.1))
    lines = hatch(slices, HatchPlan(0.1, skin_layers=2), solid=slices)
    length = lines.lengths()
    layer = np.repeat(np.arange(slices.layers), np.diff(lines.layer_start))

    def of(kind: int, first: int, last: int) -> float:
        chosen = (lines.kinds == kind) & (layer >= first) & (layer < last)
        return float(length[chosen].sum())

    assert of(DOWNSKIN, 0, 10) == 0.0  # the leg stands on the platform
    assert of(DOWNSKIN, 10, 12) == pytest.approx(2 * 16.0 / 0.1)  # half of the slab, two layers
    assert of(DOWNSKIN, 12, 20) == 0.0
    assert of(UPSKIN, 0, 18) == 0.0
    assert of(UPSKIN, 18, 20) == pytest.approx(2 * 32.0 / 0.1)


@pytest.mark.parametrize(("angle", "stripe"), [(10.0, 0.0), (80.0, 5.0)])
def test_exposure_goes_against_the_gas(angle: float, stripe: float) -> None:
    slices = slice_solid(box(np.zeros(3), np.array([20.0, 20.0, 0.1])), LayerPlan(0.1))
    for flow, sign in ((270.0, 1.0), (90.0, -1.0)):  # downwind is -y, then +y
        plan = HatchPlan(0.1, angle, stripe_mm=stripe, gas_flow_deg=flow, serpentine=True)
        vectors = hatch(slices, plan).vectors
        middle = vectors.reshape(-1, 2, 2).mean(axis=1)[:, 1]
        half = len(middle) // 2
        assert sign * (middle[half:].mean() - middle[:half].mean()) > 5.0


def test_times_of_a_square_by_hand() -> None:
    machine, process = read_machine("round-100"), read_process("cocr-25um")
    side, layers = 10.0, 4
    solid = box(np.zeros(3), np.array([side, side, layers * process.layer_mm]))
    exposed = expose(slice_solid(solid, LayerPlan(process.layer_mm)), None, machine, process)
    times = layer_times(exposed, machine, process)
    track = 4 * (side - 0.002 * process.beam_offset_um)
    np.testing.assert_allclose(times.contour_s, track / process.contour.speed_mm_s, rtol=1e-6)
    inside = (side - 0.002 * (process.beam_offset_um + process.hatch_gap_um)) ** 2
    # two layers of upskin; on the platform nothing counts as downskin
    speeds = [process.core.speed_mm_s] * 2 + [process.upskin.speed_mm_s] * 2
    expected = inside / (0.001 * process.hatch_um) / np.array(speeds)
    np.testing.assert_allclose(times.hatch_s, expected, rtol=5e-3)
    assert (times.jump_s > 0).all() and times.support_s.sum() == 0


def test_shares_add_up_to_the_platform() -> None:
    machine, process = read_machine("round-100"), read_process("cocr-25um")
    times = []
    for size in (4.0, 8.0):
        solid = box(np.zeros(3), np.array([size, size, size / 20]))
        plan = LayerPlan(process.layer_mm, 0.0, 16)
        times.append(
            layer_times(expose(slice_solid(solid, plan), None, machine, process), machine, process)
        )
    whole = platform_estimate(times, 6.4 + 25.6, 0.4, 8.4, machine, process)
    assert whole.layers == 16
    split = shares(times, [1.0, 2.0], [3, 4], whole, machine, process.costs)
    assert sum(one.machine_h for one in split) == pytest.approx(whole.total_h, rel=1e-9)
    assert sum(one.gas_m3 for one in split) == pytest.approx(whole.gas_m3, rel=1e-9)
    assert split[1].machine_h > split[0].machine_h
    assert split[0].cost is None  # no prices entered
