from __future__ import annotations

import threading
from dataclasses import replace

import numpy as np
import pytest
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from claspwright.base import Cancelled, Floats, GeometryError, InputError
from claspwright.demo import ArchOptions, DemoArch, build_arch, options_for, scenario
from claspwright.geometry import DistanceTree, Mesh, closest_points, face_normals

COARSE_MM = 0.3


def coarse(name: str, seed: int = 1, **more: object) -> ArchOptions:
    options = options_for(scenario(name), seed=seed, edge_mm=COARSE_MM)
    return replace(options, **more)  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def lower() -> DemoArch:
    return build_arch(coarse("mandible_class_2_mod_1"))


@pytest.fixture(scope="module")
def bare() -> DemoArch:
    """The same mouth as `lower` before the dentist prepared it."""
    return build_arch(coarse("mandible_class_2_mod_1", seats={}, planes={}, with_opposing=False))


@pytest.fixture(scope="module")
def upper() -> DemoArch:
    return build_arch(coarse("maxilla_class_3_mod_1", seed=2, with_opposing=False))


def pieces(mesh: Mesh) -> int:
    ends = np.concatenate([mesh.faces[:, [0, 1]], mesh.faces[:, [1, 2]]])
    graph = coo_matrix(
        (np.ones(len(ends)), (ends[:, 0], ends[:, 1])), shape=(len(mesh.vertices),) * 2
    )
    return int(connected_components(graph, directed=False)[0])


def faces_per_edge(mesh: Mesh) -> np.ndarray:
    f = mesh.faces
    ends = np.sort(np.concatenate([f[:, [0, 1]], f[:, [1, 2]], f[:, [2, 0]]]), axis=1)
    return np.unique(ends, axis=0, return_counts=True)[1]


@pytest.mark.parametrize("jaw", ["lower", "upper"])
def test_the_scan_is_one_open_piece_with_edges_of_one_or_two_faces(
    jaw: str, request: pytest.FixtureRequest
) -> None:
    mesh = request.getfixturevalue(jaw).master
    assert pieces(mesh) == 1
    counts = faces_per_edge(mesh)
    assert counts.max() == 2
    assert 0 < (counts == 1).mean() < 0.02


def test_every_standing_tooth_and_no_missing_one_is_on_the_scan(lower: DemoArch) -> None:
    seen = set(np.unique(lower.truth.crown_of_face).tolist()) - {0}
    assert seen == {31, 32, 33, 34, 35, 41, 42, 43, 44, 45, 47}
    assert set(lower.truth.marks) == seen


def test_marks_lie_on_the_crown_they_name(lower: DemoArch) -> None:
    middle = lower.master.corners.mean(axis=1)
    for code, mark in lower.truth.marks.items():
        nearest = int(np.argmin(np.linalg.norm(middle - mark, axis=1)))
        assert lower.truth.crown_of_face[nearest] == code


def top_at(mesh: Mesh, xy: Floats) -> float:
    near = np.linalg.norm(mesh.vertices[:, :2] - xy, axis=1) < COARSE_MM
    return float(mesh.vertices[near, 2].max())


@pytest.mark.reference("check-values C05, C06: ridge reduced 1.0 to 1.5 mm, centre 0.5 mm deeper")
def test_rest_seats_are_cut_to_the_depth_of_common_practice(
    lower: DemoArch, bare: DemoArch
) -> None:
    assert len(lower.truth.seats) == 4
    for seat in lower.truth.seats:
        depth = top_at(bare.master, seat.centre[:2]) - top_at(lower.master, seat.centre[:2])
        assert 0.7 < depth < 2.3, seat
        assert top_at(lower.master, seat.centre[:2]) == pytest.approx(seat.centre[2], abs=0.5)


@pytest.mark.reference(
    "check-values B16, B17: guiding planes 3.0 to 4.0 mm, free ends 1.5 to 2.0 mm"
)
def test_guiding_planes_are_upright_flats_of_the_right_height(upper: DemoArch) -> None:
    assert {(p.tooth, p.side) for p in upper.truth.planes} == {
        (14, "distal"), (17, "mesial"), (23, "distal"), (26, "mesial"),
    }  # fmt: skip
    normals = face_normals(upper.master)
    middle = upper.master.corners.mean(axis=1)
    for plane in upper.truth.planes:
        away = middle - plane.centre
        flat = (
            (upper.truth.crown_of_face == plane.tooth)
            & (normals @ plane.normal > 0.99)
            & (np.abs(away @ plane.normal) < 0.08)
        )
        assert np.ptp(middle[flat, 2]) > 1.8, plane
        assert abs(plane.normal[2]) < 1e-12


def test_crowns_have_natural_undercuts_under_their_height_of_contour(lower: DemoArch) -> None:
    for code in (34, 35, 44, 45, 47):
        faces = lower.truth.crown_of_face == code
        points = lower.master.corners[faces].mean(axis=1)
        centre = lower.truth.centres[code]
        out = centre[:2] - np.array([0.0, -25.0])
        out /= np.linalg.norm(out)
        side = (points[:, :2] - centre[:2]) @ out
        across = (points[:, :2] - centre[:2]) @ np.array([-out[1], out[0]])
        found = []
        for sign in (1.0, -1.0):
            wall = (np.abs(across) < 0.8) & (sign * side > 0)
            reach = sign * side[wall]
            crest = reach.max()
            height = points[wall, 2]
            at_crest = height[np.argmax(reach)]
            neck = reach[height < min(at_crest, height.min() + 0.5)]
            found.append(crest - neck.min() if neck.size else 0.0)
        assert max(found) > 0.25, (code, found)


