"""Acrylic of the bases at the bench: amounts, curing, what is entered of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from claspwright.app.bench.cases import summary_of_results
from claspwright.app.bench.laboratory import Laboratory
from claspwright.app.bench.register_desk import opened
from claspwright.app.enter_runs import Packed, enter_acrylic
from claspwright.app.results import acrylic_of_run
from claspwright.base import Finding, InputError
from claspwright.process import (
    LONG_CYCLE,
    OBSERVED_LINEAR,
    SHORT_CYCLE,
    AcrylicAmount,
    CureStep,
    acrylic_amount,
    judge_cure,
    linear_shrinkage,
)
from claspwright.records import Signed

PackedOn = Literal["stone", "printed resin"]
CYCLES = {"long": LONG_CYCLE, "short": SHORT_CYCLE}


@dataclass(frozen=True, slots=True)
class AcrylicPlan:
    """What to weigh and how to cure it."""

    from_run_cm3: float | None  # acrylic of the bases as worked out; None: there is none
    bases: tuple[dict[str, Any], ...]  # as the run tells of them; Any: a row for JSON
    amount: AcrylicAmount | None  # None: no volume is known
    findings: tuple[Finding, ...]
    ideal_shrinkage_percent: float
    observed_percent: tuple[float, float]


def acrylic_plan(
    lab: Laboratory, name: str, steps: Sequence[CureStep], *, model: PackedOn,
    bench_cool_min: float, water_cool_min: float, base_cm3: float | None = None,
    excess_percent: float = 25.0,
) -> AcrylicPlan:  # fmt: skip
    """Amounts for the bases of a case, or for a given volume, and what is wrong with a cycle.

    Args:
        lab: the laboratory's folder.
        name: the case.
        steps: of the bath, each at a temperature for a time.
        model: what the base is packed on.
        bench_cool_min: cooling on the bench [min].
        water_cool_min: then in water [min].
        base_cm3: volume of the cured base; None: as the case was worked out.
        excess_percent: for the flash.
    """
    try:
        from_run: float | None = acrylic_of_run(lab.results_of(name))
    except InputError:
        from_run = None
    volume = from_run if base_cm3 is None else base_cm3
    excess = excess_percent / 100.0
    low, high = OBSERVED_LINEAR
    return AcrylicPlan(
        from_run,
        tuple(summary_of_results(lab, name).get("acrylic", ())),
        None if volume is None else acrylic_amount(1000.0 * volume, excess_share=excess),
        judge_cure(
            steps, model=model, bench_cool_min=bench_cool_min, water_cool_min=water_cool_min
        ),
        100.0 * linear_shrinkage(),
        (100.0 * low, 100.0 * high),
    )


def enter_packing(
    lab: Laboratory, name: str, packed: Packed, base_cm3: float | None, excess_percent: float,
    signed: Signed,
) -> int:  # fmt: skip
    """Enter which lots went into a case, with the amounts; returns the entry's number.

    Raises:
        InputError: no volume is known, or the register does not hold the case.
    """
    volume = acrylic_of_run(lab.results_of(name)) if base_cm3 is None else base_cm3
    amount = acrylic_amount(1000.0 * volume, excess_share=excess_percent / 100.0)
    with opened(lab) as register:
        if register.current("case", packed.case) is None:
            raise InputError("the register does not hold this case yet", place=packed.case,
                             remedy="Enter it first.")  # fmt: skip
        return enter_acrylic(register, packed, volume, amount, signed)
