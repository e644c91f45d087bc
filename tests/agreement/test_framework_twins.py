"""Kernels of the framework stage against plain NumPy."""

from __future__ import annotations

import numpy as np
import pytest
from shapely.geometry import Point, Polygon

from claspwright.base import Floats
from claspwright.framework import _sweep_kernels as kernels

LOW, SPACING, SHAPE = np.array([-2.0, -2.0, -1.5]), 0.25, (17, 17, 14)
REACH = 1.6


def nodes() -> Floats:
    return LOW + SPACING * np.argwhere(np.ones(SHAPE, bool))


def spiral() -> tuple[Floats, Floats]:
    t = np.linspace(0, 1, 9)
    line = np.column_stack([1.2 * np.cos(3 * t), 1.2 * np.sin(3 * t), 0.8 * t - 0.4])
    normal = np.column_stack([np.cos(3 * t), np.sin(3 * t), 0.5 + t])
    return line, normal / np.linalg.norm(normal, axis=1, keepdims=True)


def frames(
    points: Floats, line: Floats, normal: Floats, s: int
) -> tuple[Floats, Floats, Floats, Floats, Floats]:
    """Squared distance, share along, u across, w off the surface, raw reach along segment s."""
    tangent = line[s + 1] - line[s]
    length = np.linalg.norm(tangent)
    tangent = tangent / length
    from_a = points - line[s]
    raw = from_a @ tangent
    t = np.clip(raw, 0, length)
    rest = from_a - t[:, None] * tangent
    f = t / length
    up = (1 - f)[:, None] * normal[s] + f[:, None] * normal[s + 1]
    up = up - (up @ tangent)[:, None] * tangent
    up /= np.linalg.norm(up, axis=1, keepdims=True)
    w = (rest * up).sum(axis=1)
    u = (rest * np.cross(tangent, up)).sum(axis=1)
    return (rest**2).sum(axis=1), f, u, w, raw


def agrees(out: Floats, d2: Floats, values: Floats) -> None:
    """Each node holds the value of a segment that is nearest to it."""
    nearest = d2.min(axis=0)
    ties = np.abs(d2 - nearest) < 1e-6  # at a corner of the line two segments are as near
    off = np.abs(values - out.ravel()[None])
    off = np.where(ties, off, np.inf).min(axis=0)
    within = nearest < (REACH - 1e-6) ** 2
    assert off[within].max() < 2e-5
    assert within.sum() > 1000
    assert np.all(out.ravel()[nearest > (REACH + 1e-6) ** 2] == 9.0)


def test_oval_sweep() -> None:
    line, normal = spiral()
    half, height = np.linspace(0.8, 0.4, len(line)), np.linspace(0.6, 0.3, len(line))
    out = np.full(SHAPE, 9, np.float32)
    none = np.zeros((1, 1), np.float32)
    low = np.zeros(2)
    kernels.sweep(out, LOW, SPACING, line, normal, half, height, none, low, 1.0, REACH, 0, len(out))
    d2, values = [], []
    for s in range(len(line) - 1):
        gap, f, _, w, _ = frames(nodes(), line, normal, s)
        a, b = (v[s] * (1 - f) + v[s + 1] * f for v in (half, height))
        rest2 = np.maximum(gap - w * w, 0)
        q0 = np.sqrt(rest2 / a**2 + w**2 / b**2)
        q1 = np.sqrt(rest2 / a**4 + w**2 / b**4)
        d2.append(gap)
        values.append(np.where(q1 < 1e-9, -np.minimum(a, b), q0 * (q0 - 1) / np.maximum(q1, 1e-9)))
    agrees(out, np.array(d2), np.array(values))


def test_section_sweep() -> None:
    line, normal = spiral()
    step, low = 0.1, np.array([-2.0, -2.0])
    us = low[0] + step * np.arange(41)
    table = (np.abs(us)[:, None] + 0.5 * us[None, :]).astype(np.float32)  # bilinear but for u = 0
    out = np.full(SHAPE, 9, np.float32)
    wide, tall = np.linspace(1.0, 0.6, len(line)), np.linspace(0.8, 1.1, len(line))
    kernels.sweep(out, LOW, SPACING, line, normal, wide, tall, table, low, step, REACH, 0, len(out))
    d2, values = [], []
    for s in range(len(line) - 1):
        gap, f, u, w, raw = frames(nodes(), line, normal, s)
        a, b = (v[s] * (1 - f) + v[s + 1] * f for v in (wide, tall))
        u, w = np.clip(u / a, -2, 1.9999), np.clip(w / b, -2, 1.9999)
        value = np.minimum(a, b) * (np.abs(u) + 0.5 * w)
        if s == 0:
            value = np.maximum(value, -raw)
        if s == len(line) - 2:
            value = np.maximum(value, raw - np.linalg.norm(line[s + 1] - line[s]))
        d2.append(gap)
        values.append(value)
    agrees(out, np.array(d2), np.array(values))


@pytest.mark.reference("shapely 2, point to polygon")
def test_polygon_distance_is_that_of_shapely() -> None:
    turn = np.linspace(0, 2 * np.pi, 40, endpoint=False)
    radius = 2 + 0.7 * np.cos(5 * turn)
    star = np.column_stack([radius * np.cos(turn), radius * np.sin(turn)])
    hole = 0.3 * np.column_stack([np.cos(turn), np.sin(turn)]) + [0.4, 0.1]
    xs, ys = np.linspace(-3, 3, 31), np.linspace(-2.9, 3, 30)
    starts = np.array([0.0, 40.0, 80.0])
    found = kernels.polygon_distance(xs, ys, np.concatenate([star, hole]), starts, 30.0)
    shape = Polygon(star, [hole])
    for i, x in enumerate(xs):
        for j, y in enumerate(ys):
            gap = shape.boundary.distance(Point(x, y))
            sign = -1.0 if shape.contains(Point(x, y)) else 1.0
            assert found[i, j] == pytest.approx(sign * gap, abs=2e-6)


def test_top_heights() -> None:
    rng = np.random.default_rng(5)
    values = rng.normal(size=(12, 9, 20)).astype(np.float32)
    values[0, 0], values[0, 1] = 1.0, -1.0  # empty, and full to the roof
    found = np.empty(values.shape[:2], np.float32)
    kernels.top_heights(values, -3.0, 0.2, 0, len(values), found)
    plain = np.full(values.shape[:2], np.nan)
    for i, j in np.ndindex(*plain.shape):
        v = values[i, j].astype(float)
        ups = np.flatnonzero((v[:-1] <= 0) & (v[1:] > 0))
        if ups.size:
            k = ups[-1]
            plain[i, j] = -3.0 + 0.2 * (k + v[k] / (v[k] - v[k + 1]))
    assert np.allclose(found, plain, atol=1e-5, equal_nan=True)
    assert np.isnan(found[0, :2]).all()
