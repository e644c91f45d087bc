"""Real arches: blockout is one body with nothing over the scan, survey lines are on the teeth."""

from __future__ import annotations

import importlib
import sys
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
from scipy.ndimage import maximum_filter
from scipy.spatial import KDTree

from claspwright.arch import DentalArch, Tooth, take_in
from claspwright.formats import read_mesh
from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Grid,
    check_solid,
    closest_points,
    heights_over,
    resampled,
    signed_distance,
    vertex_normals,
)
from claspwright.survey import block_out, cast_shadow, path_from_tilts, survey, survey_fields
from claspwright.survey.lines import survey_lines


@pytest.mark.scans
@pytest.mark.parametrize("name", ["oral_030_U", "pair2_lower", "trimmed_00OMSZGW_lower"])
def test_no_material_over_the_scan(scans: Path, name: str) -> None:
    jaw = "mandible" if name.endswith("lower") else "maxilla"
    scan = take_in(read_mesh(scans / "arches" / f"{name}.ply"), jaw=jaw)
    arch = DentalArch(scan, {}, (), np.zeros(len(scan.surface.faces), np.int32))
    seen = survey(arch, path_from_tilts(jaw))  # on the grid of a real run
    model = block_out(arch, seen).model
    check = check_solid(model)
    assert check.sound
    assert check.bodies == 1
    grid = Grid.around(scan.surface.vertices, IDENTITY, 0.25, 1.0)
    before = maximum_filter(heights_over(scan.solid, grid), 3)  # a pixel of slack sideways
    after = heights_over(model, grid)
    inside = np.isfinite(after)
    assert (after[inside] - before[inside]).max() < 0.02
    gap = signed_distance(DistanceTree(model), scan.surface.vertices[~seen.hidden])
    assert np.quantile(np.abs(gap), 0.99) < 1e-6
    assert np.abs(gap).max() < 0.15  # beside an overhang: no more than a step of the grid


def labelled(scans: Path, name: str) -> DentalArch:
    """An arch with the crowns of its labels; the teeth carry a centre only."""
    mesh = read_mesh(scans / "arches" / f"{name}.ply")
    scan = take_in(mesh, jaw="mandible" if name.endswith("_L") else "maxilla")
    label = np.load(scans / "arches" / f"{name}.face_tooth.npy")
    away, nearest = KDTree(scan.scan_to_arch.apply(mesh.corners.mean(axis=1))).query(
        scan.surface.corners.mean(axis=1)
    )
    crown = np.where(away < 0.5, label[nearest], 0).astype(np.int32)
    teeth = {}
    for code in np.unique(crown[crown > 0]).tolist():
        on = np.flatnonzero(crown == code)
        centre = scan.surface.corners[on].mean(axis=(0, 1))
        side = np.array([1.0, 0.0, 0.0])
        teeth[code] = Tooth(code, centre, on, np.zeros((0, 3)), centre, side, side, 8, 8, 7)
    return DentalArch(scan, teeth, (), crown)


@pytest.mark.scans
@pytest.mark.parametrize("name", ["oral_001_L", "upper_012C"])
def test_survey_lines_run_on_the_teeth_one_a_side(scans: Path, name: str) -> None:
    """Free above, hidden below, and no two of a crown one over the other."""
    arch = labelled(scans, name)
    up = np.array([0.0, 0.0, 1.0])
    tree, shadow = DistanceTree(arch.scan.solid), cast_shadow(arch.scan.solid, up)
    _, block, _ = survey_fields(arch.scan.surface, tree, up, 0.3)
    lines = survey_lines(arch, up, block, tree)
    assert sum(bool(pieces) for pieces in lines.values()) >= len(arch.teeth) - 1
    normals = vertex_normals(arch.scan.solid)
    above, below, doubled = [], [], []
    for code, pieces in lines.items():
        count = np.zeros(36, int)
        for piece in pieces:
            line = resampled(piece, 0.3)
            for step, seen in ((0.6, above), (-0.6, below)):
                near = closest_points(tree, line + step * up)
                outward = normals[arch.scan.solid.faces[near.faces]].mean(axis=1)
                seen += list(~shadow.hides(near.points + 0.005 * outward))
            off = line - arch.teeth[code].centre
            turn = np.degrees(np.arctan2(off[:, 1], off[:, 0])) + 180.0
            count[np.unique((turn // 10).astype(int) % 36)] += 1
        doubled += list(count[count > 0] > 1)
    assert np.mean(above) > 0.95
    assert np.mean(below) < 0.15
    assert np.mean(doubled) < 0.03


@pytest.fixture(scope="module")
def tool() -> ModuleType:
    folder = Path(__file__).resolve().parents[3] / "tools"
    sys.path.insert(0, str(folder))
    try:
        return importlib.import_module("measure_lines")
    finally:
        sys.path.remove(str(folder))


@pytest.mark.scans
@pytest.mark.reference("hand-made labels of the research scans")
@pytest.mark.parametrize("name", ["oral_001_L", "pair1_lower", "upper_017C"])
def test_lines_of_crowns_that_were_found_run_on_their_teeth(
    tool: ModuleType, scans: Path, name: str
) -> None:
    """The table of docs/survey.md is made by the same tool from all labelled arches."""
    case = tool.load(name, scans / "arches")
    seen = tool.measure(case, tool.arch_of(case))
    assert seen.on_own > 0.99
    assert seen.doubled < 0.03
    assert seen.free_above > 0.97
    assert seen.hidden_below > 0.90
    assert all(undercut < 0.15 for undercut in seen.without.values())
