from __future__ import annotations

import numpy as np
import pytest

from claspwright.arch import DentalArch, MasterScan, Tooth
from claspwright.geometry import IDENTITY, Mesh, ball, merged, vertex_normals
from claspwright.survey import cast_shadow, read_gauge
from claspwright.survey.slits import narrow_places

UP = np.array([0.0, 0.0, 1.0])


def two_crowns(gap: float) -> DentalArch:
    """Two balls of 4 mm beside each other; only what the gauge needs of an arch."""
    one = ball(4.0, 0.2)
    both = merged(one, Mesh(one.vertices + [8.0 + gap, 0.0, 0.0], one.faces))
    crown = np.repeat([45, 46], len(one.faces)).astype(np.int32)
    side = np.array([1.0, 0.0, 0.0])
    teeth = {
        code: Tooth(
            code, at, np.flatnonzero(crown == code), np.zeros((0, 3)), at, side, side, 8, 8, 7
        )
        for code, at in ((45, np.zeros(3)), (46, np.array([8.0 + gap, 0.0, 0.0])))
    }
    return DentalArch(MasterScan("mandible", both, both, IDENTITY, 0.2), teeth, (), crown)


@pytest.mark.parametrize(("gap", "told"), [(0.04, True), (0.5, False)])
def test_a_slit_between_crowns_is_told_with_its_place(gap: float, told: bool) -> None:
    arch = two_crowns(gap)
    surface = arch.scan.surface
    read = read_gauge(cast_shadow(surface, UP), surface.vertices, vertex_normals(surface))
    found = narrow_places(arch, read.narrow, read.undercut_mm)
    assert bool(found) == told
    for finding in found:
        assert finding.rule == "survey.narrow_way"
        assert "45" in finding.text
        assert "46" in finding.text
        assert finding.at_mm is not None
        assert abs(finding.at_mm[0] - 4.0) < 1.0
        assert abs(finding.at_mm[1]) < 1.0
