"""Simple bodies rest as statics says; known gaps are found again through noise."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from claspwright.base import ConvergenceError, Floats, InputError
from claspwright.geometry import DistanceTree, Mesh, Rigid, ball, box
from claspwright.inspection import Area, contact_step, rest_gaps, rocking, seat, underside

UP = np.array([0.0, 0.0, 1.0])


def table_on(feet: Floats, radius: float = 1.0) -> Mesh:
    """Balls as feet: their centres, joined to one body by being one mesh."""
    balls = [ball(radius, 0.12) for _ in feet]
    points = [one.vertices + at for one, at in zip(balls, feet, strict=True)]
    count = len(balls[0].vertices)
    faces = [one.faces + n * count for n, one in enumerate(balls)]
    return Mesh(np.concatenate(points), np.concatenate(faces))


@pytest.fixture(scope="module")
def floor() -> DistanceTree:
    return DistanceTree(box(np.array([-30.0, -30.0, -5.0]), np.array([30.0, 30.0, 0.0])))


@pytest.mark.reference("lever rule: loads of a body on three supports (statics)")
def test_three_feet_carry_a_load_by_the_lever_rule(floor: DistanceTree) -> None:
    feet = np.array([[-10.0, -6.0, 1.05], [10.0, -6.0, 1.05], [0.0, 12.0, 1.05]])
    load = np.array([2.0, 1.0, 3.0])
    found = seat(underside(table_on(feet), floor), floor, UP, load)
    assert found.settled
    corners = np.column_stack([feet[:, :2], np.ones(3)]).T
    wanted = np.linalg.solve(corners, [2.0, 1.0, 1.0])
    order = [int(np.argmin(np.linalg.norm(found.contacts[:, :2] - f[:2], axis=1))) for f in feet]
    assert np.allclose(found.forces[order], wanted, atol=0.01)
    assert found.forces.sum() == pytest.approx(1.0, abs=1e-6)
    assert found.lift_mm == pytest.approx(-0.05, abs=1e-3)


@pytest.mark.reference("a cylinder in a vee: N = W / (2 cos a) for walls at a to the horizontal")
@pytest.mark.parametrize("slope_deg", [30.0, 45.0, 60.0])
def test_a_ball_in_a_groove(slope_deg: float) -> None:
    a = np.radians(slope_deg)
    wall = np.array([np.cos(a), 0.0, np.sin(a)])
    ridge = [[0.0, y, 0.0] for y in (-20.0, 20.0)]
    left = [[-20 * wall[0], y, 20 * wall[2]] for y in (-20.0, 20.0)]
    right = [[20 * wall[0], y, 20 * wall[2]] for y in (-20.0, 20.0)]
    vee = Mesh(np.array([*ridge, *left, *right]), [[0, 1, 2], [2, 1, 3], [0, 4, 1], [4, 5, 1]])
    ground = DistanceTree(vee)
    height = 1.0 / np.cos(a)
    loose = ball(1.0, 0.05)
    held = Mesh(loose.vertices + [0.02, 0.0, height + 0.1], loose.faces)
    found = seat(underside(held, ground), ground, UP, np.array([0.02, 0.0, height + 0.1]))
    assert found.settled
    assert found.pose.apply(np.array([0.02, 0.0, height + 0.1])) == pytest.approx(
        [0.0, 0.0, height], abs=0.003
    )
    sides = [found.forces[found.contacts[:, 0] * s > 0].sum() for s in (-1.0, 1.0)]
    assert sides == pytest.approx([0.5 / np.cos(a)] * 2, rel=0.02)


def test_four_feet_with_one_short_rock_by_its_shortness(floor: DistanceTree) -> None:
    feet = np.array([[-10.0, -10.0, 1.0], [10.0, -10.0, 1.0], [10.0, 10.0, 1.0],
                     [-10.0, 10.0, 1.1]])  # fmt: skip
    under = underside(table_on(feet), floor)
    found = seat(under, floor, UP, np.array([3.0, -3.0, 2.0]))
    assert found.settled
    pressed = rocking(found, floor, UP, np.array([[-8.0, 8.0, 1.0], [8.0, -8.0, 1.0]]))
    assert pressed[0].play_mm == pytest.approx(0.1 * 8.0 / 10.0, abs=0.002)
    assert pressed[0].tilt_deg == pytest.approx(np.degrees(0.1 / (10.0 * np.sqrt(2.0))), rel=0.02)
    assert pressed[1].play_mm == pytest.approx(0.0, abs=0.002)


def test_a_body_on_a_slope_slides_and_is_not_said_to_rest() -> None:
    tilt = Rotation.from_rotvec([0.0, 0.5, 0.0]).as_matrix()
    slope = box(np.array([-400.0, -400.0, -5.0]), np.array([400.0, 400.0, 0.0]))
    ground = DistanceTree(slope.moved(Rigid(tilt, np.zeros(3))))
    normal = tilt @ UP
    feet = np.array([[-3.0, -3.0, 0.0], [3.0, -3.0, 0.0], [0.0, 3.0, 0.0]]) @ tilt.T + 1.01 * normal
    under = underside(table_on(feet), ground)
    assert not seat(under, ground, UP, normal).settled


RESTS = np.array([[-12.0, -10.0], [12.0, -10.0], [0.0, 13.0], [11.0, 9.0]])


def cast(x: Floats, y: Floats) -> Floats:
    """The model: a slope with four rest seats, each a bowl 1 mm deep."""
    height = 0.05 * np.asarray(x)
    for cx, cy in RESTS:
        far = ((x - cx) ** 2 + (y - cy) ** 2) / 2.5**2
        height = height - np.where(far < 1.0, (1.0 - np.minimum(far, 1.0)) ** 2, 0.0)
    return np.asarray(height)


def sheet(height: Floats, x: Floats, y: Floats, *, flip: bool = False) -> Mesh:
    rows, columns = x.shape
    i, j = np.meshgrid(np.arange(rows - 1), np.arange(columns - 1), indexing="ij")
    a = (i * columns + j).ravel()
    faces = np.concatenate(
        [np.stack([a, a + columns, a + 1], 1), np.stack([a + 1, a + columns, a + columns + 1], 1)]
    )
    points = np.stack([x.ravel(), y.ravel(), height.ravel()], axis=1)
    return Mesh(points, faces[:, ::-1] if flip else faces)


@pytest.mark.parametrize("seed", [1, 2])
@pytest.mark.parametrize("noise_mm", [0.0, 0.010])
def test_known_gaps_under_rests_are_found_within_five_micrometres(
    seed: int, noise_mm: float
) -> None:
    """Three pads touch and a fourth stands off by 80 um; the metal starts lifted and turned."""
    random = np.random.default_rng(seed)
    x, y = np.meshgrid(np.linspace(-18, 18, 361), np.linspace(-18, 18, 361), indexing="ij")
    ground = DistanceTree(sheet(cast(x, y), x, y))
    pads = []
    for (cx, cy), stand in zip(RESTS, [0.0, 0.0, 0.0, 0.080], strict=True):
        u, v = np.meshgrid(np.linspace(-1.4, 1.4, 29), np.linspace(-1.4, 1.4, 29), indexing="ij")
        px, py = cx + u, cy + v
        step = 1e-4
        gx = (cast(px + step, py) - cast(px - step, py)) / (2 * step)
        gy = (cast(px, py + step) - cast(px, py - step)) / (2 * step)
        n = np.stack([-gx, -gy, np.ones_like(gx)], 2) / np.sqrt(1 + gx**2 + gy**2)[..., None]
        at = np.stack([px, py, cast(px, py)], 2) + stand * n
        pads.append(sheet(at[..., 2], at[..., 0], at[..., 1], flip=True))
    points = np.concatenate([pad.vertices for pad in pads])
    offset = np.cumsum([0, *(len(pad.vertices) for pad in pads)])
    faces = np.concatenate([pad.faces + n for pad, n in zip(pads, offset, strict=False)])
    noisy = points + random.normal(0.0, 1.0, points.shape) * noise_mm
    turn = Rotation.from_rotvec(random.normal(0.0, 0.003, 3)).as_matrix()
    start = Rigid(turn, random.normal(0.0, 0.03, 3) + [0.0, 0.0, 0.15])
    metal = Mesh(start.apply(noisy), faces)
    under = underside(metal, ground, patch_mm=0.5 if noise_mm else 0.0, noise_mm=noise_mm)
    found = seat(under, ground, UP, start.apply(np.array([-1.0, -3.0, 2.0])))
    areas = [Area(f"rest {n}", tuple(start.apply(np.array([*r, cast(*r)]))), 1.2)
             for n, r in enumerate(RESTS)]  # fmt: skip
    gaps = rest_gaps(found, areas, noise_mm=noise_mm)
    assert [g.mean_mm for g in gaps[:3]] == pytest.approx([0.0] * 3, abs=0.005)
    assert gaps[3].mean_mm == pytest.approx(0.080, abs=0.005)
    assert gaps[3].uncertainty_mm < 0.005


def test_what_springs_is_left_out(floor: DistanceTree) -> None:
    feet = np.array([[-10.0, -6.0, 1.0], [10.0, -6.0, 1.0], [0.0, 12.0, 1.0], [0.0, 0.0, 0.5]])
    metal = table_on(feet)
    whole = seat(underside(metal, floor), floor, UP, np.array([0.0, 0.0, 2.0]))
    assert whole.lift_mm > 0.4
    under = underside(metal, floor, leave_out=[Area("tip", (0.0, 0.0, 0.5), 1.5)])
    free = seat(under, floor, UP, np.array([0.0, 0.0, 2.0]))
    assert free.lift_mm == pytest.approx(0.0, abs=0.001)


def test_nothing_near_the_model_is_refused(floor: DistanceTree) -> None:
    with pytest.raises(InputError, match="nothing of the scan faces"):
        underside(table_on(np.array([[0.0, 0.0, 40.0]])), floor)


def test_a_wedged_body_is_told() -> None:
    points = np.array([[0.0, 0.0, 0.0], [1.0, 0.0, 0.0]])
    normals = np.array([[0.0, 0.0, 1.0], [0.0, 0.0, -1.0]])
    with pytest.raises(ConvergenceError, match="wedged"):
        contact_step(points[[0, 0]], normals, np.array([-0.1, -0.1]), np.zeros(3), -UP,
                     reach=0.1, arm=5.0)  # fmt: skip
