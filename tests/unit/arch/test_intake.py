"""Intake of real arches: orientation, closing, findings; and what is refused."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest
from scipy.spatial import cKDTree
from scipy.spatial.transform import Rotation

from claspwright.arch import Jaw, MasterScan, patient_right, take_in
from claspwright.arch.quality import hit_from_above
from claspwright.base import Floats, InputError
from claspwright.formats import read_mesh
from claspwright.geometry import Mesh, ball, box, check_solid, face_areas

ARCHES = Path(__file__).parents[4] / "shared" / "scans" / "arches"
CROWNS = ARCHES.parent / "crowns"
NAMES = (
    "oral_001_L", "oral_001_U", "oral_027_L", "oral_030_U", "oral_062_U", "oral_069_L",
    "pair1_lower", "pair1_upper", "pair2_lower", "pair2_upper", "stone_lower_a", "stone_upper_c",
    "trimmed_00OMSZGW_lower", "trimmed_4O6ZE6F3_upper", "upper_012C", "upper_014C", "upper_017C",
)  # fmt: skip
CODED = tuple(name for name in NAMES if name.startswith("oral"))
NUMBERED = tuple(name for name in NAMES if name.startswith(("pair", "upper")))


def jaw_of(name: str) -> Jaw:
    return "maxilla" if "_U" in name or "upper" in name else "mandible"


@cache
def taken(name: str) -> MasterScan:
    return take_in(read_mesh(ARCHES / f"{name}.ply"), jaw=jaw_of(name))


def labelled(name: str) -> tuple[Floats, Floats]:
    """(F, 3) face middles of the file in the arch frame, and (F,) labels."""
    mesh = read_mesh(ARCHES / f"{name}.ply")
    labels = np.load(ARCHES / f"{name}.face_tooth.npy")
    return taken(name).scan_to_arch.apply(mesh.corners.mean(axis=1)), labels


@pytest.mark.scans
@pytest.mark.parametrize("name", NAMES)
def test_every_real_arch_becomes_one_closed_solid(name: str) -> None:
    scan = taken(name)
    solid = check_solid(scan.solid)
    assert solid.status == "NoError"
    assert solid.watertight
    assert solid.bodies == 1
    assert solid.volume_mm3 > 5000
    faces = len(scan.surface.faces)
    assert (scan.solid.faces[:faces] == scan.surface.faces).all()
    assert (scan.solid.vertices[: len(scan.surface.vertices)] == scan.surface.vertices).all()
    rules = {finding.rule for finding in scan.findings}
    assert {"scan.unit", "scan.resolution", "scan.occlusal_plane"} <= rules


@pytest.mark.scans
@pytest.mark.parametrize("name", NAMES)
def test_most_of_the_scan_is_kept(name: str) -> None:
    before = float(face_areas(read_mesh(ARCHES / f"{name}.ply")).sum())
    after = float(face_areas(taken(name).surface).sum())
    assert after > 0.88 * before  # the ragged edge goes, at most about 2 mm of it


@pytest.mark.scans
@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_inside_above_the_scan(name: str) -> None:
    """Above the highest surface there is no solid, just below it there is.

    The winding number of an outside library is the oracle.
    """
    igl = pytest.importorskip("igl")
    scan = taken(name)
    rng = np.random.default_rng(1)
    low, high = scan.surface.bounds
    places = rng.uniform(low[:2] - 3.0, high[:2] + 3.0, (3000, 2))
    z = hit_from_above(scan.surface, places)
    there = np.isfinite(z)
    above = np.column_stack([places, np.where(there, z + 0.2, rng.uniform(-5.0, 5.0, len(z)))])
    below = np.column_stack([places[there], z[there] - 0.02])
    vertices, faces = np.array(scan.solid.vertices), np.array(scan.solid.faces).astype(np.int64)
    wound = igl.fast_winding_number(vertices, faces, above)
    # a place without scan beside a high border may lie over the wall's outer skin
    wrong = wound[there] > 0.5
    assert wrong.mean() < 0.002
    assert (wound[~there] > 0.5).mean() < 0.03
    if name not in ("stone_upper_c", "trimmed_00OMSZGW_lower"):  # these pass through themselves
        assert (igl.fast_winding_number(vertices, faces, below) > 0.5).mean() > 0.98


@pytest.mark.scans
@pytest.mark.parametrize("name", CODED + NUMBERED)
def test_crowns_are_up_and_front_teeth_in_front(name: str) -> None:
    at, labels = labelled(name)
    assert at[labels > 0, 2].mean() > at[labels == 0, 2].mean() + 2.5
    if name in CODED:
        front, back = labels % 10 <= 2, labels % 10 >= 6
        right = np.isin(labels // 10, (1, 4))
        left = np.isin(labels // 10, (2, 3))
    else:
        front, back = np.isin(labels, (7, 8)), np.isin(labels, (1, 2, 13, 14))
        right, left = (labels >= 1) & (labels <= 7), labels >= 8
    front, back = front & (labels > 0), back & (labels > 0)
    assert at[front, 1].mean() > at[back, 1].mean() + 20.0
    x = at @ patient_right(jaw_of(name))
    assert abs(x[right].mean() + x[left].mean()) < 6.0
    if name in CODED:
        assert x[right].mean() > 10 > -10 > x[left].mean()


@pytest.mark.scans
@pytest.mark.parametrize("name", CODED)
def test_the_occlusal_plane_follows_the_labelled_tips(name: str) -> None:
    at, labels = labelled(name)
    tips = []
    for code in np.unique(labels[labels > 0]):
        crown = at[labels == code]
        tips.append(crown[np.argsort(-crown[:, 2])[:5]].mean(axis=0))
    points = np.array(tips)
    normal = np.linalg.svd(points - points.mean(axis=0))[2][2]
    assert np.degrees(np.arccos(abs(normal[2]))) < 6.0


@pytest.mark.scans
@pytest.mark.parametrize("name", ["oral_069_L", "upper_017C", "trimmed_4O6ZE6F3_upper"])
def test_any_starting_pose_gives_the_same_arch(name: str) -> None:
    mesh = read_mesh(ARCHES / f"{name}.ply")
    first = taken(name)
    goal = first.scan_to_arch.apply(mesh.vertices)
    rng = np.random.default_rng(7)
    for rotation in Rotation.random(4, random_state=7).as_matrix():
        moved = Mesh(mesh.vertices @ rotation.T + rng.normal(0, 80, 3), mesh.faces)
        again = take_in(moved, jaw=jaw_of(name))
        assert np.abs(again.scan_to_arch.apply(moved.vertices) - goal).max() < 1e-3
        gap = cKDTree(first.surface.vertices).query(again.surface.vertices)[0]
        assert np.percentile(gap, 99) < 1e-3


@pytest.mark.scans
@pytest.mark.parametrize(("factor", "unit"), [(0.1, "cm"), (0.001, "m"), (1 / 25.4, "inch")])
def test_the_unit_is_guessed_and_said(factor: float, unit: str) -> None:
    mesh = read_mesh(ARCHES / "upper_017C.ply")
    scan = take_in(Mesh(mesh.vertices * factor, mesh.faces), jaw="maxilla")
    found = next(finding for finding in scan.findings if finding.rule == "scan.unit")
    assert found.severity == "look"
    assert f"{unit} was assumed" in found.text
    assert scan.edge_mm == pytest.approx(taken("upper_017C").edge_mm, rel=1e-6)


@pytest.mark.scans
def test_turned_faces_are_turned_back() -> None:
    mesh = read_mesh(ARCHES / "oral_069_L.ply")
    scan = take_in(Mesh(mesh.vertices, mesh.faces[:, ::-1]), jaw="mandible")
    winding = [finding for finding in scan.findings if finding.rule == "scan.winding"]
    assert winding and winding[0].severity == "look"
    turned = scan.scan_to_arch.rotation @ taken("oral_069_L").scan_to_arch.rotation.T
    assert np.degrees(Rotation.from_matrix(turned).magnitude()) < 1.0


@pytest.mark.scans
def test_findings_are_true_of_the_scan() -> None:
    def rules(name: str) -> dict[str, str]:
        return {finding.rule: finding.severity for finding in taken(name).findings}

    assert rules("upper_014C")["scan.islands"] == "look"  # a crown without its gum
    assert rules("upper_017C")["scan.coverage"] == "look"  # a horseshoe without palate
    assert "scan.coverage" not in rules("oral_030_U")
    assert rules("trimmed_00OMSZGW_lower")["scan.folds"] == "look"
    assert rules("stone_lower_a")["scan.holes_on_teeth"] == "look"
    assert "scan.jaw" not in rules("oral_030_U")


@pytest.mark.scans
def test_jaw_is_judged_against_the_shape() -> None:
    palate = read_mesh(ARCHES / "oral_030_U.ply")
    wrong = take_in(palate, jaw="mandible")
    assert any(f.rule == "scan.jaw" and f.severity == "look" for f in wrong.findings)
    unnamed = take_in(palate)
    assert unnamed.jaw == "maxilla"
    assert any(f.rule == "scan.jaw" and f.severity == "look" for f in unnamed.findings)


@pytest.mark.scans
@pytest.mark.parametrize("name", ["upper_017C", "oral_069_L"])
def test_a_model_that_is_closed_already_is_taken_as_it_is(name: str) -> None:
    solid = taken(name).solid
    rotation = Rotation.random(random_state=3).as_matrix()
    scan = take_in(Mesh(solid.vertices @ rotation.T, solid.faces), jaw=jaw_of(name))
    assert check_solid(scan.solid).volume_mm3 == pytest.approx(
        check_solid(solid).volume_mm3, rel=1e-6
    )
    back = scan.scan_to_arch.rotation @ rotation
    assert np.degrees(np.arccos(back[2, 2])) < 5.0
    assert np.degrees(np.arccos(back[1, 1])) < 15.0
    faces = len(scan.surface.faces)
    assert faces < len(scan.solid.faces)
    assert (scan.solid.faces[:faces] == scan.surface.faces).all()


def plate() -> Mesh:
    return box(np.zeros(3), np.array([60.0, 50.0, 2.0]))


@pytest.mark.parametrize("size", [5.0, 30.0])
def test_a_ball_is_no_arch(size: float) -> None:
    with pytest.raises(InputError) as caught:
        take_in(ball(size, size / 10), jaw="mandible")
    assert caught.value.remedy


def test_a_plate_is_no_arch() -> None:
    with pytest.raises(InputError) as caught:
        take_in(plate(), jaw="mandible")
    assert caught.value.remedy


@pytest.mark.scans
def test_a_single_crown_is_no_arch() -> None:
    with pytest.raises(InputError) as caught:
        take_in(read_mesh(CROWNS / "a_36.ply"), jaw="mandible")
    assert caught.value.remedy
