from __future__ import annotations

import numpy as np
import pytest
import shapely
from shapely.geometry import Polygon

from claspwright.base import GeometryError, InputError
from claspwright.geometry import (
    DistanceTree,
    HeldSolid,
    Mesh,
    ball,
    bodies,
    box,
    carved,
    check_solid,
    cut_below,
    difference,
    face_areas,
    intersection,
    is_watertight,
    merged,
    revolved,
    shells,
    signed_distance,
    simplified,
    union,
    volume,
    without_crumbs,
)

CUBE = box(np.zeros(3), np.full(3, 2.0))
SPHERE = ball(1.5, 0.1)


def test_volumes_of_booleans_add_up() -> None:
    both, common = union(CUBE, SPHERE), intersection(CUBE, SPHERE)
    rest = difference(CUBE, SPHERE)
    assert volume(both) + volume(common) == pytest.approx(8.0 + volume(SPHERE), rel=1e-9)
    assert volume(rest) + volume(common) == pytest.approx(8.0, rel=1e-9)
    for solid in (both, common, rest):
        assert check_solid(solid).sound
        assert check_solid(solid).bodies == 1


def test_a_cut_keeps_the_cutters_vertices_to_the_last_digit() -> None:
    cut = difference(CUBE, SPHERE)
    before = {tuple(v) for v in SPHERE.vertices}
    kept = sum(tuple(v) in before for v in cut.vertices)
    corner = (SPHERE.vertices > 0).all(axis=1) & (np.linalg.norm(SPHERE.vertices, axis=1) < 2)
    assert kept >= corner.sum()
    assert signed_distance(DistanceTree(SPHERE), cut.vertices).min() > -1e-12


def test_bad_operands_are_named_with_their_place() -> None:
    with pytest.raises(GeometryError, match="inside out") as error:
        union(CUBE, Mesh(SPHERE.vertices, SPHERE.faces[:, ::-1]))
    assert error.value.place == "operand 2 of union"
    with pytest.raises(GeometryError, match="lack a face") as error:
        difference(Mesh(SPHERE.vertices, SPHERE.faces[1:]), CUBE)
    assert "operand 1 of difference at (" in error.value.place
    with pytest.raises(InputError, match="tolerance"):
        simplified(CUBE, -1.0)


def test_checks_of_open_inverted_and_empty_meshes() -> None:
    opened = check_solid(Mesh(SPHERE.vertices, SPHERE.faces[1:]))
    assert (opened.status, opened.watertight, opened.sound) == ("NotManifold", False, False)
    inverted = check_solid(Mesh(CUBE.vertices, CUBE.faces[:, ::-1]))
    assert inverted.watertight
    assert not inverted.sound
    empty = Mesh(np.zeros((0, 3)), np.zeros((0, 3), np.int32))
    assert not check_solid(empty).sound
    assert not is_watertight(empty)
    assert union(empty, CUBE).faces.shape == CUBE.faces.shape


def test_shells_bodies_and_crumbs() -> None:
    hollow = difference(box(np.full(3, -2.0), np.full(3, 2.0)), SPHERE)
    crumb = Mesh(0.1 * CUBE.vertices + 5.0, CUBE.faces)
    everything = merged(crumb, hollow, Mesh(CUBE.vertices + 9.0, CUBE.faces))
    volumes = [volume(shell) for shell in shells(everything)]
    assert volumes == pytest.approx([64.0, 8.0, 0.008, -volume(SPHERE)])
    assert len(bodies(everything)) == 3
    kept, dropped = without_crumbs(everything, 0.05)
    assert dropped == 1
    assert volume(kept) == pytest.approx(64.0 + 8.0 - volume(SPHERE))
    assert without_crumbs(CUBE)[0] is CUBE


def test_simplified_and_cut() -> None:
    fine = Mesh(SPHERE.vertices, SPHERE.faces)
    coarse = simplified(fine, 0.02)
    assert len(coarse.faces) < 0.5 * len(fine.faces)
    assert np.abs(signed_distance(DistanceTree(fine), coarse.vertices)).max() < 0.021
    half = cut_below(CUBE, np.array([0, 0, 1.0]), 0.5)
    assert volume(half) == pytest.approx(6.0)
    assert half.vertices[:, 2].min() == pytest.approx(0.5)


def _carved(*solids: Mesh, tidy: float = 0.0) -> Mesh:
    body, cutter, spared, always = (HeldSolid.of(one) for one in solids)
    return carved(body, cutter, spared, always, tidy=tidy).mesh()


def test_carving_in_one_go_is_the_chain_of_differences() -> None:
    spared = box(np.array([0.0, -3.0, -3.0]), np.array([3.0, 3.0, 3.0]))
    always = box(np.full(3, 0.7), np.full(3, 3.0))
    chain = difference(difference(CUBE, difference(SPHERE, spared)), always)
    whole = _carved(CUBE, SPHERE, spared, always)
    assert volume(whole) == pytest.approx(volume(chain), rel=1e-9)
    assert check_solid(whole).status == "NoError"
    with pytest.raises(GeometryError, match="not a closed solid"):
        HeldSolid.of(Mesh(CUBE.vertices, CUBE.faces[1:]))


def test_tidying_collapses_slivers_and_hardly_moves_the_surface() -> None:
    fine = ball(1.5, 0.05)
    cutter = Mesh(fine.vertices @ np.diag([1.1, 0.9, 1.05]) + [0.61, 0.37, 0.23], fine.faces)
    spared = box(np.array([0.0, -3.0, -3.0]), np.array([3.0, 3.0, -1.0]))
    always = box(np.full(3, 0.9), np.full(3, 3.0))
    plain, tidy = (_carved(fine, cutter, spared, always, tidy=by) for by in (0.0, 1e-4))
    narrow = [int((face_areas(mesh) < 1e-6).sum()) for mesh in (plain, tidy)]
    assert narrow[1] < 0.7 * narrow[0]
    assert check_solid(tidy).sound
    assert volume(tidy) == pytest.approx(volume(plain), rel=1e-6)


def test_what_a_solid_covers_is_the_union_of_its_shadows() -> None:
    """A leaning ring and a post through it, beside shapely's union of all faces seen from above."""
    turn = np.radians(35.0)
    lean = np.array([[np.cos(turn), 0, np.sin(turn)], [0, 1, 0], [-np.sin(turn), 0, np.cos(turn)]])
    outer = revolved(np.array([[0.0, -1.0], [5.0, -1.0], [5.0, 1.0], [0.0, 1.0]]), 48)
    inner = revolved(np.array([[0.0, -2.0], [4.0, -2.0], [4.0, 2.0], [0.0, 2.0]]), 48)
    ring = difference(outer, inner)
    leaning = Mesh(ring.vertices @ lean.T, ring.faces)
    post = box(np.array([-1.0, 3.0, -6.0]), np.array([1.0, 8.0, 6.0]))
    body = union(leaning, post)
    rings = HeldSolid.of(body).covered()
    found = [Polygon(one[0], one[1:]) for one in rings]
    shadows = [Polygon(corners[:, :2]) for corners in body.corners]
    wanted = shapely.union_all([one for one in shadows if one.area > 1e-12])
    assert len(found) == 1 and len(found[0].interiors) >= 1  # one sees through the ring
    assert found[0].symmetric_difference(wanted).area < 1e-6 * wanted.area
