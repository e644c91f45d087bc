"""Taper, fills, ledges, bead lines, and the names and volumes of what was added."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.arch import DentalArch
from claspwright.base import InputError
from claspwright.geometry import (
    DistanceTree,
    Field,
    check_solid,
    face_areas,
    face_normals,
    is_covered,
    signed_distance,
    volume,
)
from claspwright.survey import (
    Course,
    Patch,
    Relief,
    Survey,
    Wax,
    block_out,
    faces_by_body,
    path_from_tilts,
    survey,
    with_ledges,
)

RADIUS = 4.0
TISSUE = -2.5
UP = np.array([0.0, 0.0, 1.0])


@pytest.fixture(scope="module")
def seen(balls: DentalArch) -> Survey:
    return survey(balls, path_from_tilts("mandible"), spacing_mm=0.2)


def ring(radius: float, height: float, x: float = 8.0) -> np.ndarray:
    turn = np.linspace(0, 2 * np.pi, 60, endpoint=False)
    return np.column_stack([x + radius * np.cos(turn), radius * np.sin(turn), np.full(60, height)])


@pytest.mark.reference("check-values B22; cone that touches a sphere, closed form")
def test_tapered_walls_widen_from_where_they_touch(balls: DentalArch, seen: Survey) -> None:
    taper = np.radians(4.0)
    found = block_out(balls, seen, wax=Wax(taper_deg=4.0))
    assert check_solid(found.model).sound
    tree = DistanceTree(found.model)
    for height in (-0.8, -1.5, -2.2):
        radius = RADIUS / np.cos(taper) - height * np.tan(taper)
        assert np.abs(signed_distance(tree, ring(radius, height))).max() < 0.01
    assert found.blockout_mm3 > block_out(balls, seen).blockout_mm3 + 5
    top = balls.scan.surface.vertices[balls.scan.surface.vertices[:, 2] > 0.6]
    assert np.abs(signed_distance(tree, top)).max() < 1e-9
    ends = found.model.vertices[found.model.vertices[:, 2] < TISSUE - 0.5]
    border = np.abs(balls.scan.solid.bounds[:, 1]).max()  # 3 mm beside the crowns
    assert np.abs(ends[:, 1]).max() < border + 0.01  # does not flare
    with pytest.raises(InputError, match="taper"):
        Wax(taper_deg=9.0)


def test_bodies_have_names_and_their_volumes_add_up(balls: DentalArch, seen: Survey) -> None:
    grid = seen.block_field.grid
    x, y, _ = np.meshgrid(*grid.axes(), indexing="ij")
    patch = np.clip((1.5 - np.abs(x)) / 0.4, 0, 1) * np.clip((3 - np.abs(y)) / 0.5, 0, 1)
    left = (x < 0).astype(np.int8)
    relief = Relief(
        Field(grid, (0.5 * patch).astype(np.float32)), left + np.int8(1), ("bar", "base.46")
    )
    found = block_out(balls, seen, relief)
    volumes = {body.name: body.volume_mm3 for body in found.bodies}
    assert set(volumes) >= {"blockout.45", "blockout.47", "relief.bar", "relief.base.46"}
    blocked = sum(v for name, v in volumes.items() if name.startswith("blockout"))
    assert blocked == pytest.approx(found.blockout_mm3, rel=0.05)
    assert volumes["relief.bar"] + volumes["relief.base.46"] == pytest.approx(
        found.relief_mm3, rel=0.05
    )
    at = {body.name: body.at_mm for body in found.bodies}
    assert at["blockout.45"][0] > 3 > -3 > at["blockout.47"][0]
    owner = faces_by_body(found, DistanceTree(balls.scan.solid))
    middles = found.model.corners.mean(axis=1)
    names = np.array([*(body.name for body in found.bodies), "bare"])[owner]
    assert set(names[middles[:, 2] > 0.5]) == {"bare"}
    wall = (np.abs(middles[:, 2] + 1.2) < 0.8) & (np.hypot(middles[:, 0] - 8, middles[:, 1]) < 4.1)
    assert np.mean(np.char.startswith(names[wall], "blockout")) > 0.95
    raised = (np.abs(middles[:, 2] - TISSUE - 0.5) < 0.02) & (np.abs(middles[:, 0]) < 1.0)
    assert np.mean(np.char.startswith(names[raised], "relief")) > 0.95


def test_a_fill_closes_a_hollow_and_keeps_off_round_surfaces(
    balls: DentalArch, seen: Survey
) -> None:
    """The corner of crown and block is rounded by a ball; nothing undercuts what was filled."""
    found = block_out(balls, seen, wax=Wax(fills=(Patch("corner", (3.6, 0.0, TISSUE), 1.2),)))
    assert check_solid(found.model).sound
    (fill,) = [body for body in found.bodies if body.kind == "fill"]
    assert fill.name == "fill.corner"
    assert 0.2 < fill.volume_mm3 < 4.0
    tree = DistanceTree(found.model)
    assert signed_distance(tree, np.array([[3.7, 0.0, TISSUE + 0.2]]))[0] < 0
    start = found.model.corners.mean(axis=1) + 0.02 * face_normals(found.model)
    near = np.hypot(start[:, 0] - 3.6, start[:, 1]) < 1.5
    asked = near & (start[:, 2] > TISSUE - 0.5)
    over, area = is_covered(tree, start[asked], UP), face_areas(found.model)[asked]
    assert area[over].sum() < 0.01 * area.sum()
    top = balls.scan.surface.vertices[balls.scan.surface.vertices[:, 2] > 0.6]
    assert np.abs(signed_distance(tree, top)).max() < 1e-9


@pytest.mark.reference("check-values B28; half-ellipse of width and depth, to a tenth")
def test_a_bead_line_is_cut_as_wide_and_deep_as_asked(balls: DentalArch, seen: Survey) -> None:
    line = np.column_stack([np.linspace(-2, 2, 9), np.full(9, 3.0), np.full(9, TISSUE)])
    found = block_out(balls, seen, wax=Wax(beads=(Course("palatal", line, 1.0, 0.5),)))
    assert check_solid(found.model).sound
    (bead,) = [body for body in found.bodies if body.kind == "bead"]
    assert bead.volume_mm3 == pytest.approx(-0.5 * np.pi * 0.5**2 * 4.0, rel=0.35)
    tree = DistanceTree(found.model)
    bottom = np.array([[0.0, 3.0, TISSUE - 0.5], [0.0, 3.5, TISSUE], [0.0, 4.2, TISSUE]])
    assert np.abs(signed_distance(tree, bottom)).max() < 0.06
    assert found.field.at(np.array([[0.0, 3.0, TISSUE - 0.25]]))[0] < 0  # metal is laid on it


def test_a_ledge_stands_under_its_line(balls: DentalArch, seen: Survey) -> None:
    turn = np.radians(np.linspace(20, 160, 40))
    line = np.column_stack([8 + 4 * np.cos(turn), 4 * np.sin(turn), np.full(40, -1.0)])
    plain = block_out(balls, seen)
    found = with_ledges(plain, (Course("45.buccal", line, 0.8, 1.0),))
    assert check_solid(found.model).sound
    ledge = found.bodies[-1]
    assert (ledge.name, ledge.kind) == ("ledge.45.buccal", "ledge")
    assert ledge.volume_mm3 == pytest.approx(
        0.5 * np.radians(140) * (4.8**2 - 4.0**2) * 1.0, rel=0.2
    )
    assert volume(found.model) - volume(plain.model) == pytest.approx(ledge.volume_mm3)
    tree = DistanceTree(found.model)
    on_top, below = np.array([[8.0, 4.4, -1.0]]), np.array([[8.0, 4.8, -1.5]])
    assert np.abs(signed_distance(tree, np.concatenate([on_top, below]))).max() < 0.08
