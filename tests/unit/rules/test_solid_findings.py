"""Findings of the finite elements: first yield, the connector, and what the mesh decides."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from claspwright.base import Floats
from claspwright.materials import material
from claspwright.mechanics import FrameworkFe, Push, Spring, bear, cut_cells
from claspwright.rules import solid_findings

ALLOY = material("cocr-lpbf-stress-relieved")


@pytest.fixture(scope="module")
def proof() -> FrameworkFe:
    def bar(p: Floats) -> Floats:
        return np.max(np.abs(p - [3.0, 0.5, 0.5]) - [3.0, 0.5, 0.5], axis=1)

    cells = cut_cells(bar, np.zeros(3), np.array([6.0, 1.0, 1.0]), 0.5)
    root, tip = np.array([[0.2, 0.5, 0.5], [1.5, 0.5, 0.5]]), np.array([[5.8, 0.5, 0.5]])
    down = np.array([[0.0, 0.0, -60.0]])
    pushes = [Push(name, tip, down, 0.6) for name in ("bite on 36", "twist", "spread")]
    held = [Spring(root, 1e5 * np.eye(3), 0.6)]
    answer = bear(cells, held, pushes, modulus=2e5, poisson=0.3)
    peaks = tuple(answer.peak(k) for k in range(3))
    yields = tuple(ALLOY.proof.nominal / peak for peak in peaks)
    return FrameworkFe(
        cells, answer, ("bite on 36",), peaks, yields, 0.02, 0.04, 0.9, (0.0,) * 3, (0.0,) * 3
    )


def test_a_solid_that_bears_and_one_that_yields(proof: FrameworkFe) -> None:
    assert proof.envelope.max() == pytest.approx(max(proof.peak_mpa[: len(proof.bites)]))
    strong = replace(proof, yields_at=(9.0,) * len(proof.peak_mpa))
    weak = replace(proof, yields_at=(0.8,) * len(proof.peak_mpa))
    assert solid_findings(strong, ALLOY)[0].severity == "note"
    found = solid_findings(weak, ALLOY)[0]
    assert found.severity == "stop" and found.at_mm is not None
    assert np.allclose(found.at_mm, proof.answer.peak_at(proof.worst))
    # what the mesh still decides asks for a look, and names the load
    every = len(proof.peak_mpa)
    settled = replace(proof, peak_moved=(0.02,) * every, stiffness_moved=(-0.01,) * every)
    moving = replace(settled, peak_moved=(0.02,) * (every - 1) + (-0.11,))
    mesh = {f.rule: f for f in solid_findings(settled, ALLOY)}["solid.mesh"]
    assert mesh.severity == "note" and mesh.measured == 0.02
    mesh = {f.rule: f for f in solid_findings(moving, ALLOY)}["solid.mesh"]
    assert mesh.severity == "look" and mesh.measured == 0.11
    assert f"stress under {proof.answer.names[-1]} -11.0 %" in mesh.text
