"""Cleaning, holes, trimming and units on small meshes made for it."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.arch import guess_unit
from claspwright.arch.holes import planar_faces, without_holes
from claspwright.arch.registration import register
from claspwright.arch.repair import cleaned
from claspwright.arch.topology import border_loops, edges_of
from claspwright.arch.trim import smoothly_trimmed
from claspwright.base import Floats, InputError
from claspwright.geometry import Mesh, Rigid, ball, face_areas, face_vectors, volume


def sheet(n: int = 20, size: float = 20.0) -> Mesh:
    """A flat square sheet that looks up."""
    x, y = np.meshgrid(np.linspace(0, size, n + 1), np.linspace(0, size, n + 1), indexing="ij")
    points = np.stack([x, y, np.zeros_like(x)], axis=-1).reshape(-1, 3)
    index = np.arange((n + 1) ** 2, dtype=np.int32).reshape(n + 1, n + 1)
    a, b, c, d = (
        g.ravel() for g in (index[:-1, :-1], index[1:, :-1], index[1:, 1:], index[:-1, 1:])
    )
    return Mesh(points, np.concatenate([np.stack([a, b, c], 1), np.stack([a, c, d], 1)]))


def test_split_vertices_turned_faces_flaps_and_islands_are_mended() -> None:
    mesh = sheet()
    soup = mesh.corners.reshape(-1, 3)
    faces = np.arange(len(soup), dtype=np.int32).reshape(-1, 3)
    faces[7] = faces[7, ::-1]
    flap = np.array([[10, 10, 0], [11, 10, 0], [10.5, 10.5, 2]], dtype=np.float64)
    island = np.array([[50, 0, 0], [51, 0, 0], [50, 1, 0]], dtype=np.float64)
    flat = np.zeros((3, 3))
    more = np.arange(9, dtype=np.int32).reshape(3, 3) + len(soup)
    dirty = Mesh(
        np.concatenate([soup, flap, island, flat]), np.concatenate([faces, more, faces[:1]])
    )
    clean, done = cleaned(dirty)
    assert float(face_areas(clean).sum()) == pytest.approx(400.0)
    assert (face_vectors(clean)[:, 2] > 0).all()
    assert done.non_manifold == 1
    assert done.degenerate == 2  # one without area, one doubled
    assert (edges_of(clean.faces).count <= 2).all()
    assert len(border_loops(clean.faces)) == 1


def test_a_hole_in_a_ball_is_filled_and_the_opening_is_left() -> None:
    mesh = ball(10.0, 1.0)
    z = mesh.corners.mean(axis=1)
    opening = z[:, 2] < -6.0
    small = np.linalg.norm(z - np.array([10.0, 0.0, 0.0]), axis=1) < 2.0
    filled, holes = without_holes(cleaned(Mesh(mesh.vertices, mesh.faces[~(opening | small)]))[0])
    assert len(holes) == 1
    assert holes[0].at[0] == pytest.approx(10.0, abs=0.5)
    assert len(border_loops(filled.faces)) == 1


def test_a_closed_ball_stays_closed() -> None:
    mesh = ball(10.0, 1.0)
    clean, done = cleaned(mesh)
    assert volume(clean) == pytest.approx(volume(mesh))
    assert not done.island_faces and not border_loops(clean.faces)


def test_a_ragged_edge_becomes_smooth_and_the_surface_stays() -> None:
    mesh = sheet(80)
    middle = mesh.corners.mean(axis=1)
    comb = (middle[:, 0] > 17.0) & (np.floor(middle[:, 1] / 0.5) % 2 == 0)
    ragged = cleaned(Mesh(mesh.vertices, mesh.faces[~comb]))[0]
    smooth = smoothly_trimmed(ragged)
    assert np.abs(smooth.vertices[:, 2]).max() < 1e-12
    assert smooth.vertices[:, 0].max() < 17.3  # the teeth of the comb are gone
    assert float(face_areas(smooth).sum()) > 0.94 * 17.0 * 20.0


@pytest.mark.parametrize("seed", [1, 2])
def test_every_corner_of_a_polygon_is_used(seed: int) -> None:
    rng = np.random.default_rng(seed)
    angle = np.sort(rng.uniform(0, 2 * np.pi, 40))
    radius = rng.uniform(3, 10, 40)
    ring = np.stack([radius * np.cos(angle), radius * np.sin(angle)], axis=1)
    ring = np.insert(ring, 5, (ring[4] + ring[5]) / 2, axis=0)  # in line with its neighbours
    faces = planar_faces(ring)
    assert len(faces) == len(ring) - 2
    assert set(faces.ravel().tolist()) == set(range(len(ring)))
    a, b, c = (ring[faces[:, i]] for i in range(3))
    u, v = b - a, c - a
    x, y = ring.T
    whole = 0.5 * float(x @ np.roll(y, -1) - y @ np.roll(x, -1))
    assert 0.5 * float((u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]).sum()) == pytest.approx(whole)


@pytest.mark.parametrize(
    ("size", "unit"), [(65.0, "mm"), (6.5, "cm"), (0.065, "m"), (2.4, "inch"), (65000.0, "um")]
)
def test_units(size: float, unit: str) -> None:
    assert guess_unit(sheet(2, size)).unit == unit


def test_no_unit_fits() -> None:
    with pytest.raises(InputError, match="dental arch"):
        guess_unit(sheet(2, 0.4))


def bumpy() -> Mesh:
    mesh = sheet(60, 30.0)
    x, y = mesh.vertices[:, 0], mesh.vertices[:, 1]
    z = np.sin(x / 3) + 0.7 * np.cos(y / 2) + 0.02 * x * np.sin(y / 5)
    return Mesh(np.column_stack([x, y, 2 * z]), mesh.faces)


def test_registration_finds_a_known_motion() -> None:
    fixed = bumpy()
    turn: Floats = Rigid(np.eye(3), np.zeros(3)).rotation
    c, s = np.cos(0.04), np.sin(0.04)
    turn = np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]])
    away = Rigid(turn, np.array([0.8, -0.6, 0.5]))
    found = register(fixed.moved(away), fixed)
    assert np.abs(found.motion.after(away).apply(fixed.vertices) - fixed.vertices).max() < 0.01
    assert found.overlap > 0.9
    assert found.residual_um < 5.0
