"""What is said of pieces that do not hang together with the framework."""

from __future__ import annotations

import numpy as np
import pytest

from claspwright.framework.loose import loose_findings
from claspwright.framework.model import Component, ComponentKind
from claspwright.geometry import Mesh, box

SIZE = np.array([1.0])


def part(name: str, kind: ComponentKind, x: float, tooth: int | None) -> Component:
    line = np.column_stack([x + np.linspace(0, 3, 20), np.zeros((20, 2))])
    return Component(name, kind, line, SIZE, SIZE, tooth)


PARTS = [
    part("clasp.26.buccal", "retentive arm", 0.0, 26),
    part("reciprocal.26.lingual", "reciprocal arm", 10.0, 26),
    part("base.15-16.lattice", "lattice", 20.0, None),
]


def piece(x: float, half: float = 0.5) -> Mesh:
    return box(np.array([x, -half, -half]), np.array([x + 3.0, half, half]))


@pytest.mark.parametrize(
    ("x", "rule", "words"),
    [
        (0.0, "clasp.cut_off", "The clasp of 26 is gone"),
        (10.0, "clasp.cut_off", "reciprocal arm on the lingual side of 26"),
        (20.0, "framework.loose_piece", "about base.15-16.lattice"),
    ],
)
def test_a_lost_piece_is_a_stop_that_names_it(x: float, rule: str, words: str) -> None:
    (finding,) = loose_findings([piece(x)], PARTS)
    assert (finding.rule, finding.severity) == (rule, "stop")
    assert words in finding.text
    assert finding.measured == pytest.approx(3.0)
    assert finding.at_mm == pytest.approx((x + 1.5, 0.0, 0.0))


def test_a_crumb_is_dropped_without_a_word() -> None:
    assert loose_findings([piece(0.0, half=0.1)], PARTS) == []
