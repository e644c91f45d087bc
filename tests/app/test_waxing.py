"""What the sheet asks of blockout, laid in the arch and under the arms."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.app.waxing import wax_in_arch, waxed
from claspwright.arch import DentalArch, MasterScan, Tooth
from claspwright.framework import Component, Design, Framework, MajorConnector
from claspwright.geometry import IDENTITY, Rigid, ball, box, check_solid, union
from claspwright.survey import NO_WAX, Patch, Wax, block_out, path_from_tilts, survey


@pytest.fixture(scope="module")
def worked() -> tuple[Framework, DentalArch]:
    """A ball on a block with an arm along its equator that begins on the block."""
    solid = union(box(np.array([-7.0, -7, -6]), np.array([7.0, 7, -2.5])), ball(4.0, 0.4))
    middle = solid.corners.mean(axis=1)
    crown = np.where(middle[:, 2] > -2.45, 35, 0).astype(np.int32)
    side = np.array([1.0, 0.0, 0.0])
    tooth = Tooth(35, np.zeros(3), np.flatnonzero(crown), np.zeros((0, 3)), np.zeros(3), side,
                  side, 8, 8, 7)  # fmt: skip
    arch = DentalArch(MasterScan("mandible", solid, solid, IDENTITY, 0.4), {35: tooth}, (), crown)
    seen = survey(arch, path_from_tilts("mandible"), spacing_mm=0.25)
    turn = np.radians(np.linspace(0, 150, 40))
    on = np.column_stack([4 * np.cos(turn), 4 * np.sin(turn), np.full(40, -0.6)])
    root = np.array([[6.5, -3.0, -2.5], [5.5, -2.0, -2.5], [4.6, -1.0, -2.4]])
    arm = Component("clasp.35.buccal", "retentive arm", np.concatenate([root, on]),
                    np.array([1.0]), np.array([0.8]), 35)  # fmt: skip
    design = Design((), MajorConnector("lingual bar"), ())
    return Framework(design, solid, block_out(arch, seen), (arm,)), arch


def test_places_of_the_sheet_are_taken_to_the_arch() -> None:
    wax = Wax(reliefs=(Patch("torus", (1.0, 2.0, 3.0), 4.0, 0.5),))
    moved = wax_in_arch(wax, Rigid(np.eye(3), np.array([10.0, 0.0, -1.0])))
    assert moved.reliefs[0].at == (11.0, 2.0, 2.0)
    assert (moved.reliefs[0].name, moved.fills) == ("torus", ())


def test_ledges_only_where_asked_for_and_only_on_the_crown(
    worked: tuple[Framework, DentalArch],
) -> None:
    framework, arch = worked
    assert waxed(framework, NO_WAX, arch) is framework
    model = waxed(framework, Wax(ledges=True), arch).blocked_out
    assert check_solid(model.model).sound
    ledge = model.bodies[-1]
    assert (ledge.name, ledge.kind) == ("ledge.35.buccal", "ledge")
    # 0.6 mm wide and 1.2 mm high round 150 degrees of the blocked-out wall
    assert ledge.volume_mm3 == pytest.approx(
        0.5 * np.radians(150) * (4.6**2 - 4.0**2) * 1.2, rel=0.25
    )
