from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from claspwright.arch import DentalArch
from claspwright.base import InputError
from claspwright.geometry import Rigid
from claspwright.survey import PathChoice, Zone, path_from_tilts, score_parts, search_path
from claspwright.survey.judge import deepest
from claspwright.survey.zones import clasp_zone, covered_tissue, proximal_faces

ZONES: tuple[Zone, ...] = ((45, "buccal", 0.2), (47, "lingual", 0.2))


@pytest.fixture(scope="module")
def choice(balls: DentalArch) -> PathChoice:
    return search_path(balls, ZONES)


def test_round_crowns_need_no_tilt(choice: PathChoice) -> None:
    assert choice.path.direction == pytest.approx([0, 0, 1])
    assert [f.rule for f in choice.findings] == ["path.search", "path.guiding", "path.guiding"]
    assert choice.score is choice.untilted


def test_the_cone_is_whole(choice: PathChoice) -> None:
    assert choice.cone is not None
    assert len(choice.cone.totals) == 1257  # whole degrees within 20 of the middle
    ticks, square = choice.cone.square(choice.cone.totals)
    assert square.shape == (41, 41)
    assert square[20, 20] == choice.untilted.total
    assert np.isnan(square[0, 0])
    where = ticks.tolist().index(5.0), ticks.tolist().index(-3.0)
    tried = {(s.path.anterior_tilt_deg, s.path.right_lateral_tilt_deg): s for s in choice.tried}
    assert square[where] == tried[(5.0, -3.0)].total  # rows: anterior, columns: right lateral


def test_points_add_up_and_the_table_tells_its_sources(choice: PathChoice) -> None:
    rows = score_parts()
    assert all(row.points > 0 and row.source and row.title for row in rows)
    for score in (choice.score, *choice.tried[::100]):
        assert score.total == pytest.approx(sum(score.points))
        beyond = dict(zip((row.key for row in rows), score.points, strict=True))["beyond"]
        assert (beyond > 0) == (score.tilt_deg > 10)


def test_second_best_is_another_path(choice: PathChoice) -> None:
    assert choice.second is not None
    way = choice.second.path.direction
    assert way @ choice.path.direction <= np.cos(np.radians(5.0)) + 1e-12
    assert choice.second.total >= choice.score.total
    assert any("Second best" in reason for reason in choice.reasons)


def test_a_named_path_is_taken_and_held_against_the_best(balls: DentalArch) -> None:
    named = path_from_tilts("mandible", 12.3, 0.0)
    found = search_path(balls, ZONES, named=named)
    assert found.path is named
    assert found.score.tilt_deg == pytest.approx(12.3)
    assert found.second is not None
    assert found.second.total < found.score.total
    assert any("12.3 degrees, more than the usual 10" in reason for reason in found.reasons)


def test_undercut_that_the_tilt_alone_wins_does_not_count(choice: PathChoice) -> None:
    """On a ball any tilt deepens one side; what counts is the lesser of the two."""
    reach = choice.untilted.undercut_mm
    assert min(reach) > 0.2
    for score in choice.tried:
        assert all(now <= zero + 1e-9 for now, zero in zip(score.undercut_mm, reach, strict=True))


def test_what_no_path_gives_is_said(balls: DentalArch) -> None:
    found = search_path(balls, ((45, "buccal", 1.5),))
    short = [f for f in found.findings if f.rule == "path.undercut"]
    assert len(short) == 1
    assert short[0].component == "clasp.45.buccal"
    assert "no path gives it" in short[0].text
    assert short[0].at_mm is not None
    assert short[0].at_mm[1] > 1.0


def test_a_leaning_arch_is_judged_as_an_upright_one_along_its_own_axis(balls: DentalArch) -> None:
    turn = np.radians(6.0)
    rigid = Rigid(
        np.array([[np.cos(turn), 0, np.sin(turn)], [0, 1, 0], [-np.sin(turn), 0, np.cos(turn)]]),
        np.zeros(3),
    )
    scan = replace(
        balls.scan, surface=balls.scan.surface.moved(rigid), solid=balls.scan.solid.moved(rigid)
    )
    teeth = {
        code: replace(t, centre=rigid.apply(t.centre), margin=rigid.apply(t.margin))
        for code, t in balls.teeth.items()
    }
    spans = tuple(replace(s, crest=rigid.apply(s.crest)) for s in balls.spans)
    leaning = replace(balls, scan=scan, teeth=teeth, spans=spans)
    choice = search_path(leaning, ())
    aligned = max(choice.tried, key=lambda s: float(s.path.direction @ rigid.rotation[:, 2]))
    assert aligned.path.direction @ rigid.rotation[:, 2] > np.cos(np.radians(1.0))
    assert aligned.tissue_mm3 == pytest.approx(search_path(balls, ()).untilted.tissue_mm3, rel=0.1)


def test_unknown_tooth_is_refused(balls: DentalArch) -> None:
    with pytest.raises(InputError, match="no tooth 36"):
        search_path(balls, ((36, "buccal", 0.25),))


def test_deepest_needs_room_for_a_tip() -> None:
    depth, areas = np.array([[0.9], [0.3], [0.2]]), np.array([0.1, 0.35, 5.0])
    assert deepest(depth, areas)[0] == pytest.approx(0.3, abs=1e-4)
    assert deepest(depth, 0.001 * areas)[0] == 0.0
    assert deepest(depth[:0], areas[:0])[0] == 0.0


def test_zones_lie_where_they_should(balls: DentalArch) -> None:
    buccal = clasp_zone(balls, 45, "buccal")
    assert (buccal.points[:, 1] > 0).all()
    assert (buccal.points[:, 2] > -2.5 + 0.9).all()
    faces = proximal_faces(balls)
    assert [(face.tooth, face.free_end) for face in faces] == [(47, False), (45, False)]
    spots = [face.spot for face in faces]
    assert [np.sign(s.points[:, 0].mean()) for s in spots] == [-1, 1]
    assert np.abs(spots[1].points[:, 0]).max() < 8.0  # the side of 45 towards the span
    tissue = covered_tissue(balls)
    assert (tissue.points[:, 2] < -2.2).all()
    assert tissue.areas.sum() > 100
