"""The gauge's reading against independent slow ones: outlines of the shadow, and rays."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely
import trimesh
from shapely.ops import nearest_points

from claspwright.base import Floats
from claspwright.geometry import Mesh, ball, box, union, vertex_normals
from claspwright.survey import cast_shadow, read_gauge

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


def hidden_points(solid: Mesh, count: int, seed: int) -> Any:
    """Vertices of walls that something lies over: not of the foot, nor of ceilings.

    Under a ceiling the way out grazes the solid, and the two starts, 2 and 4 um off the surface,
    see past a bump or not.
    """
    normals = vertex_normals(solid)
    hidden = cast_shadow(solid, UP).hides(solid.vertices + 0.002 * normals)
    hidden &= normals[:, 2] > -0.85
    low = solid.vertices[:, 2].min()
    asked = np.flatnonzero(hidden & (solid.vertices[:, 2] > low + 0.2))
    return np.random.default_rng(seed).choice(asked, min(count, len(asked)), replace=False)


def fast_reading(solid: Mesh, asked: Any) -> Floats:
    normals = vertex_normals(solid)[asked]
    shadow = cast_shadow(solid, UP)
    found = read_gauge(shadow, solid.vertices[asked], normals, lip_radius_mm=0.0, graze_mm=0.0)
    return found.undercut_mm


@pytest.mark.parametrize("make", [lumpy, leaning_ridge], ids=["lumpy", "leaning"])
def test_hard_shapes_against_outlines(make: Any) -> None:
    solid = make()
    asked = hidden_points(solid, 30, 1)
    fast = fast_reading(solid, asked)
    caster = trimesh.Trimesh(solid.vertices, solid.faces, process=False)
    slow = np.array([slow_reading(solid, caster, point) for point in solid.vertices[asked]])
    known = np.isfinite(slow) & (slow < 2.9)
    assert known.sum() >= 12
    off = np.abs(fast - slow)[known]
    assert np.quantile(off, 0.9) < 0.003  # the rest: ways that graze the solid, clear or not


class Fan:
    """Rays of another library: level ways from a point in all directions of the plane."""

    def __init__(self, solid: Mesh) -> None:
        self.caster = trimesh.Trimesh(solid.vertices, solid.faces, process=False).ray

    def free(self, start: Floats, turn: Floats, reach: Floats) -> Any:
        """(T, R) where the way up is free at a distance along a way that nothing stops."""
        ways = np.column_stack([np.cos(turn), np.sin(turn), 0 * turn])
        at = start + reach[None, :, None] * ways[:, None, :]
        flat = at.reshape(-1, 3)
        hit = self.caster.intersects_any(flat, np.tile(UP, (len(flat), 1)))
        stop = np.full(len(turn), np.inf)
        places, rays, _ = self.caster.intersects_location(
            np.tile(start, (len(turn), 1)), ways, multiple_hits=False
        )
        stop[rays] = np.linalg.norm(places - start, axis=1)
        return ~hit.reshape(at.shape[:2]) & (reach[None] < stop[:, None])

    def reading(self, point: Floats, normal: Floats) -> float:
        """Nearest free place, first coarsely all round, then finely about the nearest ones."""
        start = point + 0.004 * normal
        best, turn = np.inf, np.linspace(0, 2 * np.pi, 240, endpoint=False)
        reach = np.arange(0.0, 2.6, 0.03)
        free = self.free(start, turn, reach)
        first = np.where(free.any(axis=1), reach[free.argmax(axis=1)], np.inf)
        for n in np.argsort(first)[:6]:
            if not np.isfinite(first[n]):
                continue
            near = np.linspace(max(first[n] - 0.12, 0.0), first[n], 81)
            finely = turn[n] + np.linspace(-0.03, 0.03, 31)
            hits = self.free(start, finely, near)
            if hits.any():
                best = min(best, float(near[hits.argmax(axis=1)[hits.any(axis=1)]].min()))
        return best


@pytest.mark.scans
@pytest.mark.parametrize("name", ["a_36", "b_14"])
def test_real_crowns_against_rays(scans: Path, name: str) -> None:
    loaded = trimesh.load(scans / "crowns" / f"{name}.ply", process=False)
    turn = np.array([[-1.0, 0, 0], [0, 0, 1], [0, 1, 0]])  # y is the long axis there
    if name[2] in "12":
        turn = turn * np.array([[1.0], [-1.0], [-1.0]])
    crown = Mesh(np.asarray(loaded.vertices) @ turn.T, np.asarray(loaded.faces))
    asked = hidden_points(crown, 110, 2)
    fast = fast_reading(crown, asked)
    fan, normals = Fan(crown), vertex_normals(crown)
    slow = np.array([fan.reading(crown.vertices[n], normals[n]) for n in asked])
    known = slow < 2.5
    assert known.sum() >= 80
    off = np.abs(fast - slow)[known]
    assert np.mean(off < 0.01) >= 0.99
