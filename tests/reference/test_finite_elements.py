"""Finite elements of cut cells against beams, handbook formulas and a manufactured solution."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from claspwright.base import Floats, GeometryError, InputError
from claspwright.mechanics import (
    Elastic,
    Push,
    Spring,
    beam_arm,
    bear,
    cut_cells,
    fixed,
    half_ovals,
    respond,
)
from claspwright.mechanics.bearing import Reach

E, NU = 210_000.0, 0.3


def section_points(distance: Callable[[Floats], Floats], centre: Floats, u: Floats, w: Floats,
                   reach: float = 1.2, step: float = 0.1) -> Floats:  # fmt: skip
    """Even points over a section of a solid, so that a force or a clamp acts on all of it."""
    a = np.arange(-reach, reach + 1e-9, step) + step / 2
    flat = np.stack(np.meshgrid(a, a), axis=-1).reshape(-1, 2)
    points = centre + flat[:, :1] * u + flat[:, 1:] * w
    return points[distance(points) < 0]


def straight_arm(p: Floats) -> Floats:
    """Half-round of radius 0.85 to 0.47 over 12 mm, its flat in the middle of a cell."""
    radius = 0.85 - 0.38 * p[:, 0] / 12.0
    z = p[:, 2] - 0.1
    body = np.maximum(np.hypot(p[:, 1], z) - radius, -z)
    return np.maximum(body, np.maximum(-p[:, 0], p[:, 0] - 12.0))


def beam_compliance(line: Floats, off: Floats, radius: Floats, way: Floats) -> float:
    arm = beam_arm(line, off, half_ovals(2 * radius, radius), stations=201)
    return float(respond(arm, np.array([200]), way[None], Elastic(E, NU)).compliance[0, 0])


@pytest.mark.reference("tapered cantilever of Timoshenko, half-round, both ways across")
@pytest.mark.parametrize("way", [(0.0, 0.0, 1.0), (0.0, 1.0, 0.0)])
def test_a_straight_half_round_arm_is_its_beam(way: tuple[float, float, float]) -> None:
    cells = cut_cells(straight_arm, np.array([0.0, -1.2, -0.2]), np.array([12.0, 1.2, 1.2]), 0.2)
    y, z = np.eye(3)[1], np.eye(3)[2]
    root = section_points(straight_arm, np.array([1e-6, 0, 0.1]), y, z)
    tip = section_points(straight_arm, np.array([12.0 - 1e-6, 0, 0.1]), y, z)
    push = Push("tip", tip, np.tile(np.array(way) / len(tip), (len(tip), 1)))
    found = bear(cells, [fixed(root, E, 0.2)], [push], modulus=E, poisson=NU)
    line = np.zeros((41, 3))
    line[:, 0], line[:, 2] = np.linspace(0, 12, 41), 0.1
    beam = beam_compliance(line, np.tile(z, (41, 1)), np.linspace(0.85, 0.47, 41), np.array(way))
    assert found.work_mm[0] == pytest.approx(beam, rel=0.02)


@pytest.mark.reference("curved beam, half-round on a quarter circle, sprung radially and across")
@pytest.mark.parametrize("way", ["radial", "across"])
def test_a_quarter_circle_arm_is_its_beam(way: str) -> None:
    bend, radius = 7.0, 0.7

    def quarter(p: Floats) -> Floats:
        r = np.hypot(p[:, 0], p[:, 1]) - bend
        body = np.maximum(np.hypot(r, p[:, 2]) - radius, -r)
        return np.maximum(body, np.maximum(-p[:, 0], -p[:, 1]))

    turn = np.linspace(0, np.pi / 2, 121)
    off = np.stack([np.cos(turn), np.sin(turn), 0 * turn], axis=1)
    x, y, z = np.eye(3)
    force = y if way == "radial" else z
    beam = beam_compliance(bend * off, off, np.full(121, radius), force)

    def by_cells(step: float) -> float:
        cells = cut_cells(quarter, np.array([0, 0, -0.75]), np.array([7.8, 7.8, 0.75]), step)
        root = section_points(quarter, np.array([7.0, 1e-6, 0]), x, z)
        tip = section_points(quarter, np.array([1e-6, 7.0, 0]), y, z)
        push = Push("tip", tip, np.tile(force / len(tip), (len(tip), 1)))
        found = bear(cells, [fixed(root, E, step)], [push], modulus=E, poisson=NU)
        return float(found.work_mm[0])

    # Cells of 0.15 mm: at 0.2 mm, 3.5 cells across the arm, a bend askew to the grid is 5 % stiff.
    # Across its plane the beam leaves out the offset of the shear centre: up to 3 %
    fine = by_cells(0.15)
    assert fine == pytest.approx(beam, rel=0.02 if way == "radial" else 0.035)
    if way == "radial":  # second order in the cells, or better while they are few
        assert np.log2((by_cells(0.3) / beam - 1.0) / (fine / beam - 1.0)) > 1.7


@pytest.mark.reference("Roark, Table 9.2 case 1: ring under opposite loads, with its k1 and k2")
def test_a_ring_is_roarks() -> None:
    bend, half = 5.0, 0.4

    def ring(p: Floats) -> Floats:
        r = np.abs(np.hypot(p[:, 0], p[:, 1]) - bend)
        return np.maximum(r, np.abs(p[:, 2])) - half

    cells = cut_cells(ring, np.array([-5.6, -5.6, -0.4]), np.array([5.6, 5.6, 0.4]), 0.2)
    x, y, z = np.eye(3)
    top = section_points(ring, np.array([0, bend, 0]), y, z, reach=0.5)
    bottom = top * [1, -1, 1]
    forces = np.vstack([np.tile(y, (len(top), 1)), np.tile(-y, (len(top), 1))]) / len(top)
    found = bear(cells, [], [Push("pull", np.vstack([top, bottom]), forces)], modulus=E, poisson=NU)
    inertia, area = (2 * half) ** 4 / 12, (2 * half) ** 2
    alpha = inertia / (area * bend**2)
    beta = 2 * (1 + NU) * 1.2 * alpha
    k1, k2 = 1 - alpha + beta, 1 - alpha
    roark = bend**3 / (E * inertia) * (np.pi * k1 / 4 - 2 * k2**2 / np.pi)
    assert found.work_mm[0] == pytest.approx(roark, rel=0.02)


@pytest.mark.reference("Roark, Table 11.4 case 8: clamped square plate, w = 0.0138 q b^4/(E t^3)")
def test_a_clamped_square_plate_is_roarks() -> None:
    b, t, h = 20.0, 0.5, 0.25

    def plate(p: Floats) -> Floats:
        return np.max(np.abs(p) - [b / 2, b / 2, t / 2], axis=1)

    corner = np.array([b / 2, b / 2, t / 2])
    cells = cut_cells(plate, -corner, corner, h)
    rim = cells.nodes[np.abs(cells.nodes[:, :2]).max(axis=1) > b / 2 - 1e-9]
    middle = cells.origin + (cells.place + 0.5) * h
    loaded = middle[middle[:, 2] > 0]
    push = Push("pressure", loaded, np.tile([0.0, 0.0, -h * h], (len(loaded), 1)))
    found = bear(cells, [fixed(rim, E, h)], [push], modulus=E, poisson=NU)
    thin = 0.0138 * b**4 / (E * t**3)
    # Mindlin's clamped square plate is 19 % softer at t/b = 0.1; shear goes with (t/b)^2
    assert -found.at(np.zeros((1, 3)))[0, 2, 0] == pytest.approx(
        thin * (1 + 19.0 * (t / b) ** 2), rel=0.02
    )


@pytest.mark.reference("Timoshenko's cantilever, square bar: P L^3/(3 E I) + P L/(k G A)")
def test_a_square_cantilever() -> None:
    def bar(p: Floats) -> Floats:
        return np.max(np.abs(p - [4.0, 0.5, 0.5]) - [4.0, 0.5, 0.5], axis=1)

    cells = cut_cells(bar, np.zeros(3), np.array([8.0, 1.0, 1.0]), 0.25)
    root = cells.nodes[cells.nodes[:, 0] < 1e-9]
    tip = section_points(bar, np.array([8.0 - 1e-6, 0.5, 0.5]), np.eye(3)[1], np.eye(3)[2], 0.5)
    push = Push("tip", tip, np.tile([0.0, 0.0, 1.0 / len(tip)], (len(tip), 1)))
    found = bear(cells, [fixed(root, E, 0.25)], [push], modulus=E, poisson=NU)
    exact = 8.0**3 / (3 * E / 12) + 8.0 / (10 * (1 + NU) / (12 + 11 * NU) * E / (2 * (1 + NU)))
    assert found.work_mm[0] == pytest.approx(exact, rel=0.02)
    # stress at the skin over the middle of the bar: M c / I
    place = np.abs(cells.middle - [4.125, 0.5, 0.875]).max(axis=1) < 0.13
    assert found.mises[place, 0].mean() == pytest.approx(3.875 * 0.5 * 12, rel=0.02)


@pytest.mark.reference("Navier: stress M c / I of a round bar, surface askew to the grid")
@pytest.mark.parametrize("step", [0.3, 0.2])
def test_the_stress_at_the_skin_does_not_hang_on_the_mesh(step: float) -> None:
    bend = np.array([1.0, 0.35, 0.2]) / np.linalg.norm([1.0, 0.35, 0.2])
    length, radius = 9.0, 0.9

    def rod(p: Floats) -> Floats:
        along = p @ bend
        off = np.linalg.norm(p - along[:, None] * bend, axis=1) - radius
        return np.maximum(off, np.maximum(-along, along - length))

    low = np.array([-1.5, -1.5, -1.5])
    cells = cut_cells(rod, low, np.array([10.5, 4.8, 3.3]), step)
    across = np.cross(bend, [0.0, 0.0, 1.0])
    across /= np.linalg.norm(across)
    over = np.cross(bend, across)
    root, tip = (section_points(rod, at * bend, across, over) for at in (1e-6, length - 1e-6))
    push = Push("tip", tip, np.tile(over / len(tip), (len(tip), 1)))
    found = bear(cells, [fixed(root, E, step)], [push], modulus=E, poisson=NU)
    assert cells.skin is not None
    along = cells.skin @ bend
    outer = np.abs((cells.skin - along[:, None] * bend) @ over) > 0.97 * radius
    here = outer & (along > 3.0) & (along < 5.0)
    exact = (length - along[here]) * radius / (np.pi * radius**4 / 4)
    assert np.median(found.mises[here, 0] / exact) == pytest.approx(1.0, abs=0.03)
    assert np.abs(found.mises[here, 0] / exact - 1.0).max() < 0.06


@pytest.mark.reference("statics: 6 M / (b t^2) where a bar of 2.4 x 1.5 mm meets a shoulder")
def test_the_peak_in_a_sharp_corner_does_not_hang_on_the_mesh() -> None:
    """Read over a fixed length, it is one figure on three grids: a little below the bar's own."""
    turn = np.array([[0.94, 0.0, -0.342], [0.0, 1.0, 0.0], [0.342, 0.0, 0.94]])

    def stepped(p: Floats) -> Floats:
        q = p @ turn.T
        bar = np.max(np.abs(q - [5.0, 0.0, 0.75]) - [5.0, 1.2, 0.75], axis=1)
        return np.minimum(bar, np.max(np.abs(q - [2.0, 0.0, 2.0]) - [2.0, 1.2, 2.0], axis=1))

    points = np.array([[9.0, -0.6, 0.75], [9.0, 0.0, 0.75], [9.0, 0.6, 0.75]]) @ turn
    push = Push("down", points, np.tile(np.array([0.0, 0.0, -20.0 / 3]) @ turn, (3, 1)), 0.6)
    peaks = []
    for step, shift in ((0.3, 0.0), (0.3, 0.2), (0.2, 0.0)):
        low = np.array([-0.6 - shift, -1.5, -3.9])
        cells = cut_cells(stepped, low, np.array([11.0, 1.5, 4.2]), step)
        root = cells.nodes[(cells.nodes @ turn.T)[:, 0] < 0.5]
        found = bear(cells, [fixed(root, E, step)], [push], modulus=E, poisson=NU)
        peaks.append(found.peak(0))
    assert max(peaks) / min(peaks) < 1.04
    assert peaks[-1] == pytest.approx(20.0 * 5.0 * 6.0 / (2.4 * 1.5**2), rel=0.15)


