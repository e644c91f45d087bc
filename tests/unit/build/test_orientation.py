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
from claspwright.build import _pose_kernels as pose_kernels
from claspwright.build.coarse import COARSE_MM, coarse_part, extent
from claspwright.build.orientation import SIDE, _across
from claspwright.formats import read_machine, read_process
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    ball,
    box,
    closest_points,
    face_vectors,
    ray_lengths,
    union,
)

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
    count = len(mesh.faces)
    rows, vectors, size = np.zeros((SIDE * SIDE, 12)), np.empty((3, count)), np.empty(count)
    for first, last in ((0, 700), (700, count)):
        kernels.gather(mesh.vertices, mesh.faces, protected, SIDE, first, last, rows, vectors, size)
    np.testing.assert_allclose(vectors, 0.5 * face_vectors(mesh).T, atol=1e-12)
    ways = sphere(60)
    out = np.empty((4, 60))
    across = np.ascontiguousarray(ways.T)
    kernels.weigh(rows, across, np.cos(np.radians(45.0)), np.cos(np.radians(10.0)), out)
    exact = np.array([by_faces(mesh, way, protected) for way in ways])
    area, lifted, guarded = np.abs(out[:3].T - exact).T
    assert area.mean() < 0.005 * exact[:, 0].mean()
    assert lifted.max() < 0.03 * np.abs(exact[:, 1]).max()
    assert guarded.max() < 0.03 * exact[:, 2].max()


def test_faces_that_hang_extents_and_shadows_agree_with_numpy() -> None:
    mesh = lump()
    vectors = np.ascontiguousarray(0.5 * face_vectors(mesh).T)
    size = np.linalg.norm(vectors, axis=0)
    protected = mesh.corners.mean(axis=1)[:, 0] > 1.0
    ways = sphere(20)
    steep, flat = np.cos(np.radians(45.0)), np.cos(np.radians(10.0))
    counts = np.zeros((-(-len(size) // pose_kernels.BLOCK), 20))
    sums = np.zeros((3, 20))
    turned = np.ascontiguousarray(ways.T)
    pose_kernels.hanging(vectors, size, protected, turned, steep, flat, 0, len(size), sums, counts)
    for d, way in enumerate(ways):
        down = -(way @ vectors)
        hang = np.flatnonzero(down > steep * size)
        wanted = down[hang].sum(), down[down > flat * size].sum(), down[hang][protected[hang]].sum()
        np.testing.assert_allclose(sums[:, d], wanted, rtol=1e-9, atol=1e-12)
        room = np.empty(len(hang), np.int32)
        one = np.ascontiguousarray(counts[:, d])
        for step in (1, 7, 400):
            found = pose_kernels.every_nth(vectors, size, way, steep, one, step, room)
            np.testing.assert_array_equal(room[:found], hang[::step])
    for count in (1, 2, 3, 5, len(mesh.vertices)):  # four at a time, and what is left over
        points = np.ascontiguousarray(mesh.vertices[:count])
        heights = points @ turned
        np.testing.assert_allclose(
            extent(points, turned), [heights.min(axis=0), heights.max(axis=0)], atol=1e-12
        )
    across, ahead = _across(ways)
    pixels = np.empty(20)
    pose_kernels.shadows(
        mesh.vertices, np.ascontiguousarray(across.T), np.ascontiguousarray(ahead.T), 0.5, pixels
    )
    for d in range(20):
        seen = np.stack([mesh.vertices @ across[d], mesh.vertices @ ahead[d]], axis=1)
        cells = np.floor((seen - seen.min(axis=0)) / 0.5)
        assert pixels[d] == len(np.unique(cells, axis=0))


def test_the_coarse_part_is_the_mean_of_each_cell_and_meets_rays() -> None:
    mesh = lump()
    protected = mesh.corners.mean(axis=1)[:, 0] > 1.0
    rough = coarse_part(mesh, protected)
    cells = ((mesh.vertices - mesh.bounds[0]) / COARSE_MM).astype(int)
    _, which = np.unique(cells, axis=0, return_inverse=True)
    which = which.ravel()
    means = [np.bincount(which, mesh.vertices[:, i]) / np.bincount(which) for i in range(3)]
    np.testing.assert_allclose(rough.points, np.stack(means, axis=1), atol=1e-12)
    faces = which[mesh.faces]
    whole = (np.diff(np.sort(faces, axis=1), axis=1) > 0).all(axis=1)
    np.testing.assert_array_equal(rough.faces, faces[whole])
    assert rough.guarded.sum() == protected[whole].sum()
    tree = DistanceTree(Mesh(rough.points, rough.faces))
    down = np.array([0.0, 0.6, -0.8])
    starts = np.random.default_rng(3).uniform([-3.0, -3.0, 0.0], [5.0, 3.0, 6.0], (300, 3))
    ways, guarded = rough.below(starts, down)
    np.testing.assert_array_equal(ways, ray_lengths(tree, starts, down))
    hit = np.isfinite(ways)
    assert 30 < hit.sum() < 300 and not guarded[~hit].any()
    landed = closest_points(tree, starts[hit] + ways[hit][:, None] * down).faces
    np.testing.assert_array_equal(guarded[hit], protected[whole][landed])


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
