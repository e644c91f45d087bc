"""The denture as a rigid body against statics by hand."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from claspwright.mechanics import Bed, Hold, dislodging_load, motions, sharing

P1, P2, IR = np.array([-22.0, 10.0]), np.array([20.0, 12.0]), np.array([-14.0, 26.0])


def clasp(name: str, at: np.ndarray, limit: float = 5.0) -> Hold:
    return Hold(name, at, limit, pushes=False)


def rest(name: str, at: np.ndarray) -> Hold:
    return Hold(name, at, 0.0, pushes=True)


def off_line(point: np.ndarray) -> float:
    along = P2 - P1
    cross = along[0] * (point - P1)[1] - along[1] * (point - P1)[0]
    return float(cross / np.hypot(*along))


@pytest.mark.reference("worked example: indirect retainer 15.601 mm off the fulcrum line")
def test_lifting_about_the_indirect_retainer() -> None:
    assert off_line(IR) == pytest.approx(15.601, abs=5e-4)
    # Load straight behind the middle of the clasps, in line with an indirect retainer before it:
    # moments about the tips' line, R_ir d_ir = Q d, and Q + R_ir = 10 N.
    middle = (P1 + P2) / 2
    square = np.array([-(P2 - P1)[1], (P2 - P1)[0]]) / np.linalg.norm(P2 - P1)
    before, behind = middle + 15.601 * square, middle - 20.0 * square
    holds = (clasp("left", P1), clasp("right", P2), rest("indirect", before))
    exact = 10.0 / (1 + 20.0 / 15.601)
    found = motions(holds).giving(behind)[0]
    assert dislodging_load(holds, behind) == pytest.approx(exact, rel=1e-9)
    assert found.load_n == pytest.approx(exact, rel=1e-9)
    assert "indirect" in found.about and set(found.yielding) <= {"left", "right"}


@pytest.mark.reference("lever about a line through two rests: Q a = C b")
def test_a_lever_about_a_line_through_two_rests() -> None:
    holds = (
        rest("a", np.array([-10.0, 0.0])),
        rest("b", np.array([10.0, 0.0])),
        clasp("tip", np.array([0.0, -2.0]), 6.0),
        rest("far", np.array([0.0, 15.0])),
    )
    behind = np.array([0.0, -20.0])
    # turning about a-b would press no other rest down only if `far` rises; it sinks: the line
    # runs through `far` alone or through far and one of a, b; by hand Q = 6 (15+2)/(15+20)
    assert dislodging_load(holds, behind) == pytest.approx(6.0 * 17 / 35, rel=1e-9)
    assert motions(holds).loads(behind)[0] == pytest.approx(6.0 * 17 / 35, rel=1e-9)
    # a bite behind the rests lifts the front, which nothing holds: it tips freely
    assert dislodging_load(holds, behind, upwards=False) == pytest.approx(0.0, abs=1e-9)
    front = (*holds[:3], clasp("front", np.array([0.0, 15.0]), 4.0))
    assert dislodging_load(front, behind, upwards=False) == pytest.approx(4.0 * 15 / 20)
    assert motions(front).loads(behind, upwards=False)[0] == pytest.approx(3.0)
    inside = np.array([0.0, 5.0])
    assert dislodging_load(holds, inside, upwards=False) == np.inf
    assert motions(holds).loads(inside, upwards=False)[0] == np.inf


@pytest.mark.reference("a pull at the clasps' own middle lifts plainly: the sum of the limits")
def test_a_plain_lift() -> None:
    holds = (clasp("left", P1, 4.0), clasp("right", P2, 6.0))
    centre = (4.0 * P1 + 6.0 * P2) / 10.0
    assert dislodging_load(holds, centre) == pytest.approx(10.0)
    assert motions(holds).loads(centre)[0] == pytest.approx(10.0)


places = st.tuples(st.floats(-30, 30), st.floats(-20, 30))


@given(st.lists(places, min_size=2, max_size=5), st.lists(places, min_size=1, max_size=4), places)
@settings(max_examples=80, deadline=None)
def test_motions_and_equilibrium_agree(
    rests: list[tuple[float, float]], clasps: list[tuple[float, float]], at: tuple[float, float]
) -> None:
    """The kinematic and the static theorem meet: same number from both sides."""
    spots = np.round(np.array([*rests, *clasps]), 1)
    if np.linalg.matrix_rank(np.column_stack([np.ones(len(spots)), spots]), tol=1e-3) < 3:
        return
    holds = tuple(rest(f"r{k}", s) for k, s in enumerate(spots[: len(rests)])) + tuple(
        clasp(f"c{k}", s, 2.0 + k) for k, s in enumerate(spots[len(rests) :])
    )
    point = np.round(np.array(at), 1)
    for upwards in (True, False):
        fast = motions(holds).loads(point, upwards=upwards)[0]
        exact = dislodging_load(holds, point, upwards=upwards)
        assert fast == pytest.approx(exact, rel=1e-5, abs=1e-5) or fast == exact


@given(st.floats(1.0, 40.0), st.floats(0.5, 20.0), st.floats(-25.0, 25.0), st.floats(1.0, 30.0))
@settings(max_examples=80, deadline=None)
def test_an_indirect_retainer_farther_off_never_lowers_the_lifting_force(
    near: float, further: float, along: float, behind: float
) -> None:
    holds = (clasp("left", P1), clasp("right", P2))
    unit = (P2 - P1) / np.linalg.norm(P2 - P1)
    square = np.array([-unit[1], unit[0]])
    load = (P1 + P2) / 2 - behind * square + 0.2 * along * unit
    foot = (P1 + P2) / 2 + along * unit
    close = motions((*holds, rest("ir", foot + near * square))).loads(load)[0]
    far = motions((*holds, rest("ir", foot + (near + further) * square))).loads(load)[0]
    without = motions(holds).loads(load)[0]
    assert far >= close - 1e-9
    assert close >= without - 1e-9


@pytest.mark.reference("springs side by side: load goes with stiffness; a lever splits by arms")
def test_the_share_between_teeth_and_ridge() -> None:
    # Two rests in front, one patch behind, load between: statically determinate.
    bed = Bed(
        np.array([[-10.0, 0.0], [10.0, 0.0]]), 2000.0, np.array([[0.0, -20.0]]),
        np.array([100.0]), 0.5,
    )  # fmt: skip
    found = sharing(bed, np.array([0.0, -15.0]), 60.0)
    assert found.ridge == pytest.approx(0.75)
    assert found.rests_n == pytest.approx([7.5, 7.5])
    assert found.deepest_mm == pytest.approx(45.0 / 50.0)
    assert found.pressure_mpa == pytest.approx(0.45)
    # Between four equal corners and a soft patch in the middle: by stiffness.
    square = Bed(
        np.array([[-1.0, -1], [1, -1], [1, 1], [-1, 1]]), 100.0, np.array([[0.0, 0.0]]),
        np.array([100.0]), 1.0,
    )  # fmt: skip
    assert sharing(square, np.zeros(2), 10.0).ridge == pytest.approx(100 / 500)
