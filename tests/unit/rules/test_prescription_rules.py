"""Each rule on the prescription: one case in which it fires and one in which it does not."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from claspwright.arch import classify
from claspwright.materials import material
from claspwright.rules import Facts, check_prescription

FACTS = Facts(
    "mandible",
    material("cocr-lpbf-stress-relieved"),
    classify("mandible", (36, 37, 45), not_replaced=()),
    functional_depth_mm=9.5,
)


def severities(**changes: Any) -> dict[str, str]:
    found = check_prescription(replace(FACTS, **changes))
    assert all(f.source and f.text.endswith(".") for f in found)
    return {f.rule: f.severity for f in found}


def test_a_plain_prescription_brings_only_notes() -> None:
    assert severities() == {"kennedy.class": "note", "bar.functional_depth": "note"}


def test_the_class_is_told_with_its_areas() -> None:
    (finding,) = [f for f in check_prescription(FACTS) if f.rule == "kennedy.class"]
    assert finding.measured == "Kennedy class II modification 1"
    assert "free end" in finding.text


@pytest.mark.parametrize(
    ("rule", "changes"),
    [
        ("scope.prosthesis", {"prosthesis": "obturator"}),
        ("scope.retention", {"retention": "implants"}),
        ("scope.retention", {"retention": "attachments"}),
        ("scope.base_material", {"base_material": "flexible"}),
        ("scope.connector", {"swinging_connector": True}),
    ],
)
def test_what_is_out_of_scope_is_refused(rule: str, changes: dict[str, Any]) -> None:
    assert severities(**changes)[rule] == "stop"


@pytest.mark.parametrize(
    ("allergy", "rule", "severity"),
    [
        ("nickel", "allergy.metal", "stop"),  # a trace of the alloy
        ("Cobalt", "allergy.metal", "stop"),
        ("chrome", "allergy.metal", "stop"),
        ("metals", "allergy.metal", "stop"),
        ("titanium", "allergy.metal", None),  # not in this alloy
        ("methacrylate monomer", "allergy.acrylate", "stop"),
        ("latex", "allergy.unknown", "look"),
    ],
)
def test_allergies(allergy: str, rule: str, severity: str | None) -> None:
    assert severities(allergies=(allergy,)).get(rule) == severity


def test_titanium_is_met_in_titanium() -> None:
    found = severities(allergies=("titanium",), material=material("ti64-eli-lpbf"))
    assert found["allergy.metal"] == "stop"


def test_only_the_prescribers_clearance_lifts_an_allergy() -> None:
    cleared = "Dr. Avery Quill, 2026-11-20: patch test negative"
    found = severities(allergies=("nickel", "acrylate"), allergies_cleared=cleared)
    assert found["allergy.metal"] == found["allergy.acrylate"] == "note"
    assert severities(allergies=("nickel",), allergies_cleared="  ")["allergy.metal"] == "stop"


@pytest.mark.reference("conflict list, lingual depth: below 7 plate, 7 to 8 warn, from 8 bar")
@pytest.mark.parametrize(
    ("depth", "severity"), [(None, "look"), (6.5, "look"), (7.5, "look"), (8.0, "note")]
)
def test_the_functional_depth_is_asked_for(depth: float | None, severity: str) -> None:
    assert severities(functional_depth_mm=depth)["bar.functional_depth"] == severity


def test_the_upper_jaw_needs_no_functional_depth() -> None:
    found = severities(jaw="maxilla", kennedy=classify("maxilla", (16,)), functional_depth_mm=None)
    assert "bar.functional_depth" not in found


@pytest.mark.parametrize(
    ("alloy", "rule"), [("ti64-eli-lpbf", "alloy.type"), ("cocr-cast", "alloy.process")]
)
def test_the_alloy_suits_part_and_process(alloy: str, rule: str) -> None:
    assert severities(material=material(alloy))[rule] == "look"
