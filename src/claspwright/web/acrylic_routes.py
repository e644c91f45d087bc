"""Acrylic of the bases: amounts, curing, lots."""

from __future__ import annotations

from dataclasses import asdict

from fastapi import APIRouter

from claspwright.app.bench.acrylic_desk import CYCLES, acrylic_plan, enter_packing
from claspwright.app.enter_runs import Packed
from claspwright.process import CureStep
from claspwright.records import Signed
from claspwright.web.bench import CaseName, TheBench
from claspwright.web.clinic_models import (
    AcrylicAnswer,
    AcrylicForms,
    AcrylicWish,
    BathStep,
    PackingWish,
)
from claspwright.web.register_routes import now
from claspwright.web.stage_models import Entered

routes = APIRouter(prefix="/api/cases/{name}/acrylic", tags=["acrylic"])


@routes.get("")
def list_cycles(name: CaseName, bench: TheBench) -> AcrylicForms:
    """Curing cycles at hand, from the references; the maker's instructions come first."""
    bench.lab.folder_of(name)
    return AcrylicForms(
        cycles={
            key: [BathStep.model_validate(asdict(step)) for step in steps]
            for key, steps in CYCLES.items()
        }
    )


@routes.post("/plan")
def plan_acrylic(name: CaseName, body: AcrylicWish, bench: TheBench) -> AcrylicAnswer:
    """Powder and liquid for the bases, and what is wrong with a cycle; nothing is entered."""
    bench.lab.folder_of(name)
    steps = [CureStep(one.bath_c, one.minutes, one.rise_min) for one in body.steps]
    plan = acrylic_plan(
        bench.lab, name, steps, model=body.model, bench_cool_min=body.bench_cool_min,
        water_cool_min=body.water_cool_min, base_cm3=body.base_cm3,
        excess_percent=body.excess_percent,
    )  # fmt: skip
    return AcrylicAnswer.model_validate(
        {**asdict(plan), "observed_percent": list(plan.observed_percent)}
    )


@routes.post("", status_code=201)
def enter_acrylic(name: CaseName, body: PackingWish, bench: TheBench) -> Entered:
    """Enter which lots went into a case, with the amounts."""
    case_id = bench.lab.sheet_of(name).prescription.case_id
    packed = Packed(case_id, body.powder_lot, body.liquid_lot, body.cycle, body.tooth_lot)
    who = Signed(bench.author(body.by), now())
    number = enter_packing(bench.lab, name, packed, body.base_cm3, body.excess_percent, who)
    return Entered(number=number)
