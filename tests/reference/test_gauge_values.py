"""The undercut gauge on solids whose reading is known in closed form."""

from __future__ import annotations

from typing import Any

import manifold3d
import numpy as np
import pytest

from claspwright.base import Floats
from claspwright.geometry import (
    Mesh,
    Rigid,
    ball,
    level_lines,
    looking_along,
    merged,
    revolved,
    union,
    vertex_normals,
)
from claspwright.survey import GaugeReading, cast_shadow, read_gauge

UP = np.array([0.0, 0.0, 1.0])
TILTED = np.array([0.12, -0.09, 1.0]) / np.linalg.norm([0.12, -0.09, 1.0])
TOLERANCE = 0.01  # mm, as the check values ask on edges up to 0.1 mm


def readings(solid: Mesh, direction: Floats = UP, points: Floats | None = None) -> GaugeReading:
    """At all vertices, or at points in the air just off the surface."""
    shadow = cast_shadow(solid, direction)
    if points is None:
        return read_gauge(shadow, solid.vertices, vertex_normals(solid))
    return read_gauge(shadow, points, np.zeros_like(points))


def prism(profile: Any, half_length: float = 5.0, edge: float = 9.0) -> Mesh:
    """A profile of (x, z) points drawn out along y, its triangles cut to an edge length."""
    flat = manifold3d.CrossSection([np.asarray(profile, dtype=np.float64)])
    body = manifold3d.Manifold.extrude(flat, 2 * half_length).refine_to_length(edge)
    raw = body.to_mesh64()
    points = np.asarray(raw.vert_properties)[:, :3]
    turned = np.column_stack([points[:, 0], half_length - points[:, 2], points[:, 1]])
    return Mesh(turned, np.asarray(raw.tri_verts))


def barrel(edge: float, middle: float = 2.0, tube: float = 2.5) -> Mesh:
    """A crown-like body: a round bulge about z, flat above and below; widest at z = 0."""
    angle = np.linspace(-1.2, 1.2, max(int(2.4 * tube / edge), 4) * 2 + 1)
    side = np.column_stack([middle + tube * np.cos(angle), tube * np.sin(angle)])
    profile = np.concatenate([[[0.0, side[0, 1]]], side, [[0.0, side[-1, 1]]]])
    return revolved(profile, int(2 * np.pi * (middle + tube) / edge))


@pytest.mark.reference("check-values B29 and W2, sphere of R = 4 mm; B03 for the three gauges")
@pytest.mark.parametrize("direction", [UP, TILTED], ids=["upright", "tilted"])
def test_sphere_at_the_three_gauges(direction: Floats) -> None:
    sphere = ball(4.0, 0.1)
    read = readings(sphere, direction)
    for gauge, depth, arc in ((0.25, 1.392, 1.422), (0.5, 1.936, 2.021), (0.75, 2.332, 2.489)):
        (line,) = level_lines(sphere, read.undercut_mm, gauge)
        height = -(line @ direction)
        assert np.abs(height - depth).max() < TOLERANCE
        along = 4.0 * np.arcsin(np.clip(height / 4.0, -1, 1))
        assert np.abs(along - arc).max() < TOLERANCE
    height = -(sphere.vertices @ direction)
    part = (read.undercut_mm > 0.05) & (read.undercut_mm < 2.0)
    # the outline runs along edges: up to one edge above or below the true height of contour
    assert np.abs(read.below_survey_line_mm[part] - height[part]).max() < 0.06
    gap = read.free_points[part] - sphere.vertices[part]
    assert np.abs(gap @ direction).max() < 1e-9
    assert np.linalg.norm(gap, axis=1) == pytest.approx(read.undercut_mm[part], abs=1e-9)


@pytest.mark.reference("check-values B30, cone of 10 degrees convergence")
def test_cone() -> None:
    rise = np.linspace(0.0, 6.0, 61)
    side = np.column_stack([3.0 + rise * np.tan(np.radians(10.0)), rise])
    rim = np.column_stack([np.linspace(0, side[-1, 0], 45)[-2:0:-1], np.full(43, 6.0)])
    cone = revolved(np.concatenate([[[0.0, 0.0]], side, rim, [[0.0, 6.0]]]), 300)
    read = readings(cone)
    wall = np.hypot(cone.vertices[:, 0], cone.vertices[:, 1]) > 2.99
    depth = 6.0 - cone.vertices[:, 2]
    part = wall & (depth > 0.15) & (depth < 5.5)
    undercut = read.undercut_mm
    assert np.abs(undercut[part] - depth[part] * np.tan(np.radians(10.0))).max() < TOLERANCE
    upper = cone.corners[:, :, 2].min(axis=1) > 3.0
    (line,) = level_lines(cone, undercut, 0.25, upper & wall[cone.faces].all(axis=1))
    assert np.abs(6.0 - line[:, 2] - 1.418).max() < TOLERANCE
    assert np.interp(1.5, depth[part][::-1], undercut[part][::-1]) == pytest.approx(
        0.2645, abs=TOLERANCE
    )
    assert np.abs(read.below_survey_line_mm[part] - depth[part]).max() < 1e-9


