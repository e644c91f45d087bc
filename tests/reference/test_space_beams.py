"""Clasp arms as beams in space against closed forms."""

from __future__ import annotations

import numpy as np
import pytest
from shapely.geometry import Polygon
from shapely.geometry import box as rectangle

from claspwright.base import Floats
from claspwright.mechanics import (
    BareArm,
    Elastic,
    Profiles,
    SpaceArm,
    bare_arm,
    beam_arm,
    half_ovals,
    outlines,
    respond,
    rounds,
    sprung,
)

BENDING = Elastic(220_000.0, shear=False)
R, L, N = 0.8, 12.0, 601


def on_arc(degrees: float, profiles: Profiles) -> SpaceArm:
    """An arm whose centroids lie on a circular arc of length L in the x-y plane."""
    bend = L / np.radians(degrees)
    turn = np.radians(np.linspace(0.0, degrees, N))
    off = np.stack([np.cos(turn), np.sin(turn), 0 * turn], axis=1)
    return beam_arm(bend * off - profiles.centre[:, 1:] * off, off, profiles, stations=N)


def straight(profiles: Profiles) -> SpaceArm:
    line = np.zeros((N, 3))
    line[:, 0] = np.linspace(0.0, L, N)
    return beam_arm(line, np.tile([0.0, 0.0, 1.0], (N, 1)), profiles, stations=N)


def uniform(radius: float) -> Profiles:
    return half_ovals(np.full(N, 2 * radius), np.full(N, radius))


def tip(arm: SpaceArm, towards: Floats, elastic: Elastic) -> float:
    return float(respond(arm, np.array([N - 1]), towards[None], elastic).compliance[0, 0])


@pytest.mark.reference("worked example: 4.293 N, 527.6 MPa")
def test_a_straight_arm() -> None:
    found = sprung(straight(uniform(R)), np.array([0.0, 0, 1]), 0.25, BENDING)
    assert found.force_n == pytest.approx(4.2927, rel=1e-4)
    assert found.peak_stress_mpa == pytest.approx(527.62, rel=1e-4)


@pytest.mark.reference("d = (P R^3/EI)(a/2 - sin(2a)/4) in the plane of the arc")
@pytest.mark.parametrize("degrees", [45.0, 90.0, 120.0, 180.0])
def test_an_arc_in_its_plane(degrees: float) -> None:
    arm = on_arc(degrees, uniform(R))
    found = sprung(arm, arm.off[-1], 0.25, BENDING)
    exact = bare_arm(BareArm(L, R, 0.25, 220_000, arc_deg=degrees))
    assert found.force_n == pytest.approx(exact.force_n, rel=1e-4)
    bend, area = L / np.radians(degrees), np.pi * R**2 / 2
    lever = bend * np.sin(min(np.radians(degrees), np.pi / 2))
    pulled = exact.force_n * lever / (bend * area)  # tension of the arc takes from the crown side
    assert found.peak_stress_mpa == pytest.approx(exact.peak_stress_mpa - pulled, rel=1e-4)


@pytest.mark.reference("Roark, curved beam loaded across its plane: bending and torsion")
@pytest.mark.parametrize("degrees", [60.0, 90.0, 180.0])
def test_an_arc_across_its_plane(degrees: float) -> None:
    # d = P R^3 [ (a/2 - sin 2a / 4) / (E I) + (3a/2 - 2 sin a + sin 2a / 4) / (G J) ]
    wire = rounds(np.full(N, 1.0))
    a, bend = np.radians(degrees), L / np.radians(degrees)
    inertia = np.pi / 64
    bent = (a / 2 - np.sin(2 * a) / 4) / (BENDING.modulus * inertia)
    twisted = (1.5 * a - 2 * np.sin(a) + np.sin(2 * a) / 4) / (BENDING.rigidity * 2 * inertia)
    found = tip(on_arc(degrees, wire), np.array([0.0, 0, 1]), BENDING)
    assert found == pytest.approx(bend**3 * (bent + twisted), rel=1e-4)


