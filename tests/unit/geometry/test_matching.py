"""Partners in place and normal, the step, pairs in bins, and sums over many points at once."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.spatial import cKDTree
from scipy.spatial.transform import Rotation

from claspwright.base import Floats
from claspwright.geometry import Mesh, Rigid, face_normals, vertex_normals
from claspwright.geometry import _match_kernels as kernels
from claspwright.geometry import _pair_kernels as pair_kernels
from claspwright.geometry.mesh import face_vectors

WEIGHT = 4.0


def oriented(count: int, seed: int) -> tuple[Floats, Floats]:
    """Points and unit normals of a bumpy ball of 10 mm."""
    random = np.random.default_rng(seed)
    normals = random.normal(size=(count, 3))
    normals /= np.linalg.norm(normals, axis=1, keepdims=True)
    return 10.0 * normals + random.normal(0.0, 0.4, (count, 3)), normals


@pytest.mark.parametrize("count", [1, 7, 9, 500, 3001])
@pytest.mark.reference("scipy.spatial.cKDTree: nearest of six numbers")
def test_partners_are_the_nearest_in_place_and_normal(count: int) -> None:
    points, normals = oriented(count, 1)
    rows = np.concatenate([points, WEIGHT * normals], axis=1)
    order, spans, boxes = kernels.build(rows)
    assert np.array_equal(np.sort(order), np.arange(count))
    motion = Rigid(Rotation.from_rotvec([0.2, -0.1, 0.3]).as_matrix(), np.array([0.5, 0.2, -0.3]))
    asked, facing = oriented(400, 2)
    seeds = np.full(len(asked), -1, np.int32)
    room = np.empty((400, 3)), np.empty((400, 3)), np.empty(400)
    moved = np.concatenate([motion.apply(asked), WEIGHT * motion.turn(facing)], axis=1)
    right = cKDTree(rows).query(moved, distance_upper_bound=3.0)[1]
    for _ in range(2):  # the second time from the partners of the first
        met = kernels.pairs(
            asked, facing, motion.rotation, motion.translation, WEIGHT, (3.0, 2.0, 0.5, 0.7),
            rows[order], spans, boxes, seeds, *room,
        )  # fmt: skip
        found = np.where(seeds >= 0, order[seeds], count)
        assert np.array_equal(found, right)
    some = np.flatnonzero(right < count)
    away = moved[some, :3] - points[right[some]]
    off = np.einsum("pd,pd->p", away, normals[right[some]])
    facing_too = np.einsum("pd,pd->p", moved[some, 3:] / WEIGHT, normals[right[some]]) > 0.5
    good = (np.linalg.norm(away, axis=1) < 2.0) & facing_too & (np.abs(off) < 0.7)
    assert met == good.sum()
    assert np.allclose(room[0][:met], moved[some[good], :3], atol=1e-12)
    assert np.allclose(room[1][:met], normals[right[some[good]]], atol=1e-12)
    assert np.allclose(room[2][:met], off[good], atol=1e-12)


@pytest.mark.reference("numpy.linalg.lstsq on the weighted rows themselves")
def test_the_normal_equations_give_the_weighted_least_squares() -> None:
    points, normals = oriented(300, 3)
    off = np.random.default_rng(4).normal(0.0, 0.3, 300)
    centre, cut = points.mean(axis=0), 0.5
    left, right = kernels.equations(points, normals, off, centre, cut)
    root = np.clip(1.0 - (off / cut) ** 2, 0.0, None)
    rows = np.concatenate([np.cross(points - centre, normals), normals], axis=1) * root[:, None]
    wanted = np.linalg.lstsq(rows, -off * root)[0]
    assert np.allclose(np.linalg.solve(left, right), wanted, atol=1e-9)


@pytest.mark.reference("numpy.arccos")
def test_bins_of_angles_are_those_of_the_arc_cosine() -> None:
    angles = np.linspace(0.001, np.pi - 0.001, 4000)
    got = [pair_kernels._angle_bin(float(cosine)) for cosine in np.cos(angles)]
    wanted = np.minimum((angles * pair_kernels.ANGLES / np.pi).astype(int), pair_kernels.ANGLES - 1)
    assert np.array_equal(got, wanted)
    assert pair_kernels._angle_bin(1.0 + 1e-12) == 0
    assert pair_kernels._angle_bin(-1.0 - 1e-12) == pair_kernels.ANGLES - 1


@pytest.mark.parametrize("count", [1, 16_384, 16_385, 40_000])
def test_many_points_move_as_each_by_itself(count: int) -> None:
    motion = Rigid(Rotation.from_rotvec([1.0, 2.0, -0.5]).as_matrix(), np.array([5.0, -3.0, 1.0]))
    points = np.random.default_rng(5).normal(0.0, 30.0, (count, 3))
    wanted = np.einsum("ij,nj->ni", motion.rotation, points)
    assert np.abs(motion.turn(points) - wanted).max() < 1e-12
    assert np.abs(motion.apply(points) - wanted - motion.translation).max() < 1e-12
    assert np.abs(motion.apply(points[0]) - wanted[0] - motion.translation).max() < 1e-12


@pytest.mark.reference("numpy.cross, and its sums by numpy.add.at")
def test_normals_of_faces_and_vertices_are_cross_products_and_their_sums() -> None:
    random = np.random.default_rng(6)
    columns = np.asfortranarray(random.normal(size=(50, 3)))  # not laid in rows
    faces = np.concatenate([random.integers(0, 49, (200, 3)), [[3, 3, 3]]]).astype(np.int32)
    mesh = Mesh(columns, faces)
    a, b, c = (columns[faces[:, i]] for i in range(3))
    cross = np.cross(b - a, c - a)
    assert np.allclose(face_vectors(mesh), cross, atol=1e-14)
    sums = np.zeros((50, 3))
    np.add.at(sums, faces, cross[:, None, :])
    length = np.linalg.norm(sums, axis=1, keepdims=True)
    assert np.allclose(vertex_normals(mesh)[:49], (sums / np.maximum(length, 1e-300))[:49])
    assert not vertex_normals(mesh)[49].any()
    assert not face_normals(mesh)[-1].any()
