"""The bite on invented arches: contacts, stops and room, and what is said when they fail."""

from __future__ import annotations

import sys
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).parent))
from claspwright.arch import (
    DentalArch,
    MasterScan,
    bite_findings,
    find_rest_seat,
    find_teeth,
    read_bite,
)
from claspwright.arch.occlusion import gap_above
from claspwright.demo import build_arch, options_for, scenario
from claspwright.geometry import IDENTITY, Rigid

UP = np.array([0.0, 0.0, 1.0])


@cache
def arch(name: str) -> DentalArch:
    made = build_arch(options_for(scenario(name), edge_mm=0.5))
    scan = MasterScan(made.jaw, made.master, made.master, IDENTITY, 0.5)
    found = find_teeth(scan, made.truth.marks, scenario(name).missing)
    return replace(found, opposing=made.opposing)


def lifted(case: DentalArch, by_mm: float) -> DentalArch:
    assert case.opposing is not None
    return replace(case, opposing=case.opposing.moved(Rigid(np.eye(3), by_mm * UP)))


def rules(case: DentalArch) -> dict[str, str]:
    return {f.rule: f.severity for f in bite_findings(case, read_bite(case, UP))}


def test_an_arch_with_molars_on_both_sides_holds_its_record() -> None:
    case = arch("maxilla_class_3_mod_1")
    bite = read_bite(case, UP)
    assert bite is not None
    assert bite.holds
    assert rules(case)["bite.stops"] == "note"
    assert "bite.too_deep" not in rules(case)
    for points in bite.contacts.values():
        assert np.isfinite(points).all()


def test_open_teeth_are_provisional_and_bitten_through_ones_told() -> None:
    case = arch("maxilla_class_3_mod_1")
    assert rules(lifted(case, 0.8))["bite.provisional"] == "look"
    assert rules(lifted(case, -0.8))["bite.too_deep"] == "look"
    assert {f.rule for f in bite_findings(case, None)} == {"bite.wanted"}


def test_room_follows_the_opposing_arch_millimetre_by_millimetre() -> None:
    case = arch("mandible_class_1")
    near, far = read_bite(case, UP), read_bite(lifted(case, 1.0), UP)
    assert near is not None
    assert far is not None
    known = np.isfinite(near.closing_mm) & np.isfinite(far.closing_mm) & (near.closing_mm > -1.0)
    step = far.closing_mm[known] - near.closing_mm[known]
    assert np.median(step) == pytest.approx(1.0, abs=1e-3)
    for a, b in zip(near.span_room_mm, far.span_room_mm, strict=True):
        assert b - a == pytest.approx(1.0, abs=0.3)
    assert "bite.base_room" in rules(lifted(case, 4.0 - min(near.span_room_mm)))


def test_a_rest_without_room_is_told() -> None:
    case = arch("maxilla_class_3_mod_1")
    seat = find_rest_seat(case, 14, "distal")
    bite = read_bite(case, UP)
    assert case.opposing is not None
    room = float(gap_above(case.opposing, seat.point[None])[0])
    close = lifted(case, 1.0 - room)
    told = [f for f in bite_findings(close, bite, [seat]) if f.rule == "bite.rest_room"]
    assert told
    assert told[0].measured == pytest.approx(1.0, abs=0.02)
    wide = lifted(case, 1.6 - room)
    assert not [f for f in bite_findings(wide, bite, [seat]) if f.rule == "bite.rest_room"]


def test_along_a_tilted_path_the_room_is_longer_or_none() -> None:
    case = arch("mandible_class_1")
    tilted = np.array([0.0, np.sin(np.radians(10)), np.cos(np.radians(10))])
    bite = read_bite(case, tilted)
    assert bite is not None
    known = np.isfinite(bite.closing_mm) & np.isfinite(bite.path_mm)
    assert np.abs(bite.closing_mm[known] - bite.path_mm[known]).max() > 0.05
    level = read_bite(case, UP)
    assert level is not None
    assert np.allclose(level.closing_mm[known], level.path_mm[known], atol=1e-6)
