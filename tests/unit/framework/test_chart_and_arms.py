"""Crowns with a closed form, and the arms that are laid on them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from claspwright.framework.arm_plans import ArmStart, bears, rigid_plan, tip_height
from claspwright.framework.arms import (
    PAST_DEPTH,
    _not_past,
    circumferential_arm,
    reciprocal_arm,
)
from claspwright.framework.chart import ANGLES
from claspwright.framework.design import Clasp
from claspwright.framework.ground import Ground, Piece, within_undercut
from claspwright.framework.stray_margin import bridged, stray_angles, stray_finding
from claspwright.geometry import arc_lengths, point_at
from claspwright.survey import gauge

TOOTH, TISSUE = 46, -3.2
START = ArmStart(30.0, 30.0)
TURN = 2 * np.pi * np.arange(ANGLES) / ANGLES


@pytest.mark.parametrize("axes", [(4.0, 4.0, 4.0), (4.6, 3.6, 4.2)])
def test_the_chart_reads_an_ellipsoid(
    ellipsoid_ground: Callable[..., Ground], axes: tuple[float, float, float]
) -> None:
    a, b, c = axes
    chart = ellipsoid_ground(*axes).charts[TOOTH]
    free = 1 / np.sqrt((np.cos(TURN) / a) ** 2 + (np.sin(TURN) / b) ** 2)
    seen = (chart.heights > TISSUE + 0.3) & (chart.heights < 0.8 * c)
    z = chart.heights[seen]
    # the axis of a chart is the middle of the crown's points: zero here
    assert np.abs(chart.centre[:2]).max() < 0.02
    radius = free[:, None] * np.sqrt(1 - (z / c) ** 2)
    assert np.abs(chart.radius[:, seen] - radius).max() < 0.02
    undercut = np.where(z < 0, free[:, None] - radius, 0.0)
    assert np.abs(chart.undercut[:, seen] - undercut).max() < 0.02
    assert np.abs(chart.margin - TISSUE).max() < 0.02
    # the survey line counts from an undercut of 0.015 mm on
    reads = free * (1 - np.sqrt(1 - (chart.contour / c) ** 2))
    assert reads.max() < 0.02 and chart.contour.max() < 0.05
    spots = chart.points(TURN, np.full(ANGLES, -1.0))
    on = ((spots - [*chart.centre[:2], 0]) ** 2 / np.array(axes) ** 2).sum(axis=1)
    assert np.abs(on - 1).max() < 0.02


def test_a_fossa_is_not_the_way_out_of_a_crown(ellipsoid_ground: Callable[..., Ground]) -> None:
    chart = ellipsoid_ground(4.0, 4.0, 4.0, pit_mm=1.2).charts[TOOTH]
    seen = (chart.heights > 2.5) & (chart.heights < 3.25)  # the pit is up to 0.9 mm wide there
    radius = np.sqrt(16 - chart.heights[seen] ** 2)
    assert np.abs(chart.radius[:, seen] - radius).max() < 0.02


@pytest.mark.reference("check-values B29, W2: on a ball of 4 mm, 1.392 / 1.936 mm below the line")
@pytest.mark.parametrize(("wanted", "below"), [(0.25, 1.392), (0.5, 1.936)])
def test_the_tip_lies_where_the_gauge_reads_the_prescription(
    sphere: Ground, wanted: float, below: float
) -> None:
    for angle in (0.4, 1.3, 2.9, 4.0):
        height, reading = tip_height(sphere, sphere.charts[TOOTH], angle, wanted, 0.2)
        assert reading == pytest.approx(wanted, abs=0.005)
        assert height == pytest.approx(-below, abs=0.02)


def test_a_tooth_without_that_undercut_gives_what_it_has(sphere: Ground) -> None:
    height, reading = tip_height(sphere, sphere.charts[TOOTH], 1.3, 2.0, 0.4)
    assert reading < 2.0
    spot = sphere.charts[TOOTH].points(np.array([1.3]), np.array([height]))
    away = np.linalg.norm(sphere.charts[TOOTH].rim - spot, axis=1).min()
    assert away >= 0.9 - 0.05  # half the tip and the least clearance


@pytest.mark.parametrize(("origin", "side"), [("mesial", "buccal"), ("distal", "lingual")])
def test_a_retentive_arm_on_a_ball(sphere: Ground, origin: str, side: str) -> None:
    clasp = Clasp("circumferential", side, 0.25)  # type: ignore[arg-type]
    piece = circumferential_arm(
        sphere, TOOTH, clasp, origin, np.zeros((0, 3)), START  # type: ignore[arg-type]
    )  # fmt: skip
    line = piece.component.line
    assert np.abs(np.linalg.norm(line, axis=1) - 4.0).max() < 0.02  # on the tooth all along
    assert line[-1, 2] == pytest.approx(-1.392, abs=0.06)
    assert gauge(sphere.survey, line[-1:]).undercut_mm[0] == pytest.approx(0.25, abs=0.03)
    share = arc_lengths(line) / arc_lengths(line)[-1]
    assert line[share < 0.6, 2].min() > -0.35  # above the survey line before the last third
    assert np.sign(line[len(line) // 2, 1]) == (1 if side == "buccal" else -1)
    assert (line[0, 0] > 0) == (origin == "mesial")
    width, thick = piece.component.width_mm, piece.component.thickness_mm
    assert np.all(np.diff(width) <= 1e-9) and width[-1] == pytest.approx(width[0] / 2, rel=0.02)
    assert np.all(np.diff(thick) <= 1e-9)
    assert piece.findings == ()
    # the metal stands off the tooth by its thickness half way
    at = point_at(line, 0.5 * arc_lengths(line)[-1])
    n = int(np.argmin(np.linalg.norm(line - at, axis=1)))
    out = at / np.linalg.norm(at)
    reach = np.arange(0.1, 2.0, 0.02)
    nodes = (at + reach[:, None] * out - piece.shape.box.low) / sphere.grid.spacing
    index = np.rint(nodes).astype(int)
    values = piece.shape.values[tuple(index.T)]
    assert reach[values < 0].max() == pytest.approx(thick[n], abs=sphere.grid.spacing)


def test_the_tip_zone_goes_no_deeper_than_the_tip(sphere: Ground) -> None:
    clasp = Clasp("circumferential", "buccal", 0.25)
    piece = circumferential_arm(sphere, TOOTH, clasp, "mesial", np.zeros((0, 3)), START)
    assert piece.tip is not None
    blocked = sphere.blocked.field.values[piece.tip.box.slices]
    assert -blocked[piece.tip.values < 0].min() <= 0.35 + 1e-4
    deeper = within_undercut(sphere, piece.tip, 0.0)
    assert (deeper.values < 0).sum() < (piece.tip.values < 0).sum()


def test_a_shallow_tooth_is_named(ellipsoid_ground: Callable[..., Ground]) -> None:
    tall = ellipsoid_ground(4.0, 4.0, 9.0)
    clasp = Clasp("circumferential", "buccal", 0.5)
    piece = circumferential_arm(tall, TOOTH, clasp, "mesial", np.zeros((0, 3)), START)
    (finding,) = piece.findings
    assert finding.rule == "clasp.undercut_available" and finding.severity == "look"
    assert finding.component == piece.component.id and finding.limit == 0.5
    most = 4 * (1 - np.sqrt(1 - ((TISSUE + 0.9) / 9) ** 2))  # half the tip, least clearance
    assert finding.measured == pytest.approx(most, abs=0.03)


def test_the_reciprocal_arm_stays_above_the_survey_line(sphere: Ground) -> None:
    clasp = Clasp("circumferential", "buccal", 0.25)
    piece = reciprocal_arm(sphere, TOOTH, clasp, "mesial", np.zeros((0, 3)), START)
    assert isinstance(piece, Piece)
    line = piece.component.line
    assert line[:, 2].min() > -0.35 and (line[5:-5, 1] < 0).all()
    assert np.abs(np.linalg.norm(line, axis=1) - 4.0).max() < 0.03
    assert piece.tip is None


@pytest.mark.parametrize("wall", [3.0, 2.4, 2.0, 1.4])
def test_a_reciprocal_arm_keeps_below_the_edge_of_the_crown(sphere: Ground, wall: float) -> None:
    chart = sphere.charts[TOOTH]
    low = replace(chart, top=chart.contour + wall)
    plan = rigid_plan(low, "mesial", "lingual", 0.9, START)
    upper = plan.height + plan.half_mm
    on_wall = np.degrees(np.abs(plan.angle)) > 31.0
    assert np.all(upper[on_wall] <= low.look_up(low.top, plan.angle)[on_wall] - 0.5 + 1e-6)
    assert np.all(plan.height[on_wall] >= low.look_up(low.contour, plan.angle)[on_wall] - 1e-6)
    assert bears(plan) and plan.half_mm == pytest.approx(0.9 if wall > 2.3 else 0.7, abs=0.11)


def test_without_a_wall_the_reciprocal_arm_is_left_off_and_named(sphere: Ground) -> None:
    chart = sphere.charts[TOOTH]
    flat = replace(sphere, charts={TOOTH: replace(chart, top=chart.contour + 0.9)})
    clasp = Clasp("circumferential", "buccal", 0.25)
    finding = reciprocal_arm(flat, TOOTH, clasp, "mesial", np.zeros((0, 3)), START)
    assert not isinstance(finding, Piece)
    assert finding.rule == "clasp.reciprocal" and finding.severity == "look"
    assert "lingual wall" in finding.text and finding.measured == 0


def test_a_border_over_the_crown_is_found_and_bridged(sphere: Ground) -> None:
    chart = sphere.charts[TOOTH]
    sound = np.full(ANGLES, 4.0 * np.sqrt(1 - (TISSUE / 4) ** 2))
    assert not stray_angles(chart.radius, chart.heights, chart.margin, sound).any()
    here = slice(90, 120)  # on the tongue side the border climbs to 1.5 mm above the widest part
    margin, mark = chart.margin.copy(), sound.copy()
    margin[here], mark[here] = 1.5, 2.5
    stray = stray_angles(chart.radius, chart.heights, margin, mark)
    assert stray[here].all() and stray.sum() <= 30 + 20
    assert np.abs(bridged(margin, stray) - TISSUE).max() < 0.02
    finding = stray_finding(sphere.tooth(TOOTH), stray)
    assert finding.rule == "tooth.margin_astray" and "lingual side" in finding.text


def test_an_arm_that_ran_past_its_depth_is_ended_where_it_reads_it(sphere: Ground) -> None:
    """On a ball the reading grows down the wall; what reads no deeper is left as it is."""
    turn = np.radians(np.linspace(0.0, 25.0, 12))  # below the survey line of a ball of 4 mm
    down = 4.0 * np.column_stack([0.0 * turn, np.cos(turn), -np.sin(turn)])
    line = sphere.here(down)
    ended = _not_past(sphere, line, 0.25)
    assert float(sphere.undercut(ended[-1:])[0]) == pytest.approx(0.25, abs=0.01)
    assert len(ended) < len(line)
    deepest = float(sphere.undercut(line[-1:])[0])
    assert _not_past(sphere, line, deepest - 0.5 * PAST_DEPTH) is line
    assert _not_past(sphere, line, 0.0) is line
