"""Every rule of a build fires where it must and is silent where it must not."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from claspwright.app.build_platform import _gaps
from claspwright.base import Finding
from claspwright.build import (
    BUILD_RULES,
    Blank,
    PlatformCheck,
    SupportPlan,
    ready_part,
    support,
)
from claspwright.build import part as part_module
from claspwright.build import supports as supports_module
from claspwright.formats import read_machine, read_process
from claspwright.geometry import Mesh, box, union

PLAN = SupportPlan()
MACHINE, PROCESS = read_machine("round-100"), read_process("cocr-25um")
SLAB = box(np.array([0.0, 0.0, 4.0]), np.array([6.0, 4.0, 5.5]))


def rules(findings: tuple[Finding, ...]) -> set[str]:
    known = {rule.id: rule for rule in BUILD_RULES}
    assert all(known[f.rule].severity == f.severity for f in findings)
    assert all(known[f.rule].source == f.source for f in findings)
    return {f.rule for f in findings}


def held(mesh: Mesh, **how: Any) -> set[str]:
    shut = how.pop("protected", np.zeros(len(mesh.faces), bool))
    return rules(support(mesh, shut, PLAN, 0.1, **how).findings)


def test_a_slab_on_pins_is_fine() -> None:
    assert held(SLAB) == set()


def test_an_island_that_nothing_carries(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(supports_module, "ROUNDS", 1)
    aside = box(np.array([20.0, 0.0, 0.0]), np.array([21.0, 1.0, 1.0]))
    assert held(SLAB, standing=aside) == {"build.island"}


def test_contacts_on_faces_that_must_fit() -> None:
    assert held(SLAB, protected=np.ones(len(SLAB.faces), bool)) == {"build.protected-contact"}


def test_supports_that_stand_on_the_part() -> None:
    base = box(np.array([-9.0, -9.0, 4.0]), np.array([15.0, 13.0, 5.0]))
    post = box(np.array([-9.0, -9.0, 4.0]), np.array([-7.0, 13.0, 12.0]))
    roof = box(np.array([-9.0, -9.0, 11.0]), np.array([4.0, 4.0, 12.0]))
    assert held(union(base, post, roof)) == {"build.support-on-part"}


def test_a_part_without_room_for_its_tag(monkeypatch: pytest.MonkeyPatch) -> None:
    small = Blank("b-1", box(np.zeros(3), np.array([6.0, 4.0, 1.5])), np.zeros(12, bool))
    assert "build.no-label" not in rules(ready_part(small, MACHINE, PROCESS).findings)
    monkeypatch.setattr(part_module, "labelled", lambda part, supports, *_: supports)
    assert "build.no-label" in rules(ready_part(small, MACHINE, PROCESS).findings)


def test_parts_too_near_to_each_other() -> None:
    fine = PlatformCheck(2.0, 10.0, 5.0)
    one: Any = SimpleNamespace(check=fine)
    assert _gaps(one, MACHINE, PROCESS) == []
    one.check = replace(fine, least_distance_mm=0.2)
    assert rules(tuple(_gaps(one, MACHINE, PROCESS))) == {"build.spacing"}
