"""A crown with a closed form: an ellipsoid on a flat block, surveyed along +z."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from claspwright.arch import DentalArch, MasterScan, Tooth
from claspwright.base import Floats
from claspwright.framework.chart import crown_chart
from claspwright.framework.ground import Ground
from claspwright.framework.terrain import Terrain
from claspwright.geometry import IDENTITY, Mesh, ball, box, difference, union
from claspwright.survey import Survey, path_from_tilts, survey

TOOTH = 46
TISSUE = -3.2  # height of the block's top


def ellipsoid_arch(axes: Floats, pit_mm: float = 0.0) -> DentalArch:
    """One crown with semi-axes along mesial, buccal and occlusal, and a pit in its top [mm]."""
    unit = ball(1.0, 0.035)
    crown = Mesh(unit.vertices * axes, unit.faces)
    if pit_mm > 0:
        pit = ball(pit_mm, 0.2)
        crown = difference(crown, Mesh(pit.vertices + [0.0, 0.0, axes[2]], pit.faces))
    solid = union(box(np.array([-10.0, -10, -7]), np.array([10.0, 10, TISSUE])), crown)
    middle = solid.corners.mean(axis=1)
    order = np.argsort(middle[:, 2] < -6.9, kind="stable")  # the floor last
    count = int((middle[:, 2] >= -6.9).sum())
    faces = solid.faces[order]
    used = np.unique(faces[:count])
    place = np.full(len(solid.vertices), -1)
    rows = np.concatenate([used, np.setdiff1d(np.arange(len(solid.vertices)), used)])
    place[rows] = np.arange(len(rows))
    whole = Mesh(solid.vertices[rows], place[faces])
    surface = Mesh(whole.vertices[: len(used)], whole.faces[:count])
    on_crown = surface.corners.mean(axis=1)[:, 2] > TISSUE + 1e-6
    share = np.sqrt(1 - (TISSUE / axes[2]) ** 2)
    turn = np.linspace(0, 2 * np.pi, 72, endpoint=False)
    margin = np.column_stack(
        [axes[0] * share * np.cos(turn), axes[1] * share * np.sin(turn), np.full(72, TISSUE)]
    )
    tooth = Tooth(
        TOOTH, np.array([0.0, 0.0, axes[2]]), np.flatnonzero(on_crown), margin, np.zeros(3),
        np.array([1.0, 0.0, 0.0]), np.array([0.0, 1.0, 0.0]), 2 * axes[0], 2 * axes[1],
        axes[2] - TISSUE,
    )  # fmt: skip
    scan = MasterScan("mandible", surface, whole, IDENTITY, 0.15)
    return DentalArch(scan, {TOOTH: tooth}, (), np.where(on_crown, TOOTH, 0).astype(np.int32))


def ground_of(arch: DentalArch, surveyed: Survey) -> Ground:
    scan, blocked = Terrain.of(surveyed.scan_field), Terrain.of(surveyed.block_field)
    charts = {code: crown_chart(arch, tooth, scan, blocked) for code, tooth in arch.teeth.items()}
    return Ground(arch, surveyed, scan, blocked, blocked, charts, {})


@pytest.fixture(scope="session")
def ellipsoid_ground() -> Callable[..., Ground]:
    """Ground of an ellipsoid of the given semi-axes, worked out once for each."""
    made: dict[tuple[float, ...], Ground] = {}

    def make(*axes: float, pit_mm: float = 0.0) -> Ground:
        key = (*axes, pit_mm)
        if key not in made:
            arch = ellipsoid_arch(np.array(axes), pit_mm)
            made[key] = ground_of(arch, survey(arch, path_from_tilts("mandible", 0, 0)))
        return made[key]

    return make


@pytest.fixture(scope="session")
def sphere(ellipsoid_ground: Callable[..., Ground]) -> Ground:
    """A ball of 4 mm."""
    return ellipsoid_ground(4.0, 4.0, 4.0)