@pytest.mark.reference("circle of radius R - u about the axis, closed form; chords err with edge^2")
@pytest.mark.parametrize("shape", ["sphere", "barrel"])
def test_error_falls_with_the_square_of_the_edge(shape: str) -> None:
    worst = []
    for edge in (0.4, 0.2, 0.1):
        body = ball(4.0, edge) if shape == "sphere" else barrel(edge)
        reach = 4.0 if shape == "sphere" else 4.5
        axis = UP if shape == "barrel" else TILTED
        height = body.vertices @ axis
        across = np.linalg.norm(body.vertices - height[:, None] * axis, axis=1)
        # the caps of the barrel are flat: their reading is that of the wall at their border
        part = (height < -0.3) & (reach - across < 1.2)
        worst.append(np.abs(readings(body, axis).undercut_mm - (reach - across))[part].max())
    assert worst[2] < TOLERANCE / 2
    assert np.log2(worst[0] / worst[2]) / 2 > 1.4  # of 2; the lift of 2 um remains
    assert worst[0] < 0.15 * 0.4**2


@pytest.mark.reference("tilted cylinder: shadow is the strip of half width R, closed form")
@pytest.mark.parametrize("edge", [0.4, 0.2, 0.1])
def test_tilted_cylinder(edge: float) -> None:
    count = int(2 * np.pi * 3.0 / edge)
    tall = revolved(np.array([[0.0, -9.0], [3.0, -9.0], [3.0, 9.0], [0.0, 9.0]]), count)
    lean = looking_along(np.array([-np.sin(0.4), 0.0, np.cos(0.4)]))
    body = tall.moved(lean)
    turn = np.linspace(-1.45, 1.45, 41)
    on = np.column_stack([3.0005 * np.cos(turn), 3.0005 * np.sin(turn), np.full(41, -2.0)])
    at = lean.apply(on)
    read = readings(body, UP, at)
    aside = 3.0 - np.abs(at[:, 1])
    near = aside < 2.0
    assert np.abs(read.undercut_mm - aside)[near].max() < 3.0 * (1 - np.cos(np.pi / count)) + 0.001


def row_reading(x: Floats, y: Floats, reach: float, apart: float) -> Floats:
    """Nearest free point from inside one circle of three in a row whose circles overlap."""
    corner = np.array([apart / 2, np.sqrt(reach**2 - apart**2 / 4)])
    out = np.full(len(x), np.inf)
    for sx in (1, -1):
        for sy in (1, -1):
            out = np.minimum(out, np.hypot(x - sx * corner[0], y - sy * corner[1]))
    radius = np.hypot(x, y)
    foot = np.column_stack([x, y]) * (reach / radius)[:, None]
    own = np.minimum(np.hypot(foot[:, 0] - apart, foot[:, 1]),
                     np.hypot(foot[:, 0] + apart, foot[:, 1])) > reach  # fmt: skip
    return np.where(own, np.minimum(out, reach - radius), out)


def row_error(shape: str, edge: float) -> float:
    """Largest error on a row of three whose neighbours stand in the shadow [mm]."""
    one, reach, apart = (barrel(edge), 4.5, 8.8) if shape == "tori" else (ball(4.0, edge), 4.0, 6.4)
    row = merged(*(Mesh(one.vertices + [n * apart, 0, 0], one.faces) for n in (-1, 0, 1)))
    lower = np.flatnonzero((one.vertices[:, 2] < -0.6) & (one.vertices[:, 2] > -2.0))
    if shape == "fused spheres":  # what lies within a neighbour is not on the surface
        beside = np.hypot(np.abs(one.vertices[:, 0]) - apart, one.vertices[:, 1])
        out = np.hypot(beside, one.vertices[:, 2]) > 4.02
        lower = lower[out[lower]]
    at = one.vertices[lower]
    read = read_gauge(cast_shadow(row, UP), at, vertex_normals(one)[lower], lip_radius_mm=0.0)
    true = row_reading(at[:, 0], at[:, 1], reach, apart)
    deep = true < 2.5
    own = reach - np.hypot(at[deep, 0], at[deep, 1])
    assert (true[deep] > own + 0.05).mean() > 0.03  # some have their way out past a neighbour
    return float(np.abs(read.undercut_mm - true)[deep].max())


