"""Rests that lie in no spoon, on a ball; offsets of their fit; blocks for artificial teeth."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from claspwright.arch import RestSeat, Span, find_rest_seat
from claspwright.base import InfeasibleError, InputError
from claspwright.framework import DentureBase, FitOffsets, Retainer
from claspwright.framework.artificial_teeth import _block, _blocks, _upside_down
from claspwright.framework.canvas import Canvas
from claspwright.framework.fit import eased, offset_field
from claspwright.framework.ground import Ground, Piece
from claspwright.framework.rest_kinds import lay_rests, seats_for
from claspwright.geometry import (
    DistanceTree,
    Mesh,
    bodies,
    box,
    check_solid,
    closest_points,
    contour,
    difference,
)

TOOTH = 46


@pytest.fixture(scope="module")
def onlay(sphere: Ground) -> Piece:
    return lay_rests(seated(sphere), Retainer(TOOTH, ("onlay",)), "onlay")[0]


def seated(ground: Ground) -> Ground:
    return replace(ground, seats={(TOOTH, "onlay"): find_rest_seat(ground.arch, TOOTH, "occlusal")})


def solid_of(ground: Ground, piece: Piece) -> Mesh:
    canvas = Canvas(ground.grid)
    canvas.add(piece.shape)
    return bodies(difference(contour(canvas.field()), ground.arch.scan.solid))[0]


def test_an_onlay_covers_the_top_in_its_thickness(sphere: Ground, onlay: Piece) -> None:
    values, low = onlay.shape.values, onlay.shape.box.low
    for x in (-1.5, 0.0, 1.5):
        i, j = np.rint((np.array([x, 0.0]) - low[:2]) / sphere.grid.spacing).astype(int)
        z = low[2] + sphere.grid.spacing * np.arange(values.shape[2])
        high = z[values[i, j] < 0].max()
        assert 1.0 < high - np.sqrt(16 - x * x) < 1.5, x
    assert onlay.findings == ()


@pytest.mark.parametrize(("height", "stops"), [(4.6, True), (6.0, False)])
def test_an_onlay_asks_for_room(sphere: Ground, height: float, stops: bool) -> None:
    above = box(np.array([-8.0, -8, height]), np.array([8.0, 8, height + 2]))
    ground = seated(replace(sphere, arch=replace(sphere.arch, opposing=above)))
    piece = lay_rests(ground, Retainer(TOOTH, ("onlay",)), "onlay")[0]
    assert [f.rule for f in piece.findings if f.severity == "stop"] == ["rest.room"] * stops


def test_a_tooth_that_cannot_take_a_rest_says_why(sphere: Ground) -> None:
    with pytest.raises(InputError, match="no incisal edge"):
        find_rest_seat(sphere.arch, TOOTH, "mesial incisal")
    with pytest.raises(InfeasibleError, match="no incisal edge"):
        seats_for(sphere.arch, [Retainer(TOOTH, ("mesial incisal",))])
    with pytest.raises(InfeasibleError, match="no tooth stands"):
        seats_for(sphere.arch, [Retainer(TOOTH, ("mesial embrasure",))])


def test_an_extended_rest_covers_more_than_half_of_the_crown(sphere: Ground) -> None:
    turn = np.linspace(0, 2 * np.pi, 32, endpoint=False)
    rim = np.column_stack([2.6 + 1.3 * np.cos(turn), 1.3 * np.sin(turn), 0 * turn])
    rim[:, 2] = np.sqrt(np.maximum(16 - (rim[:, :2] ** 2).sum(axis=1), 0.0))
    seat = RestSeat(TOOTH, "mesial", np.array([2.6, 0, np.sqrt(16 - 2.6**2)]),
                    np.array([-1.0, 0, 0]), True, 1.2, 2.6, rim)  # fmt: skip
    ground = replace(sphere, seats={(TOOTH, "mesial extended occlusal"): seat})
    form = "mesial extended occlusal"
    piece = lay_rests(ground, Retainer(TOOTH, (form,)), form)[0]
    reach = np.ptp(piece.component.line[:, 0])
    assert reach > 0.5 * ground.tooth(TOOTH).mesiodistal_mm


def test_offsets_move_their_region_alone(sphere: Ground, onlay: Piece) -> None:
    solid = solid_of(sphere, onlay)
    assert eased(solid, sphere, [onlay], FitOffsets()) is solid
    assert eased(solid, sphere, [onlay], FitOffsets(arms_mm=0.1)) is solid  # no arm there
    raised = eased(solid, sphere, [onlay], FitOffsets(rests_mm=0.05))
    assert check_solid(raised).status == "NoError"
    tree = DistanceTree(sphere.arch.scan.solid)
    gap = closest_points(tree, raised.vertices).distance
    inner = np.hypot(*raised.vertices[:, :2].T) < 1.5
    inner &= raised.vertices[:, 2] < np.sqrt(16) + 0.3
    assert gap[inner].min() == pytest.approx(0.05, abs=0.006)
    assert np.percentile(gap[inner], 90) == pytest.approx(0.05, abs=0.006)
    top = raised.vertices[raised.vertices[:, 2] > 4.9]
    before = {tuple(v) for v in solid.vertices.round(7)}
    assert all(tuple(v) in before for v in top.round(7))
    assert offset_field(sphere, [onlay], FitOffsets(arms_mm=0.1)).max() == 0.0


def span() -> Span:
    """A straight ridge of 12 mm behind the ball, its crest 3.2 mm below the ball's middle."""
    s = np.linspace(0, 12.0, 25)
    crest = np.column_stack([-16.0 + s, 0 * s, 0 * s - 3.2])
    out = np.tile([0.0, 1.0, 0.0], (25, 1))
    return Span((47,), (None, TOOTH), crest, out, np.full(25, 6.0), np.full(25, 6.0))


def test_a_block_stands_on_the_plane_of_its_neighbour(sphere: Ground) -> None:
    (block,), found = _blocks(sphere.arch, span(), DentureBase((47,)), None)
    assert block.mesh.vertices[:, 2].max() == pytest.approx(4.0, abs=0.1)
    assert block.room_mm == pytest.approx(7.2, abs=0.1)
    assert block.height_mm == pytest.approx(7.2 - 0.8 - 0.8 - 1.0, abs=0.1)
    assert block.mesh.vertices[:, 0].max() <= -4.0 + 0.01  # beside its neighbour
    assert check_solid(block.mesh).status == "NoError"
    assert found == [] and not block.meets


@pytest.mark.parametrize(("height", "severity"), [(0.9, "stop"), (1.9, "look"), (3.5, None)])
def test_a_block_is_set_to_the_opposing_teeth(
    sphere: Ground, height: float, severity: str | None
) -> None:
    above = _upside_down(box(np.array([-20.0, -8, height]), np.array([8.0, 8, height + 2])))
    (block,), found = _blocks(sphere.arch, span(), DentureBase((47,)), above)
    assert block.meets
    assert block.mesh.vertices[:, 2].max() == pytest.approx(height, abs=0.06)
    assert [f.severity for f in found if f.rule == "artificial.room"] == [severity] * bool(severity)


def test_a_block_of_an_incisor_narrows_to_its_edge() -> None:
    half = np.array([4.0, 3.5])
    way, out = np.array([1.0, 0, 0]), np.array([0.0, 1, 0])
    front, back = (_block(np.zeros(3), way, out, half, 8.0, f) for f in (True, False))
    edge = [m.vertices[m.vertices[:, 2] > -0.1] for m in (front, back)]
    assert np.ptp(edge[0][:, 1]) < 0.4 * np.ptp(edge[1][:, 1])
