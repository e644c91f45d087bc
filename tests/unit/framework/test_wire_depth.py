"""How deep a wire goes where the sheet leaves it open."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from claspwright.framework.courses import Bench
from claspwright.framework.design import Retainer
from claspwright.framework.ground import Ground
from claspwright.framework.rulebook import default_clasp
from claspwright.framework.wire_depth import borne_undercut, settled_wires

TOOTH = 46
WIRED = Retainer(TOOTH, ("mesial occlusal",), ("mesial",), default_clasp(TOOTH, "wrought wire"))


@pytest.mark.reference("check-values E01: root stress 3 E c d / l^2 of a straight cantilever")
def test_a_wire_bears_as_much_as_a_straight_cantilever() -> None:
    depth = borne_undercut(12.0, 1.0)
    stress = 3 * 200_000 * 0.5 * depth / 12.0**2
    assert stress == pytest.approx(700.0)  # proof stress of drawn wire, at least
    assert borne_undercut(15.0, 0.8) > depth


def test_an_open_wire_goes_no_deeper_than_its_tooth_and_its_length_allow(
    sphere: Ground, ellipsoid_ground: Callable[..., Ground]
) -> None:
    tall, shallow = ellipsoid_ground(4.0, 4.0, 9.0), default_clasp(44, "wrought wire")
    cases = ((sphere, WIRED, "bend it for good"), (tall, replace(WIRED, clasp=shallow), "offers"))
    for ground, asked, why in cases:
        (kept,), found = settled_wires([asked], (TOOTH,), Bench(ground.arch, ground.survey))
        assert kept.clasp is not None and asked.clasp is not None
        assert kept.clasp.undercut_mm < asked.clasp.undercut_mm
        assert [f.rule for f in found] == ["proposal.wire_undercut"] and why in found[0].text
        assert found[0].measured == kept.clasp.undercut_mm


def test_a_wire_that_the_sheet_sets_stays(sphere: Ground) -> None:
    kept, found = settled_wires([WIRED], (), Bench(sphere.arch, sphere.survey))
    assert kept == [WIRED] and found == []
    assert settled_wires([WIRED], (TOOTH,), None) == ([WIRED], [])
