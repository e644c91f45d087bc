from __future__ import annotations

import pytest

from claspwright.arch.kennedy import classify
from claspwright.base import InputError


def _short(*args: object, **kwargs: object) -> tuple[str, int]:
    found = classify(*args, **kwargs)  # type: ignore[arg-type]  # shorthand of this test
    return found.kennedy_class, found.modifications


def test_a_third_molar_that_is_no_abutment_bounds_nothing() -> None:
    assert _short("mandible", (36, 37)) == ("II", 0)
    assert _short("mandible", (36, 37), present_abutments=(38,)) == ("III", 0)


def test_a_third_molar_to_be_replaced_makes_a_free_end() -> None:
    assert _short("maxilla", (16, 18)) == ("III", 0)
    assert _short("maxilla", (16, 18), replaced=(16, 18)) == ("II", 1)


def test_second_molars_not_replaced_leave_class_four_alone() -> None:
    missing = (17, 11, 21, 27)
    assert _short("maxilla", missing, not_replaced=(17, 27)) == ("IV", 0)
    assert _short("maxilla", missing) == ("I", 1)


def test_other_teeth_not_replaced_still_count() -> None:
    assert _short("mandible", (36, 46), not_replaced=(46,)) == ("III", 1)
    assert _short("mandible", (36, 37, 38), not_replaced=(37, 38)) == ("II", 0)
    assert _short("mandible", (36,), not_replaced=(46,)) == ("III", 1)


def test_second_molar_not_replaced_before_a_standing_third_molar() -> None:
    options = {"not_replaced": (37,), "present_abutments": (38,)}
    assert _short("mandible", (36, 37), **options) == ("III", 0)


def test_teeth_on_one_side_only() -> None:
    left = tuple(range(31, 38))
    found = classify("mandible", left)
    assert (found.kennedy_class, found.modifications) == ("II", 0)
    assert found.areas[0].teeth == left and not found.areas[0].crosses_midline
    assert _short("mandible", (*left, 41, 44)) == ("II", 1)


def test_one_central_incisor_is_class_three() -> None:
    assert _short("maxilla", (11,)) == ("III", 0)


def test_the_areas_say_which_one_decides() -> None:
    found = classify("maxilla", (16, 11, 21, 25))
    assert found.kennedy_class == "III"
    assert [area.teeth for area in found.areas if area.decides] == [(16,)]
    assert found.not_considered == (18, 28)


@pytest.mark.parametrize(
    ("missing", "options", "words"),
    [
        ((36,), {"present_abutments": (36,)}, "missing and an abutment"),
        ((36, 37), {"not_replaced": (37,), "replaced": (37,)}, "replaced and not replaced"),
        ((36,), {"replaced": (46,)}, "not among the missing"),
        ((16,), {}, "maxilla"),
        ((39,), {}, "no tooth"),
        (tuple(range(31, 38)) + tuple(range(41, 48)), {}, "third molars that are no abutments"),
        ((37,), {"not_replaced": (37,)}, "nothing is to be replaced"),
    ],
)
def test_contradictions_are_named(
    missing: tuple[int, ...], options: dict[str, tuple[int, ...]], words: str
) -> None:
    with pytest.raises(InputError, match=words):
        classify("mandible", missing, **options)
