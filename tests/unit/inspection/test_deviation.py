"""Signed deviation, its figures, areas, and acceptance."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import InputError
from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Mesh,
    Rigid,
    ball,
    box,
    rotation_between,
    vertex_normals,
)
from claspwright.inspection import (
    Area,
    acceptance_limits,
    accuracy,
    align_by_areas,
    deviation,
    deviation_figures,
    figures_by_area,
    grouped_precision,
    judge_surface,
    limits_from,
)


@pytest.mark.reference("check-values W9: six deviations in um")
def test_the_figures_of_the_worked_example() -> None:
    found = deviation_figures(np.array([10.0, -20.0, 30.0, 0.0, -40.0, 20.0]) / 1000.0)
    assert found.bias_um == pytest.approx(0.0, abs=1e-12)
    assert found.mean_abs_um == pytest.approx(20.0)
    assert found.rms_um == pytest.approx(23.80, abs=0.005)
    assert found.sd_um == pytest.approx(26.08, abs=0.005)


@pytest.mark.reference("check-values W9: four readings of 10.000; ISO 5725-1 trueness, precision")
def test_trueness_and_precision_of_the_worked_example() -> None:
    found = accuracy([10.012, 10.008, 10.016, 10.004], 10.000)
    assert found.mean == pytest.approx(10.010)
    assert found.bias == pytest.approx(0.010)
    assert found.sd == pytest.approx(0.00516, abs=5e-6)
    assert found.repeatability_limit == pytest.approx(2.8 * found.sd)


@pytest.mark.reference("check-values G17: rms^2 = bias^2 + population variance")
def test_rms_bias_and_spread_belong_together() -> None:
    values = np.random.default_rng(3).normal(0.02, 0.05, 400)
    found = deviation_figures(values)
    population = found.sd_um**2 * (len(values) - 1) / len(values)
    assert found.rms_um**2 == pytest.approx(found.bias_um**2 + population, rel=1e-12)


@pytest.mark.reference("NIST StRD, one-way ANOVA, SiRstv: certified mean squares")
def test_precision_between_groups_agrees_with_certified_values() -> None:
    found = grouped_precision(
        [
            [196.3052, 196.1240, 196.1890, 196.2569, 196.3403],
            [196.3042, 196.3825, 196.1669, 196.3257, 196.0422],
            [196.1303, 196.2005, 196.2889, 196.0343, 196.1811],
            [196.2795, 196.1748, 196.1494, 196.1485, 195.9885],
            [196.2119, 196.1051, 196.1850, 196.0052, 196.2090],
        ]
    )
    assert found.between_mean_square == pytest.approx(1.27865654000000e-02, rel=1e-9)
    assert found.within_mean_square == pytest.approx(1.08318280000000e-02, rel=1e-9)
    assert found.repeatability_sd == pytest.approx(1.04076068334656e-01, rel=1e-9)


def test_a_grown_ball_lies_outside_and_a_shrunk_one_inside() -> None:
    design = DistanceTree(ball(5.0, 0.3))
    for radius in (5.1, 4.9):
        found = deviation(ball(radius, 0.25), design, IDENTITY)
        figures = deviation_figures(found.distance_mm)
        assert figures.bias_um == pytest.approx(1000.0 * (radius - 5.0), abs=4.0)  # chords


def test_reference_areas_show_the_bias_that_a_fit_over_everything_hides() -> None:
    part = box([0.0, 0.0, 0.0], [30.0, 20.0, 4.0])
    fine = subdivided(part, 4)
    top = fine.vertices[:, 2] > 3.999
    far = top & (fine.vertices[:, 0] > 15.0)
    bumped = Mesh(fine.vertices + far[:, None] * [0.0, 0.0, 0.2], fine.faces)
    tree = DistanceTree(part)
    tilt = Rigid(rotation_between(np.array([0.0, 0.0, 1.0]), unit(0.004, 0.0, 1.0)), np.zeros(3))
    area = Area("left", (2.0, 10.0, 2.0), 14.0, reference=True)
    found = align_by_areas(bumped.moved(tilt), tree, IDENTITY, [area])
    off = deviation(bumped.moved(tilt), tree, found.rigid)
    right = figures_by_area(off, [Area("right", (25.0, 10.0, 4.2), 4.0)])[0][1]
    assert right is not None
    assert right.bias_um == pytest.approx(200.0, abs=2.0)
    with pytest.raises(InputError, match="no area is marked"):
        align_by_areas(bumped, tree, IDENTITY, [Area("a", (0.0, 0.0, 0.0), 1.0)])


def test_an_area_that_the_scan_does_not_show_has_no_figures() -> None:
    tree = DistanceTree(ball(5.0, 0.5))
    found = deviation(ball(5.0, 0.5), tree, IDENTITY)
    assert figures_by_area(found, [Area("away", (50.0, 0.0, 0.0), 1.0)])[0][1] is None


def test_limits_stop_look_and_hold() -> None:
    limits = acceptance_limits()
    good = deviation_figures(np.array([0.01, -0.01, 0.02]))
    poor = deviation_figures(np.array([0.12, 0.11, 0.13]))
    bad = deviation_figures(np.full(5, -0.6))
    assert judge_surface(good, limits) == ()
    assert [f.severity for f in judge_surface(poor, limits)] == ["look"]
    assert [f.severity for f in judge_surface(bad, limits)] == ["stop", "stop"]
    own = {**limits, **limits_from(
        '["fit.surface_bias"]\ntitle = "t"\nunit = "mm"\nvalue = 0.0\nlook_above = 0.001\n'
        'source = "our own"\nmark = "own"\n', place="own.toml")}  # fmt: skip
    assert judge_surface(good, own)[0].source.startswith("our own")
    with pytest.raises(InputError, match="malformed"):
        limits_from("[x]\nnonsense = 1\n", place="own.toml")


def test_a_normal_shift_is_found_by_its_sign() -> None:
    sphere = ball(8.0, 0.6)
    shifted = Mesh(sphere.vertices + 0.03 * vertex_normals(sphere), sphere.faces)
    found = deviation(shifted, DistanceTree(sphere), IDENTITY)
    assert deviation_figures(found.distance_mm).bias_um == pytest.approx(30.0, abs=0.5)


def unit(*values: float) -> np.ndarray:
    vector = np.array(values)
    return np.asarray(vector / np.linalg.norm(vector))


def subdivided(mesh: Mesh, times: int) -> Mesh:
    """Each triangle split into four, as often as asked."""
    points, faces = mesh.vertices, mesh.faces
    for _ in range(times):
        corners = points[faces]
        middles = (corners + np.roll(corners, -1, axis=1)) / 2.0
        a, b, c = (corners[:, i] for i in range(3))
        d, e, f = (middles[:, i] for i in range(3))
        split = np.stack([a, d, f, d, b, e, f, e, c, d, e, f], axis=1).reshape(-1, 3)
        points, index = np.unique(np.round(split, 9), axis=0, return_inverse=True)
        faces = index.reshape(-1, 3).astype(np.int32)
    return Mesh(points, faces)
