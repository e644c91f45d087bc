"""The first surface that each pixel of an orthographic picture meets."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from claspwright.base import Floats, Ints
from claspwright.geometry import Mesh

Indices = NDArray[np.intp]

try:
    from embreex.mesh_construction import TriangleMesh
    from embreex.rtcore_scene import EmbreeScene
except ImportError:  # no wheel for this platform: the slower way below draws the same picture
    TriangleMesh = EmbreeScene = None


@dataclass(frozen=True, slots=True, eq=False)
class Hits:
    """Row-major over the picture; where nothing is met, item and face are -1, depth is -inf."""

    item: Ints  # (H, W) index of the mesh
    face: Ints  # (H, W) index of the face within its mesh
    second: Floats  # (H, W) barycentric weight of the face's second corner
    third: Floats  # (H, W) of its third corner
    depth: Floats  # (H, W) height towards the eye [mm]


class Caster:
    """Meshes made ready once, to be looked at from many sides."""

    def __init__(self, meshes: tuple[Mesh, ...]) -> None:
        """Build what the ray caster needs, where there is one."""
        self.meshes = meshes
        self._used: list[int] = []
        self._scene: Any = None if EmbreeScene is None else EmbreeScene()
        self._held: list[Any] = []
        if self._scene is not None:
            for index, mesh in enumerate(meshes):
                if len(mesh.faces):
                    points = np.ascontiguousarray(mesh.vertices, dtype=np.float32)
                    faces = np.ascontiguousarray(mesh.faces)
                    self._held.append(TriangleMesh(self._scene, points, faces))
                    self._used.append(index)

    def first_hits(self, rotation: Floats, across: Floats, down: Floats) -> Hits:
        """What each pixel meets first.

        Args:
            rotation: (3, 3) world to picture frame: x right, y up, z towards the eye.
            across: (W,) x of the pixel centres in the picture frame, increasing [mm].
            down: (H,) y of the pixel centres in the picture frame, decreasing [mm].
        """
        if self._scene is None:
            turned = tuple(Mesh(m.vertices @ rotation.T, m.faces) for m in self.meshes)
            return scanned_hits(turned, across, down)
        return self._cast(rotation, across, down)

    def _cast(self, rotation: Floats, across: Floats, down: Floats) -> Hits:
        right, up, toward = rotation
        heights = [m.vertices @ toward for m in self.meshes if len(m.vertices)]
        start = max(float(h.max()) for h in heights) + 1.0
        shape = (len(down), len(across))
        eye = across[None, :, None] * right + down[:, None, None] * up + start * toward
        eyes = eye.reshape(-1, 3).astype(np.float32)
        way = np.broadcast_to(-toward.astype(np.float32), eyes.shape).copy()
        found = self._scene.run(eyes, way, output=1)
        which = found["geomID"].astype(np.int32)
        met = which >= 0
        item = np.where(met, np.array([*self._used, -1], dtype=np.int32)[which], -1)
        face = np.where(met, found["primID"], -1)
        depth = np.where(met, start - found["tfar"].astype(np.float64), -np.inf)
        return Hits(
            item.astype(np.int32).reshape(shape),
            face.astype(np.int32).reshape(shape),
            found["u"].astype(np.float64).reshape(shape),
            found["v"].astype(np.float64).reshape(shape),
            depth.reshape(shape),
        )


def scanned_hits(meshes: tuple[Mesh, ...], across: Floats, down: Floats) -> Hits:
    """First hits with a depth buffer in NumPy alone, for platforms without Embree.

    Meshes in the picture frame: x right, y up, z towards the eye [mm].
    """
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
    return Hits(
        owner[:, 0].reshape(shape),
        owner[:, 1].reshape(shape),
        weight[:, 0].reshape(shape),
        weight[:, 1].reshape(shape),
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
