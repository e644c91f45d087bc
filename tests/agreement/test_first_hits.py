"""The depth buffer of the pictures against one in NumPy alone, and against rays of Embree."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import pytest
import trimesh
from embreex.mesh_construction import TriangleMesh
from embreex.rtcore_scene import EmbreeScene
from numpy.typing import NDArray

from claspwright.base import Floats, Ints
from claspwright.geometry import Mesh
from claspwright.report.hits import Indices, first_hits


@dataclass(frozen=True)
class Twin:
    """What the pixels meet, as the depth buffer tells it."""

    item: Ints
    face: Ints
    weight: Floats
    depth: Floats


def balls(seed: int) -> tuple[tuple[Mesh, ...], Floats]:
    """Four balls pushed out of shape that pass through one another, and a way to look at them."""
    rng = np.random.default_rng(seed)
    meshes = []
    for _ in range(4):
        made = trimesh.creation.icosphere(subdivisions=3, radius=rng.uniform(2, 5))
        points = np.asarray(made.vertices) * rng.uniform(0.5, 1.5, 3) + rng.uniform(-4, 4, 3)
        meshes.append(Mesh(points, np.asarray(made.faces)))
    turn, _ = np.linalg.qr(rng.normal(size=(3, 3)))
    turn[2] *= np.linalg.det(turn)
    return tuple(meshes), turn


ACROSS = np.linspace(-9, 9, 301) + 1e-3


@pytest.mark.parametrize("seed", [1, 2])
def test_numpy_meets_the_same_surface(seed: int) -> None:
    meshes, turn = balls(seed)
    found = first_hits(meshes, turn, ACROSS, ACROSS[::-1])
    turned = tuple(Mesh(m.vertices @ turn.T, m.faces) for m in meshes)
    twin = scanned_hits(turned, ACROSS, ACROSS[::-1])
    same = (found.item == twin.item) & (found.face == twin.face)
    assert same.mean() > 0.9999  # a pixel centre on an edge may fall either way
    assert (found.item >= 0).mean() > 0.2
    met = same & (found.item >= 0)
    assert np.quantile(np.abs(found.depth[met] - twin.depth[met]), 0.999) < 1e-9
    assert np.quantile(np.abs(found.weight[met] - twin.weight[met]), 0.999) < 1e-9


@pytest.mark.parametrize("seed", [1, 2])
def test_rays_meet_the_same_surface(seed: int) -> None:
    meshes, turn = balls(seed)
    found = first_hits(meshes, turn, ACROSS, ACROSS[::-1])
    item, depth = cast_rays(meshes, turn, ACROSS, ACROSS[::-1])
    same = item == found.item
    assert same.mean() > 0.9995  # a pixel centre on a silhouette may fall either way
    both = same & (item >= 0)
    # rays are single precision, and a facet seen edge-on turns 1e-6 mm sideways into much depth
    assert np.quantile(np.abs(depth[both] - found.depth[both]), 0.999) < 1e-3


def test_nothing_is_met_beside_and_of_two_at_one_depth_the_first() -> None:
    corners = np.array([[0.0, 0.0, 0.0], [4.0, 0.0, 0.0], [0.0, 4.0, 0.0]])
    one = Mesh(corners, np.array([[0, 1, 2]]))
    across = np.linspace(-5.0, 5.0, 41)
    found = first_hits((one, one), np.eye(3), across, across[::-1])
    x, y = np.meshgrid(across, across[::-1])
    inside = (x >= 0) & (y >= 0) & (x + y <= 4)
    assert (found.item == np.where(inside, 0, -1)).all()
    assert (found.depth[~inside] == -np.inf).all() and (found.depth[inside] == 0).all()


def cast_rays(
    meshes: tuple[Mesh, ...], turn: Floats, across: Floats, down: Floats
) -> tuple[NDArray[np.int32], Floats]:
    """Item and depth that rays of Embree meet."""
    scene = EmbreeScene()
    held = [TriangleMesh(scene, m.corners.astype(np.float32)) for m in meshes]
    assert held
    right, up, toward = turn
    eye = across[None, :, None] * right + down[:, None, None] * up + 50.0 * toward
    eyes = eye.reshape(-1, 3).astype(np.float32)
    way = np.broadcast_to(-toward.astype(np.float32), eyes.shape).copy()
    met = scene.run(eyes, way, output=1)
    item = met["geomID"].astype(np.int32)
    depth = np.where(item >= 0, 50.0 - met["tfar"].astype(np.float64), -np.inf)
    shape = (len(down), len(across))
    return item.reshape(shape), depth.reshape(shape)


def scanned_hits(meshes: tuple[Mesh, ...], across: Floats, down: Floats) -> Twin:
    """First hits with a depth buffer in NumPy alone; meshes in the picture frame."""
    shape = (len(down), len(across))
    depth = np.full(shape[0] * shape[1], -np.inf)
    owner = np.full((shape[0] * shape[1], 2), -1, dtype=np.int32)
    weight = np.zeros((shape[0] * shape[1], 2))
    step = (across[-1] - across[0]) / (len(across) - 1)
    for index, mesh in enumerate(meshes):
        corners = mesh.corners
        x = (corners[:, :, 0] - across[0]) / step
        y = (down[0] - corners[:, :, 1]) / step
        for faces, pixels in _boxed_pixels(x, y, shape):
            row, column = np.divmod(pixels, shape[1])
            u, v, inside = _weights(x[faces], y[faces], column, row)
            f, at, u, v = faces[inside], pixels[inside], u[inside], v[inside]
            heights = corners[f, :, 2]
            z = (1 - u - v) * heights[:, 0] + u * heights[:, 1] + v * heights[:, 2]
            best = _nearest(at, f, z, len(depth))
            best = best[z[best] > depth[at[best]]]
            depth[at[best]] = z[best]
            owner[at[best], 0], owner[at[best], 1] = index, f[best]
            weight[at[best], 0], weight[at[best], 1] = u[best], v[best]
    return Twin(
        owner[:, 0].reshape(shape),
        owner[:, 1].reshape(shape),
        weight.reshape(*shape, 2),
        depth.reshape(shape),
    )


def _nearest(pixel: Indices, face: Indices, z: Floats, pixels: int) -> Indices:
    """For each pixel met the candidate nearest to the eye; of equals the lowest face."""
    order = np.lexsort((-face, z))
    last = np.full(pixels, -1, dtype=np.intp)
    last[pixel[order]] = order
    return last[last >= 0]


def _boxed_pixels(
    x: Floats, y: Floats, shape: tuple[int, int], most: int = 4_000_000
) -> Iterator[tuple[Indices, Indices]]:
    """Pairs of face and pixel for the pixel boxes round the faces, in chunks."""
    height, width = shape
    left = np.clip(np.ceil(x.min(axis=1)), 0, width).astype(np.intp)
    right = np.clip(np.floor(x.max(axis=1)), -1, width - 1).astype(np.intp)
    upper = np.clip(np.ceil(y.min(axis=1)), 0, height).astype(np.intp)
    lower = np.clip(np.floor(y.max(axis=1)), -1, height - 1).astype(np.intp)
    wide, tall = np.maximum(right - left + 1, 0), np.maximum(lower - upper + 1, 0)
    count = wide * tall
    for start, end in _chunks(count, most):
        n = count[start:end]
        faces = np.repeat(np.arange(start, end, dtype=np.intp), n)
        nth = np.arange(len(faces), dtype=np.intp) - np.repeat(np.cumsum(n) - n, n)
        row, column = upper[faces] + nth // wide[faces], left[faces] + nth % wide[faces]
        yield faces, row * width + column


def _chunks(count: Indices, most: int) -> list[tuple[int, int]]:
    """Ranges of faces whose pixel boxes hold about `most` pixels together."""
    total = np.cumsum(count)
    if not len(total) or total[-1] == 0:
        return []
    cuts = np.searchsorted(total, np.arange(most, total[-1] + most, most), side="left") + 1
    ends = np.unique(np.minimum(cuts, len(count)))
    return list(zip([0, *ends[:-1].tolist()], ends.tolist(), strict=True))


def _weights(x: Floats, y: Floats, px: Indices, py: Indices) -> tuple[Floats, Floats, Indices]:
    """Barycentric weights of pixels in their triangles, and which of them lie inside."""
    ax, ay = x[:, 1] - x[:, 0], y[:, 1] - y[:, 0]
    bx, by = x[:, 2] - x[:, 0], y[:, 2] - y[:, 0]
    cx, cy = px - x[:, 0], py - y[:, 0]
    area = ax * by - ay * bx
    flat = np.abs(area) < 1e-12
    area = np.where(flat, 1.0, area)
    u = (cx * by - cy * bx) / area
    v = (ax * cy - ay * cx) / area
    inside = ~flat & (u >= -1e-9) & (v >= -1e-9) & (u + v <= 1 + 1e-9)
    return u, v, np.flatnonzero(inside)