@pytest.mark.reference("statics: a patch passes on all of a force, at its place")
def test_a_force_on_a_patch_is_all_there() -> None:
    def slab(p: Floats) -> Floats:
        return np.max(np.abs(p) - [3.0, 3.0, 0.5], axis=1)

    cells = cut_cells(slab, -np.array([3.0, 3.0, 0.5]), np.array([3.0, 3.0, 0.5]), 0.25)
    points = np.array([[0.5, -0.5, 0.9], [1.0, 1.0, 0.0]])
    shares = Reach(cells).onto(points, 0.6)
    assert np.asarray(shares.sum(axis=1)).ravel() == pytest.approx(1.0)
    middles = np.asarray(shares @ cells.nodes)
    assert np.abs((middles - points)[:, :2]).max() < 0.02
    assert (np.diff(shares.indptr) > 30).all()


@pytest.mark.reference("manufactured solution on a cube: second order in the displacement")
def test_the_order_of_convergence() -> None:
    lame, shear = E * NU / ((1 + NU) * (1 - 2 * NU)), E / (2 * (1 + NU))

    def cube(p: Floats) -> Floats:
        return np.max(np.abs(p - 0.5), axis=1) - 0.5

    errors = []
    for n in (4, 8, 16):
        h = 1.0 / n
        cells = cut_cells(cube, np.zeros(3), np.ones(3), h)
        rim = cells.nodes[np.any((cells.nodes < 1e-9) | (cells.nodes > 1 - 1e-9), axis=1)]
        x = cells.origin + (cells.place + 0.5) * h
        s = [np.sin(np.pi * x[:, k]) for k in range(3)]
        c = [np.cos(np.pi * x[:, k]) for k in range(3)]
        # u = (sin sin sin, 0, 0): body force of the equations of Lame
        body = np.pi**2 * np.stack(
            [
                (lame + 4 * shear) * s[0] * s[1] * s[2],
                -(lame + shear) * c[0] * c[1] * s[2],
                -(lame + shear) * c[0] * s[1] * c[2],
            ],
            axis=1,
        )
        weight = cells.moments[:, :1] * h**3
        found = bear(
            cells, [fixed(rim, E, h)], [Push("body", x, body * weight)], modulus=E, poisson=NU
        )
        errors.append(abs(found.at(np.full((1, 3), 0.5))[0, 0, 0] - 1.0))
    order = np.log2(errors[1] / errors[2])
    assert errors[2] < 0.01
    assert order > 1.7


