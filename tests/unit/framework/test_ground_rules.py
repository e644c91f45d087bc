"""Relief, the roof under the opposing teeth, finish lines, coverage."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from claspwright.base import Floats, InfeasibleError
from claspwright.framework.bar import BarLine
from claspwright.framework.canvas import Canvas, Section, section_sweep
from claspwright.framework.clearance import GAP, closing_heights
from claspwright.framework.connectors import Connector
from claspwright.framework.coverage import coverage_findings
from claspwright.framework.finish import finish_line, finish_on_beam
from claspwright.framework.ground import Ground, Piece
from claspwright.framework.model import Component
from claspwright.framework.relief import ReliefMap, ramp
from claspwright.framework.stations import Stations
from claspwright.framework.terrain import Terrain
from claspwright.geometry import DistanceTree, Field, box
from claspwright.limits import limit

TISSUE = -3.2


def test_the_ramp_is_smooth_and_runs_either_way() -> None:
    d = np.linspace(-1, 2, 301)
    up, down = ramp(d, 0.0, 1.0), ramp(d, 1.0, 0.0)
    assert np.allclose(up + down, 1.0)
    assert np.all(up[d <= 0] == 0) and np.all(up[d >= 1] == 1)
    assert np.all(np.diff(up) >= 0) and ramp(np.array([0.5]), 0, 1)[0] == pytest.approx(0.5)
    assert np.abs(np.diff(up)).max() < 1.6 * 0.01  # the steepest is 1.5: no step anywhere


def test_relief_keeps_its_depth_in_the_band_and_off_the_crown(sphere: Ground) -> None:
    relief = ReliefMap(sphere.arch, sphere.blocked)
    y = np.linspace(-5.0, 5.0, 80)
    line = np.column_stack([np.full(80, 7.0), y, np.full(80, TISSUE)])
    relief.lay(relief.along(line, 1.5, 0.25))
    field = relief.field()
    at = np.array([[7.0, 0, TISSUE], [7.9, 0, TISSUE], [9.3, 0, TISSUE], [4.0, 0, TISSUE]])
    read = field.at(at)
    assert read[:2] == pytest.approx([0.25, 0.25], abs=0.01)
    assert read[2:] == pytest.approx([0.0, 0.0], abs=1e-6)
    beside = ReliefMap(sphere.arch, sphere.blocked)
    line = np.array([[2.4, y0, TISSUE] for y0 in (-0.5, 0.0, 0.5)])
    beside.lay(beside.along(line, 1.0, 0.25))
    assert beside.field().at(np.array([[2.5, 0.0, TISSUE + 0.2]]))[0] < 0.02  # by the crown


def test_nothing_passes_the_opposing_teeth(sphere: Ground) -> None:
    assert closing_heights(sphere) is None  # without any there is nothing to keep below
    # a flat opposing surface over x > 1 only, 5 mm up
    above = box(np.array([1.0, -6, 5.0]), np.array([8.0, 6, 7.0]))
    heights = closing_heights(replace(sphere, arch=replace(sphere.arch, opposing=above)))
    assert heights is not None
    z = sphere.grid.axes()[2]
    roof = Field(sphere.grid, (z[None, None, :] - heights[:, :, None]).astype(np.float32))
    spots = np.array([[3.0, 0, 5.0 - GAP - 0.05], [3.0, 0, 5.0 - GAP + 0.05], [-3.0, 0, 7.0]])
    read = roof.at(spots)
    assert read[0] < 0 < read[1]  # up to the gap and no further
    assert read[2] < 0  # open where there is no opposing surface


@pytest.mark.parametrize("metal", [1.0, -1.0])
def test_a_finish_line_has_its_wall_towards_the_acrylic(sphere: Ground, metal: float) -> None:
    line = np.column_stack([np.full(30, 7.0), np.linspace(-4, 4, 30), np.full(30, TISSUE)])
    piece = finish_line(sphere, "finish.1", line, np.array([metal, 0.0, 0.0]), 0.6)
    top = 0.6 + limit("finish.height").value
    canvas = Canvas(sphere.grid)
    canvas.add(piece.shape)
    field = canvas.field()

    def edges(height: float) -> tuple[float, float]:
        """How far metal reaches on the acrylic's side and on its own at a height."""
        u = np.arange(-2.5, 2.5, 0.01)
        spots = np.column_stack([7.0 + metal * u, 0 * u, np.full(len(u), TISSUE + height)])
        inside = u[field.at(spots) < 0]
        return float(inside.min()), float(inside.max())

    walls = [edges(h)[0] for h in (0.2, 0.6, top - 0.25)]
    assert np.abs(walls).max() < 0.08  # upright at the line
    ramps = [edges(h)[1] for h in (0.2, 0.6, top - 0.25)]
    assert ramps[0] > 1.5 and ramps[0] > ramps[1] > ramps[2] > 0.1  # runs out on the metal
    assert piece.component.thickness_mm[0] == pytest.approx(top)
    ends = np.ptp(piece.component.line[:, 1])
    assert ends == pytest.approx(8.0, abs=0.2)


