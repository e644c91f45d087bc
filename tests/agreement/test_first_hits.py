"""Ray casting against the depth buffer in NumPy alone."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh

from claspwright.geometry import Mesh
from claspwright.report import Item, Scene, hits, oblique, render
from claspwright.report.hits import Caster, scanned_hits


@pytest.mark.parametrize("seed", [1, 2])
def test_both_ways_meet_the_same_surface(seed: int) -> None:
    rng = np.random.default_rng(seed)
    meshes = []
    for _ in range(4):
        made = trimesh.creation.icosphere(subdivisions=3, radius=rng.uniform(2, 5))
        points = np.asarray(made.vertices) * rng.uniform(0.5, 1.5, 3) + rng.uniform(-4, 4, 3)
        meshes.append(Mesh(points, np.asarray(made.faces)))
    across = np.linspace(-9, 9, 301) + 1e-3
    turn, _ = np.linalg.qr(rng.normal(size=(3, 3)))
    turn[2] *= np.linalg.det(turn)
    rays = Caster(tuple(meshes)).first_hits(turn, across, across[::-1])
    turned = tuple(Mesh(m.vertices @ turn.T, m.faces) for m in meshes)
    scan = scanned_hits(turned, across, across[::-1])
    same = rays.item == scan.item
    assert same.mean() > 0.9995  # a pixel centre on a silhouette may fall either way
    both = same & (rays.item >= 0)
    # rays are single precision, and a facet seen edge-on turns 1e-6 mm sideways into much depth
    assert np.quantile(np.abs(rays.depth[both] - scan.depth[both]), 0.999) < 1e-3
    exact = both & (rays.face == scan.face)
    assert exact.sum() / both.sum() > 0.999
    assert np.quantile(np.abs(rays.second - scan.second)[exact], 0.999) < 1e-3


def test_a_picture_without_embree_is_the_same_picture(monkeypatch: pytest.MonkeyPatch) -> None:
    made = trimesh.creation.icosphere(subdivisions=4, radius=9.0)
    ball = Mesh(np.asarray(made.vertices) * [1.0, 0.8, 0.6], np.asarray(made.faces))
    scene = Scene((Item(ball),))
    with_rays = np.asarray(render(scene, oblique(), (240, 180))).astype(float)
    monkeypatch.setattr(hits, "EmbreeScene", None)
    without = np.asarray(render(scene, oblique(), (240, 180))).astype(float)
    assert np.abs(with_rays - without).mean() < 0.05  # of 255; silhouettes may fall either way
