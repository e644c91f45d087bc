"""Prediction for a supported part, the shape that answers it, and what a person is told."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.spatial import cKDTree

from claspwright.base import InputError
from claspwright.build import (
    Distortion,
    DistortionPlan,
    FitPlace,
    PrintedScan,
    SupportPlan,
    check_compensation,
    compensated,
    distortion_findings,
    predict_distortion,
    remaining,
    support,
)
from claspwright.geometry import IDENTITY, Field, Grid, Mesh, check_solid, contour

MODULUS, POISSON = 200_000.0, 0.3
PLAN = DistortionPlan(coupon="an invented coupon")
SCANS = tuple(PrintedScan(f"case {n}", 0.1, 0.12) for n in range(3))


@pytest.fixture(scope="module")
def hoop() -> tuple[Mesh, Mesh, tuple[FitPlace, ...]]:
    """Half a ring on pins, its ends free."""
    turn = np.linspace(0.0, np.pi, 30)
    line = np.column_stack([8 * np.cos(turn), 8 * np.sin(turn), np.full(30, 4.2)])
    grid = Grid.around(line, IDENTITY, 0.3, 1.6)
    nodes = np.stack(np.meshgrid(*grid.axes(), indexing="ij"), axis=-1).reshape(-1, 3)
    far, _ = cKDTree(line).query(nodes)
    part = contour(Field(grid, (np.asarray(far).reshape(grid.shape) - 1.0).astype(np.float32)))
    held = support(part, np.zeros(len(part.faces), bool), SupportPlan(stand_off_mm=3.0), 0.1)
    ends = (("right", line[0]), ("left", line[-1]))
    tips = tuple(FitPlace(n, "clasp tip", (at[0], at[1], at[2])) for n, at in ends)
    return part, held.solid, (*tips, FitPlace("middle", "rest", (0.0, 8.0, 4.2)))


@pytest.fixture(scope="module")
def told(hoop: tuple[Mesh, Mesh, tuple[FitPlace, ...]]) -> Distortion:
    part, below, places = hoop
    return predict_distortion(part, below, places, PLAN, modulus=MODULUS, poisson=POISSON)


def test_both_sides_of_an_even_part_move_alike(told: Distortion) -> None:
    right, left, _ = told.places
    assert right.after_mm == pytest.approx(left.after_mm, rel=0.1)
    assert right.vector_mm[0] < 0 < left.vector_mm[0]  # the ends draw together
    assert told.before_mm[1] > 0.005


def test_strain_and_relief_scale_what_springs(
    hoop: tuple[Mesh, Mesh, tuple[FitPlace, ...]], told: Distortion
) -> None:
    points = np.array([p.at_mm for p in hoop[2]])
    full, none, part = (told.cut.at(points, share) for share in (1.0, 0.0, 0.25))
    assert np.allclose(part, none + 0.25 * (full - none), atol=1e-9)


def test_compensation_reduces_the_predicted_error_threefold(
    hoop: tuple[Mesh, Mesh, tuple[FitPlace, ...]], told: Distortion
) -> None:
    part, below, places = hoop
    changed, carried = compensated(part, below, told)
    assert check_solid(changed).watertight
    assert carried.bounds[0, 2] == 0.0
    again = predict_distortion(changed, carried, (), PLAN, modulus=MODULUS, poisson=POISSON)
    points = np.array([p.at_mm for p in places])
    before = np.linalg.norm(told.at(points), axis=1)
    after = np.linalg.norm(remaining(part, changed, again, points), axis=1)
    assert np.sqrt((before**2).mean()) > 3.0 * np.sqrt((after**2).mean())
    wrong = np.linalg.norm(remaining(part, part, told, points), axis=1)  # nothing changed
    assert np.sqrt((before**2).mean()) < 1.5 * np.sqrt((wrong**2).mean())


def test_findings_of_a_prediction(told: Distortion) -> None:
    assert not distortion_findings(told)  # within its limit, with a coupon
    tight = replace(told, plan=replace(PLAN, most_mm=1e-4))
    assert [f.rule for f in distortion_findings(tight)] == ["build.distortion"]
    start = replace(told, plan=DistortionPlan())
    assert [f.rule for f in distortion_findings(start)] == ["build.distortion-uncalibrated"]
    changed = replace(told, left_mm=(0.05, 0.01))
    (one,) = distortion_findings(changed)
    assert one.rule == "build.compensated" and "only what the model knows" in one.text


def test_no_shape_is_compensated_before_prints_were_scanned() -> None:
    check_compensation(replace(PLAN, scans=SCANS))
    with pytest.raises(InputError, match="coupon"):
        check_compensation(replace(PLAN, coupon="", scans=SCANS))
    with pytest.raises(InputError, match="scans"):
        check_compensation(replace(PLAN, scans=SCANS[:2]))
    far = tuple(replace(s, measured_mm=0.5) for s in SCANS)
    with pytest.raises(InputError, match=r"5\.00 times"):
        check_compensation(replace(PLAN, scans=far))
    with pytest.raises(InputError):
        DistortionPlan(strain=0.001)
