"""Sections that the plane only grazes do not count; a thin arm stays thin."""

from __future__ import annotations

import numpy as np
import pytest
from shapely.geometry import box

from claspwright.framework import Component
from claspwright.materials import materials, wires
from claspwright.mechanics.on_tooth import CutArm, _without_slivers, alloy_of
from claspwright.mechanics.space_beam import Elastic, respond


def test_a_grazed_tip_takes_its_neighbours_section() -> None:
    full, sliver = box(-0.5, 0.0, 0.5, 0.8), box(-0.1, 0.0, 0.1, 0.2)
    laid = np.full(7, 0.8)
    nick = _without_slivers([full, full, sliver, full, full, full, sliver], laid)
    assert all(section.equals(full) for section in nick)
    thin = [full, full, sliver, sliver, sliver, sliver, full]
    assert _without_slivers(thin, laid) == thin
    assert _without_slivers([sliver] * 7, laid) == [sliver] * 7


@pytest.mark.reference("check-values E01, E04: F = 3 E I d / L^3 with I = pi d^4 / 64 of a circle")
def test_a_wire_springs_as_a_round_cantilever_of_its_own_alloy() -> None:
    line = np.column_stack([np.linspace(0.0, 12.0, 61), np.zeros(61), np.zeros(61)])
    size = np.full(61, 1.0)
    wire = Component("clasp.35.buccal", "retentive arm", line, size, size, 35, {"wire_mm": 1.0})
    printed = materials()["cocr-lpbf-stress-relieved"]
    alloy = alloy_of(wire, printed)
    assert alloy is wires()["cocr-wire"]
    plain = Component("clasp.36.buccal", "retentive arm", line, size, size, 36)
    assert alloy_of(plain, printed) is printed
    off = np.tile([0.0, 1.0, 0.0], (61, 1))
    elastic = Elastic(alloy.modulus.nominal, alloy.poisson.nominal)
    beam = CutArm(wire, line, off, (), 0.0).beam(finish_mm=0.15)  # no finishing thins a wire
    tip = np.array([len(beam.line) - 1])
    found = float(respond(beam, tip, np.array([[0.0, 1.0, 0.0]]), elastic).compliance[0, 0])
    assert found == pytest.approx(12.0**3 / (3 * elastic.modulus * np.pi / 64), rel=0.01)
