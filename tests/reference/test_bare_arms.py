"""The bare arm of the command line against closed forms and worked examples."""

from __future__ import annotations

import json
import sys

import numpy as np
import pytest
from scipy.integrate import quad

from claspwright.base import InputError
from claspwright.cli import main
from claspwright.mechanics import BareArm, arc_stiffness_ratio, bare_arm


@pytest.mark.reference("worked examples: 4.293 N, 527.6 MPa uniform; 2.146 N, 312.7 MPa 2:1")
@pytest.mark.parametrize(
    ("ratio", "force", "stress", "at"), [(1.0, 4.293, 527.6, 0.0), (0.5, 2.1465, 312.7, 6.0)]
)
def test_the_worked_examples(ratio: float, force: float, stress: float, at: float) -> None:
    found = bare_arm(BareArm(12.0, 0.8, 0.25, 220_000, ratio))
    assert found.force_n == pytest.approx(force, abs=5e-4)
    assert found.peak_stress_mpa == pytest.approx(stress, abs=0.06)
    assert found.peak_at_mm == pytest.approx(at, abs=1e-4)
    assert found.withdrawal_n is None


@pytest.mark.reference("beam theory: F = 3 E I d / L^3, times the tip ratio for a similar taper")
@pytest.mark.parametrize("ratio", [0.3, 0.5, 0.8, 1.0])
def test_straight_arms_are_exact(ratio: float) -> None:
    inertia = (np.pi / 8 - 8 / (9 * np.pi)) * 0.7**4
    exact = ratio * 3 * 210_000 * inertia * 0.3 / 14.0**3
    assert bare_arm(BareArm(14.0, 0.7, 0.3, 210_000, ratio)).force_n == pytest.approx(
        exact, rel=1e-8
    )


@pytest.mark.reference("circular arc, radial tip load: d = (P R^3/EI)(a/2 - sin(2a)/4)")
@pytest.mark.parametrize("degrees", [30.0, 90.0, 120.0, 150.0, 180.0, 220.0])
def test_arcs_are_exact(degrees: float) -> None:
    a = np.radians(degrees)
    bend = 15.0 / a
    inertia = (np.pi / 8 - 8 / (9 * np.pi)) * 0.8**4
    exact = 0.25 * 220_000 * inertia / (bend**3 * (a / 2 - np.sin(2 * a) / 4))
    found = bare_arm(BareArm(15.0, 0.8, 0.25, 220_000, arc_deg=degrees))
    assert found.force_n == pytest.approx(exact, rel=1e-8)
    lever = bend if degrees >= 90 else bend * np.sin(a)
    assert found.peak_stress_mpa == pytest.approx(
        exact * lever * (1 - 4 / (3 * np.pi)) * 0.8 / inertia, rel=1e-6
    )
    assert found.peak_at_mm == pytest.approx(max(15.0 - bend * np.pi / 2, 0.0), abs=1e-4)
    if degrees <= 180:
        straight = bare_arm(BareArm(15.0, 0.8, 0.25, 220_000)).force_n
        assert found.force_n / straight == pytest.approx(arc_stiffness_ratio(a), rel=1e-8)


@pytest.mark.reference("Castigliano by adaptive quadrature (scipy), tapered arm on an arc")
def test_a_tapered_arc_agrees_with_quadrature() -> None:
    length, a = 15.0, np.radians(140.0)
    bend = length / a

    def integrand(s: float) -> float:
        radius = 0.8 * (1 - 0.5 * s / length)
        inertia = (np.pi / 8 - 8 / (9 * np.pi)) * radius**4
        return float((bend * np.sin((length - s) / bend)) ** 2 / inertia)

    compliance, _ = quad(integrand, 0.0, length, epsrel=1e-11)
    found = bare_arm(BareArm(length, 0.8, 0.25, 220_000, 0.5, 140.0))
    assert found.force_n == pytest.approx(0.25 * 220_000 / compliance, rel=1e-8)


@pytest.mark.reference("statics of the wedge: P = F (mu + tan a)/(1 - mu tan a)")
def test_the_command_answers_in_json(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    words = "--length-mm 12 --radius-mm 0.8 --undercut-mm 0.25 --modulus-mpa 220000 --json"
    wedge = "--convergence-deg 10 --friction 0.2"
    monkeypatch.setattr(sys, "argv", ["claspwright", "arm", *words.split(), *wedge.split()])
    with pytest.raises(SystemExit) as end:
        main()
    assert not end.value.code
    found = json.loads(capsys.readouterr().out)
    figures = {"force_n", "peak_stress_mpa", "peak_at_mm", "withdrawal_n"}
    assert set(found) == figures | {"source", "caution"}
    slope = np.tan(np.radians(10.0))
    assert found["withdrawal_n"] == pytest.approx(
        found["force_n"] * (0.2 + slope) / (1 - 0.2 * slope), rel=1e-9
    )


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ({"length_mm": 0.0}, "--length-mm"),
        ({"radius_mm": -1.0}, "--radius-mm"),
        ({"undercut_mm": float("nan")}, "--undercut-mm"),
        ({"undercut_mm": 12.0}, "--undercut-mm"),
        ({"modulus_mpa": 0.0}, "--modulus-mpa"),
        ({"tip_ratio": 1.2}, "--tip-ratio"),
        ({"arc_deg": 300.0}, "--arc-deg"),
    ],
)
def test_what_is_no_arm_is_refused_by_its_option(change: dict[str, float], place: str) -> None:
    sizes = {"length_mm": 12.0, "radius_mm": 0.8, "undercut_mm": 0.25, "modulus_mpa": 220e3}
    with pytest.raises(InputError) as refused:
        BareArm(**{**sizes, **change})
    assert refused.value.place == place


def test_a_wedge_that_locks_is_refused() -> None:
    arm = BareArm(12.0, 0.8, 0.25, 220_000)
    with pytest.raises(InputError, match="locks itself"):
        bare_arm(arm, convergence_deg=80.0, friction=0.3)
    with pytest.raises(InputError, match="friction"):
        bare_arm(arm, convergence_deg=10.0, friction=-0.1)
    with pytest.raises(InputError, match="both") as half:
        bare_arm(arm, friction=0.2)
    assert half.value.place == "--convergence-deg"
    assert bare_arm(arm).withdrawal_n is None
