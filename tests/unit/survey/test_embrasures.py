"""Embrasures that nothing crosses are proposed and filled; the crowns stay as they are."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from claspwright.arch import DentalArch
from claspwright.geometry import DistanceTree, check_solid, signed_distance
from claspwright.survey import (
    BlockedOut,
    Patch,
    block_out,
    faces_by_body,
    open_embrasures,
    path_from_tilts,
    survey,
    with_fills,
)


@pytest.fixture(scope="module")
def neighbours(balls: DentalArch) -> DentalArch:
    """The two balls as neighbours, their margins brought to one another between them."""
    near = {}
    for code, new, towards in ((45, 45, -1.0), (47, 46, 1.0)):
        tooth = balls.teeth[code]
        margin = tooth.margin.copy()
        side = (margin[:, 0] - tooth.centre[0]) * towards > 2.0
        side &= np.abs(margin[:, 1]) > 1.2  # they touch in between
        margin[side, 0] = 0.6 * -towards
        near[new] = replace(tooth, code=new, margin=margin)
    return replace(balls, teeth=near, spans=())


@pytest.fixture(scope="module")
def blocked(balls: DentalArch) -> BlockedOut:
    return block_out(balls, survey(balls, path_from_tilts("mandible"), spacing_mm=0.25))


def test_embrasures_without_metal_are_named(neighbours: DentalArch) -> None:
    found = open_embrasures(neighbours, np.empty((0, 3)))
    assert {patch.name for patch in found} == {"46-45.buccal", "46-45.lingual"}
    for patch in found:
        assert abs(patch.at[0]) < 1.0
        assert patch.at[1] * (1 if patch.name.endswith("buccal") else -1) > 0


def test_metal_near_an_embrasure_keeps_it_open(neighbours: DentalArch) -> None:
    bar = np.column_stack([np.linspace(-6, 6, 60), np.full(60, -2.0), np.full(60, -2.3)])
    assert {patch.name for patch in open_embrasures(neighbours, bar)} == {"46-45.buccal"}


def test_fills_are_bodies_of_the_model_and_crowns_stay_bare(
    balls: DentalArch, blocked: BlockedOut
) -> None:
    model = with_fills(blocked, (Patch("foot", (8.0, 4.3, -2.5), 1.8),))
    assert check_solid(model.model).sound
    body = model.bodies[-1]
    assert (body.name, body.kind) == ("fill.foot", "fill")
    assert 0.05 < body.volume_mm3 < 10.0
    gained = signed_distance(DistanceTree(model.model), blocked.model.vertices)
    assert gained.max() < 0.01  # nothing was taken away
    tops = balls.scan.surface.vertices
    tops = tops[tops[:, 2] > 2.0]
    assert np.abs(signed_distance(DistanceTree(model.model), tops)).max() < 1e-6
    owner = faces_by_body(model, DistanceTree(balls.scan.solid))
    assert (owner == len(model.bodies) - 1).any()
    assert with_fills(blocked, ()) is blocked