def cone_error(edge: float) -> float:
    """Largest error on the wall of a cone of 10 degrees, its circle cut to an edge length [mm]."""
    rise = np.linspace(0.0, 6.0, int(6.0 / edge) + 1)
    side = np.column_stack([3.0 + rise * np.tan(np.radians(10.0)), rise])
    cone = revolved(np.concatenate([[[0.0, 0.0]], side, [[0.0, 6.0]]]), int(8.0 * np.pi / edge))
    depth = 6.0 - cone.vertices[:, 2]
    wall = np.hypot(cone.vertices[:, 0], cone.vertices[:, 1]) > 2.9
    part = wall & (depth > 0.15) & (depth < 5.5)
    true = depth[part] * np.tan(np.radians(10.0))
    # between the corners of the rim the way out is shorter by the chord
    points = cone.vertices[part]
    turn = np.pi / int(8.0 * np.pi / edge)
    c, s = np.cos(turn), np.sin(turn)
    x, y = points[:, 0] * c - points[:, 1] * s, points[:, 0] * s + points[:, 1] * c
    between = np.column_stack([x, y, points[:, 2]])
    radius = 3.0 + points[:, 2] * np.tan(np.radians(10.0))
    between[:, :2] *= (np.cos(turn) * radius / np.hypot(x, y))[:, None]  # on the chord
    inner = readings(cone, UP, between - 1e-6 * between * [1.0, 1.0, 0.0]).undercut_mm
    at_corners = readings(cone, UP, points * [1 + 1e-7, 1 + 1e-7, 1.0]).undercut_mm
    return float(max(np.abs(inner - true).max(), np.abs(at_corners - true).max()))


def crest_error(edge: float) -> float:
    """Largest error under a crest of 0.4 mm radius on a leaning wall [mm]."""
    turn = np.linspace(-0.3, np.pi, int(3.44 * 0.4 / edge) + 1)
    crest = np.column_stack([2.6 + 0.4 * np.cos(turn), 4.0 + 0.4 * np.sin(turn)])
    body = prism(np.concatenate([[[0.0, 0.0], [2.0, 0.0]], crest]))
    slope = (crest[0, 0] - 2.0) / crest[0, 1]
    z = np.array([0.5, 1.5, 3.0])
    at = np.column_stack([2.0 + slope * z + 1e-6, 0 * z, z])
    return float(np.abs(readings(body, UP, at).undercut_mm - (3.0 - at[:, 0])).max())


@pytest.mark.reference("three circles in a row: own radius, or the corner of two; closed form")
@pytest.mark.parametrize("shape", ["tori", "fused spheres"])
def test_rows_with_neighbours_in_the_shadow_at_three_densities(shape: str) -> None:
    errors = [row_error(shape, edge) for edge in (0.4, 0.2, 0.1)]
    assert errors[2] < TOLERANCE
    assert np.log2(errors[0] / errors[2]) / 2 > 1.4  # of 2, as the chords err


@pytest.mark.reference("cone of 10 degrees (check-values B30), crest of radius 0.4 mm; closed form")
def test_cone_and_rounded_crest_at_three_densities() -> None:
    cones = [cone_error(edge) for edge in (0.4, 0.2, 0.1)]
    assert cones[2] < TOLERANCE
    assert np.log2(cones[0] / cones[2]) / 2 > 1.4
    crests = [crest_error(edge) for edge in (0.2, 0.1, 0.05)]
    assert crests[1] < TOLERANCE
    assert crests[2] < 0.3 * crests[0]  # a corner may lie on the foremost place by chance


