"""Teeth that will probably be lost, and where they can be added."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from claspwright.arch import Span
from claspwright.framework import MajorConnector, Retainer, Wishes, default_connector
from claspwright.framework.connector_choice import proposed_connector
from claspwright.framework.ground import Ground
from claspwright.framework.spare import spare_findings

BAR, PLATE = default_connector("lingual bar"), default_connector("lingual plate")


@pytest.mark.parametrize(
    ("doubtful", "form"), [((), "lingual bar"), ((31,), "lingual plate"), ((46,), "lingual bar")]
)
def test_a_lower_front_tooth_that_may_go_asks_for_a_plate(
    doubtful: tuple[int, ...], form: str
) -> None:
    connector, why = proposed_connector("mandible", (), Wishes(doubtful=doubtful))
    assert connector.form == form
    assert why is not None and ("31" in why.text) == (form == "lingual plate")
    asked, _ = proposed_connector("mandible", (), Wishes(doubtful=doubtful, connector=BAR))
    assert asked == BAR


@pytest.mark.parametrize(
    ("code", "retainers", "connector", "severity", "words"),
    [
        (46, (Retainer(46, ("mesial occlusal",)),), BAR, "look", "carries its mesial occlusal"),
        (46, (), BAR, "look", "no metal lies beside it"),
        (46, (), PLATE, "look", "no metal lies beside it"),
        (31, (), PLATE, "note", "to the plate behind it"),
        (31, (), BAR, "look", "no metal lies beside it"),
    ],
)
def test_it_is_said_what_a_doubtful_tooth_carries(
    sphere: Ground,
    code: int,
    retainers: tuple[Retainer, ...],
    connector: MajorConnector,
    severity: str,
    words: str,
) -> None:
    arch = sphere.arch
    arch = replace(arch, teeth={code: replace(arch.teeth[46], code=code)})
    (finding,) = spare_findings(arch, retainers, connector, (code,))
    assert finding.severity == severity and words in finding.text


def test_a_tooth_beside_a_base_can_be_added_to_it(sphere: Ground) -> None:
    line = np.zeros((3, 3))
    span = Span((47,), (None, 46), line, line, np.zeros(3), np.zeros(3))
    (finding,) = spare_findings(replace(sphere.arch, spans=(span,)), (), BAR, (46,))
    assert finding.severity == "note" and "base beside it" in finding.text
    assert spare_findings(sphere.arch, (), BAR, (45,)) == []  # it does not stand
