from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from claspwright.arch import DentalArch
from claspwright.base import InputError
from claspwright.geometry import Rigid
from claspwright.survey import PathChoice, search_path
from claspwright.survey.search import deepest
from claspwright.survey.zones import clasp_zone, covered_tissue, proximal_zones

ZONES = ((45, "buccal", 0.2), (47, "lingual", 0.2))


@pytest.fixture(scope="module")
def choice(balls: DentalArch) -> PathChoice:
    return search_path(balls, ZONES)


def test_round_crowns_need_no_tilt(choice: PathChoice) -> None:
    assert choice.path.direction == pytest.approx([0, 0, 1])
    assert [f.rule for f in choice.findings] == ["path.search"]
    assert choice.score is choice.untilted
    assert len(choice.tried) > 60


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
    depth, areas = np.array([0.9, 0.3, 0.2]), np.array([0.1, 0.35, 5.0])
    assert deepest(depth, areas) == 0.3
    assert deepest(depth, 0.001 * areas) == 0.0
    assert deepest(depth[:0], areas[:0]) == 0.0


def test_zones_lie_where_they_should(balls: DentalArch) -> None:
    buccal = clasp_zone(balls, 45, "buccal")
    assert (buccal.points[:, 1] > 0).all()
    assert (buccal.points[:, 2] > -2.5 + 0.9).all()
    spots = proximal_zones(balls)
    assert [np.sign(s.points[:, 0].mean()) for s in spots] == [-1, 1]
    assert np.abs(spots[1].points[:, 0]).max() < 8.0  # the side of 45 towards the span
    tissue = covered_tissue(balls)
    assert (tissue.points[:, 2] < -2.4).all()
    assert tissue.areas.sum() > 100