@pytest.mark.parametrize("metal", [1.0, -1.0])
def test_a_finish_line_on_a_beam_is_a_step_that_rises_from_its_end(
    sphere: Ground, metal: float
) -> None:
    line = np.column_stack([np.full(40, 7.0), np.linspace(-5, 5, 40), np.full(40, TISSUE)])
    piece = finish_on_beam(sphere, "finish.1", line, np.array([metal, 0.0, 0.0]), 1.5)
    canvas = Canvas(sphere.grid)
    canvas.add(piece.shape)
    field = canvas.field()

    def height(u: float, y: float) -> float:
        """Height of the metal over the tissue at a place across and along [mm]."""
        h = np.arange(0.0, 3.0, 0.01)
        inside = field.at(np.column_stack([0 * h + 7.0 + metal * u, 0 * h + y, TISSUE + h])) < 0
        return float(h[inside].max(initial=0.0))

    least = limit("finish.height").look_below
    assert least is not None
    step = height(0.3, 0.0) - 1.5
    assert least <= step < limit("finish.height").value  # over the back of the beam
    assert height(-0.1, 0.0) == 0.0  # upright towards the acrylic
    assert height(0.3, 0.0) > height(1.2, 0.0) > height(1.7, 0.0)  # round towards the metal
    for end in (-4.8, 4.8):
        assert height(0.3, end) < 1.5  # its ends lie within the beam
    assert piece.component.thickness_mm[0] == pytest.approx(1.5 + step, abs=0.06)


@pytest.mark.parametrize("edge", [-1.4, -0.2, 0.1, 0.3, 1.5])
def test_a_finish_line_on_a_beam_keeps_off_the_edge_of_the_wax(sphere: Ground, edge: float) -> None:
    grid = sphere.grid
    off, beyond = sphere.blocked.field.values, (grid.axes()[0] - 7.0 - edge)[:, None, None]
    wax = np.clip(off - beyond + 0.15, 0.0, 0.3)  # half of it at that edge; metal lies at +x
    waxed = Field(grid, (off - wax).astype(np.float32))
    line = np.column_stack([np.full(40, 7.0), np.linspace(-5, 5, 40), np.full(40, TISSUE)])
    ground = replace(sphere, laid=Terrain.of(waxed))
    piece = finish_on_beam(ground, "finish.1", line, np.array([1.0, 0.0, 0.0]), 1.5)
    placed = sphere.here(piece.component.line)[8:-8, 0] - 7.0
    least = limit("finish.stagger").look_below
    assert least is not None
    assert np.abs(placed - edge).min() > least
    assert (np.abs(placed) < 0.1).all() or abs(edge) < 1.0  # moved only where it is near


def waxed(sphere: Ground, edge: float, depth: float) -> Ground:
    """The ground with wax on the acrylic's side (-x) of a line beside x = 7."""
    off, beyond = sphere.blocked.field.values, (sphere.grid.axes()[0] - 7.0 - edge)[:, None, None]
    wax = np.clip(off - beyond, 0.0, depth)  # a union with a slab, as relief is laid
    field = Field(sphere.grid, (off - wax).astype(np.float32))
    return replace(sphere, laid=Terrain.of(field))


def heights(piece: Piece, ground: Ground, u: Floats, y: Floats) -> Floats:
    """(U, Y) height of a piece over the tissue at places across, towards +x, and along [mm]."""
    canvas = Canvas(ground.grid)
    canvas.add(piece.shape)
    h = np.arange(0.0, 5.0, 0.02)
    across, along, up = np.meshgrid(7.0 + u, y, TISSUE + h, indexing="ij")
    spots = np.stack([across, along, up], axis=-1).reshape(-1, 3)
    inside = (canvas.field().at(spots) < 0).reshape(across.shape)
    return np.asarray(np.where(inside, h, 0.0).max(axis=2))


STRAIGHT = np.column_stack([np.full(40, 7.0), np.linspace(-5, 5, 40), np.full(40, TISSUE)])
TO_METAL = np.array([1.0, 0.0, 0.0])


