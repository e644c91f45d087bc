"""Blockout of real arches: one sound body, nothing over the scan, untouched where free."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from scipy.ndimage import maximum_filter

from claspwright.arch import DentalArch, take_in
from claspwright.formats import read_mesh
from claspwright.geometry import (
    IDENTITY,
    DistanceTree,
    Grid,
    check_solid,
    heights_over,
    signed_distance,
)
from claspwright.survey import block_out, path_from_tilts, survey


@pytest.mark.scans
@pytest.mark.parametrize("name", ["oral_030_U", "pair2_lower", "trimmed_00OMSZGW_lower"])
def test_no_material_over_the_scan(scans: Path, name: str) -> None:
    jaw = "mandible" if name.endswith("lower") else "maxilla"
    scan = take_in(read_mesh(scans / "arches" / f"{name}.ply"), jaw=jaw, missing=())
    arch = DentalArch(scan, {}, (), np.zeros(len(scan.surface.faces), np.int32))
    seen = survey(arch, path_from_tilts(jaw), spacing_mm=0.25)
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