@pytest.mark.reference("prisms: distance to the crest's plumb line, closed form")
@pytest.mark.parametrize("edge", [9.0, 0.5, 0.2])
def test_crests_ledges_and_leaning_plates_are_read_in_full(edge: float) -> None:
    sharp = prism([(0, 0), (2, 0), (3, 4), (0.5, 2.5)], edge=edge)
    plate = prism([(0, 0), (0.6, 0), (3.6, 5), (3.0, 5)], edge=edge)
    ledge = prism([(0, 0), (2, 0), (2, 3), (3.5, 3), (3.5, 3.4), (0, 3.4)], edge=edge)
    for body, x, z, true in (
        (sharp, 2.5, 2.0, 0.5),
        (plate, 0.6 + 0.8, 5 / 3.0 * 0.8, 2.2),
        (ledge, 2.5, 3.0 - 1e-3, 1.0),
        (ledge, 2.0 + 1e-6, 1.5, 1.5),
    ):
        # on the wall, or a hair off it where it is level or upright
        at = np.array([[x + 1e-6, 0.3, z - 1e-6]])
        read = readings(body, UP, at)
        assert read.undercut_mm == pytest.approx([true], abs=5e-6)
    assert read.below_survey_line_mm == pytest.approx([1.5], abs=0.41)  # either edge of the ledge


@pytest.mark.reference("crest of radius r on a leaning wall: r beyond its centre, closed form")
def test_rounded_crest() -> None:
    turn = np.linspace(-0.3, np.pi, 120)
    crest = np.column_stack([2.6 + 0.4 * np.cos(turn), 4.0 + 0.4 * np.sin(turn)])
    body = prism(np.concatenate([[[0.0, 0.0], [2.0, 0.0]], crest]))
    slope = (crest[0, 0] - 2.0) / crest[0, 1]
    z = np.array([0.5, 1.5, 3.0])
    at = np.column_stack([2.0 + slope * z + 1e-6, 0 * z, z])
    assert readings(body, UP, at).undercut_mm == pytest.approx(3.0 - at[:, 0], abs=1e-3)


def test_a_rigid_motion_changes_no_reading() -> None:
    one = ball(3.0, 0.3)
    row = union(one, Mesh(one.vertices + [5.2, 0.7, 0.4], one.faces))
    first = readings(row, TILTED)
    rng = np.random.default_rng(5)
    rotation = np.linalg.qr(rng.normal(size=(3, 3)))[0]
    rotation *= np.sign(np.linalg.det(rotation))
    rigid = Rigid(rotation, np.array([31.0, -17.3, 8.1]))
    moved = readings(row.moved(rigid), rigid.turn(TILTED))
    near = first.undercut_mm < 2.9
    assert np.abs(moved.undercut_mm - first.undercut_mm)[near].max() < 0.001


def test_noise_of_the_scan_hardly_biases_the_reading() -> None:
    sphere = ball(4.0, 0.15)
    normals = vertex_normals(sphere)
    height = sphere.vertices[:, 2]
    true = 4.0 - np.sqrt(np.maximum(16.0 - height**2, 0.0))
    part = (height < -0.8) & (true < 1.0)
    for seed in (1, 2):
        noise = np.random.default_rng(seed).normal(0.0, 0.01, len(normals))
        rough = Mesh(sphere.vertices + noise[:, None] * normals, sphere.faces)
        error = readings(rough).undercut_mm - true
        assert abs(error[part].mean()) < 0.015


def test_a_slit_narrower_than_the_lip_is_left_out_and_said() -> None:
    def comb(width: float) -> Mesh:
        """A plate with a slot, held up by a wall beside it."""
        one = prism([(0, 0), (0.5, 0), (0.5, 3), (2.0, 3), (2.0, 3.4), (0, 3.4)])
        other = prism([(2.0 + width, 3), (6, 3), (6, 3.4), (2.0 + width, 3.4)])
        return merged(one, other)

    at = np.array([[1.6, 0.0, 2.0]])
    wide, narrow = readings(comb(0.14), UP, at), readings(comb(0.06), UP, at)
    assert wide.undercut_mm == pytest.approx([0.4], abs=1e-6)
    assert not wide.narrow.any()
    assert narrow.narrow.all()
    assert narrow.undercut_mm[0] > 2.9
    shadow = cast_shadow(comb(0.06), UP)
    every = read_gauge(shadow, at, 0 * at, lip_radius_mm=0.0)
    assert every.undercut_mm == pytest.approx([0.4], abs=1e-6)


def test_the_way_does_not_pass_through_the_solid() -> None:
    """A nearer free point behind a wall does not count."""
    roof = prism([(-1.0, 3), (3.5, 3), (3.5, 3.4), (-1.0, 3.4)])
    wall = prism([(-0.6, 0), (-0.3, 0), (-0.3, 2.9), (-0.6, 2.9)])
    at = np.array([[0.8, 0.0, 1.0]])
    read = readings(merged(roof, wall), UP, at)
    assert read.undercut_mm == pytest.approx([2.7], abs=1e-6)
    assert readings(roof, UP, at).undercut_mm == pytest.approx([1.8], abs=1e-6)