@pytest.mark.parametrize("edge", [-0.2, 0.0, 0.3])
def test_the_wall_stands_on_the_tissue_and_leans_with_no_edge_of_wax(
    sphere: Ground, edge: float
) -> None:
    """Normals of the relieved surface lean at its edge: with them a wall lost a third of itself."""
    ground = waxed(sphere, edge, 0.8)
    piece = finish_on_beam(ground, "finish.1", STRAIGHT, TO_METAL, 1.5)
    u = np.arange(-2.5, 1.5, 0.02)
    read = heights(piece, ground, u, np.array([-1.0, 0.0, 1.0]))
    for height in read.T:
        low, high = (u[height > share * height.max()].min() for share in (0.5, 0.9))
        assert high - low < 0.12  # upright


@pytest.mark.parametrize("stands", [1.0, 1.8, 2.0])
def test_a_finish_line_rises_over_what_stands_before_it(sphere: Ground, stands: float) -> None:
    flat = STRAIGHT - [1.5, 0.0, 0.0]  # a broad foot on the acrylic's side
    up = np.tile([0.0, 0.0, 1.0], (len(flat), 1))
    ring = np.array([[-1.6, -0.5], [1.6, -0.5], [1.6, stands], [-1.6, stands]])
    foot = section_sweep(sphere.grid, flat, up, Section.of(ring))
    part = Component("base.46.tie.47", "lattice", flat, np.array([3.2]), np.array([stands]))
    before = Piece(part, foot, 0.7)
    piece = finish_on_beam(sphere, "finish.1", STRAIGHT, TO_METAL, 1.5, (before,))
    least = limit("finish.height").look_below
    assert least is not None
    wall = heights(piece, sphere, np.array([0.3]), np.array([-1.0, 0.0, 1.0])) - max(stands, 1.5)
    assert wall.min() > least + 0.1


def test_its_back_makes_a_fillet_with_what_is_laid_and_its_wall_none(sphere: Ground) -> None:
    def wall_at(x: float) -> Piece:
        line = STRAIGHT + [x, 0.0, 0.0]
        up = np.tile([0.0, 0.0, 1.0], (len(line), 1))
        ring = np.array([[-0.5, -0.5], [0.5, -0.5], [0.5, 2.0], [-0.5, 2.0]])
        part = Component("plate", "proximal plate", line, np.array([1.0]), np.array([2.0]))
        return Piece(part, section_sweep(sphere.grid, line, up, Section.of(ring)), 0.5)

    bare = finish_on_beam(sphere, "finish.1", STRAIGHT, TO_METAL, 1.5)
    u, y = np.array([-0.2, -0.1, 2.0, 2.1]), np.array([0.0])
    sides = (wall_at(-0.9), wall_at(2.6))
    piece = finish_on_beam(sphere, "finish.1", STRAIGHT, TO_METAL, 1.5, beside=sides)
    grown = (heights(piece, sphere, u, y) - heights(bare, sphere, u, y))[:, 0]
    assert grown[:2] == pytest.approx(0.0, abs=1e-9)
    assert grown[2:].min() > 0.2


@pytest.mark.parametrize("length", [3.2, 5.0])
def test_a_short_finish_line_has_its_wall_too(sphere: Ground, length: float) -> None:
    y = np.linspace(-length / 2, length / 2, 30)
    line = np.column_stack([np.full(30, 7.0), y, np.full(30, TISSUE)])
    piece = finish_on_beam(sphere, "finish.1", line, TO_METAL, 1.5)
    least = limit("finish.height").look_below
    assert least is not None
    middle = heights(piece, sphere, np.array([0.3]), np.linspace(-0.15, 0.15, 5) * length)
    assert middle.min() > 1.5 + least


def connector(line: Floats) -> Connector:
    none = np.zeros((0, 2))
    stations = Stations(none, none, *(np.zeros(0) for _ in range(3)))
    return Connector(stations, bar=BarLine(line, np.ones(len(line)), np.ones(len(line))))


def test_coverage_says_nothing_where_all_was_scanned(sphere: Ground) -> None:
    line = np.column_stack([np.full(50, 7.0), np.linspace(-5, 5, 50), np.full(50, TISSUE)])
    assert coverage_findings(sphere, connector(line), DistanceTree(sphere.arch.scan.solid)) == ()


def test_coverage_names_a_little_and_stops_at_much(sphere: Ground) -> None:
    line = np.column_stack([np.full(50, 7.0), np.linspace(-5, 5, 50), np.full(50, TISSUE)])
    line[:3, 2] += 3.0  # nothing was scanned there
    (finding,) = coverage_findings(sphere, connector(line), DistanceTree(sphere.arch.scan.solid))
    assert finding.rule == "scan.coverage" and finding.severity == "look"
    assert finding.measured == 6.0 and finding.component == "major_connector"
    assert finding.at_mm is not None and finding.at_mm[1] < -4.0
    line[:10, 2] = TISSUE + 3.0
    with pytest.raises(InfeasibleError, match="20 % of the major connector"):
        coverage_findings(sphere, connector(line), DistanceTree(sphere.arch.scan.solid))