def test_what_cannot_be_computed_is_refused() -> None:
    def ball(p: Floats) -> Floats:
        return np.linalg.norm(p, axis=1) - 1.0

    cells = cut_cells(ball, -1.2 * np.ones(3), 1.2 * np.ones(3), 0.3)
    assert cells.volume == pytest.approx(4 / 3 * np.pi, rel=5e-3)
    with pytest.raises(InputError, match="load"):
        bear(cells, [], [], modulus=E, poisson=NU)
    with pytest.raises(GeometryError, match="no metal"):
        bear(cells, [], [Push("far", np.full((1, 3), 9.0), np.ones((1, 3)))], modulus=E, poisson=NU)
    with pytest.raises(GeometryError, match="no cell"):
        cut_cells(lambda p: np.ones(len(p)), np.zeros(3), np.ones(3), 0.5)
    with pytest.raises(InputError, match="Poisson"):
        bear(cells, [], [Push("x", np.zeros((1, 3)), np.ones((1, 3)))], modulus=E, poisson=0.5)
    held = Spring(np.zeros((1, 3)), 10.0 * np.eye(3))
    soft = bear(cells, [held], [Push("x", np.zeros((1, 3)), np.eye(3)[:1])], modulus=E, poisson=NU)
    assert soft.work_mm[0] == pytest.approx(0.1, rel=0.05)
