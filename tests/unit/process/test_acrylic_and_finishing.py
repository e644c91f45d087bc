"""Amounts, curing, shrinkage, the bend test; allowances for finishing."""

from __future__ import annotations

import pytest

from claspwright.base import InputError
from claspwright.process import (
    LONG_CYCLE,
    SHORT_CYCLE,
    CureStep,
    acrylic_amount,
    allowance_um,
    finishing_sheet,
    flexural_modulus,
    flexural_strength,
    judge_cure,
    linear_shrinkage,
)

GOOD = {"model": "stone", "bench_cool_min": 30.0, "water_cool_min": 15.0}


@pytest.mark.reference("check-values H09 (2.5:1 by mass), H16 (densities 1.19 and 0.945 g/cm3)")
def test_powder_and_liquid_keep_their_ratio_and_the_mass() -> None:
    found = acrylic_amount(10_000.0, excess_share=0.0)
    liquid_g = found.liquid_ml * 0.945
    assert found.powder_g / liquid_g == pytest.approx(2.5)
    assert found.powder_g + liquid_g == pytest.approx(11.9)
    assert found.powder_cm3 / found.liquid_ml == pytest.approx(3.0)
    with pytest.raises(InputError):
        acrylic_amount(0.0)


@pytest.mark.reference("check-values H17: 1 - 0.93^(1/3) = 2.39 %; H16: 20.6 % of pure monomer")
def test_shrinkage() -> None:
    from claspwright.process.acrylic import PURE_SHRINKAGE

    assert 100.0 * linear_shrinkage(0.07) == pytest.approx(2.39, abs=0.005)
    assert pytest.approx(20.6, abs=0.05) == 100.0 * PURE_SHRINKAGE


@pytest.mark.reference("check-values W12: denture-base bend test, 10 x 3.3 mm, span 50 mm")
def test_bend_test_of_the_worked_example() -> None:
    assert flexural_strength(94.38, 50.0, 10.0, 3.3) == pytest.approx(65.0, abs=0.01)
    assert flexural_strength(87.0, 50.0, 10.0, 3.3) == pytest.approx(59.9, abs=0.05)
    assert flexural_modulus(23.0, 50.0, 10.0, 3.3) == pytest.approx(2000.0, rel=0.001)


@pytest.mark.reference("check-values H12, H13: long and short cycle")
@pytest.mark.parametrize("cycle", [LONG_CYCLE, SHORT_CYCLE])
def test_both_cycles_hold(cycle: tuple[CureStep, ...]) -> None:
    assert judge_cure(cycle, model="stone", bench_cool_min=30.0, water_cool_min=15.0) == ()


def test_what_spoils_a_cure() -> None:
    def rules(*steps: CureStep, **changed: object) -> dict[str, str]:
        found = judge_cure(steps, **{**GOOD, **changed})  # type: ignore[arg-type]  # one at a time
        return {f.rule: f.severity for f in found}

    assert rules(CureStep(100.0, 30.0))["acrylic.plunge"] == "stop"
    assert rules(*LONG_CYCLE, model="printed resin") == {"acrylic.model": "stop"}
    assert rules(*LONG_CYCLE, bench_cool_min=0.0) == {"acrylic.quench": "look"}
    assert rules(*LONG_CYCLE, water_cool_min=0.0) == {"acrylic.opened_warm": "look"}
    assert rules(CureStep(74.0, 60.0)) == {"acrylic.cycle": "look"}
    assert rules(CureStep(74.0, 90.0), CureStep(105.0, 60.0))["acrylic.too_hot"] == "stop"
    with pytest.raises(InputError):
        judge_cure((), model="stone", bench_cool_min=30.0, water_cool_min=15.0)


def test_the_bath_spares_what_is_masked() -> None:
    steps = ("blasting", "electropolishing")
    bare, covered = allowance_um("tissue", steps), allowance_um("tissue", steps, masked=["tissue"])
    assert bare > covered > 0
    assert finishing_sheet(steps).findings[0].rule == "finishing.bath"
    assert finishing_sheet(steps, masked=["tissue", "rest", "arm"]).findings == ()
    with pytest.raises(InputError, match="no finishing step"):
        allowance_um("tissue", ["sanding"])
