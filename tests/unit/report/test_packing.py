"""Meshes for the page come back as they went in, to a step of 16 bits."""

from __future__ import annotations

import base64
import zlib

import numpy as np
import pytest
import trimesh

from claspwright.base import Floats, InputError, Ints
from claspwright.geometry import Mesh
from claspwright.report.lighten import lightened
from claspwright.report.packing import Packed, packed


def unpacked(pack: Packed) -> tuple[Floats, Ints, Floats | None]:
    """The reader in review_unpack.js, in NumPy."""
    raw = np.frombuffer(zlib.decompress(base64.b64decode(pack.text)), dtype=np.uint8)
    v, f = pack.vertices, pack.faces

    def column(start: int, count: int, width: int) -> np.ndarray:
        planes = raw[start : start + count * width].reshape(width, count).astype(np.int64)
        return (planes * 256 ** np.arange(width)[:, None]).sum(axis=0)

    steps = np.stack([np.cumsum(column(2 * a * v, v, 2)) % 65536 for a in range(3)], axis=1)
    low, high = np.array(pack.low), np.array(pack.high)
    first, second, third = (column(6 * v + 4 * n * f, f, 4) for n in range(3))
    lead = np.cumsum(first)
    faces = np.stack([lead, lead + second, lead + third], axis=1)
    values = raw[6 * v + 12 * f :].astype(float) if pack.with_values else None
    return low + steps / 65535 * (high - low), faces, values


def by_place(points: Floats, faces: Ints) -> Floats:
    """Corners of the faces, each from its lowest corner, in an order that both sides share."""
    corners = points[faces]
    keys = np.round(corners, 2)
    lead = np.array([min(range(3), key=lambda c: tuple(k[c])) for k in keys])
    turned = np.take_along_axis(corners, ((lead[:, None] + np.arange(3)) % 3)[..., None], axis=1)
    flat = np.round(turned.reshape(len(turned), -1), 2)
    return turned[np.lexsort(flat.T[::-1])]


@pytest.mark.parametrize("seed", [3, 4])
def test_a_mesh_comes_back_within_half_a_step(seed: int) -> None:
    rng = np.random.default_rng(seed)
    ball = trimesh.creation.icosphere(subdivisions=3)
    points = np.round(np.asarray(ball.vertices) * [30, 25, 9] + rng.uniform(-1, 1, 3), 2)
    faces = rng.permutation(np.asarray(ball.faces))
    pack = packed(Mesh(points, faces))
    got, got_faces, _ = unpacked(pack)
    half_step = np.ptp(points, axis=0).max() / 65535 / 2
    assert half_step < 0.0005
    want = by_place(
        points, faces
    )  # coordinates lie on a 0.01 mm grid: the same order on both sides
    assert np.abs(by_place(got, got_faces) - want).max() <= half_step * 1.001


def test_values_come_back_and_nothing_is_no_value() -> None:
    points = np.array([[0.0, 0, 0], [9, 0, 0], [0, 9, 0], [9, 9, 0]])
    values = np.array([0.0, 0.5, np.nan, 2.0])
    pack = packed(Mesh(points, np.array([[0, 1, 2], [1, 3, 2]])), values, low=0.0, high=1.0)
    got, _, bytes_ = unpacked(pack)
    assert bytes_ is not None
    found = {tuple(np.round(p)): int(b) for p, b in zip(got, bytes_, strict=True)}
    assert found == {(0, 0, 0): 0, (9, 0, 0): 128, (0, 9, 0): 0, (9, 9, 0): 255}


def test_a_mesh_without_faces_is_refused() -> None:
    with pytest.raises(InputError, match="without faces"):
        packed(Mesh(np.zeros((3, 3)), np.zeros((0, 3), dtype=np.int32)))


def test_lightening_stays_near_the_surface_and_never_shows_less_undercut() -> None:
    ball = trimesh.creation.icosphere(subdivisions=6, radius=20.0)
    mesh = Mesh(np.asarray(ball.vertices), np.asarray(ball.faces))
    values = np.where(mesh.vertices[:, 2] < 0, -mesh.vertices[:, 2] / 20, 0.0)
    light, kept = lightened(mesh, 20_000, values)
    assert 8_000 < len(light.faces) <= 20_000
    radius = np.linalg.norm(light.vertices, axis=1)
    # sagitta of a 1 mm cell on a radius of 20 mm: 0.5**2 / 40 = 0.006
    assert radius.min() > 20 - 0.0063 and radius.max() <= 20 + 1e-9
    assert kept is not None and kept.max() == pytest.approx(1.0)
    same, _ = lightened(mesh, 10**6)
    assert same is mesh
