"""The courses that a clasp could take, on crowns with a closed form."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np
import pytest

from claspwright.arch import DentalArch, Jaw
from claspwright.framework.arm_plans import STOPS_DEG, arm_start, plate_half_width, retentive_plan
from claspwright.framework.arm_ways import arm_way
from claspwright.framework.bar_clasp import bar_section, bar_tip
from claspwright.framework.chart import crown_chart
from claspwright.framework.clasp_choice import ClaspChoice, chosen_clasp
from claspwright.framework.courses import KEEP, Bench, Course, bench_for, courses_of
from claspwright.framework.design import Clasp, End, Reason, RestForm, Retainer
from claspwright.framework.ground import Ground
from claspwright.framework.proposal import plan_design
from claspwright.framework.rescue import rescued_sides
from claspwright.framework.roof import roof_over
from claspwright.framework.wishes import Wishes
from claspwright.geometry import box
from claspwright.survey import Survey, gauge

TOOTH = 46
PLATED = Retainer(TOOTH, ("mesial occlusal",), ("mesial",))
BUCCAL = [("circumferential", "buccal", None)]
Arch = Callable[[Jaw, Sequence[int]], DentalArch]
Surveyed = Callable[..., Survey]


def tried(ground: Ground, retainer: Retainer = PLATED) -> dict[float, Course]:
    """Courses of a buccal arm by their undercut."""
    bench = Bench(ground.arch, ground.survey)
    found = courses_of(ground.arch, ground.survey, bench, retainer, BUCCAL)  # type: ignore[arg-type]
    return {course.clasp.undercut_mm: course for course in found}


@pytest.mark.reference("check-values B29: on a ball of 4 mm, 0.25 mm lie 1.392 mm below the line")
def test_a_course_ends_where_the_gauge_reads_what_it_prescribes(sphere: Ground) -> None:
    for depth, course in tried(sphere).items():
        assert course.reaches and course.offers_mm == pytest.approx(depth, abs=0.01)
        reads = gauge(sphere.survey, course.at[None]).undercut_mm[0]
        assert reads == pytest.approx(depth, abs=0.02)
    assert tried(sphere)[0.25].at[2] == pytest.approx(-1.392, abs=0.06)


def test_no_course_reaches_on_a_tooth_without_that_undercut(
    ellipsoid_ground: Callable[..., Ground],
) -> None:
    tall = ellipsoid_ground(4.0, 4.0, 9.0)
    assert not any(course.reaches for course in tried(tall).values())
    choice = chosen_clasp(
        tall.arch, tall.survey, PLATED, ("circumferential",), bench_for(tall.arch, tall.survey)
    )
    assert choice.clasp is None
    assert {f.rule for f in choice.findings} == {"proposal.no_undercut"}


def test_a_longer_arm_bears_more_metal(ellipsoid_ground: Callable[..., Ground]) -> None:
    small, large = ellipsoid_ground(4.0, 4.0, 4.0), ellipsoid_ground(5.2, 5.2, 4.4)
    short, long = tried(small)[0.25], tried(large)[0.25]
    assert long.length_mm > short.length_mm + 1.5
    assert long.clasp.thickness_mm >= short.clasp.thickness_mm
    assert long.sound and long.strain < 1.0
    assert short.strain / long.strain > 1.0 or short.clasp.thickness_mm < 1.0


def test_an_arm_springs_from_the_edge_of_its_plate(sphere: Ground) -> None:
    chart, tooth = sphere.charts[TOOTH], sphere.tooth(TOOTH)
    start = arm_start(chart, tooth, "mesial", "buccal", ("mesial",))
    edge = np.degrees(np.arcsin((plate_half_width(tooth) - 0.3) / 4.0))
    assert start.taper_deg == pytest.approx(edge, abs=1.5)
    assert start.joint_deg < start.taper_deg and start.stop_deg == 0.0
    bare = arm_start(chart, tooth, "mesial", "buccal", ())
    assert bare.joint_deg == bare.taper_deg


@pytest.mark.parametrize("plates", [(), ("distal",)])
def test_a_tip_keeps_off_a_plate_at_the_far_end(sphere: Ground, plates: tuple[str, ...]) -> None:
    chart = sphere.charts[TOOTH]
    retainer = Retainer(TOOTH, (), plates)  # type: ignore[arg-type]
    way = arm_way(sphere, retainer, "mesial", "buccal")
    clasp = Clasp("circumferential", "buccal", 0.25)
    plan = retentive_plan(sphere, chart, "mesial", "buccal", clasp, way.start)
    tip = chart.points(plan.angle[-1:], plan.height[-1:])[0]
    from_plate = tip[1] - plate_half_width(sphere.tooth(TOOTH))  # buccal of the plate's edge
    if plates:
        assert way.start.stop_deg > STOPS_DEG[0] and from_plate > 0.6
    else:
        assert way.start.stop_deg == 0.0 and from_plate < 0.6


def test_the_opposing_teeth_press_an_arm_down_or_leave_it_no_room(sphere: Ground) -> None:
    free = tried(sphere)[0.25]
    assert free.kept == 1.0
    low = box(np.array([-8.0, 0.5, 1.4]), np.array([8.0, 8.0, 6.0]))  # over the buccal side
    pressed = replace(sphere, arch=replace(sphere.arch, opposing=low))
    scan, blocked = sphere.scan, sphere.blocked
    roof = roof_over(pressed.arch, sphere.grid)
    chart = crown_chart(pressed.arch, pressed.tooth(TOOTH), scan, blocked, roof)
    assert chart.roofed.min() == pytest.approx(1.3, abs=0.02)  # a tenth is kept
    assert sphere.charts[TOOTH].roofed.min() > 1.5
    closed = box(np.array([-8.0, -8.0, -0.6]), np.array([8.0, 8.0, 6.0]))
    shut = replace(sphere, arch=replace(sphere.arch, opposing=closed))
    assert tried(shut)[0.25].kept < 0.75
    choice = chosen_clasp(
        shut.arch, shut.survey, PLATED, ("circumferential",), Bench(shut.arch, shut.survey)
    )
    assert choice.clasp is None
    assert {f.rule for f in choice.findings} == {"proposal.no_room"}


def test_an_arm_under_a_low_bite_is_made_narrower_as_far_as_that_helps(
    ellipsoid_ground: Callable[..., Ground],
) -> None:
    ground = ellipsoid_ground(5.2, 5.2, 4.4)

    def under(height: float) -> Course:
        bite = box(np.array([-8.0, 0.5, height]), np.array([8.0, 8.0, 6.0]))
        return tried(replace(ground, arch=replace(ground.arch, opposing=bite)))[0.25]

    free, low, shut = under(0.4), under(0.2), under(0.0)
    assert free.clasp.width_mm == 1.6 and free.kept > KEEP
    assert 1.4 <= low.clasp.width_mm < 1.6 and low.kept >= KEEP and low.sound
    assert shut.kept < KEEP and not shut.sound
    assert shut.clasp == replace(free.clasp, undercut_mm=shut.clasp.undercut_mm)


@pytest.mark.parametrize(("sound", "kept"), [(False, {17}), (True, {15, 17})])
def test_a_clasp_that_would_be_bent_is_taken_off_where_another_holds(
    toy_arch: Arch, toy_survey: Surveyed, sound: bool, kept: set[int]
) -> None:
    arch = toy_arch("maxilla", (16, 26, 18, 28))
    planned = [r for r in plan_design(arch, Wishes(), {}).retainers if r.tooth in (15, 17)]
    why = Reason("clasp", "a clasp", "common practice, no source")
    choices = {r.tooth: ClaspChoice(r.clasp, why) for r in planned}
    choices[15] = replace(choices[15], sound=sound)
    found = rescued_sides(arch, toy_survey(arch), planned, planned, Wishes(), choices, None)
    assert {r.tooth for r in found.retainers if r.clasp} == kept
    said = {f.rule for choice in found.choices for f in choice.findings}
    assert ("proposal.stiff_clasp" in said) is not sound


@pytest.mark.parametrize(
    ("plates", "rests"),
    [((), ("distal occlusal",)), (("mesial",), ("mesial occlusal", "distal occlusal"))],
)
def test_a_tooth_that_holds_no_arm_as_planned_is_tried_from_its_other_end(
    sphere: Ground, plates: tuple[End, ...], rests: tuple[RestForm, ...]
) -> None:
    clasp = Clasp("circumferential", "buccal", 0.25)
    planned = Retainer(TOOTH, ("mesial occlusal",), plates, clasp)
    lost = replace(planned, clasp=None)
    choices = {TOOTH: ClaspChoice(None, Reason("clasp", "no clasp", "common practice, no source"))}
    bench = Bench(sphere.arch, sphere.survey)
    for wishes, held in ((Wishes(), True), (Wishes(retainers=(planned,)), False)):
        found = rescued_sides(sphere.arch, sphere.survey, [planned], [lost], wishes, choices, bench)
        (retainer,) = found.retainers
        assert (retainer.clasp is not None) is held
        assert retainer.rests == (rests if held else planned.rests)
        assert bool(found.choices) is not held  # "no clasp" is not said of a tooth that has one


@pytest.mark.reference("check-values B29: on a ball of 4 mm, 0.25 mm lie 1.392 mm below the line")
@pytest.mark.parametrize(("gap", "side"), [("distal", 1.0), ("mesial", -1.0)])
def test_a_bar_ends_away_from_its_base_at_its_undercut(
    sphere: Ground, gap: str, side: float
) -> None:
    clasp = Clasp("I-bar", "buccal", 0.25)
    angle, height, reading = bar_tip(sphere, sphere.charts[TOOTH], clasp, gap)  # type: ignore[arg-type]
    assert reading == pytest.approx(0.25, abs=0.005)
    assert height == pytest.approx(-1.392, abs=0.03)
    assert np.degrees(angle) == pytest.approx(90.0 - side * 12.0)


def test_a_bar_tapers_in_thickness_and_ends_no_wider_than_it_begins() -> None:
    half, thick = bar_section(Clasp("I-bar", "buccal", 0.25, 1.8, 1.1), np.linspace(0, 1, 21))
    assert np.all(np.diff(thick) <= 0) and thick[-1] == pytest.approx(0.55)
    assert np.all(np.diff(half) <= 0) and half[-1] == pytest.approx(0.875)
