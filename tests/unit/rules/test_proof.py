"""Findings of the denture as a body, on the toy framework."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from claspwright.arch import Jaw
from claspwright.materials import material
from claspwright.mechanics import (
    ArmProof,
    Elastic,
    Grip,
    Swing,
    beam_arm,
    crown_track,
    half_ovals,
    prove_denture,
    ride,
)
from claspwright.rules import Finished, arm_findings, bite_findings, lifting_findings
from claspwright.rules.proof import lowest_free

Make = Callable[..., Finished]


def holds(finished: Finished, pull: float) -> dict[str, float]:
    return {arm.id: pull for arm in finished.parts("retentive arm")}


def test_strong_clasps_hold_and_weak_ones_are_looked_at(finished: Make) -> None:
    jaw: Jaw = "mandible"
    toy = finished(jaw)
    strong = prove_denture(toy.framework, toy.arch, toy.survey, holds(toy, 1e4))
    weak = prove_denture(toy.framework, toy.arch, toy.survey, holds(toy, 1.0))
    assert strong is not None and weak is not None
    assert lifting_findings(strong, "test")[0].severity == "note"
    found = lifting_findings(weak, "test")[0]
    assert found.severity == "look" and found.limit == 2.0
    assert np.isclose(weak.least_n * 1e4, strong.least_n)
    assert lowest_free(weak) == weak.least_n  # both bases of the toy end free
    assert weak.without_indirect_n is not None and weak.without_indirect_n <= weak.least_n + 1e-9


def test_a_bite_on_a_free_end_is_shared_with_the_ridge(finished: Make) -> None:
    toy = finished("mandible")
    proof = prove_denture(toy.framework, toy.arch, toy.survey, holds(toy, 5.0))
    assert proof is not None
    found = bite_findings(proof)
    assert {f.rule for f in found} == {"denture.sinking"}
    for bite in proof.bites:
        assert 0.0 < bite.ridge[1] <= bite.ridge[0] <= bite.ridge[2] <= 1.0
        assert bite.deepest_mm[1] < bite.deepest_mm[0] < bite.deepest_mm[2]


def test_nothing_to_lift_without_bases(finished: Make) -> None:
    toy = finished("mandible")
    bare = replace(toy.framework, design=replace(toy.framework.design, bases=()))
    assert prove_denture(bare, toy.arch, toy.survey, holds(toy, 5.0)) is None


def one_arm(finished: Finished, undercut: float) -> ArmProof:
    """An arm on a ball, proved by hand."""
    turn = np.linspace(0.0, 2.0, 41)
    depth = np.linspace(0.0, -np.sqrt(16 - (4 - undercut) ** 2), 41)
    flat = np.sqrt(16 - depth**2)
    line = np.stack([flat * np.cos(turn), flat * np.sin(turn), depth], axis=1)
    sizes = np.linspace(1.0, 0.5, 41)
    beam = beam_arm(line, line / 4.0, half_ovals(1.6 * sizes, 0.9 * sizes), stations=81)

    def ball(points: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        size = np.linalg.norm(points, axis=1, keepdims=True)
        return size[:, 0] - 4.0, points / size

    track = crown_track(beam, ball, np.array([0.0, 0.0, 1.0]))
    alloy = finished.facts.material
    grips = Grip(0.15, 0.008, alloy.modulus.nominal), Grip(0.15, 0.0, alloy.modulus.nominal)
    soft, rigid = ride(beam, track, Elastic(1.0, 0.3), grips)
    arm = finished.parts("retentive arm")[0]
    swing = Swing("friction", 0.1, 0.2, (1.0, 2.0), (100.0, 100.0))
    return ArmProof(
        arm, 8.0, 1.0, rigid, soft, soft, soft, rigid, (1.0, 2.0), (100.0, 200.0), (swing,), 2.0,
        14600.0, 0.0,
    )  # fmt: skip


def test_an_arm_is_judged_by_stress_force_and_side_load(finished: Make) -> None:
    toy = finished("mandible")
    alloy = material("cocr-lpbf-stress-relieved")
    mild = {f.rule: f.severity for f in arm_findings([one_arm(toy, 0.1)], alloy)}
    harsh = {f.rule: f.severity for f in arm_findings([one_arm(toy, 0.75)], alloy)}
    assert mild["proof.stress"] in ("note", "look")
    assert harsh["proof.stress"] == "stop"
    assert harsh["proof.side_load"] == "look" and mild["proof.side_load"] == "note"
    assert set(mild) == {"proof.withdrawal", "proof.stress", "proof.side_load", "proof.life"}
