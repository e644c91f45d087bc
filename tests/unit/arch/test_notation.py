from __future__ import annotations

import pytest

from claspwright.arch import notation as n
from claspwright.base import InputError


@pytest.mark.parametrize(("text", "code"), [("16", 16), ("1.6", 16), (" 48 ", 48), (31, 31)])
def test_a_code_is_read_with_or_without_its_dot(text: str | int, code: int) -> None:
    assert n.parse_tooth(text) == code


@pytest.mark.parametrize("text", ["1.66", "3", "", "19", "08", "90", "49", "56", "x6", "-16", "١٦"])
def test_what_is_no_tooth_is_refused(text: str) -> None:
    with pytest.raises(InputError, match="is no tooth"):
        n.parse_tooth(text)


@pytest.mark.parametrize("code", sorted(n.DECIDUOUS))
def test_a_deciduous_tooth_is_named_as_such(code: int) -> None:
    with pytest.raises(InputError, match="deciduous"):
        n.parse_tooth(code)


def test_universal_goes_there_and_back() -> None:
    assert sorted(n.from_universal(k) for k in range(1, 33)) == sorted(n.PERMANENT)
    assert all(n.to_universal(n.from_universal(k)) == k for k in range(1, 33))
    assert n.parse_tooth("3", "universal") == 16
    for wrong in ("0", "33"):
        with pytest.raises(InputError, match="Universal"):
            n.parse_tooth(wrong, "universal")


def test_arch_order_runs_from_the_patients_right() -> None:
    assert n.in_arch_order([27, 11, 18], "maxilla") == (18, 11, 27)
    assert n.present_teeth("mandible", [*range(41, 49), 38]) == (31, 32, 33, 34, 35, 36, 37)
    assert n.neighbours(48) == (None, 47)
    assert n.neighbours(41) == (42, 31)
    with pytest.raises(InputError, match="maxilla"):
        n.present_teeth("mandible", [16])


def test_sides_kinds_and_mirror() -> None:
    assert [n.side_of(c) for c in (16, 26, 36, 46)] == ["right", "left", "left", "right"]
    assert [n.kind_of(c) for c in (12, 33, 45, 48)] == ["incisor", "canine", "premolar", "molar"]
    assert all(
        n.mirrored(n.mirrored(c)) == c and n.jaw_of(n.mirrored(c)) == n.jaw_of(c)
        for c in n.PERMANENT
    )
