from __future__ import annotations

import numpy as np
import pytest
from scipy.ndimage import maximum_filter

from claspwright.arch import DentalArch
from claspwright.base import GeometryError, InputError
from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Field,
    Grid,
    Mesh,
    ball,
    check_solid,
    heights_over,
    is_covered,
    merged,
    signed_distance,
    vertex_normals,
    volume,
)
from claspwright.survey import (
    BlockedOut,
    Survey,
    block_out,
    path_from_tilts,
    survey,
    survey_fields,
)
from claspwright.survey.blockout import outer_shell

RADIUS = 4.0
TISSUE = -2.5


@pytest.fixture(scope="module")
def seen(balls: DentalArch) -> Survey:
    return survey(balls, path_from_tilts("mandible"), spacing_mm=0.2)


@pytest.fixture(scope="module")
def blocked(balls: DentalArch, seen: Survey) -> BlockedOut:
    return block_out(balls, seen)


def test_the_model_is_one_sound_body(blocked: BlockedOut) -> None:
    check = check_solid(blocked.model)
    assert check.sound
    assert check.bodies == 1


@pytest.mark.reference("cylinder less the spherical zone under the equator, closed form")
def test_volume_of_the_filling(balls: DentalArch, blocked: BlockedOut) -> None:
    depth = -TISSUE
    zone = np.pi * depth * (RADIUS**2 - depth**2 / 3.0)
    true = 2 * (np.pi * RADIUS**2 * depth - zone)
    assert blocked.blockout_mm3 == pytest.approx(true, rel=0.02)
    assert volume(blocked.model) - volume(balls.scan.solid) == pytest.approx(true, rel=0.04)
    assert blocked.relief_mm3 == 0.0


def test_it_is_the_scan_where_nothing_is_blocked(balls: DentalArch, blocked: BlockedOut) -> None:
    points = balls.scan.surface.vertices
    away = np.min(
        [np.hypot(*(points[:, :2] - t.centre[:2]).T) for t in balls.teeth.values()], axis=0
    )
    untouched = (points[:, 2] > 0.5) | (away > RADIUS + 0.3)
    gap = signed_distance(DistanceTree(blocked.model), points[untouched])
    assert np.abs(gap).max() < 1e-9


def test_the_way_out_is_free_everywhere(blocked: BlockedOut) -> None:
    model = blocked.model
    start = model.vertices + 0.02 * vertex_normals(model)
    asked = model.vertices[:, 2] > TISSUE - 0.5
    covered = is_covered(DistanceTree(model), start[asked], np.array([0.0, 0.0, 1.0]))
    assert covered.mean() < 0.02  # feather edges and feet of walls, within the lift


def test_nothing_stands_over_the_scan(balls: DentalArch, blocked: BlockedOut) -> None:
    grid = Grid(IDENTITY, np.array([-15.0, -8, 0]), 0.25, (121, 65, 2))
    before = maximum_filter(heights_over(balls.scan.solid, grid), 3)  # a pixel of slack sideways
    after = heights_over(blocked.model, grid)
    seen = np.isfinite(after)
    assert (after[seen] - before[seen]).max() < 0.01


def test_a_fold_in_the_air_makes_no_material(balls: DentalArch) -> None:
    """An inverted bubble over the block: its inside is outside, its outside is not inside."""
    bubble = ball(0.8, 0.2)
    inverted = Mesh(bubble.vertices + [0.0, 0.0, 1.0], bubble.faces[:, ::-1])
    solid = merged(balls.scan.solid, inverted)
    scan, block, _ = survey_fields(solid, DistanceTree(solid), np.array([0.0, 0, 1.0]), 0.25)
    over = np.array([[0.0, 0.0, 2.1], [0.0, 0.0, 3.0], [1.5, 0.0, 2.0]])
    assert (scan.at(over) > 0).all()
    assert (block.at(over) > 0).all()


def test_walls_are_parallel_to_the_path(balls: DentalArch, blocked: BlockedOut) -> None:
    tree = DistanceTree(blocked.model)
    turn = np.linspace(0, 2 * np.pi, 60)
    for height in (-0.8, -1.5, -2.2):
        ring = balls.teeth[45].centre + np.column_stack(
            [RADIUS * np.cos(turn), RADIUS * np.sin(turn), np.full(60, height)]
        )
        assert np.abs(signed_distance(tree, ring)).max() < 0.006


def test_relief_lies_on_and_a_hole_in_it_stays_open(balls: DentalArch, seen: Survey) -> None:
    grid = seen.block_field.grid
    x, y, _ = np.meshgrid(*grid.axes(), indexing="ij")
    patch = np.clip((2.5 - np.abs(x)) / 0.5, 0, 1) * np.clip((3 - np.abs(y)) / 0.5, 0, 1)
    hole = np.clip((np.hypot(x, y) - 0.8) / 0.3, 0, 1)
    relief = Field(grid, (0.6 * patch * hole).astype(np.float32))
    found = block_out(balls, seen, relief)
    assert check_solid(found.model).sound
    tree = DistanceTree(found.model)
    spots = np.array([[1.7, 0.0, TISSUE + 0.6], [0.0, 1.7, TISSUE + 0.6], [0.0, 0.0, TISSUE]])
    assert np.abs(signed_distance(tree, spots)).max() < 0.02
    assert found.relief_mm3 == pytest.approx(
        float(0.6 * (patch * hole)[:, :, 0].sum() * 0.04), rel=0.05
    )


def test_bad_relief_is_refused(balls: DentalArch, seen: Survey) -> None:
    grid = seen.block_field.grid
    other = Grid(grid.frame, grid.origin, grid.spacing * 2, grid.shape)
    with pytest.raises(InputError, match="another grid"):
        block_out(balls, seen, Field(other, np.zeros(grid.shape, np.float32)))
    with pytest.raises(InputError, match="negative"):
        block_out(balls, seen, Field(grid, np.full(grid.shape, -0.1, np.float32)))


def beside(radius: float) -> Mesh:
    """The arch's ball, and a small one that touches nothing."""
    small = ball(radius, 0.2)
    away = np.array([3 * RADIUS, 0.0, 0.0])
    return merged(ball(RADIUS, 0.5), Mesh(small.vertices + away, small.faces))


def test_a_small_lump_that_touches_nothing_is_left_out() -> None:
    kept, left_out = outer_shell(beside(0.3))  # 0.11 mm3
    assert left_out
    assert not outer_shell(kept)[1]
    assert check_solid(kept).bodies == 1
    assert volume(kept) == pytest.approx(volume(ball(RADIUS, 0.5)))


def test_a_second_body_is_refused_with_its_place() -> None:
    with pytest.raises(GeometryError, match="besides the arch") as refused:
        outer_shell(beside(1.0))  # 4 mm3
    assert refused.value.place is not None and refused.value.place.startswith("(12.0, ")
