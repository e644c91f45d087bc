"""The gauge's reading against an independent slow one: outlines of the solid's shadow."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import shapely
import trimesh
from shapely.ops import nearest_points

from claspwright.base import Floats
from claspwright.geometry import DistanceTree, Mesh, ball, box, is_covered, union, vertex_normals
from claspwright.survey import read_fields, survey_fields

UP = np.array([0.0, 0.0, 1.0])


def slow_reading(solid: Mesh, caster: trimesh.Trimesh, point: Floats) -> float:
    """Distance to the outline of all that lies over the level of the point, seen along +z.

    NaN where the way there would pass through the solid.
    """
    loose = trimesh.Trimesh(solid.vertices, solid.faces, process=False)
    above = trimesh.intersections.slice_mesh_plane(loose, UP, point + 1e-7 * UP)
    flat = np.asarray(above.triangles)[:, :, :2]
    one, two = flat[:, 1] - flat[:, 0], flat[:, 2] - flat[:, 0]
    area = np.abs(one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0])
    shadow = shapely.union_all(shapely.polygons(flat[area > 1e-9]))
    shadow = shadow.buffer(3e-5).buffer(-3e-5)  # closes cracks of rounding
    here = shapely.Point(point[:2])
    there = np.array(nearest_points(here, shadow.boundary)[1].coords[0])
    along = np.linspace(0.03, 0.97, 31)[:, None]
    way = np.column_stack([point[:2] + along * (there - point[:2]), np.full(31, point[2])])
    if caster.contains(way).any():
        return float("nan")
    return float(np.hypot(*(there - point[:2])))


def lumpy() -> Mesh:
    """Fused balls of unlike size under a ledge with a sharp edge."""
    one = ball(3.0, 0.35)
    two = Mesh(0.8 * one.vertices + [3.5, 1.0, 0.7], one.faces)
    ledge = box(np.array([-1.0, -2.0, 1.2]), np.array([2.0, 4.3, 2.0]))
    return union(one, two, ledge)


def leaning_ridge() -> Mesh:
    """A bar with a sharp crest, leaning over."""
    low, high = np.array([-1.0, -5.0, 0.0]), np.array([1.0, 5.0, 4.0])
    plain = box(low, high)
    shear = plain.vertices + np.outer(plain.vertices[:, 2], [0.35, 0.0, 0.0])
    top = plain.vertices[:, 2] > 2
    shear[top, 0] = shear[top].mean(axis=0)[0] + 0.02 * np.sign(plain.vertices[top, 0])
    loose = trimesh.Trimesh(shear, plain.faces, process=False)
    fine = loose.subdivide_to_size(0.4)
    return Mesh(np.asarray(fine.vertices), np.asarray(fine.faces))


def compare(solid: Mesh, count: int, seed: int, spacing: float) -> tuple[Floats, Floats]:
    tree = DistanceTree(solid)
    scan, block, _ = survey_fields(solid, tree, UP, spacing)
    start = solid.vertices + 0.002 * vertex_normals(solid)
    low = solid.vertices[:, 2].min()
    asked = np.flatnonzero(is_covered(tree, start, UP) & (solid.vertices[:, 2] > low + 0.2))
    asked = np.random.default_rng(seed).choice(asked, min(count, len(asked)), replace=False)
    fast = read_fields(scan, block, solid.vertices[asked], tree).undercut_mm
    caster = trimesh.Trimesh(solid.vertices, solid.faces, process=False)
    slow = np.array([slow_reading(solid, caster, point) for point in solid.vertices[asked]])
    known = np.isfinite(slow) & (slow < 2.5)
    assert known.sum() >= 12
    return fast[known], slow[known]


@pytest.mark.parametrize("make", [lumpy, leaning_ridge], ids=["lumpy", "leaning"])
def test_hard_shapes(make) -> None:
    fast, slow = compare(make(), 30, 1, 0.1)
    assert np.quantile(np.abs(fast - slow), 0.9) < 0.006
    assert np.abs(fast - slow).max() < 0.02


@pytest.mark.scans
@pytest.mark.parametrize("name", ["a_36", "b_14"])
def test_real_crowns(scans: Path, name: str) -> None:
    loaded = trimesh.load(scans / "crowns" / f"{name}.ply", process=False)
    turn = np.array([[-1.0, 0, 0], [0, 0, 1], [0, 1, 0]])  # y is the long axis there
    if name[2] in "12":
        turn = turn * np.array([[1.0], [-1.0], [-1.0]])
    crown = Mesh(np.asarray(loaded.vertices) @ turn.T, np.asarray(loaded.faces))
    fast, slow = compare(crown, 40, 2, 0.1)
    assert np.quantile(np.abs(fast - slow), 0.9) < 0.003
    assert np.quantile(np.abs(fast - slow), 0.97) < 0.01
