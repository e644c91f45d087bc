"""Orientation: sums over normals against face by face; known best poses; angle convention."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.base import Floats
from claspwright.build import (
    Pose,
    angle_from_plate_deg,
    from_vertical_deg,
    sphere,
    study_orientations,
)
from claspwright.build import _gauss_kernels as kernels
from claspwright.build.orientation import SIDE
from claspwright.formats import read_machine, read_process
from claspwright.geometry import Mesh, ball, box, face_vectors, union

MACHINE, PROCESS = read_machine("round-100"), read_process("cocr-25um")


def lump() -> Mesh:
    moved = ball(3.0, 0.15)
    return union(moved, Mesh(ball(2.0, 0.15).vertices + [3.0, 1.0, 1.5], ball(2.0, 0.15).faces))


def by_faces(mesh: Mesh, up: Floats, protected: Floats) -> tuple[float, float, float]:
    vectors = 0.5 * face_vectors(mesh)
    down = -(vectors @ up)
    hang = down > np.cos(np.radians(45.0)) * np.linalg.norm(vectors, axis=1)
    height = mesh.corners.mean(axis=1) @ up
    return down[hang].sum(), (down * height)[hang].sum(), down[hang & protected].sum()


def test_sums_over_the_map_agree_with_the_faces() -> None:
    mesh = lump()
    protected = mesh.corners.mean(axis=1)[:, 0] > 1.0
    sums = kernels.gather(mesh.vertices, mesh.faces, protected, SIDE)
    ways = sphere(60)
    out = np.empty((60, 4))
    kernels.weigh(
        sums[0], sums[1], sums[2], ways, np.cos(np.radians(45.0)), np.cos(np.radians(10.0)), out
    )
    exact = np.array([by_faces(mesh, way, protected) for way in ways])
    area, lifted, guarded = np.abs(out[:, :3] - exact).T
    assert area.mean() < 0.005 * exact[:, 0].mean()
    assert lifted.max() < 0.03 * np.abs(exact[:, 1]).max()
    assert guarded.max() < 0.03 * exact[:, 2].max()


def test_a_slab_lies_flat_and_turns_over_where_its_underside_is_protected() -> None:
    slab = box(np.zeros(3), np.array([30.0, 20.0, 2.0]))
    study = study_orientations(slab, np.zeros(12, bool), MACHINE, PROCESS, directions=400)
    assert len(study.best) == 20 and study.best[0].cost_min <= study.best[-1].cost_min
    assert study.best[0].reason.startswith("least work")
    from claspwright.geometry import face_normals

    below = face_normals(slab)[:, 2] < -0.9
    turned = study_orientations(slab, below, MACHINE, PROCESS, directions=400)
    best = turned.best[0]
    assert best.protected_mm2 == pytest.approx(0.0, abs=1e-6)


@pytest.mark.reference("derived (check-values F10)")
def test_angles_are_stored_from_the_plate() -> None:
    cube = box(np.zeros(3), np.ones(3))
    angles = angle_from_plate_deg(cube, np.array([0.0, 0.0, 1.0]))
    assert sorted(set(np.round(angles, 6))) == [0.0, 90.0]
    assert from_vertical_deg(90.0) == 0.0 and from_vertical_deg(0.0) == 90.0


def test_a_pose_stands_on_its_lift() -> None:
    up = np.array([0.6, 0.0, 0.8])
    pose = Pose(up, turn_deg=30.0, x_mm=3.0, y_mm=-2.0, lift_mm=4.0)
    cube = box(np.zeros(3), np.array([5.0, 2.0, 1.0]))
    motion = pose.motion(cube)
    np.testing.assert_allclose(motion.turn(up), [0.0, 0.0, 1.0], atol=1e-12)
    stood = cube.moved(motion)
    np.testing.assert_allclose(stood.bounds.mean(axis=0)[:2], [3.0, -2.0], atol=1e-12)
    assert stood.bounds[0, 2] == pytest.approx(4.0)
