"""Pictures: what lies where, which side is which, same bytes."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh

from claspwright.arch import Jaw, patient_right
from claspwright.base import InputError
from claspwright.geometry import Mesh
from claspwright.report import (
    SIDES,
    Item,
    Label,
    Line,
    Scene,
    close_up,
    contact_sheet,
    mapped,
    png,
    render,
    view,
)
from claspwright.report.hits import first_hits
from claspwright.report.render import camera_for


def ball(radius: float = 5.0, at: tuple[float, float, float] = (0, 0, 0)) -> Mesh:
    made = trimesh.creation.icosphere(subdivisions=5, radius=radius)
    return Mesh(np.asarray(made.vertices) + at, np.asarray(made.faces))


def test_depth_of_a_ball_is_that_of_the_sphere() -> None:
    mesh = ball(5.0)
    across = np.linspace(-6, 6, 121)
    hits = first_hits((mesh,), np.eye(3), across, across[::-1])
    square = across[None, :] ** 2 + across[::-1, None] ** 2
    inner = square < 4.5**2
    # a facet of this ball lies at most 0.002 mm inside, 0.005 mm where the surface is steep
    assert np.abs(hits.depth[inner] - np.sqrt(25 - square[inner])).max() < 0.006
    assert (hits.item[square > 5.05**2] == -1).all()
    seen = (hits.item == 0).sum() * 0.1**2
    assert seen == pytest.approx(np.pi * 25, rel=0.01)  # within one row of pixels round the rim


@pytest.mark.parametrize("jaw", ["mandible", "maxilla"])
@pytest.mark.parametrize("side", ["occlusal", "from the front"])
def test_the_patients_right_is_on_the_viewers_left(jaw: Jaw, side: str) -> None:
    scene = Scene((Item(ball()),))
    camera = camera_for(scene, view(side, jaw), (200, 200))  # type: ignore[arg-type]
    column = camera.project(np.stack([4 * patient_right(jaw), -4 * patient_right(jaw)]))[:, 0]
    assert column[0] < column[1]


@pytest.mark.parametrize("jaw", ["mandible", "maxilla"])
def test_side_views_are_taken_from_the_side_they_name(jaw: Jaw) -> None:
    right = patient_right(jaw)
    assert view("from the right", jaw).axes()[2] @ right == pytest.approx(1)
    assert view("from the left", jaw).axes()[2] @ right == pytest.approx(-1)
    for side in SIDES:
        axes = np.stack(view(side, jaw).axes())
        assert np.allclose(axes @ axes.T, np.eye(3))
        assert np.linalg.det(axes) == pytest.approx(1)  # never mirrored


def test_the_nearer_item_hides_the_farther_one_and_its_line() -> None:
    near, far = ball(1.0, (0, 0, 3)), ball(1.0, (0, 0, -3))
    red, blue = (220, 30, 30), (30, 30, 220)
    line = Line(np.array([[-3.0, 0, -3], [3, 0, -3]]), (0, 200, 0), width_px=3)
    scene = Scene((Item(near, red, shine=0), Item(far, blue, shine=0)), (line,))
    top = np.asarray(render(scene, view("occlusal"), (120, 120), scale_bar=False)).astype(int)
    below = np.asarray(render(scene, view("tissue side"), (120, 120), scale_bar=False)).astype(int)
    assert top[60, 60, 0] > top[60, 60, 2] + 50
    assert below[40, 60, 2] > below[40, 60, 0] + 50
    green = (top[..., 1] > 150) & (top[..., 0] < 60)
    assert not green[:, 55:65].any()


def test_values_draw_their_levels_and_unknown_ones_keep_the_plain_colour() -> None:
    mesh = ball(5.0)
    values = np.where(mesh.vertices[:, 0] > 0, mesh.vertices[:, 1], np.nan)
    item = Item(mesh, (200, 200, 200), values=values, low=-5, high=5, levels=(0.0,), shine=0)
    image = np.asarray(render(Scene((item,)), view("occlusal", "maxilla"), (200, 200)))
    left, right = image[100, 40].astype(int), image[60, 150].astype(int)
    assert np.ptp(left) <= 2  # grey
    assert np.ptp(right) > 30
    # the level's dark line along y = 0, on the pale middle of the two-sided scale
    assert image[98:102, 130:170].min() < 110 < image[94:97, 130:150].min()


def test_same_scene_same_bytes() -> None:
    scene = Scene(
        (Item(ball()), Item(ball(2, (4, 0, 3)), (90, 90, 120), opacity=0.5)),
        labels=(Label(np.zeros(3), "35"),),
    )
    assert png(contact_sheet(scene, finish=1)) == png(contact_sheet(scene, finish=1))


def test_a_close_view_shows_the_width_asked_for() -> None:
    scene = Scene((Item(ball(20)),))
    camera = camera_for(scene, close_up(np.array([0, 0, 20.0]), view("occlusal"), 8.0), (400, 300))
    assert camera.pixel_mm * 400 == pytest.approx(8.0)
    assert camera.project(np.array([[0, 0, 20.0]]))[0, :2] == pytest.approx([199.5, 149.5])


def test_a_picture_of_nothing_and_values_of_wrong_length_are_refused() -> None:
    with pytest.raises(InputError, match="at least one mesh"):
        render(Scene(()), "occlusal")
    with pytest.raises(InputError, match="values of a picture"):
        Item(ball(), values=np.zeros(3))


@pytest.mark.reference("CIE 15:2018, lightness L* from sRGB through Y (IEC 61966-2-1)")
def test_the_map_gets_darker_in_even_steps_of_lightness() -> None:
    colours = mapped(np.linspace(0, 1, 21), 0.0, 1.0) / 255
    linear = np.where(colours <= 0.04045, colours / 12.92, ((colours + 0.055) / 1.055) ** 2.4)
    y = linear @ [0.2126, 0.7152, 0.0722]
    lightness = np.where(y > 216 / 24389, 116 * np.cbrt(y) - 16, y * 24389 / 27)
    steps = -np.diff(lightness)
    assert (steps > 0).all()  # order can be read without seeing hue
    assert steps.max() / steps.min() < 2.0