def test_a_pose_moves_all_three_scans_alike() -> None:
    lower = build_arch(coarse("mandible_class_2_mod_1", edge_mm=0.5))
    posed = build_arch(coarse("mandible_class_2_mod_1", edge_mm=0.5, pose_seed=5))
    back = posed.truth.arch_to_scan.inverse()
    assert posed.opposing is not None and lower.opposing is not None
    assert posed.bite is not None and lower.bite is not None
    for moved, own in (
        (posed.master, lower.master),
        (posed.opposing, lower.opposing),
        (posed.bite, lower.bite),
    ):
        assert np.abs(back.apply(moved.vertices) - own.vertices).max() < 1e-9


@pytest.mark.parametrize("seed", [2])
def test_the_same_seed_gives_the_same_bytes_and_another_seed_does_not(seed: int) -> None:
    rough = replace(coarse("maxilla_class_3_mod_1", seed=seed), edge_mm=0.5)
    one, again, other = (
        build_arch(replace(rough, seed=number)) for number in (seed, seed, seed + 1)
    )
    for mesh, twin in ((one.master, again.master), (one.opposing, again.opposing)):
        assert mesh is not None and twin is not None
        assert mesh.vertices.tobytes() == twin.vertices.tobytes()
        assert mesh.faces.tobytes() == twin.faces.tobytes()
    assert other.master.vertices.tobytes() != one.master.vertices.tobytes()


def signed_gaps(mesh: Mesh, points: Floats) -> Floats:
    near = closest_points(DistanceTree(mesh), points, 1.0)
    hit = near.faces >= 0
    away = points[hit] - near.points[hit]
    sign = np.einsum("ij,ij->i", away, face_normals(mesh)[near.faces[hit]])
    return np.asarray(np.sign(sign) * np.linalg.norm(away, axis=1), dtype=np.float64)


def test_the_opposing_arch_touches_without_sinking_in(lower: DemoArch, bare: DemoArch) -> None:
    assert lower.opposing is not None
    gaps = signed_gaps(bare.master, lower.opposing.vertices)
    assert gaps.min() > -0.05
    assert (np.abs(gaps) < 0.05).sum() > 50


def test_there_is_room_for_metal_over_the_seats(lower: DemoArch) -> None:
    assert lower.opposing is not None
    for seat in lower.truth.seats:
        near = np.linalg.norm(lower.opposing.vertices[:, :2] - seat.centre[:2], axis=1) < 0.5
        over = lower.opposing.vertices[near, 2]
        assert over.size == 0 or over.min() - seat.centre[2] > 1.0, seat


def test_the_bite_record_lies_on_both_arches(lower: DemoArch) -> None:
    assert lower.bite is not None and lower.opposing is not None
    one = closest_points(DistanceTree(lower.master), lower.bite.vertices, 1.0).distance
    two = closest_points(DistanceTree(lower.opposing), lower.bite.vertices, 1.0).distance
    apart = np.minimum(np.abs(one), np.abs(two))
    assert apart.max() < 1e-6
    assert (np.abs(one) < 1e-6).mean() > 0.2
    assert (np.abs(two) < 1e-6).mean() > 0.2


def test_scanner_noise_moves_the_surface_by_what_was_asked() -> None:
    rough = coarse("maxilla_class_3_mod_1", edge_mm=0.5, with_opposing=False)
    clean, noisy = (build_arch(replace(rough, noise_um=size)) for size in (0.0, 10.0))
    shift = np.linalg.norm(noisy.master.vertices - clean.master.vertices, axis=1)
    assert np.sqrt((shift**2).mean()) == pytest.approx(0.010, rel=0.05)


def test_progress_never_goes_back_and_can_stop_the_work() -> None:
    options = replace(coarse("mandible_class_1"), edge_mm=0.6)
    told: list[float] = []
    build_arch(options, progress=lambda fraction, phase: told.append(fraction))
    assert told == sorted(told) and told[-1] == 1.0
    threads = threading.active_count()

    def stop(fraction: float, phase: str) -> None:
        if fraction > 0.2:
            raise Cancelled("enough")

    with pytest.raises(Cancelled, match="enough"):
        build_arch(options, progress=stop)
    assert threading.active_count() == threads


def test_an_error_in_the_other_jaw_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*given: object) -> None:
        raise GeometryError("the jaws do not meet")

    monkeypatch.setattr("claspwright.demo.build.bite_motion", refuse)
    with pytest.raises(GeometryError, match="do not meet"):
        build_arch(replace(coarse("mandible_class_1"), edge_mm=0.6))


def test_options_that_contradict_themselves_are_refused() -> None:
    with pytest.raises(InputError, match="not teeth of the mandible"):
        ArchOptions("mandible", (16,))
    with pytest.raises(InputError, match="missing teeth"):
        ArchOptions("mandible", (36,), seats={36: ("mesial",)})
    with pytest.raises(InputError, match="edge_mm"):
        ArchOptions("mandible", (36,), edge_mm=2.0)
    with pytest.raises(InputError, match="no invented case"):
        scenario("mandible_class_9")
