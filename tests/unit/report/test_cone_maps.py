"""Maps of the cone: levels, gaps, sameness."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from claspwright.report import as_png, as_svg, cone_maps, panels_of
from claspwright.report.cone_maps import _levels, _without_gaps
from claspwright.survey import Cone, PathChoice, PathScore, path_from_tilts, score_parts


def made_up() -> PathChoice:
    """A cone of 5 degrees whose points grow with the square of the tilt."""
    tilts = np.array([(a, b) for a in range(-5, 6) for b in range(-5, 6) if a * a + b * b <= 25])
    rows = len(score_parts())
    points = np.zeros((rows, len(tilts)))
    points[0] = 0.01 * (tilts**2).sum(axis=1)
    points[1] = 0.3
    cone = Cone(1.0, tilts.astype(float), points.sum(axis=0), points, points[:1], points[:1],
                points[:1])  # fmt: skip
    score = PathScore(path_from_tilts("maxilla"), 0.3, (0.2,), 0.0, 0.0, 0.0, 0.0,
                      points=tuple(points[:, 0]))  # fmt: skip
    return PathChoice(score.path, score, score, (score,), (), cone=cone)


@pytest.mark.parametrize(
    ("low", "high", "step"), [(0.0, 1.0, 0.2), (1.53, 6.4, 1.0), (0.011, 0.029, 0.002)]
)
def test_levels_are_round_and_lie_within(low: float, high: float, step: float) -> None:
    levels = _levels(low, high)
    assert np.diff(levels) == pytest.approx(step)
    assert levels / step == pytest.approx(np.round(levels / step))
    assert levels.min() >= low
    assert levels.max() <= high + 1e-9


def test_gaps_take_the_nearest_value() -> None:
    square = np.array([[np.nan, 1.0, np.nan], [2.0, 3.0, 4.0], [np.nan, np.nan, np.nan]])
    whole = _without_gaps(square)
    assert not np.isnan(whole).any()
    assert whole[1].tolist() == [2.0, 3.0, 4.0]
    assert whole[2].tolist() == [2.0, 3.0, 4.0]


def test_same_map_same_bytes_and_a_flat_part_is_said(monkeypatch: Any) -> None:
    choice = made_up()
    assert choice.cone is not None
    assert [panel.key for panel in panels_of(choice.cone)][0] == "all"
    wanted = [p for p in panels_of(choice.cone) if p.key in ("all", "guiding")]
    svg = as_svg(cone_maps(choice, wanted))
    assert svg == as_svg(cone_maps(choice, wanted))
    assert as_png(cone_maps(choice, wanted)) == as_png(cone_maps(choice, wanted))
    figure = cone_maps(choice, wanted)
    texts = [text.get_text() for at in figure.axes for text in at.texts]
    assert any("everywhere" in text for text in texts)
    assert any(text.replace(".", "").isdigit() for text in texts)  # contour lines carry figures


def test_a_dip_is_where_no_neighbour_is_lower() -> None:
    cone = made_up().cone
    assert cone is not None
    where = cone.tilts_deg[cone.dips()]
    assert where.tolist() == [[0.0, 0.0]]
    two = replace(cone, totals=np.where(cone.tilts_deg[:, 0] == 4, -1.0, cone.totals))
    assert len(two.tilts_deg[two.dips()]) > 1
