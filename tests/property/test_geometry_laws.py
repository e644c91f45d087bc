"""Laws that hold for any placing of the solids."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Field,
    Grid,
    Rigid,
    ball,
    box,
    contour,
    difference,
    intersection,
    is_watertight,
    resampled,
    rotation_between,
    signed_distance,
    union,
    volume,
)

CUBE = box(np.array([-1.0, -1.5, -0.8]), np.array([1.2, 1.0, 1.1]))
SPHERE = ball(1.3, 0.35)
component = st.floats(-1.0, 1.0)
vectors = st.tuples(component, component, component).filter(lambda v: np.hypot(*v[:2]) > 0.1)


def motion(towards: tuple[float, ...], shift: tuple[float, ...]) -> Rigid:
    unit = np.array(towards) / np.linalg.norm(towards)
    return Rigid(rotation_between(np.array([0.0, 0.0, 1.0]), unit), np.array(shift))


@given(towards=vectors, shift=vectors)
@settings(max_examples=25, deadline=None, derandomize=True)
def test_volumes_of_booleans(towards: tuple[float, ...], shift: tuple[float, ...]) -> None:
    moved = CUBE.moved(motion(towards, shift))
    common = volume(intersection(moved, SPHERE))
    both = volume(union(moved, SPHERE))
    assert both + common == pytest.approx(volume(CUBE) + volume(SPHERE), rel=1e-9)
    assert volume(difference(moved, SPHERE)) + common == pytest.approx(volume(CUBE), rel=1e-9)


@given(towards=vectors, shift=vectors)
@settings(max_examples=25, deadline=None, derandomize=True)
def test_distance_moves_with_the_solid(
    towards: tuple[float, ...], shift: tuple[float, ...]
) -> None:
    rigid = motion(towards, shift)
    points = np.random.default_rng(1).uniform(-3, 3, (200, 3))
    here = signed_distance(DistanceTree(CUBE), points)
    there = signed_distance(DistanceTree(CUBE.moved(rigid)), rigid.apply(points))
    assert there == pytest.approx(here, abs=1e-9)
    steps = np.linalg.norm(points[:, None] - points[None], axis=2)
    assert (np.abs(here[:, None] - here[None]) <= steps + 1e-9).all()


@given(seed=st.integers(0, 2**31), level=st.floats(-1.5, 1.5))
@settings(max_examples=25, deadline=None, derandomize=True)
def test_contours_of_noise_are_closed(seed: int, level: float) -> None:
    grid = Grid(IDENTITY, np.zeros(3), 1.0, (7, 8, 9))
    values = np.random.default_rng(seed).normal(size=grid.shape).astype(np.float32)
    mesh = contour(Field(grid, values), level)
    assert not len(mesh.faces) or (is_watertight(mesh) and volume(mesh) > 0)


@given(seed=st.integers(0, 2**31), step=st.floats(0.05, 2.0))
@settings(max_examples=25, deadline=None, derandomize=True)
def test_resampled_lines_keep_ends_and_never_grow(seed: int, step: float) -> None:
    line = np.cumsum(np.random.default_rng(seed).normal(size=(12, 3)), axis=0)
    out = resampled(line, step)
    assert out[[0, -1]] == pytest.approx(line[[0, -1]])
    total = np.linalg.norm(np.diff(line, axis=0), axis=1).sum()
    pieces = np.linalg.norm(np.diff(out, axis=0), axis=1)
    assert pieces.sum() <= total + 1e-9
    assert pieces.max() <= 1.5 * step + 1e-9 or len(out) == 2