@pytest.mark.reference("Timoshenko's cantilever: L^3 / (3 E I) + L / (k G A)")
def test_shear_adds_to_a_cantilever() -> None:
    elastic = Elastic(220_000.0)
    arm = straight(uniform(R))
    inertia, area = (np.pi / 8 - 8 / (9 * np.pi)) * R**4, np.pi * R**2 / 2
    exact = L**3 / (3 * 220_000 * inertia) + L / (0.77 * elastic.rigidity * area)
    assert tip(arm, np.array([0.0, 0, 1]), elastic) == pytest.approx(exact, rel=1e-5)
    along = tip(arm, np.array([1.0, 0, 0]), elastic)
    assert along == pytest.approx(L / (220_000 * area), rel=1e-6)


@pytest.mark.reference("symmetry of a compliance (Maxwell and Betti) and its positive energy")
def test_reciprocity() -> None:
    arm = on_arc(130.0, half_ovals(np.linspace(1.6, 0.8, N), np.linspace(1.1, 0.55, N)))
    at = np.array([150, 300, 450, 600])
    push = np.random.default_rng(3).normal(size=(4, 3))
    found = respond(arm, at, push, Elastic(210_000.0)).compliance
    assert np.abs(found - found.T).max() < 1e-12 * np.abs(found).max()
    assert np.linalg.eigvalsh(found).min() > 0


@pytest.mark.reference("section tables: rectangle b h^3/12; principal axes of a turned one")
def test_sections_as_polygons() -> None:
    plain = outlines([rectangle(-1.0, 0.5, 1.0, 1.5)])
    assert plain.area[0] == pytest.approx(2.0)
    assert plain.centre[0] == pytest.approx([0.0, 1.0])
    assert (plain.i_w[0], plain.i_u[0]) == pytest.approx((2 / 12, 8 / 12))
    turn = np.radians(30.0)
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    corners = np.array([[-1, -0.5], [1, -0.5], [1, 0.5], [-1, 0.5]]) @ spin.T + [3.0, 1.0]
    leaning = outlines([Polygon(corners)])
    tensor = np.array([[leaning.i_w[0], -leaning.i_uw[0]], [-leaning.i_uw[0], leaning.i_u[0]]])
    assert np.linalg.eigvalsh(tensor) == pytest.approx([2 / 12, 8 / 12])


@pytest.mark.reference("a turned section bends as its principal axes say")
def test_a_leaning_section_bends_askew() -> None:
    turn = np.radians(30.0)
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    corners = np.array([[-1, -0.25], [1, -0.25], [1, 0.25], [-1, 0.25]]) @ spin.T
    profile = outlines([Polygon(corners)])
    arm = straight(profile.at(np.zeros(N)))
    # u of this arm runs along -y: off x along
    exact = (np.cos(turn) ** 2 / (2 * 0.5**3 / 12) + np.sin(turn) ** 2 / (0.5 * 2**3 / 12)) * (
        L**3 / (3 * 220_000)
    )
    assert tip(arm, np.array([0.0, 0, 1]), BENDING) == pytest.approx(exact, rel=1e-5)
    found = sprung(arm, np.array([0.0, 0, 1]), 0.25, BENDING)
    moment = found.force_n * L * np.array([np.cos(turn), np.sin(turn)])
    stress = moment[0] * 0.25 / (2 * 0.5**3 / 12) + moment[1] * 1.0 / (0.5 * 2**3 / 12)
    assert found.normal_mpa[0] == pytest.approx(stress, rel=0.01)  # nearest of 49 rim points


@pytest.mark.reference("half-ellipse and semicircle of the tables, cut as polygons")
def test_half_ovals_are_their_polygons() -> None:
    turn = np.linspace(0.0, np.pi, 721)
    cut = outlines([Polygon(np.stack([0.8 * np.cos(turn), 1.1 * np.sin(turn)], axis=1))])
    form = half_ovals(np.array([1.6]), np.array([1.1]))
    for name in ("area", "i_w", "i_u"):
        assert getattr(form, name)[0] == pytest.approx(getattr(cut, name)[0], rel=1e-4)
    assert form.torsion[0] == pytest.approx(cut.torsion[0], rel=0.03)
    semicircle = half_ovals(np.array([2.0]), np.array([1.0]))
    assert semicircle.torsion[0] == pytest.approx(0.2964, rel=1e-6)
