"""A known motion is found again: from any pose, through noise, outliers and missing parts."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from claspwright.base import Cancelled, Floats, InputError
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    Rigid,
    box,
    face_normals,
    motion_between,
    register,
    vertex_normals,
)


def horseshoe(stations: int = 420, around: int = 28) -> Mesh:
    """A wavy band 60 mm across, 0.7 mm thick: opposite walls nearly as near as the noise of ICP."""
    turn = np.linspace(0.0, np.pi * 1.05, stations)
    section = np.linspace(0.0, 2.0 * np.pi, around, endpoint=False)
    wide = 2.5 + 0.8 * np.sin(3.0 * turn) + 0.5 * np.cos(7.3 * turn)
    lift = 1.5 * np.sin(2.1 * turn + 0.4)
    flat = np.sign(np.cos(section)) * np.abs(np.cos(section)) ** 0.5
    thick = np.sign(np.sin(section)) * np.abs(np.sin(section)) ** 0.5
    radius = 30.0 + 0.35 * thick[None, :] + 0.4 * np.sin(5.0 * turn)[:, None]
    points = np.stack(
        [
            radius * np.cos(turn)[:, None],
            1.1 * radius * np.sin(turn)[:, None],
            lift[:, None] + wide[:, None] * flat[None, :],
        ],
        axis=2,
    ).reshape(-1, 3)
    i, j = np.meshgrid(np.arange(stations - 1), np.arange(around), indexing="ij")
    a, b = i * around + j, i * around + (j + 1) % around
    quads = np.stack([a, b, b + around, a + around], axis=2).reshape(-1, 4)
    last = (stations - 1) * around
    fan = np.arange(1, around - 1)
    zero = np.zeros_like(fan)
    caps = [np.stack([zero, fan + 1, fan], 1), last + np.stack([zero, fan, fan + 1], 1)]
    return Mesh(points, np.concatenate([quads[:, [0, 1, 2]], quads[:, [0, 2, 3]], *caps]))


def scanned(mesh: Mesh, seed: int, *, keep: Floats | None = None) -> tuple[Mesh, Rigid]:
    """The mesh as a scan: 10 um noise, 3 % outliers, any pose; and the motion that was made."""
    random = np.random.default_rng(seed)
    noise = random.normal(0.0, 0.010, mesh.vertices.shape)
    wild = random.random(len(mesh.vertices)) < 0.03
    points = mesh.vertices + noise + wild[:, None] * random.normal(0.0, 0.8, noise.shape)
    rotation = Rotation.random(random_state=seed).as_matrix()
    pose = Rigid(rotation, random.normal(0.0, 50.0, 3))
    faces = mesh.faces if keep is None else mesh.faces[keep]
    used, index = np.unique(faces, return_inverse=True)
    return Mesh(pose.apply(points[used]), index.reshape(-1, 3)), pose


@pytest.fixture(scope="module")
def band() -> DistanceTree:
    return DistanceTree(horseshoe())


def far_off(found: Rigid, pose: Rigid, mesh: Mesh) -> float:
    """Mean error of the motion over the part [um]."""
    back = found.apply(pose.apply(mesh.vertices))
    return 1000.0 * float(np.linalg.norm(back - mesh.vertices, axis=1).mean())


@pytest.mark.parametrize("seed", [1, 2])
@pytest.mark.parametrize("shown", ["whole", "upper side", "half"])
def test_any_pose_is_found_within_five_micrometres(
    band: DistanceTree, seed: int, shown: str
) -> None:
    mesh = band.mesh
    keep = {
        "whole": None,
        "upper side": face_normals(mesh)[:, 2] > -0.3,
        "half": mesh.corners.mean(axis=1)[:, 0] > 0.0,
    }[shown]
    scan, pose = scanned(mesh, seed, keep=keep)
    found = register(scan, band)
    assert far_off(found.rigid, pose, mesh) < 5.0
    assert found.rms_mm == pytest.approx(0.010, abs=0.002)
    assert found.overlap > 0.6


def test_the_start_is_kept_where_it_fits_and_no_search_is_asked_for(band: DistanceTree) -> None:
    scan, pose = scanned(band.mesh, 5)
    slight = Rigid(Rotation.from_rotvec([0.02, -0.01, 0.02]).as_matrix(), np.array([0.3, 0.2, 0.1]))
    near = scan.moved(pose.inverse()).moved(slight)
    found = register(near, band, search=False)
    assert far_off(found.rigid, slight, band.mesh) < 5.0
    lost = register(scan, band, search=False)
    assert lost.overlap < 0.5


def test_the_same_scan_gives_the_same_motion(band: DistanceTree) -> None:
    scan, _ = scanned(band.mesh, 6)
    one, two = register(scan, band), register(scan, band)
    assert np.array_equal(one.rigid.matrix(), two.rigid.matrix())


def test_a_coarse_box_is_laid_on_itself() -> None:
    part = box([0.0, 0.0, 0.0], [10.0, 20.0, 7.0])
    pose = Rigid(Rotation.from_rotvec([0.3, 2.0, 1.0]).as_matrix(), np.array([5.0, 50.0, 3.0]))
    found = register(part.moved(pose), part)
    assert found.rms_mm < 1e-9
    assert found.inlier_share == 1.0


def test_another_part_shows_in_the_overlap(band: DistanceTree) -> None:
    other = box([0.0, 0.0, 0.0], [9.0, 14.0, 11.0])
    assert register(other, band).overlap < 0.3


def test_registration_can_be_cancelled(band: DistanceTree) -> None:
    def stop(fraction: float, phase: str) -> None:
        if fraction > 0.1:
            raise Cancelled("enough")

    with pytest.raises(Cancelled):
        register(band.mesh, band, progress=stop)


@pytest.mark.reference("check-values W9: three points turned by 90 degrees about z")
def test_three_points_give_the_motion_of_the_worked_example() -> None:
    start = np.array([[0.0, 0.0, 0.0], [10.0, 0.0, 0.0], [0.0, 10.0, 0.0]])
    goal = np.array([[5.0, -2.0, 1.0], [5.0, 8.0, 1.0], [-5.0, -2.0, 1.0]])
    found = motion_between(start, goal)
    assert np.allclose(found.rotation, [[0, -1, 0], [1, 0, 0], [0, 0, 1]], atol=1e-12)
    assert np.allclose(found.translation, [5.0, -2.0, 1.0], atol=1e-12)
    assert np.abs(found.apply(start) - goal).max() < 1e-12


@pytest.mark.reference("check-values G18: exact rigid copy, residual under 1e-9 mm, det +1")
@pytest.mark.parametrize("seed", range(5))
def test_kabsch_finds_an_exact_copy_and_never_mirrors(seed: int) -> None:
    random = np.random.default_rng(seed)
    points = random.normal(0.0, 20.0, (200, 3))
    pose = Rigid(Rotation.random(random_state=seed).as_matrix(), random.normal(0.0, 50.0, 3))
    found = motion_between(points, pose.apply(points))
    assert np.abs(found.apply(points) - pose.apply(points)).max() < 1e-9
    mirrored = motion_between(points, points * [1.0, 1.0, -1.0])
    assert np.linalg.det(mirrored.rotation) == pytest.approx(1.0)


def test_two_pairs_are_refused() -> None:
    with pytest.raises(InputError, match="three or more pairs"):
        motion_between(np.zeros((2, 3)), np.zeros((2, 3)))


def test_normals_of_the_band_point_outward(band: DistanceTree) -> None:
    lifted = band.mesh.vertices + 0.05 * vertex_normals(band.mesh)
    from claspwright.geometry import signed_distance

    assert (signed_distance(band, lifted) > 0).mean() > 0.99
