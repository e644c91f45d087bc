"""Blending, reuse, mass balance and certificates."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from claspwright.base import InputError
from claspwright.process import (
    Certificate,
    MassBalance,
    Powder,
    blended,
    judge_balance,
    judge_certificate,
    judge_powder,
    process_limits,
    virgin,
)

ALLOY = "cocr-lpbf-stress-relieved"
# Within UNS R30075 (check-values D10).
GOOD = {"Co": 63.0, "Cr": 28.5, "Mo": 6.0, "Mn": 0.5, "Si": 0.5, "Fe": 0.3, "Ni": 0.05, "C": 0.1,
        "N": 0.1, "W": 0.1, "Al": 0.02, "Ti": 0.02, "P": 0.01, "S": 0.005, "B": 0.001}  # fmt: skip
ITEMS = frozenset({"flow", "moisture"})


def certificate(**changed: float) -> Certificate:
    return Certificate("L-7", {**GOOD, **changed}, (16.0, 44.0), 4.4, ITEMS)


def test_half_used_and_half_virgin_powder() -> None:
    used = virgin("3.0").used_once_more()
    mixed = blended([used, virgin("1.0")])
    assert mixed.total_g == 4
    assert mixed.virgin_share == Fraction(1, 4)
    assert mixed.mean_reuse == Fraction(3, 4)
    again = mixed.taken("2.0").used_once_more()
    assert dict(again.mass_g) == {1: Fraction(1, 2), 2: Fraction(3, 2)}
    assert again.most_reused == 2


def test_a_tenth_of_a_gram_is_a_tenth() -> None:
    assert blended([virgin(0.1)] * 10).total_g == 1


@given(st.lists(st.tuples(st.integers(0, 9), st.integers(1, 9999)), min_size=1, max_size=8))
def test_blending_loses_nothing_and_keeps_the_mean(parts: list[tuple[int, int]]) -> None:
    heaps = [Powder({count: Fraction(mass, 10)}) for count, mass in parts]
    mixed = blended(heaps)
    assert mixed.total_g == sum(heap.total_g for heap in heaps)
    assert mixed.mean_reuse * mixed.total_g == sum(h.mean_reuse * h.total_g for h in heaps)
    assert blended([mixed.taken(mixed.total_g / 3)] * 3) == mixed


def test_more_cannot_be_taken_than_there_is() -> None:
    with pytest.raises(InputError, match="cannot be taken"):
        virgin(5).taken(6)
    with pytest.raises(InputError, match="not a mass"):
        virgin("much")


def test_what_is_not_accounted_for_is_lost() -> None:
    limits = process_limits()
    good = MassBalance.of(5000, "92.4", "13.9", "40", "4810")
    assert good.lost_g == Fraction("43.7")
    assert good.melted_g == Fraction("106.3")
    assert judge_balance(good, limits) == ()
    lossy = MassBalance.of(5000, 92, 14, 40, 4600)
    assert [f.severity for f in judge_balance(lossy, limits)] == ["look"]
    wrong = MassBalance.of(5000, 92, 14, 40, 4900)
    assert judge_balance(wrong, limits)[0].rule == "feedstock.balance"
    assert judge_balance(wrong, limits)[0].severity == "stop"


def test_old_powder_is_stopped() -> None:
    limits = process_limits()
    heap = virgin(1000)
    for _ in range(21):
        heap = heap.used_once_more()
    rules = {f.rule: f.severity for f in judge_powder(heap, limits, sieved=False)}
    assert rules == {
        "feedstock.reuse_count": "stop",
        "feedstock.virgin_share": "look",
        "feedstock.sieve": "stop",
    }
    assert judge_powder(virgin(1000), limits, sieved=False) == ()


def test_a_good_certificate_holds() -> None:
    assert judge_certificate(certificate(), ALLOY) == ()


@pytest.mark.parametrize(
    ("changed", "rule", "severity"),
    [
        ({"Cr": 26.9}, "certificate.chemistry", "stop"),
        ({"Mo": 7.1}, "certificate.chemistry", "stop"),
        ({"Ni": 0.3}, "certificate.declare", "look"),
        ({"Ni": 0.6}, "certificate.chemistry", "stop"),
        ({"Cd": 0.03}, "certificate.hazardous", "stop"),
        ({"Be": 0.021}, "certificate.hazardous", "stop"),
    ],
)
@pytest.mark.reference("check-values D02, D10: UNS R30075, ISO 22674 hazardous elements")
def test_chemistry_out_of_range(changed: dict[str, float], rule: str, severity: str) -> None:
    found = judge_certificate(certificate(**changed), ALLOY)
    assert (rule, severity) in [(f.rule, f.severity) for f in found]


def test_size_density_and_missing_items() -> None:
    poor = Certificate("L-8", {k: v for k, v in GOOD.items() if k != "Mo"}, (5.0, 70.0), 3.5)
    rules = [f.rule for f in judge_certificate(poor, ALLOY)]
    assert rules.count("certificate.size") == 2
    assert {"certificate.density", "certificate.items", "certificate.missing"} <= set(rules)
    with pytest.raises(InputError, match="no feedstock specification"):
        judge_certificate(poor, "ti-grade4")
