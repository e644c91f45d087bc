from __future__ import annotations

import pytest

from claspwright.arch.kennedy import classify
from claspwright.arch.model import Jaw
from claspwright.base import InputError

L: Jaw = "mandible"
U: Jaw = "maxilla"
LOWER = (47, 46, 45, 44, 43, 42, 41, 31, 32, 33, 34, 35, 36, 37)
UPPER = (17, 16, 15, 14, 13, 12, 11, 21, 22, 23, 24, 25, 26, 27)

CASES: list[tuple[str, Jaw, tuple[int, ...], dict[str, tuple[int, ...]], str, int]] = [
    ("K1", L, (35, 36, 37, 38, 45, 46, 47, 48), {}, "I", 0),
    ("K2", L, (36, 37, 38, 48), {}, "II", 0),
    ("K3", U, (15, 16, 18, 28), {}, "III", 0),
    ("K4", U, (11, 21), {}, "IV", 0),
    ("K5", U, (12, 11, 21, 22), {}, "IV", 0),
    ("K6", L, (36, 37, 46, 47, 41, 31), {}, "I", 1),
    ("K7", L, (36, 37, 45), {}, "II", 1),
    ("K9", U, (16, 26), {}, "III", 1),
    ("K10", U, (16, 26, 11, 21), {}, "III", 2),
    ("K12", U, (14, 15, 16, 17, 24, 25, 26, 27, 12), {}, "I", 1),
    ("K13", L, (35, 36, 37), {"present_abutments": (38,)}, "III", 0),
    ("K15", L, (37, 46), {"not_replaced": (37,)}, "III", 0),
    ("K16", U, (13, 12, 11, 21, 22, 23), {}, "IV", 0),
    ("K20", L, tuple(c for c in LOWER if c not in (33, 43)), {}, "I", 1),
    ("K21", U, tuple(c for c in UPPER if c != 13), {}, "I", 0),
    ("K23", L, (35, 46, 47), {}, "II", 1),
]


@pytest.mark.reference("Kennedy 1925 with Applegate's rules, worked cases of check-values A")
@pytest.mark.parametrize(
    ("jaw", "missing", "options", "name", "count"),
    [c[1:] for c in CASES],
    ids=[c[0] for c in CASES],
)
def test_worked_case(
    jaw: Jaw, missing: tuple[int, ...], options: dict[str, tuple[int, ...]], name: str, count: int
) -> None:
    found = classify(jaw, missing, **options)
    assert (found.kennedy_class, found.modifications) == (name, count)


@pytest.mark.reference("check-values A, K25: all fourteen missing")
def test_an_edentulous_jaw_is_not_classifiable() -> None:
    with pytest.raises(InputError, match="edentulous"):
        classify(L, LOWER)


@pytest.mark.reference("check-values A, K26: none, or only third molars")
@pytest.mark.parametrize("missing", [(), (18, 28)])
def test_nothing_to_replace_is_not_classifiable(missing: tuple[int, ...]) -> None:
    with pytest.raises(InputError, match="nothing is to be replaced"):
        classify(U, missing)
