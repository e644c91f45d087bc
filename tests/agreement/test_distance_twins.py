"""Distances and rays against brute force in NumPy, libigl and embreex."""

from __future__ import annotations

from pathlib import Path

import igl
import numpy as np
import pytest
import trimesh

from claspwright.base import Floats
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    ball,
    closest_points,
    ray_lengths,
    signed_distance,
)


def segment_distance(points: Floats, a: Floats, b: Floats) -> Floats:
    """(P, F) distance of points to segments, plain."""
    along = b - a
    t = np.einsum("pfd,fd->pf", points[:, None] - a, along) / np.einsum("fd,fd->f", along, along)
    t = np.clip(t, 0, 1)[..., None]
    return np.linalg.norm(points[:, None] - a - t * along, axis=2)


def brute_force(mesh: Mesh, points: Floats) -> Floats:
    """(P,) unsigned distance: to all planes within the triangles, else to all edges."""
    a, b, c = (mesh.corners[:, n] for n in range(3))
    normal = np.cross(b - a, c - a)
    normal /= np.linalg.norm(normal, axis=1, keepdims=True)
    height = np.einsum("pfd,fd->pf", points[:, None] - a, normal)
    foot = points[:, None] - height[..., None] * normal
    within = np.ones(height.shape, bool)
    for start, end in ((a, b), (b, c), (c, a)):
        within &= np.einsum("pfd,fd->pf", np.cross(end - start, foot - start), normal) >= 0
    best = np.where(within, np.abs(height), np.inf).min(axis=1)
    for start, end in ((a, b), (b, c), (c, a)):
        best = np.minimum(best, segment_distance(points, start, end).min(axis=1))
    return best


def rough(seed: int) -> Mesh:
    """A star-shaped lump with sharp peaks."""
    sphere = ball(2.0, 0.7)
    swell = np.random.default_rng(seed).uniform(0.5, 1.5, len(sphere.vertices))
    return Mesh(sphere.vertices * swell[:, None], sphere.faces)


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_distance_equals_brute_force(seed: int) -> None:
    mesh = rough(seed)
    points = np.random.default_rng(seed).uniform(-3, 3, (300, 3))
    points[:50] = mesh.vertices[:50]  # on the surface too
    found = np.abs(signed_distance(DistanceTree(mesh), points))
    assert found == pytest.approx(brute_force(mesh, points), abs=1e-12)


def crown(folder: Path, name: str) -> Mesh:
    loaded = trimesh.load(folder / "crowns" / f"{name}.ply", process=False)
    return Mesh(np.asarray(loaded.vertices), np.asarray(loaded.faces))


@pytest.mark.scans
@pytest.mark.parametrize("name", ["a_16", "b_33"])
def test_signed_distance_equals_libigl_on_real_crowns(scans: Path, name: str) -> None:
    mesh = crown(scans, name)
    low, high = mesh.bounds
    points = np.random.default_rng(4).uniform(low - 2, high + 2, (6000, 3))
    kind = igl.SIGNED_DISTANCE_TYPE_PSEUDONORMAL
    other = igl.signed_distance(points, mesh.vertices, mesh.faces.astype(np.int64), sign_type=kind)
    found = closest_points(DistanceTree(mesh), points)
    assert found.distance == pytest.approx(other[0], abs=1e-9)
    onto = np.linalg.norm(points - found.points, axis=1)
    assert onto == pytest.approx(np.abs(found.distance), abs=1e-9)


@pytest.mark.scans
def test_rays_agree_with_embreex_on_a_real_crown(scans: Path) -> None:
    mesh = crown(scans, "a_46")
    low, high = mesh.bounds
    start = np.random.default_rng(5).uniform(low, high, (3000, 3)) * [1, 1, 0] + [0, 0, low[2] - 1]
    up = np.array([0.0, 0.0, 1.0])
    found = ray_lengths(DistanceTree(mesh), start, up)
    other = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False).ray
    place, ray, _ = other.intersects_location(start, np.tile(up, (len(start), 1)), False)
    length = np.full(len(start), np.inf)
    length[ray] = place[:, 2] - start[ray, 2]
    same = np.isfinite(found) == np.isfinite(length)
    assert same.mean() > 0.999  # embreex is single precision: silhouettes may differ
    both = np.isfinite(found) & np.isfinite(length)
    assert np.quantile(np.abs(found[both] - length[both]), 0.99) < 1e-3
