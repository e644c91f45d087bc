"""Ring, embrasure, half-and-half and finger bars: what they ask of a tooth and where they run."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np
import pytest

from claspwright.arch import DentalArch, Jaw
from claspwright.framework.alternatives import alternatives
from claspwright.framework.areas import areas_to_replace
from claspwright.framework.arm_plans import plate_half_width
from claspwright.framework.bar_fingers import finger_plan
from claspwright.framework.canvas import Canvas, joined, oval_sweep
from claspwright.framework.clasp_kinds import admitted, objections
from claspwright.framework.design import Clasp, ClaspForm, Design, End, RestForm, Retainer, Side
from claspwright.framework.embrasure import partner_of
from claspwright.framework.ground import Ground
from claspwright.framework.lay_clasps import reciprocal_origin
from claspwright.framework.model import Framework, Wire
from claspwright.framework.ring_clasp import ring_plan
from claspwright.framework.routes import beamed_rests
from claspwright.framework.rulebook import default_clasp, default_connector
from claspwright.framework.wire_clasp import wire_way
from claspwright.framework.wishes import Wishes
from claspwright.geometry import IDENTITY, Grid, box
from claspwright.survey import Survey

TOOTH = 46
Arch = Callable[[Jaw, Sequence[int]], DentalArch]
Surveyed = Callable[..., Survey]
BOTH: tuple[RestForm, ...] = ("mesial occlusal", "distal occlusal")


def with_clasp(
    tooth: int,
    form: ClaspForm,
    rests: tuple[RestForm, ...] = (),
    plates: tuple[End, ...] = (),
    side: Side = "buccal",
    origin: End | None = None,
) -> Retainer:
    return Retainer(tooth, rests, plates, replace(default_clasp(tooth, form, side), origin=origin))


@pytest.mark.reference("check-values B29: on a ball of 4 mm, 0.25 mm lie 1.392 mm below the line")
@pytest.mark.parametrize("origin", ["mesial", "distal"])
@pytest.mark.parametrize("side", ["buccal", "lingual"])
def test_a_ring_runs_round_the_tooth_into_the_undercut_where_it_began(
    sphere: Ground, origin: End, side: Side
) -> None:
    plan = ring_plan(sphere, with_clasp(TOOTH, "ring", (), (origin,), side))
    turn = np.degrees(np.unwrap(np.concatenate([plan.rigid.angle, plan.spring.angle])))
    assert abs(turn[-1] - turn[0]) > 280.0
    steps = np.diff(turn)
    assert np.all(steps >= -1e-9) or np.all(steps <= 1e-9)  # it never turns back
    assert plan.rigid.height.min() > 0.3  # above the survey line, the equator of the ball
    assert plan.spring.height[0] == pytest.approx(plan.rigid.height[-1], abs=1e-6)
    assert plan.spring.height[-1] == pytest.approx(-1.392, abs=0.03)
    assert plan.spring.reached_mm == pytest.approx(0.25, abs=0.005)
    tip = np.array([np.cos(plan.spring.angle[-1]), np.sin(plan.spring.angle[-1])])
    assert (tip[0] > 0) == (origin == "mesial") and (tip[1] > 0) == (side == "buccal")


@pytest.mark.reference("check-values B29: on a ball of 4 mm, 0.25 mm lie 1.392 mm below the line")
@pytest.mark.parametrize(("form", "fingers"), [("T-bar", 2), ("modified T-bar", 1), ("Y-bar", 2)])
def test_the_fingers_of_a_bar_end_at_their_undercut(
    sphere: Ground, form: ClaspForm, fingers: int
) -> None:
    asked = with_clasp(TOOTH, form)
    assert asked.clasp is not None
    plan = finger_plan(sphere, asked, asked.clasp, "distal")
    assert len(plan.tips) == fingers
    for _, height, reads in plan.tips:
        assert reads == pytest.approx(0.25, abs=0.005)
        assert height == pytest.approx(-1.392, abs=0.03)
    assert plan.tips[0][0] > plan.foot[0]  # the first finger points towards the base
    lower = plan.tips[0][1] - plan.foot[1]
    assert lower > 0.5 if form == "Y-bar" else 0.0 < lower < 0.3


@pytest.mark.reference("check-values B29: on a ball of 4 mm, 0.50 mm lie 1.936 mm below the line")
def test_a_wire_comes_out_of_its_socket_onto_the_tooth(sphere: Ground) -> None:
    asked = with_clasp(TOOTH, "wrought wire", (), ("mesial",))
    assert asked.clasp is not None
    assert (asked.clasp.undercut_mm, asked.clasp.width_mm) == (0.5, 1.0)
    way = wire_way(sphere, asked, asked.clasp)
    assert way.plan.reached_mm == pytest.approx(0.5, abs=0.01)
    assert way.under[-1, 2] == pytest.approx(-1.936, abs=0.05)
    off = sphere.scan.distance(way.axis)
    assert off.min() > 0.45  # half a wire: it does not sink into the tooth
    assert off[way.share > 0.6].max() < 0.6  # and lies on it where it holds
    assert np.all(off[way.share < 0] > 0.9)  # the socket's wall lies between
    steps = np.diff(way.axis, axis=0)
    steps /= np.linalg.norm(steps, axis=1, keepdims=True)
    turns = np.degrees(np.arccos(np.clip((steps[1:] * steps[:-1]).sum(axis=1), -1.0, 1.0)))
    assert turns.max() < 8.0  # in a step of 0.15 mm: no bend tighter than its own width


def test_fingers_keep_off_a_plate(sphere: Ground) -> None:
    clasp = default_clasp(TOOTH, "T-bar")
    free = finger_plan(sphere, Retainer(TOOTH, clasp=clasp), clasp, "distal")
    plated = finger_plan(sphere, Retainer(TOOTH, (), ("distal",), clasp), clasp, "distal")
    # 0.3 mm of the plate are its overlap, 1.6 mm are kept beside it
    edge = np.degrees(np.arcsin((plate_half_width(sphere.tooth(TOOTH)) - 0.3) / 4.0))
    apart = np.degrees(1.6 / 4.0)
    assert np.degrees(plated.tips[0][0]) <= 180.0 - edge - apart + 1.0
    assert plated.tips[0][0] < free.tips[0][0]


@pytest.mark.parametrize(
    ("retainer", "word"),
    [
        (with_clasp(37, "ring", BOTH, ("mesial",), "lingual"), None),
        (with_clasp(37, "ring", ("mesial occlusal",), ("mesial",), "lingual"), "no rest"),
        (with_clasp(45, "ring", BOTH, (), "lingual"), "cannot pass 46"),
        (with_clasp(37, "ring", BOTH, ("mesial", "distal"), "lingual"), "the plate on the distal"),
        (with_clasp(33, "ring", ("cingulum",)), "front tooth"),
        (with_clasp(37, "back-action", ("distal occlusal",)), None),
        (with_clasp(37, "back-action", ("distal occlusal",), (), "lingual"), "tongue side"),
        (with_clasp(34, "half-and-half", ("mesial occlusal",), ("distal",)), None),
        (with_clasp(34, "half-and-half", ("mesial occlusal",)), "distal side"),
        (with_clasp(34, "T-bar", ("mesial occlusal",), ("distal",)), None),
        (with_clasp(45, "T-bar", ("mesial occlusal",)), "no base beside"),
        (with_clasp(34, "Y-bar", (), (), "lingual"), "cheek side"),
        (with_clasp(37, "wrought wire", ("mesial occlusal",), ("mesial",)), None),
        (with_clasp(37, "wrought wire", ("mesial occlusal",)), "needs a plate"),
        (with_clasp(46, "embrasure", ("distal occlusal",), origin="distal"), "47, which has no"),
    ],
)
def test_a_form_says_what_its_tooth_lacks(
    toy_arch: Arch, retainer: Retainer, word: str | None
) -> None:
    arch = toy_arch("mandible", (35, 36, 38, 48))
    found = objections(arch, [retainer], retainer)
    if word is None:
        assert not found
    else:
        assert any(word in finding.text for finding in found)
        assert all(f.at_mm is not None and f.source for f in found)


def test_what_cannot_be_laid_is_left_off_under_a_stop(toy_arch: Arch, toy_survey: Surveyed) -> None:
    arch = toy_arch("mandible", (35, 36, 38, 48))
    good = with_clasp(37, "ring", BOTH, ("mesial",), "lingual")
    bad = with_clasp(45, "T-bar", ("mesial occlusal",))
    kept, findings = admitted(arch, toy_survey(arch), [bad, good])
    assert [r.clasp is not None for r in kept] == [False, True]
    assert [f.severity for f in findings] == ["stop"]


def test_the_two_teeth_of_an_embrasure_clasp_find_each_other() -> None:
    front = with_clasp(46, "embrasure", ("distal occlusal",), origin="distal")
    back = with_clasp(47, "embrasure", ("mesial occlusal",), origin="mesial")
    assert partner_of(front, [front, back]) is back and partner_of(back, [front, back]) is front
    turned = replace(back, clasp=replace(back.clasp or front.clasp, origin="distal"))  # type: ignore[type-var]
    assert partner_of(front, [front, turned]) is None
    # one strut carries both rests
    assert beamed_rests(back) == ("mesial occlusal",) and beamed_rests(front) == ()


def test_who_carries_the_second_rest_and_the_reciprocal_arm() -> None:
    ring = with_clasp(37, "ring", BOTH, ("mesial",), "lingual")
    assert beamed_rests(ring) == ()  # the plate one, the arm the other
    halves = with_clasp(34, "half-and-half", ("mesial occlusal",), ("distal",))
    assert reciprocal_origin(halves) == "mesial"
    plain = with_clasp(34, "circumferential", ("mesial occlusal",), ("distal",))
    assert reciprocal_origin(plain) == "distal"


@pytest.mark.parametrize(("deep", "named"), [(0.4, True), (0.1, False)])
def test_a_side_without_a_span_could_have_an_embrasure_clasp(
    toy_arch: Arch, toy_survey: Surveyed, deep: float, named: bool
) -> None:
    arch = toy_arch("mandible", (36, 37, 38, 48))
    survey = toy_survey(arch, lambda points: np.where(points[:, 2] < -0.5, deep, 0.0))
    clasped = Retainer(47, ("distal occlusal",), (), Clasp("circumferential"))
    found = alternatives(arch, survey, [clasped], areas_to_replace(arch, Wishes()), None)
    assert [f.rule for f in found] == (["proposal.alternative"] if named else [])


def test_a_framework_is_shown_with_its_wires_and_made_without_them() -> None:
    solid, wire = (box(np.zeros(3), np.full(3, size)) for size in (2.0, 1.0))
    design = Design((), default_connector("lingual bar"), ())
    bare = Framework(design, solid, None, ())  # type: ignore[arg-type]  # no model is asked for
    assert bare.shown is solid
    wired = replace(bare, wires=(Wire("clasp.35.buccal", 1.0, 12.0, wire),))
    assert len(wired.shown.faces) == len(solid.faces) + len(wire.faces)
    assert wired.solid is solid


def test_two_shapes_join_as_on_the_canvas() -> None:
    grid = Grid(IDENTITY, np.zeros(3), 0.25, (40, 32, 24))
    up = np.tile([0.0, 0.0, 1.0], (20, 1))
    sweeps = [
        oval_sweep(grid, line, up, np.full(20, 0.9), np.full(20, 0.8), 0.3)
        for line in (
            np.linspace([2.0, 4.0, 2.0], [8.0, 4.0, 2.0], 20),
            np.linspace([5.0, 2.0, 2.0], [5.0, 6.0, 2.5], 20),
        )
    ]
    one, two = Canvas(grid), Canvas(grid)
    for sweep in sweeps:
        one.add(sweep, 0.3)
    two.add(joined(grid, sweeps[0], sweeps[1], 0.3))
    near = np.minimum(one.values, two.values) < 0.25
    assert near.sum() > 300
    np.testing.assert_allclose(one.values[near], two.values[near], atol=2e-4)
