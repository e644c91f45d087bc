"""Whether a bite record bears the relation of the arches out."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).parent))
from wrong_scans import MIRRORED_PAIRS

from claspwright.arch import MasterScan, align_opposing
from claspwright.base import Floats
from claspwright.geometry import Mesh, Rigid


def sheet(z: float) -> Mesh:
    """A wavy square sheet of the size of an arch [mm]."""
    x, y = np.meshgrid(np.linspace(-30, 30, 61), np.linspace(-30, 30, 61), indexing="ij")
    points = np.stack([x, y, z + np.sin(x / 3)], axis=-1).reshape(-1, 3)
    index = np.arange(61 * 61).reshape(61, 61)
    a, b, c, d = index[:-1, :-1], index[1:, :-1], index[1:, 1:], index[:-1, 1:]
    quads = np.stack([a, b, c, d], axis=-1).reshape(-1, 4)
    return Mesh(points, np.concatenate([quads[:, [0, 1, 2]], quads[:, [0, 2, 3]]]))


TURN = Rigid(np.array([[0.0, -1, 0], [1, 0, 0], [0, 0, 1]]), np.array([5.0, -3, 2]))
SCAN = MasterScan("mandible", sheet(0.0), sheet(0.0), TURN, 1.0)
BACK = TURN.inverse()


def record(*shifts: Floats) -> Mesh:
    """Bite record in the frame of the file: patches of both sheets."""
    low, high = sheet(0.0), sheet(1.5)
    points = np.concatenate([low.vertices + shifts[0], high.vertices + shifts[1]])
    return Mesh(BACK.apply(points), np.concatenate([low.faces, high.faces + len(low.vertices)]))


def test_a_record_that_lies_on_both_arches_bears_them_out() -> None:
    off = np.array([0.0, 0.0, -0.05])
    moved, (finding,) = align_opposing(sheet(1.5).moved(BACK), record(off, -off), SCAN)
    assert (finding.rule, finding.severity) == ("bite.relation", "note")
    assert np.allclose(moved.vertices, sheet(1.5).vertices)


def test_a_record_of_another_relation_moves_the_opposing_arch() -> None:
    off = np.array([0.0, 0.0, -1.0])
    moved, findings = align_opposing(sheet(1.5).moved(BACK), record(off, -off), SCAN)
    assert [finding.rule for finding in findings] == ["bite.moved", "bite.relation"]
    assert findings[0].severity == "look"
    rise = moved.vertices[:, 2] - sheet(1.5).vertices[:, 2]
    assert rise.mean() == pytest.approx(2.0, abs=0.1)


def test_a_record_of_other_teeth_stops_the_case() -> None:
    flat = Mesh(sheet(0.0).vertices * [1.0, 1.0, 0.2] + [0.0, 0.0, 9.0], sheet(0.0).faces)
    moved, (finding,) = align_opposing(sheet(1.5).moved(BACK), flat.moved(BACK), SCAN)
    assert (finding.rule, finding.severity) == ("bite.relation", "stop")
    assert np.allclose(moved.vertices, sheet(1.5).vertices)


@pytest.mark.parametrize(("height", "rule"), [(1.5, "bite.record"), (40.0, "bite.relation")])
def test_without_a_record_a_person_must_look(height: float, rule: str) -> None:
    _, (finding,) = align_opposing(sheet(height).moved(BACK), None, SCAN)
    assert finding.rule == rule
    assert finding.severity == ("look" if rule == "bite.record" else "stop")


def knobbly(z: float, shift: float = 0.0) -> Mesh:
    """A sheet that no mirror brings onto itself."""
    flat = sheet(z)
    x, y = flat.vertices[:, 0] + shift, flat.vertices[:, 1]
    lift = np.cos(x / 5 + y / 9) + 0.8 * np.sin(y / 4 + x / 17)
    return Mesh(flat.vertices + np.column_stack([0 * x, 0 * x, lift]), flat.faces)


def across(mesh: Mesh, axis: int, centre: float = 0.0) -> Mesh:
    """A mesh of the file mirrored in a plane across an axis, its faces put right."""
    points = mesh.vertices.copy()
    points[:, axis] = 2 * centre - points[:, axis]
    return Mesh(points, mesh.faces[:, ::-1])


@pytest.mark.parametrize("centre", [0.0, 5.0], ids=["origin", "elsewhere"])
@pytest.mark.parametrize("which", [which for _, which in MIRRORED_PAIRS])
def test_a_record_tells_which_scan_was_mirrored(which: str, centre: float) -> None:
    low, high = knobbly(0.0), knobbly(2.5, 4.0)
    bite = Mesh(
        BACK.apply(np.concatenate([low.vertices, high.vertices])),
        np.concatenate([low.faces, high.faces + len(low.vertices)]),
    )
    file_low, file_high = low.moved(BACK), high.moved(BACK)
    middle = file_low.vertices.min(axis=0) + np.ptp(file_low.vertices, axis=0) / 2
    about = float(middle[1]) if centre else 0.0
    if which == "master":
        surface = across(file_low, 1, about).moved(TURN)
        scan, opposing = MasterScan("mandible", surface, surface, TURN, 1.0), file_high
    else:
        scan, opposing = MasterScan("mandible", low, low, TURN, 1.0), across(file_high, 1, about)
    found = align_opposing(opposing, bite, scan)[1]
    assert ("scan.mirrored", "stop", which) in {(f.rule, f.severity, f.component) for f in found}


def test_a_sound_pair_is_not_called_mirrored() -> None:
    low, high = knobbly(0.0), knobbly(2.5, 4.0)
    scan = MasterScan("mandible", low, low, TURN, 1.0)
    bite = Mesh(
        BACK.apply(np.concatenate([low.vertices, high.vertices])),
        np.concatenate([low.faces, high.faces + len(low.vertices)]),
    )
    found = align_opposing(high.moved(BACK), bite, scan)[1]
    assert {f.rule for f in found} == {"bite.relation"}
